package cut_test

import (
	"fmt"

	"springrib/internal/cut"
	"springrib/internal/plane"
)

// Scores come before the cut that sets the part free, in the order of the shortest way.
func ExampleOrder() {
	p := cut.Part{ID: "panel"}
	p.Strokes[cut.Outer] = []plane.Path{plane.RectPath(plane.BoxOf(plane.Pt(0, 0), plane.Pt(40, 50)))}
	for _, x := range []float64{10, 30, 20} {
		p.Strokes[cut.Score] = append(p.Strokes[cut.Score], plane.Open(plane.Pt(x, 0), plane.Pt(x, 50)))
	}
	for _, op := range cut.Order([]cut.Part{p}, cut.Settings{}) {
		for _, s := range op.Strokes {
			fmt.Println(op.Kind, s.Path.Start(), s.Path.End())
		}
	}
	// Output:
	// score {10 0} {10 50}
	// score {20 50} {20 0}
	// score {30 0} {30 50}
	// outer-cuts {40 50} {40 50}
}
