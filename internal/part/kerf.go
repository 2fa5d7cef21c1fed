package part

import (
	"math"

	"springrib/internal/cut"
	"springrib/internal/plane"
)

// Allowed is an outline moved so that the finished piece keeps its size.
type Allowed struct {
	Outline plane.Region // where the tool's middle runs
	// Lost is how many holes are no wider than the kerf: the tool would cut them away,
	// and they are left out.
	Lost int
	// Failed tells that no allowance could be made; the outline is as given then.
	Failed bool
}

// Allow moves an outline by half the kerf, out at the edge and in at the holes. Corners
// between straight lines stay sharp, so that a rectangle is cut with four lines; the
// piece inside them has its corners exactly.
func Allow(r plane.Region, kerf float64) Allowed {
	if kerf <= 0 {
		return Allowed{Outline: r}
	}
	if r = r.Normal(); roomy(r, kerf/2) {
		if out := beside(r, kerf/2); len(out.SelfCrossings()) == 0 {
			return Allowed{Outline: out}
		}
	}
	moved, err := plane.Offset(r, kerf/2, kerfTolerance)
	if err != nil || len(moved) != 1 {
		return Allowed{Outline: r, Failed: true}
	}
	out := plane.Region{Outer: sharpen(moved[0].Outer, kerf/2)}
	for _, h := range moved[0].Holes {
		out.Holes = append(out.Holes, sharpen(h, kerf/2))
	}
	return Allowed{Outline: out, Lost: max(0, len(r.Holes)-len(out.Holes))}
}

// kerfTolerance is how far a moved free curve may lie from the exact one, mm: a fifth
// of what outlines may.
const kerfTolerance = 0.002

// roomy tells whether nothing of the outline bends inward more sharply than the tool's
// half width, so that its parallel neither folds nor closes anything: no corner turns
// away from the material, no curve does so with a radius under twice d, and holes are
// too large to close. (A slit narrower than the kerf shows up as a crossing.)
func roomy(r plane.Region, d float64) bool {
	for _, p := range r.Paths() {
		for i, s := range p.Segs {
			a, b := s.Tangent(1), p.Segs[(i+1)%len(p.Segs)].Tangent(0)
			if a.Cross(b) < -1e-6 {
				return false
			}
			for _, t := range []float64{0, 0.25, 0.5, 0.75, 1} {
				if s.Curvature(t)*2*d < -1 {
					return false
				}
			}
		}
		if b := p.Box(); math.Min(b.W(), b.H()) < 8*d {
			return false
		}
	}
	return true
}

// beside returns the parallel of a roomy outline, d further from the material: with the
// outer edge running counter-clockwise and holes clockwise, always to the right.
func beside(r plane.Region, d float64) plane.Region {
	move := func(p plane.Path) plane.Path {
		return sharpen(plane.Fit(plane.Parallel(p, -d, -d), plane.Options{Tolerance: kerfTolerance}).Path, d)
	}
	out := plane.Region{Outer: move(r.Outer)}
	for _, h := range r.Holes {
		out.Holes = append(out.Holes, move(h))
	}
	return out
}

// sharpen puts a corner back where the offset has rounded one between two lines with
// an arc of radius d. Corners of more than 120 degrees keep their arc: their point
// would stand out by more than d.
func sharpen(p plane.Path, d float64) plane.Path {
	n := len(p.Segs)
	gone := make([]bool, n)
	segs := append([]plane.Segment{}, p.Segs...)
	for i, s := range segs {
		prev, next := (i+n-1)%n, (i+1)%n
		if s.Kind != plane.Arc || n < 4 || segs[prev].Kind != plane.Line || segs[next].Kind != plane.Line {
			continue
		}
		_, r := s.Centre()
		if math.Abs(r-d) > 1e-6 || math.Abs(s.Sweep()) > 2*math.Pi/3 {
			continue
		}
		tip := s.A.Add(s.Tangent(0).Mul(d * math.Tan(math.Abs(s.Sweep())/2)))
		segs[prev].B, segs[next].A = tip, tip
		gone[i] = true
	}
	var out []plane.Segment
	for i, s := range segs {
		if !gone[i] {
			out = append(out, s)
		}
	}
	return plane.Path{Segs: out, Closed: p.Closed}
}

// cuts returns the work that frees the allowed outline: inner cuts before the outer.
func (a Allowed) cuts() []Work {
	var out []Work
	for _, h := range a.Outline.Holes {
		out = append(out, Work{Kind: cut.Inner, Path: h})
	}
	return append(out, Work{Kind: cut.Outer, Path: a.Outline.Outer})
}
