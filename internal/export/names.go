package export

import (
	"strings"
	"unicode"
)

// maxName is how many characters of a typed name reach a file. Names are labels;
// some readers keep fixed buffers for them.
const maxName = 200

// cleanName is cleanLine cut at maxName characters.
func cleanName(s string) string {
	s = cleanLine(s)
	n := 0
	for i := range s {
		if n++; n > maxName {
			return s[:i] + "…"
		}
	}
	return s
}

// cleanLine makes a typed text one line of valid, visible text: what is not UTF-8
// becomes U+FFFD; line breaks, tabs and runs of spaces one space; control
// characters, and the marks that reorder the text after them, vanish.
// Letters of every script stay.
func cleanLine(s string) string {
	var b strings.Builder
	space := false
	for _, r := range s {
		switch {
		case unicode.IsSpace(r):
			space = b.Len() > 0
			continue
		case invisible(r):
			continue
		}
		if space {
			b.WriteByte(' ')
			space = false
		}
		b.WriteRune(r)
	}
	return b.String()
}

// invisible reports characters that no file should carry in a name: controls,
// format marks (bidirectional overrides among them), private and unassigned
// surrogates, and the two code points XML forbids. The joiners that Persian and
// Indic scripts are spelt with stay.
func invisible(r rune) bool {
	if r == 0x200C || r == 0x200D {
		return false
	}
	return unicode.In(r, unicode.Cc, unicode.Cf, unicode.Co, unicode.Cs) || r == 0xFFFE || r == 0xFFFF
}

// xmlText cleans a name and escapes it for element text and attribute values.
func xmlText(s string) string {
	return xmlEscaper().Replace(cleanName(s))
}

func xmlEscaper() *strings.Replacer {
	return strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;", `"`, "&quot;", "'", "&#39;")
}
