package outline

// Given tells where what the design says of an outline comes to lie on the flat panel.
// Given flat that is the same, given as it is seen when bent it is not.
type Given struct {
	d *developer
	// Length is that of the outline as it is given.
	Length float64
}

// Gives tells where the places of an outline come to lie; ok is false where the curve is such
// that no outline can be told as it is seen.
func Gives(t Task) (g Given, ok bool) {
	d, ok := newMaking(t).developer()
	if !ok {
		return Given{}, false
	}
	return Given{d, t.Values.Panel.Length.Or(d.length() - t.Values.Panel.Along)}, true
}

// U returns the place along the flat panel of a place along the given outline, both from
// the foot of the curve.
func (g Given) U(along float64) float64 {
	if !g.d.seen {
		return along
	}
	return g.d.p.Places.U(g.d.arc(along))
}

// Along is the inverse of U.
func (g Given) Along(u float64) float64 {
	if !g.d.seen {
		return u
	}
	return g.d.across(g.d.p.Places.S(u))
}

// Stretch returns dU/dalong: how much longer the panel is than it is seen there.
func (g Given) Stretch(along float64) float64 {
	if !g.d.seen {
		return 1
	}
	s := g.d.arc(along)
	return g.d.p.Places.Slope(s) / g.d.rate(s)
}

// Seen tells whether the outline is given as it is seen when bent.
func (g Given) Seen() bool { return g.d.seen }
