package export

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// maxName is how many characters of a typed name reach a file. Names are labels;
// some readers keep fixed buffers for them.
const maxName = 200

// cleanName makes a typed name one line of valid, visible text: what is not UTF-8
// becomes U+FFFD; line breaks, tabs and runs of spaces one space; control
// characters, and the marks that reorder the text after them, vanish.
// Letters of every script stay.
func cleanName(s string) string {
	var b strings.Builder
	space, n := false, 0
	for _, r := range s {
		switch {
		case unicode.IsSpace(r):
			space = b.Len() > 0
			continue
		case invisible(r):
			continue
		}
		if n++; n > maxName {
			b.WriteRune('…')
			break
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

// asciiOnly reports whether s holds printable ASCII only.
func asciiOnly(s string) bool {
	for i := 0; i < len(s); i++ {
		if s[i] < ' ' || s[i] >= utf8.RuneSelf || s[i] == 0x7f {
			return false
		}
	}
	return true
}
