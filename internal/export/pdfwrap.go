package export

import "strings"

// Wrap returns s broken into lines of at most width mm. Line breaks in s are kept,
// an empty line stays an empty line, and a word too long for a line is broken.
func (d *Document) Wrap(s string, width float64, t Type) []string {
	var out []string
	for _, para := range strings.Split(strings.ReplaceAll(s, "\r\n", "\n"), "\n") {
		out = append(out, d.wrapLine(cleanLine(para), width, t)...)
	}
	return out
}

func (d *Document) wrapLine(s string, width float64, t Type) []string {
	var out []string
	line := ""
	for _, word := range strings.Fields(s) {
		if next := line + " " + word; line != "" && d.TextWidth(next, t) <= width {
			line = next
			continue
		}
		if line != "" {
			out = append(out, line)
		}
		head, rest := d.splitWord(word, width, t)
		for rest != "" {
			out = append(out, head)
			head, rest = d.splitWord(rest, width, t)
		}
		line = head
	}
	return append(out, line)
}

// splitWord parts word where it no longer fits, after one character at least.
func (d *Document) splitWord(word string, width float64, t Type) (head, rest string) {
	if d.TextWidth(word, t) <= width {
		return word, ""
	}
	end := 0
	for i := range word {
		if i > 0 && end > 0 && d.TextWidth(word[:i], t) > width {
			break
		}
		end = i
	}
	if end == 0 { // not even one character fits
		for i := range word {
			if i > 0 {
				end = i
				break
			}
		}
		if end == 0 {
			return word, ""
		}
	}
	return word[:end], word[end:]
}
