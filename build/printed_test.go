package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/export"
)

// The typeface among the sources is what the package gives, has each letter that the PDFs are
// said to have, and lies beside its licence.
func TestTheTypefaceOfThePDFs(t *testing.T) {
	root, err := findRoot()
	require.NoError(t, err)
	made, err := printedFaces(root)
	require.NoError(t, err)
	kept, err := readPrinted()
	require.NoError(t, err)
	require.True(t, string(made) == string(kept), "%s is not of this package; run: go run ./build faces", printedName)
	faces, err := export.ReadFaces(kept)
	require.NoError(t, err)
	have := map[rune]bool{}
	bold := map[rune]bool{}
	for _, c := range faces.Cuts {
		for _, r := range c.Runes {
			have[r] = true
			bold[r] = bold[r] || c.Bold
		}
	}
	for _, r := range append([]rune(letters), export.Further()...) {
		if r != '‐' && r != '″' && r != '′' && r != '−' && r != '\u00ad' {
			assert.True(t, have[r], "%q", r)
		}
	}
	for _, r := range letters[:95] {
		assert.True(t, bold[r], "%q in bold", r)
	}
	licence, err := typefaceLicence(root)
	require.NoError(t, err)
	beside, err := os.ReadFile(filepath.Join(root, filepath.Dir(printedName), licenceName))
	require.NoError(t, err)
	assert.Equal(t, licence, string(beside))
}
