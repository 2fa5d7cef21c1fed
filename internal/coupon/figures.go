package coupon

import (
	"strings"

	"springrib/internal/plane"
)

// Figures returns the strokes of a number as single lines, height mm tall, its lower
// left corner at at: digits, '-', '.' and ' '. They are marked, not cut, with as few
// strokes as a hand would make.
func Figures(text string, at plane.Point, height float64) []plane.Path {
	var out []plane.Path
	x := 0.0
	for _, r := range text {
		f := figureOf(r)
		for _, s := range strings.Fields(f.strokes) {
			pts := make([]plane.Point, len(s)/2)
			for i := range pts {
				across, up := float64(s[2*i]-'A')/20, float64(s[2*i+1]-'A')/20
				pts[i] = at.Add(plane.Pt(x+across*height/2, up*height/2))
			}
			out = append(out, plane.Open(pts...))
		}
		x += (f.wide + 0.55) * height / 2
	}
	return out
}

// figure is one figure: how wide it is on a grid one wide and two high, and its strokes,
// apart by spaces. Each place is two letters, across and up in twentieths from A.
type figure struct {
	name    rune
	wide    float64
	strokes string
}

var figuresDrawn = [...]figure{
	{'0', 1, "AAUAUiAiAA"},
	{'1', 0.6, "CaKiKA"},
	{'2', 1, "AiUiUUAUAAUA"},
	{'3', 1, "AiUiUAAA EUUU"},
	{'4', 1, "AiAUUU UiUA"},
	{'5', 1, "UiAiAUUUUAAA"},
	{'6', 1, "UiAiAAUAUUAU"},
	{'7', 1, "AiUiGA"},
	{'8', 1, "AUAiUiUAAAAUUU"},
	{'9', 1, "UUAUAiUiUAAA"},
	{'-', 0.7, "AUOU"},
	{'.', 0.25, "AAFF"},
}

// figureOf returns a figure; one that is not drawn is a space.
func figureOf(name rune) figure {
	for _, f := range figuresDrawn {
		if f.name == name {
			return f
		}
	}
	return figure{wide: 0.5}
}

// FiguresWidth returns how wide Figures draws a text.
func FiguresWidth(text string, height float64) float64 {
	x := 0.0
	for _, r := range text {
		x += (figureOf(r).wide + 0.55) * height / 2
	}
	return x
}
