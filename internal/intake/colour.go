package intake

import (
	"fmt"
	"strconv"
	"strings"

	"golang.org/x/image/colornames"
)

// otherPaint stands for a gradient, a pattern or a colour that can't be read.
const otherPaint = "#808080"

// paint reads a paint of SVG 1.1 (section 11.2): "" for none, "#rrggbb" otherwise.
// current is the colour that currentColor stands for.
func paint(text, current string) string {
	text = strings.ToLower(strings.TrimSpace(text))
	if rest, found := strings.CutPrefix(text, "url("); found {
		if _, fallback, _ := strings.Cut(rest, ")"); strings.TrimSpace(fallback) != "" {
			return paint(fallback, current)
		}
		return otherPaint
	}
	switch {
	case text == "none" || text == "transparent":
		return ""
	case text == "currentcolor":
		return current
	case strings.HasPrefix(text, "#"):
		return hexColour(text[1:])
	case strings.HasPrefix(text, "rgb"):
		return rgbColour(text)
	}
	if c, ok := colornames.Map[text]; ok {
		return rgb(int(c.R), int(c.G), int(c.B))
	}
	return otherPaint
}

// sameShade is the largest difference of a channel, of 255, in colours that nobody tells apart
// in thin lines: common practice, no source. Past maxShades colours only equal ones are.
const (
	sameShade = 8
	maxShades = 64
)

// shades names colours by the first one met that looks the same.
type shades struct {
	known map[string]string
	first []string
}

func (s *shades) of(hex string) string {
	same, ok := s.known[hex]
	if ok {
		return same
	}
	if s.known == nil {
		s.known = map[string]string{}
	}
	same = hex
	for _, other := range s.first {
		if alike(hex, other) {
			same = other
			break
		}
	}
	if same == hex && len(s.first) < maxShades {
		s.first = append(s.first, hex)
	}
	s.known[hex] = same
	return same
}

// alike compares two colours "#rrggbb".
func alike(a, b string) bool {
	if len(a) != 7 || len(b) != 7 {
		return a == b
	}
	for i := 1; i < 7; i += 2 {
		x, _ := strconv.ParseUint(a[i:i+2], 16, 8)
		y, _ := strconv.ParseUint(b[i:i+2], 16, 8)
		if max(x, y)-min(x, y) > sameShade {
			return false
		}
	}
	return true
}

func rgb(r, g, b int) string { return fmt.Sprintf("#%02x%02x%02x", r, g, b) }

// hexColour reads rgb, rgba, rrggbb and rrggbbaa.
func hexColour(text string) string {
	if len(text) == 3 || len(text) == 4 {
		long := ""
		for i := range text {
			long += text[i:i+1] + text[i:i+1]
		}
		text = long
	}
	v, err := strconv.ParseUint(text, 16, 32)
	switch {
	case err != nil || len(text) != 6 && len(text) != 8:
		return otherPaint
	case len(text) == 8 && v&0xff == 0:
		return ""
	case len(text) == 8:
		v >>= 8
	}
	return fmt.Sprintf("#%06x", v)
}

// rgbColour reads rgb(r, g, b) and rgba(r, g, b, a), in numbers or percent.
func rgbColour(text string) string {
	_, list, _ := strings.Cut(text, "(")
	list = strings.ReplaceAll(strings.TrimSuffix(list, ")"), "/", " ")
	s := scanner{text: list}
	var c [4]float64
	c[3] = 1
	for i := range c {
		v, ok := s.number()
		if !ok && i < 3 {
			return otherPaint
		}
		if !ok {
			break
		}
		if s.at < len(list) && list[s.at] == '%' {
			s.at++
			if v /= 100; i < 3 {
				v *= 255
			}
		}
		c[i] = v
	}
	if c[3] <= 0 {
		return ""
	}
	var n [3]int
	for i := range n {
		n[i] = int(max(0, min(255, c[i])) + 0.5)
	}
	return rgb(n[0], n[1], n[2])
}
