package export

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Name is what the name of a file is made of.
type Name struct {
	Mark             string // what is wrong with it, "not sound: the skin may crack"; empty for nothing
	Design, Revision string // as the person typed them
	Sheet, Sheets    int    // 0 for a file that is about no single sheet
	What             string // what sets it apart from others of the same kind, "template A4"
	Ext              string // "svg"
}

// FileName returns a name that any system takes for a file, with nothing of a path
// in it: "Reading-lamp-rev-2-sheet-1-of-2-template-A4.pdf". Letters and digits of
// every script stay; everything else becomes a hyphen. It has at most 255 bytes, as file
// systems do.
func FileName(n Name) string {
	parts := []string{word(n.Design, "design", maxDesign)}
	if m := word(n.Mark, "", maxMark); m != "" {
		parts = append([]string{m}, parts...)
	}
	if r := word(n.Revision, "", maxWord); r != "" {
		parts = append(parts, "rev-"+r)
	}
	if n.Sheet > 0 {
		s := fmt.Sprintf("sheet-%d", n.Sheet)
		if n.Sheets > 1 {
			s += fmt.Sprintf("-of-%d", n.Sheets)
		}
		parts = append(parts, s)
	}
	if w := word(n.What, "", maxWord); w != "" {
		parts = append(parts, w)
	}
	name := strings.Join(parts, "-")
	if reserved(name) {
		name = "design-" + name
	}
	if e := word(n.Ext, "", 5); e != "" {
		name += "." + strings.ToLower(e)
	}
	return name
}

// The most bytes of a text in a file name. All of them with the rest stay under 255.
const (
	maxDesign = 80
	maxWord   = 40
	maxMark   = 60
	maxPath   = 250 // of a name in a zip, which is one of ours already
)

// word returns s with only letters, marks and digits, joined by hyphens, in at most so
// many bytes, or instead if nothing is left.
func word(s, instead string, bytes int) string {
	var b strings.Builder
	gap := false
	for _, r := range s {
		if !unicode.In(r, unicode.L, unicode.M, unicode.N) || r == unicode.ReplacementChar {
			gap = b.Len() > 0
			continue
		}
		if b.Len()+bit(gap)+utf8.RuneLen(r) > bytes {
			break
		}
		if gap {
			b.WriteByte('-')
			gap = false
		}
		b.WriteRune(r)
	}
	if b.Len() == 0 {
		return instead
	}
	return b.String()
}

// reserved reports the names that Windows keeps for devices.
func reserved(name string) bool {
	switch n := strings.ToUpper(name); {
	case n == "CON", n == "PRN", n == "AUX", n == "NUL":
		return true
	case len(n) == 4 && (n[:3] == "COM" || n[:3] == "LPT"):
		return n[3] >= '0' && n[3] <= '9'
	}
	return false
}
