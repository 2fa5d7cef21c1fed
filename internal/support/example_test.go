package support_test

import (
	"fmt"
	"math"

	"springrib/internal/curve"
	"springrib/internal/design"
	"springrib/internal/hinge"
	"springrib/internal/outline"
	"springrib/internal/plane"
	"springrib/internal/score"
	"springrib/internal/section"
	"springrib/internal/support"
)

// A panel 80 mm wide round a quarter of 60 mm on two ribs: each holds half of its width.
func ExampleNew() {
	d := design.Empty()
	d.Rib.Quantity = "2"
	v, _ := design.Read(d)
	law := hinge.New(hinge.Material{E: 3590, NuXY: 0.3, NuXZ: 0.3, EZ: 270, GXZ: 200}, hinge.Score{Thickness: 3, Depth: 2.2, Width: 0.2})
	s := section.Section{Edge: curve.Level(curve.Piece{Length: 15}, curve.Piece{Length: 60 * math.Pi / 2, Kappa: -1.0 / 60}, curve.Piece{Length: 15}), PanelLeft: true, Towards: true}
	l := score.Lay(score.Task{
		Edge: s.Edge, PanelLeft: true, ScoredTowards: true,
		Limits: score.Limits{Cases: []score.Case{{Law: law, Strain: 0.012, Closing: 1.1}}, StandOff: 0.15, Land: 0.8},
	})
	places := l.Places(s.Edge)
	flat := outline.Outline{Region: plane.Region{Outer: plane.RectPath(plane.BoxOf(plane.Pt(0, -40), plane.Pt(l.Length, 40)))}, To: l.Length}
	ribs, said, ok := support.New(&support.Task{
		Values: &v, Section: &s, Layout: &l, Places: places, Outline: &flat, Width: 80,
		Across: outline.NewAcross(flat.Region, s.Edge, places), Stiff: func(float64) float64 { return 900 },
	})
	a, b := ribs.All[0], ribs.All[1]
	fmt.Printf("%v: at %.0f and %.0f mm across, each holds %.0f mm and %.0f mm; to say: %d\n", ok, a.Across, b.Across, a.Share(60), b.Share(60), len(said))
	// Output: true: at -20 and 20 mm across, each holds 40 mm and 40 mm; to say: 0
}
