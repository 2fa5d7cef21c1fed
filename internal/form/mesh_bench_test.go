package form

import (
	"math"
	"testing"

	"springrib/internal/plane"
)

// BenchmarkMesh makes a panel of 200 scores.
func BenchmarkMesh(b *testing.B) {
	outlines := map[string]plane.Region{
		"rectangle": {Outer: plane.RectPath(plane.Box{Min: plane.Pt(0, -60), Max: plane.Pt(620, 60)})},
		"ellipse":   {Outer: plane.CirclePath(plane.Pt(0, 0), 1).Apply(plane.Affine{310, 0, 0, 80, 310, 0})},
	}
	for name, outline := range outlines {
		s := Sheet{Outline: outline, Strip: bow(200, 10, 3, math.Pi/180, 2.4), Thickness: thick, Depth: deep, Mouth: wide, Root: wide, Contact: true}
		b.Run(name, func(b *testing.B) {
			for b.Loop() {
				NewMesh(s)
			}
		})
	}
}
