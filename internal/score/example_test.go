package score_test

import (
	"fmt"
	"math"

	"springrib/internal/curve"
	"springrib/internal/hinge"
	"springrib/internal/plane"
	"springrib/internal/score"
)

// Scores for a quarter turn of radius 60 in 3 mm board with 0.8 mm of skin left. Each
// flat touches the edge once; the folds turn by 90 degrees in all.
//
//	    edge (rib)   ___.---.___
//	               /             \     flats lie on it as tangents,
//	one fold between two flats    \    folds stand off by the flat height
func ExampleLay() {
	law := hinge.New(hinge.Material{E: 3590, NuXY: 0.3, NuXZ: 0.3, EZ: 270, GXZ: 200},
		hinge.Score{Thickness: 3, Depth: 2.2, Width: 0.2})
	l := score.Lay(score.Task{
		Edge:      curve.Chain(plane.Pt(0, 0), 0, curve.Piece{Length: 15}, curve.Piece{Length: 60 * math.Pi / 2, Kappa: -1.0 / 60}, curve.Piece{Length: 15}),
		PanelLeft: true, ScoredTowards: true,
		Limits: score.Limits{Cases: []score.Case{{Law: law, Strain: 0.012, Closing: 1.1}}, StandOff: 0.15, Land: 0.8},
	})
	turned := 0.0
	for _, f := range l.Folds {
		turned += f.Theta
	}
	run := l.Runs[0]
	fmt.Printf("%d scores %.2f mm apart, held down by %s\n", len(l.Folds), run.Spacing.Pitch, run.Spacing.Bound)
	fmt.Printf("turned by %.1f degrees, panel %.2f mm long\n", turned*180/math.Pi, l.Length)
	// Output:
	// 22 scores 4.48 mm apart, held down by pinching
	// turned by 90.0 degrees, panel 128.25 mm long
}
