package bench

import (
	"math"
	"strconv"

	"springrib/internal/cut"
	"springrib/internal/design"
	"springrib/internal/unit"
)

// laying says how the sheets lie on the bed.
func (w writer) laying() []string {
	var out []string
	p := w.p
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
	return out
}

// bought is how many whole sheets are used up: a scrap costs nothing.
func (w writer) bought() int {
	n := 0
	for _, b := range w.p.Beds {
		if len(b.Outer.Segs) == 0 {
			n++
		}
	}
	return n
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
