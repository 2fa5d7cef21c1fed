package plan

import (
	"math"
	"springrib/internal/form"
	"springrib/internal/support"
	"springrib/internal/surface"
)

// Over tells the same of the panel's foot and tip.
func (p *Plan) Over() (foot, tip bool) {
	t := p.supporting()
	return t.TooFar(p.Supports.FootEnd), t.TooFar(p.Supports.TipEnd)
}

// lies returns the panel as it lies: folded where ribs hold it, straight past them, along
// the rib's edge where that ends.
func (p *Plan) lies() surface.Strip {
	start, end := support.Held(p.Supports.All)
	t := p.supporting()
	out := p.Panel.Strip
	if t.Strays(start, t.PanelStart()).Bent == 0 && t.Strays(end, t.PanelEnd()).Bent == 0 {
		return out
	}
	flats := p.Scores.Layout.Flats
	way := func(i int) float64 {
		switch s := flats[i].S; {
		case s < start:
			return p.Section.Edge.At(start).Phi
		case s > end:
			return p.Section.Edge.At(end).Phi
		}
		return flats[i].Dir
	}
	out.Rulings = append([]surface.Ruling{}, out.Rulings...)
	still := 0 // the first flat that lies as it is folded
	for i := range out.Rulings {
		out.Rulings[i].Turn = p.turning(way(i), way(i+1))
		if flats[i].S < start {
			still = i + 1
		}
	}
	out.Start = form.Fold(p.Panel.Strip)[still]
	for i := still - 1; i >= 0; i-- {
		out.Start = form.Before(out.Start, out.Rulings[i])
	}
	return out
}

// turning converts a step of heading to that of folds, positive where the edge bulges to
// the panel.
func (p *Plan) turning(from, to float64) float64 {
	d := math.Remainder(to-from, 2*math.Pi)
	if p.Section.PanelLeft {
		return -d
	}
	return d
}
