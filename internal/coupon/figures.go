package coupon

import "springrib/internal/plane"

// Figures returns the strokes of a number as single lines, height mm tall, its lower
// left corner at at: digits, '-', '.' and ' '. They are marked, not cut, with as few
// strokes as a hand would make.
func Figures(text string, at plane.Point, height float64) []plane.Path {
	var out []plane.Path
	x := 0.0
	for _, r := range text {
		strokes, wide := figure(r)
		for _, s := range strokes {
			pts := make([]plane.Point, len(s))
			for i, p := range s {
				pts[i] = at.Add(plane.Pt(x+p[0]*height/2, p[1]*height/2))
			}
			out = append(out, plane.Open(pts...))
		}
		x += (wide + 0.55) * height / 2
	}
	return out
}

// figure returns the strokes of one figure on a grid one wide and two high, and its width.
func figure(r rune) (strokes [][][2]float64, wide float64) {
	type line = [][2]float64
	switch r {
	case '0':
		return [][][2]float64{line{{0, 0}, {1, 0}, {1, 2}, {0, 2}, {0, 0}}}, 1
	case '1':
		return [][][2]float64{line{{0.1, 1.6}, {0.5, 2}, {0.5, 0}}}, 0.6
	case '2':
		return [][][2]float64{line{{0, 2}, {1, 2}, {1, 1}, {0, 1}, {0, 0}, {1, 0}}}, 1
	case '3':
		return [][][2]float64{line{{0, 2}, {1, 2}, {1, 0}, {0, 0}}, line{{0.2, 1}, {1, 1}}}, 1
	case '4':
		return [][][2]float64{line{{0, 2}, {0, 1}, {1, 1}}, line{{1, 2}, {1, 0}}}, 1
	case '5':
		return [][][2]float64{line{{1, 2}, {0, 2}, {0, 1}, {1, 1}, {1, 0}, {0, 0}}}, 1
	case '6':
		return [][][2]float64{line{{1, 2}, {0, 2}, {0, 0}, {1, 0}, {1, 1}, {0, 1}}}, 1
	case '7':
		return [][][2]float64{line{{0, 2}, {1, 2}, {0.3, 0}}}, 1
	case '8':
		return [][][2]float64{line{{0, 1}, {0, 2}, {1, 2}, {1, 0}, {0, 0}, {0, 1}, {1, 1}}}, 1
	case '9':
		return [][][2]float64{line{{1, 1}, {0, 1}, {0, 2}, {1, 2}, {1, 0}, {0, 0}}}, 1
	case '-':
		return [][][2]float64{line{{0, 1}, {0.7, 1}}}, 0.7
	case '.':
		return [][][2]float64{line{{0, 0}, {0.25, 0.25}}}, 0.25
	}
	return nil, 0.5
}

// FiguresWidth returns how wide Figures draws a text.
func FiguresWidth(text string, height float64) float64 {
	x := 0.0
	for _, r := range text {
		_, wide := figure(r)
		x += (wide + 0.55) * height / 2
	}
	return x
}
