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
