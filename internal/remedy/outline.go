package remedy

import (
	"errors"
	"math"
	"slices"
	"sort"
	"strings"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/part"
	"springrib/internal/plan"
	"springrib/internal/plane"
)

// startAtFoot moves the outline to the foot of the curve, where that will do.
func startAtFoot(p *plan.Plan, f *finding.Finding) []finding.Remedy {
	along := "0"
	if given := p.Outline.Given.Outer; len(given.Segs) > 0 {
		along = bare(p, math.Ceil((p.V.Panel.Along-given.Box().Min.X)*100-1e-6)/100)
	} else if f.Numbers["curve"] < 1 || p.V.Panel.Along <= 0 {
		return nil
	}
	return one("Start at the foot", "panel.along", along)
}

// smallerRadius takes the radii, or the width, that there is room for, rounded down to what
// can be typed.
func smallerRadius(p *plan.Plan, f *finding.Finding) []finding.Remedy {
	most, field := f.Numbers["room"], f.Place.Field
	switch {
	case strings.HasPrefix(field, "panel.corners."):
		return smallerCorners(p)
	case field == "panel.footRadius" || field == "panel.tipRadius":
		most *= 0.95
	case field == "panel.width":
		most *= 0.998 // another width has other scores, and they another length
	}
	most = floor(most, 100)
	return one("Use "+mm(p, most), field, inMM(most))
}

// smallerCorners takes radii for which every corner has room.
func smallerCorners(p *plan.Plan) []finding.Remedy {
	cs := p.V.Panel.Corners
	corners := make([]part.Corner, len(cs))
	for i, c := range cs {
		corners[i] = part.Corner{P: plane.Pt(c.Along, c.Across), Radius: c.Radius}
	}
	r := set("Use the radii that there is room for")
	for range 4 * len(corners) {
		_, err := part.Polygon(corners)
		var bad *part.ErrCorner
		if !errors.As(err, &bad) {
			break
		}
		room := floor(bad.Room, 100)
		if corners[bad.Index].Radius == room {
			room = 0
		}
		corners[bad.Index].Radius = room
		r.Set["panel.corners."+num(cs[bad.Index].Row)+".radius"] = inMM(room)
	}
	return []finding.Remedy{r}
}

// holeOf returns which of the typed holes a finding speaks of, -1 for none.
func holeOf(p *plan.Plan, f *finding.Finding) int {
	row := rowOf(f.Place.Field, "panel.holes")
	return slices.IndexFunc(p.V.Panel.Holes, func(h design.HoleValues) bool { return h.Row == row })
}

// smallerHole makes a hole so small that it keeps clear, else leaves it out. What stops may
// be another hole as well.
func smallerHole(p *plan.Plan, f *finding.Finding) []finding.Remedy {
	n := holeOf(p, f)
	if n < 0 {
		return nil
	}
	h := p.V.Panel.Holes[n]
	for _, share := range []float64{0.9, 0.8, 0.7, 0.6, 0.5, 0.4} {
		w := math.Floor(10*share*h.Width) / 10
		if w < 1 {
			break
		}
		q := likeTo(p)
		q.V.Panel.Holes = slices.Clone(q.V.Panel.Holes)
		hole := &q.V.Panel.Holes[n]
		hole.Width = w
		row := "panel.holes." + num(h.Row) + "."
		r := set("Make it "+mm(p, w)+" wide", row+"width", bare(p, w))
		if h.Slot {
			hole.Length = math.Floor(10*share*h.Length) / 10
			r.Set[row+"length"] = bare(p, hole.Length)
		}
		if redrawn(p, q, false) {
			return []finding.Remedy{r}
		}
	}
	return withoutHole(p, f)
}

func withoutHole(p *plan.Plan, f *finding.Finding) []finding.Remedy {
	n := holeOf(p, f)
	if n < 0 {
		return nil
	}
	return []finding.Remedy{{Text: "Leave this hole out", Set: design.BlankRow("panel.holes", p.V.Panel.Holes[n].Row)}}
}

// inOrder puts the corners of a crossed outline in the order in which they lie round their
// middle, where that is one sound outline.
func inOrder(p *plan.Plan, _ *finding.Finding) []finding.Remedy {
	if p.V.Panel.Shape != design.Polygon {
		return nil
	}
	was, cs := p.V.Panel.Corners, slices.Clone(p.V.Panel.Corners)
	var mid plane.Point
	for _, c := range cs {
		mid = mid.Add(plane.Pt(c.Along, c.Across).Mul(1 / float64(len(cs))))
	}
	round := func(c design.CornerValues) float64 { return math.Atan2(c.Across-mid.Y, c.Along-mid.X) }
	sort.SliceStable(cs, func(i, j int) bool { return round(cs[i]) < round(cs[j]) })
	r := set("Put the corners in order round their middle")
	for i, c := range cs {
		row := "panel.corners." + num(was[i].Row) + "."
		r.Set[row+"along"], r.Set[row+"across"], r.Set[row+"radius"] = bare(p, c.Along), bare(p, c.Across), bare(p, c.Radius)
		cs[i].Row = was[i].Row
	}
	q := likeTo(p)
	q.V.Panel.Corners = cs
	if !redrawn(p, q, false) {
		return nil
	}
	return []finding.Remedy{r}
}
