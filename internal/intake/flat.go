package intake

import (
	"math"

	"springrib/internal/plane"
)

// maxFlat bounds the points that a drawing is flattened to.
const maxFlat = 2_000_000

// flatCount estimates, never far too low, how many points p is flattened to: a chord
// over a curve of length l that turns gently stands off by about its square over l.
func flatCount(p plane.Path, tol float64) float64 {
	n := 0.0
	for _, s := range p.Segs {
		n++
		switch s.Kind {
		case plane.Cubic:
			n += math.Sqrt((s.A.Dist(s.C) + s.C.Dist(s.D) + s.D.Dist(s.B)) / tol)
		case plane.Arc:
			n += math.Sqrt(s.Length() / tol)
		}
	}
	return n
}

// flatTolerance returns the tolerance, wanted or coarser, at which the pieces
// together stay within maxFlat points.
func flatTolerance(pieces []piece, wanted float64) float64 {
	n := 0.0
	for _, p := range pieces {
		n += flatCount(p.Path, wanted)
	}
	if n <= maxFlat {
		return wanted
	}
	return wanted * (n / maxFlat) * (n / maxFlat)
}
