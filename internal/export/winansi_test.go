package export

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// A few codes from ISO 32000-1, annex D.2, WinAnsiEncoding column (octal there).
func TestWinAnsiCodes(t *testing.T) {
	for r, want := range map[rune]byte{'A': 0o101, '~': 0o176, '€': 0o200, 'ƒ': 0o203, '‰': 0o211, 'Š': 0o212, 'Ž': 0o216,
		'‘': 0o221, '•': 0o225, '–': 0o226, '™': 0o231, 'œ': 0o234, 'ž': 0o236, 'Ÿ': 0o237, '½': 0o275, 'ÿ': 0o377, '×': 0o327} {
		got, ok := winAnsi(r)
		assert.True(t, ok, "%c", r)
		assert.Equal(t, want, got, "%c", r)
	}
	for _, r := range []rune{0, '\n', 0x7f, 0x81, 0x9f, 'Ω', '≥', '竹', '\u0100', 0x10FFFF} {
		_, ok := winAnsi(r)
		assert.False(t, ok, "%U", r)
	}
}

func TestWinAnsiTextReportsOnce(t *testing.T) {
	got, lacking := winAnsiText("a竹b竹Ω", func(rune) string { return "?" })
	assert.Equal(t, "a?b??", string(got))
	assert.Equal(t, []rune{'竹', 'Ω'}, lacking)
}
