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
// in thin lines: common practice, no source.
const sameShade = 8

// shades names colours by the first one met that looks the same.
type shades struct {
	known map[string]string
	first map[[3]int][]string // by channels in steps of sameShade
}

func (s *shades) of(hex string) string {
	if same, ok := s.known[hex]; ok {
		return same
	}
	if s.known == nil {
		s.known, s.first = map[string]string{}, map[[3]int][]string{}
	}
	same := hex
	if v, err := strconv.ParseUint(strings.TrimPrefix(hex, "#"), 16, 32); err == nil {
		same = s.like(hex, [3]int{int(v >> 16), int(v >> 8 & 255), int(v & 255)})
	}
	s.known[hex] = same
	return same
}

func (s *shades) like(hex string, c [3]int) string {
	at := [3]int{c[0] / sameShade, c[1] / sameShade, c[2] / sameShade}
	for i := range 27 {
		k := [3]int{at[0] + i/9 - 1, at[1] + i/3%3 - 1, at[2] + i%3 - 1}
		for _, other := range s.first[k] {
			v, _ := strconv.ParseUint(other[1:], 16, 32)
			d := [3]int{int(v >> 16), int(v >> 8 & 255), int(v & 255)}
			if max(c[0]-d[0], d[0]-c[0], c[1]-d[1], d[1]-c[1], c[2]-d[2], d[2]-c[2]) <= sameShade {
				return other
			}
		}
	}
	s.first[at] = append(s.first[at], hex)
	return hex
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
