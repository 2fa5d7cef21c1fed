package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// site makes a repository whose site has these files.
func site(t *testing.T, files map[string]string) (root string) {
	t.Helper()
	root = t.TempDir()
	require.NoError(t, os.MkdirAll(filepath.Join(root, "site"), 0o755))
	for name, text := range files {
		require.NoError(t, os.WriteFile(filepath.Join(root, "site", name), []byte(text), 0o644))
	}
	return root
}

func TestBundlePutsTheMadeModulesIn(t *testing.T) {
	root := site(t, map[string]string{"early.ts": `import text from 'springrib:worker'; document.title = text;`})
	out, err := bundleEarly(root, "the worker's own source")
	require.NoError(t, err)
	assert.Contains(t, out, "the worker's own source")
	assert.NotContains(t, out, "import")
}

func TestBundleSplitsWhatWouldEndTheScript(t *testing.T) {
	root := site(t, map[string]string{"main.ts": `document.title = "</script><!-- no end -->";`})
	out, err := bundlePage(root)
	require.NoError(t, err)
	assert.NotContains(t, out, "</script")
}

func TestBundleTakesWarningsForErrors(t *testing.T) {
	for name, text := range map[string]string{
		"warning": `if (document.title === -0) document.title = "";`,
		"syntax":  `let = ;`,
		"missing": `import './nowhere'; import 'springrib:nothing';`,
	} {
		_, err := bundlePage(site(t, map[string]string{"main.ts": text}))
		assert.ErrorContains(t, err, "main.ts", name)
	}
}

func TestStyleIsBundledToOneSheet(t *testing.T) {
	root := site(t, map[string]string{"page.css": `@import "./ink.css"; p { margin: 0 }`, "ink.css": `:root { color: red }`})
	out, err := bundleStyle(root)
	require.NoError(t, err)
	assert.Equal(t, ":root{color:red}p{margin:0}", strings.TrimSpace(out))
}

func TestFindTests(t *testing.T) {
	root := site(t, map[string]string{"a.test.ts": "", "b.test.ts": "", "b.ts": ""})
	packages := filepath.Join(root, "site", "node_modules", "x")
	require.NoError(t, os.MkdirAll(packages, 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(packages, "c.test.ts"), nil, 0o644))
	all, err := findTests(filepath.Join(root, "site"), nil)
	require.NoError(t, err)
	assert.Equal(t, []string{"a.test.ts", "b.test.ts"}, all)
	some, err := findTests(filepath.Join(root, "site"), []string{"b"})
	require.NoError(t, err)
	assert.Equal(t, []string{"b.test.ts"}, some)
}
