package main

import (
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestListenTakesAnotherPortWhenTaken(t *testing.T) {
	first, err := listen("127.0.0.1:0")
	require.NoError(t, err)
	defer first.Close()
	second, err := listen(first.Addr().String())
	require.NoError(t, err)
	defer second.Close()
	assert.NotEqual(t, first.Addr().String(), second.Addr().String())
}

func TestListenStaysOnThisMachine(t *testing.T) {
	for _, addr := range []string{"0.0.0.0:0", ":0", "192.0.2.1:0", "example.org:80", "127.0.0.1", ""} {
		_, err := listen(addr)
		assert.Error(t, err, addr)
	}
}

func TestHandlerSendsTheHeadersOfACarefulServer(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{"index.html", "core-0123456789abcdef.wasm.gz", singleName} {
		require.NoError(t, os.WriteFile(filepath.Join(dir, name), []byte("x"), 0o644))
	}
	for path, want := range map[string]struct{ cache, policy string }{
		"/":                              {"no-cache", servedPolicy},
		"/core-0123456789abcdef.wasm.gz": {"public, max-age=31536000, immutable", ""},
		"/" + singleName:                 {"no-cache", ""}, // its own policy is stricter and names hashes
	} {
		w := httptest.NewRecorder()
		handler(dir).ServeHTTP(w, httptest.NewRequest(http.MethodGet, path, nil))
		assert.Equal(t, http.StatusOK, w.Code, path)
		assert.Equal(t, want.cache, w.Header().Get("Cache-Control"), path)
		assert.Equal(t, want.policy, w.Header().Get("Content-Security-Policy"), path)
		assert.Equal(t, "nosniff", w.Header().Get("X-Content-Type-Options"), path)
		assert.Empty(t, w.Header().Get("Content-Encoding"), path)
	}
}
