package intake

import (
	"math"

	"springrib/internal/plane"
)

// maxFlat bounds the points that a drawing is flattened to.
const maxFlat = 100_000

// flatCount estimates how many points p is flattened to. A chord stands off a cubic
// by 3/4 of the larger second difference of its control points over the square of the
// number of chords, and off an arc by an eighth of its length times the angle that it
// turns, likewise.
func flatCount(p plane.Path, tol float64) float64 {
	n := 0.0
	for _, s := range p.Segs {
		n++
		switch s.Kind {
		case plane.Cubic:
			bend := math.Max(s.A.Add(s.D).Sub(s.C.Mul(2)).Len(), s.C.Add(s.B).Sub(s.D.Mul(2)).Len())
			n += math.Sqrt(0.75 * bend / tol)
		case plane.Arc:
			n += math.Sqrt(s.Length() * math.Abs(s.Sweep()) / 8 / tol)
		}
	}
	return n
}

// flatTolerance returns the tolerance, wanted or coarser, at which the pieces
// together stay within maxFlat points, or half of that beyond the ends of segments.
func flatTolerance(pieces []piece, wanted float64) float64 {
	most, extra := float64(maxFlat), 0.0
	for i := range pieces {
		n := float64(len(pieces[i].Path.Segs))
		most -= n
		extra += flatCount(pieces[i].Path, wanted) - n
	}
	most = math.Max(most, maxFlat/2)
	if extra <= most {
		return wanted
	}
	return wanted * (extra / most) * (extra / most)
}
