package export

import "strings"

// winAnsiHigh are the characters of codes 0x80 to 0x9F of Windows code page 1252,
// which PDF calls WinAnsiEncoding (ISO 32000-1, annex D) and DXF ANSI_1252; 0 where
// the page has none. All other codes are those of Latin-1.
const winAnsiHigh = "€\x00‚ƒ„…†‡ˆ‰Š‹Œ\x00Ž\x00\x00‘’“”•–—˜™š›œ\x00žŸ"

// winAnsi returns the code of r in Windows code page 1252.
func winAnsi(r rune) (code byte, ok bool) {
	switch {
	case r >= ' ' && r < 0x7f, r >= 0xa0 && r <= 0xff:
		return byte(r), true
	case r < 0x100:
		return 0, false
	}
	c := byte(0x80)
	for _, h := range winAnsiHigh {
		if h == r {
			return c, true
		}
		c++
	}
	return 0, false
}

// winAnsiText returns s in code page 1252 with alternate(r) for characters the page
// lacks; lacking lists those, each once, in their order.
func winAnsiText(s string, alternate func(rune) string) (text []byte, lacking []rune) {
	for _, r := range s {
		if c, ok := winAnsi(r); ok {
			text = append(text, c)
			continue
		}
		text = append(text, alternate(r)...)
		if !strings.ContainsRune(string(lacking), r) {
			lacking = append(lacking, r)
		}
	}
	return text, lacking
}
