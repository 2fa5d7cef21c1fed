package bench

import (
	"math"
	"strconv"

	"springrib/internal/cut"
	"springrib/internal/design"
	"springrib/internal/unit"
)

// laying says which sheet is of what, and how the sheets lie on the bed.
func (w writer) laying() []string {
	var out []string
	p := w.p
	if len(p.Sheets) > 1 {
		for i, from := range p.Froms {
			out = append(out, "Sheet "+num(i+1)+" is "+from.Stock.Name+", "+w.mm(from.Thickness)+" thick.")
		}
	}
	for i, b := range p.Beds {
		if len(b.Outer.Segs) > 0 {
			box := b.Outer.Box()
			out = append(out, "Sheet "+num(i+1)+" is the scrap: its corner lies "+w.mm(box.Min.X)+" from the left and "+w.mm(box.Min.Y)+" from the front of the bed.")
		}
	}
	if s := p.V.Sheet; s.Grained && p.V.Cut.Turns != design.TurnQuarter {
		// The panel lies with its bend along the bed, so its scores run from front to back.
		switch {
		case s.GrainToScores > 80*deg:
			out = append(out, "Lay the sheet of "+s.Stock.Name+" with its face grain from left to right: across the scores.")
		case s.GrainToScores < 10*deg:
			out = append(out, "Lay the sheet of "+s.Stock.Name+" with its face grain from front to back: along the scores.")
		default:
			out = append(out, "Mind the face grain of the "+s.Stock.Name+": it lies at "+angle(s.GrainToScores)+" to the scores, which run from front to back.")
		}
	}
	return append(out, w.grainBeside()...)
}

// grainBeside says how sheets with a grain lie that are not the panel's: as their parts are
// drawn, which a half turn leaves.
func (w writer) grainBeside() []string {
	var out []string
	for _, from := range w.p.Stocks()[1:] {
		if from.Grained && w.p.V.Cut.Turns != design.TurnQuarter {
			out = append(out, "Lay the sheet of "+from.Stock.Name+" with its face grain from left to right.")
		}
	}
	return out
}

// bought is how many whole sheets of the panel's are used up, and how many of others: a
// scrap costs nothing.
func (w writer) bought() (own, others int) {
	for i, b := range w.p.Beds {
		switch {
		case !w.p.Froms[i].Own:
			others++
		case len(b.Outer.Segs) == 0:
			own++
		}
	}
	return own, others
}

// bridges counts the bridges on all sheets: pieces of outer cuts that do not close.
func (w writer) bridges() int {
	n := 0
	for _, j := range w.p.Jobs {
		for _, o := range j.Operations {
			if o.Kind != cut.Outer {
				continue
			}
			for _, s := range o.Strokes {
				if !s.Path.Closed {
					n++
				}
			}
			break // further ones repeat it
		}
	}
	return n
}

const deg = math.Pi / 180

func num(n int) string { return strconv.Itoa(n) }

func angle(a float64) string { return unit.Angle(a) }
