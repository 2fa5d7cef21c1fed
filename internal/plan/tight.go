package plan

import (
	"math"
	"strconv"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/score"
	"springrib/internal/unit"
)

// roomless returns the first bend of a cradle that is no wider than the panel's neutral
// line lies inside it. There the line has no length left: its scores would fall together
// or pass each other.
func roomless(l score.Layout) (score.Run, bool) {
	for _, r := range l.Runs {
		if !r.Wraps && r.Radius <= r.Spacing.D {
			return r, true
		}
	}
	return score.Run{}, false
}

// roomInside stops where the chosen scores have no room.
func (p *Plan) roomInside() bool {
	r, tight := roomless(p.Layout)
	if !tight {
		return true
	}
	wanted, _ := p.wanted()
	at, radius := r.Start, r.Radius
	for i, st := range p.Edge.Stretches() { // a parallel has the stretches of its curve
		if ws := wanted.Stretches(); st.Start == r.Start && i < len(ws) {
			k, _ := ws[i].Shape.Tightest()
			at, radius = (ws[i].Start+ws[i].End)/2, 1/k
		}
	}
	return p.stop("curve-tight", p.curveField(at, wanted),
		"The panel lies in the hollow of a bend whose radius at the rib edge is only "+p.len(r.Radius)+", "+p.len(r.Start)+
			" from the foot, and its neutral line lies "+p.len(r.Spacing.D)+" inside that edge: it has no room to bend there. Take a larger radius.",
		map[string]float64{"radius": r.Radius, "distance": r.Spacing.D, "at": r.Start},
		p.wider(radius+r.Spacing.D-r.Radius+p.V.Sheet.T)...)
}

// wider offers to bend the wanted line no tighter than a radius, where its bends have
// radii to type and the curve is none too tight with it.
func (p *Plan) wider(radius float64) []finding.Remedy {
	r := math.Ceil(10*radius-1e-9) / 10
	w := p.V
	c := &w.Curve
	text, set := "Bend no tighter than a radius of "+p.len(r), map[string]string{}
	switch c.Kind {
	case design.RadiusAngle, design.LengthRadius:
		c.Radius, set["curve.radius"] = r, unit.Bare(r, w.Units)
	case design.SpanRise:
		if r <= c.Span/2 {
			return nil
		}
		c.Rise = math.Floor(10*(r-math.Sqrt(r*r-c.Span*c.Span/4))) / 10
		text, set["curve.rise"] = "Let it rise no more than "+p.len(c.Rise), unit.Bare(c.Rise, w.Units)
		if c.Rise <= 0 {
			return nil
		}
	case design.Chain:
		c.Pieces = append([]design.PieceValues{}, c.Pieces...)
		for i, pc := range c.Pieces {
			if pc.Turn != design.Straight && pc.Radius < r {
				c.Pieces[i].Radius, set["curve.pieces."+strconv.Itoa(i)+".radius"] = r, unit.Bare(r, w.Units)
			}
		}
	case design.Box:
		if r > math.Min(c.BoxWidth, c.BoxHeight)/2 {
			return nil
		}
		text = "Round the corners to " + p.len(r)
		c.Corner, set["curve.corner"] = r, unit.Bare(r, w.Units)
	default:
		return nil
	}
	q := Plan{V: w, memory: p.memory}
	if !section(&q) || !size(&q) {
		return nil
	}
	for n := range w.Machine.Depths {
		if _, tight := roomless(q.try(n + 1).Layout); tight {
			return nil
		}
	}
	return []finding.Remedy{{Text: text, Set: set}}
}
