package trial_test

import (
	"archive/zip"
	"bytes"
	"io"
	"runtime"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/trial"
	"springrib/internal/view"
)

// Each file saved alone is, byte for byte, the entry of its name in the file that holds
// everything, whatever script the design's name is written in.
func TestAFileAloneIsTheOneInTheZip(t *testing.T) {
	wanted := 14
	if testing.Short() || runtime.GOARCH == "wasm" {
		wanted = 2
	}
	checked := 0
	for s := uint64(1); checked < wanted && s < 200; s++ {
		doc := trial.Design(s)
		doc.Name = []string{"Außenleuchte Größe 3", "Λάμπα του λιμανιού", "Лампа у причала", "מנורת הנמל", "港の明かり", "घाट का दीपक"}[checked%6]
		j := judged(doc)
		archive := ""
		for _, f := range j.view.Files {
			if strings.HasSuffix(f.Name, ".zip") {
				archive = f.Name
			}
		}
		if archive == "" {
			continue
		}
		checked++
		data := j.file(archive)
		r, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
		require.NoError(t, err)
		alone := judge{core: view.New(), raw: j.raw} // which plans the design again
		entries := map[string][]byte{}
		for _, e := range r.File {
			in, err := e.Open()
			require.NoError(t, err)
			assert.NotContains(t, entries, e.Name)
			entries[e.Name], err = io.ReadAll(in)
			require.NoError(t, err)
		}
		for _, f := range j.view.Files {
			if f.Name == archive {
				continue
			}
			require.Contains(t, entries, f.Name, "%s of seed %d", doc.Name, s)
			assert.True(t, bytes.Equal(entries[f.Name], alone.file(f.Name)), "%s of %q, seed %d: alone it is another file", f.Name, doc.Name, s)
		}
	}
	assert.Equal(t, wanted, checked)
}
