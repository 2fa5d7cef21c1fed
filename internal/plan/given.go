package plan

// Given tells where what the design says of an outline comes to lie on the flat panel.
// Given flat that is the same, given as it is seen when bent it is not.
type Given struct {
	p *Plan
	d *developer
	// Length is that of the outline as it is given.
	Length float64
}

// Given returns that of a plan that is drawn.
func (p *Plan) Given() Given {
	g, ok := p.Gives()
	if !ok {
		panic("plan: an outline was laid that can't be seen")
	}
	return g
}

// Gives is Given for a plan whose scores are laid; ok is false where the curve is such that
// no outline can be told as it is seen.
func (p *Plan) Gives() (g Given, ok bool) {
	d, ok := p.developer()
	if !ok {
		return Given{}, false
	}
	return Given{p, d, p.V.Panel.Length.Or(d.length() - p.V.Panel.Along)}, true
}

// U returns the place along the flat panel of a place along the given outline, both from
// the foot of the curve.
func (g Given) U(along float64) float64 {
	if !g.d.seen {
		return along
	}
	return g.p.Scores.places.U(g.d.arc(along))
}

// Along is the inverse of U.
func (g Given) Along(u float64) float64 {
	if !g.d.seen {
		return u
	}
	return g.d.across(g.p.Scores.places.S(u))
}

// Stretch returns dU/dalong: how much longer the panel is than it is seen there.
func (g Given) Stretch(along float64) float64 {
	if !g.d.seen {
		return 1
	}
	s := g.d.arc(along)
	return g.p.Scores.places.Slope(s) / g.d.rate(s)
}

// Seen tells whether the outline is given as it is seen when bent.
func (g Given) Seen() bool { return g.d.seen }
