package plan

import (
	"springrib/internal/curve"
	"springrib/internal/score"
	"springrib/internal/section"
)

// Roomless returns the first bend of a cradle that is no wider than the panel's neutral
// line lies inside it. There the line has no length left: its scores would fall together
// or pass each other.
func Roomless(l score.Layout) (score.Run, bool) {
	for _, r := range l.Runs {
		if !r.Wraps && r.Radius <= r.Spacing.D {
			return r, true
		}
	}
	return score.Run{}, false
}

// roomInside stops where the chosen scores have no room.
func (p *Plan) roomInside() bool {
	r, tight := Roomless(p.Scores.Layout)
	if !tight {
		return true
	}
	return p.stop("curve-tight", section.FieldAt(&p.V.Curve, p.LineAt(r), p.Line),
		"The panel has no room to bend "+p.len(r.Start)+" from the foot: the radius of the rib edge is only "+p.len(r.Radius)+
			" there, and its neutral line lies "+p.len(r.Spacing.D)+" inside that. Take a larger radius.",
		map[string]float64{"radius": r.Radius, "distance": r.Spacing.D, "at": r.Start})
}

// LineAt returns the arc length of the wanted line at the middle of a bend of the edge, or
// the bend's start where the line has no such bend: a parallel has the bends of its line.
func (p *Plan) LineAt(r score.Run) float64 {
	if st, ok := p.bendOf(r); ok {
		return (st.Start + st.End) / 2
	}
	return r.Start
}

// LineRadius returns the least radius of the wanted line in a bend of the edge.
func (p *Plan) LineRadius(r score.Run) float64 {
	if st, ok := p.bendOf(r); ok {
		k, _ := st.Shape.Tightest()
		return 1 / k
	}
	return r.Radius
}

func (p *Plan) bendOf(r score.Run) (out curve.Stretch, ok bool) {
	line := p.Line.Stretches()
	for i, st := range p.Section.Edge.Stretches() {
		if st.Start == r.Start && i < len(line) {
			out, ok = line[i], true
		}
	}
	return out, ok
}
