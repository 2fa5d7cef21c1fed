package bench

import (
	"math"
	"strings"

	"springrib/internal/cut"
	"springrib/internal/design"
	"springrib/internal/machine"
	"springrib/internal/part"
	"springrib/internal/plan"
	"springrib/internal/stock"
	"springrib/internal/unit"
)

// writer writes a plan down.
type writer struct {
	*plan.Plan
	strips plan.Strips
}

func (w writer) mm(v float64) string { return unit.Length(v, w.V.Units) }

// fit is a length that a fit or a depth hangs on.
func (w writer) fit(v float64) string { return unit.LengthFit(v, w.V.Units) }

// kerfWidth is the width of a cut, which is known to a cutter's or a beam's last figure.
func (w writer) kerfWidth() string { return unit.LengthFine(w.V.Machine.Kerf, w.V.Units) }

// figure is fit without its unit, for a table that names the unit once.
func (w writer) figure(v float64) string { return strings.TrimSuffix(w.fit(v), " "+w.V.Units.String()) }

func (w writer) tool() machine.Tool { return w.V.Machine.Tool }

// byHand tells whether the tool is led by a person: nothing reads a cut file there, and
// the template goes to the bench.
func (w writer) byHand() bool { return w.tool() == machine.Saw || w.tool() == machine.Knife }

func (w writer) family() stock.Family { return w.V.Sheet.Stock.Family }

// wooden tells of sheets with wood's dust and char.
func wooden(f stock.Family) bool { return f == stock.Fibreboard || f == stock.Plywood }

// ribs is what the panel is glued to, in its number.
func (w writer) ribs() string {
	if len(w.Supports) > 1 {
		return "ribs"
	}
	return "rib"
}

// other is the other face.
func other(face string) string {
	if face == design.Hollow {
		return design.Round
	}
	return design.Hollow
}

// closes tells whether some score shuts as the panel bends.
func (w writer) closes() bool { return w.Pinching.Score > 0 }

// stockOf returns a stock of the design by its id.
func stockOf(v design.Values, id string) stock.Stock {
	all := []stock.Stock{v.Sheet.Stock, v.Rib.Stock, v.Base.Stock}
	for _, r := range v.Rib.Places {
		all = append(all, r.Stock)
	}
	for _, s := range all {
		if s.ID == id {
			return s
		}
	}
	s, _ := stock.Lookup(id)
	return s
}

// stocks returns what the parts are cut from, the panel's sheet first. A plan that came to
// no parts has the panel's alone.
func stocks(p *plan.Plan) []stock.Stock {
	out := []stock.Stock{p.V.Sheet.Stock}
	for _, g := range p.Sheets {
		if g.Stock != out[0].ID {
			out = append(out, stockOf(p.V, g.Stock))
		}
	}
	return out
}

// ribFamilies returns the families of the ribs' sheets, each once.
func (w writer) ribFamilies() []stock.Family {
	var out []stock.Family
	seen := map[stock.Family]bool{}
	for _, s := range w.Supports {
		if f := s.Stock.Family; !seen[f] {
			seen[f] = true
			out = append(out, f)
		}
	}
	return out
}

// thickness is that of the sheet a part is cut from.
func (w writer) thickness(id string) float64 {
	switch {
	case id == "panel":
		return w.V.Sheet.T
	case w.Base != nil && id == w.Base.ID:
		return w.V.Base.Thickness
	}
	for _, s := range w.Supports {
		if w.Ribs[s.Kind].ID == id {
			return s.Thickness
		}
	}
	return w.V.Rib.Thickness
}

// bridges counts the bridges on all sheets: pieces of outer cuts that do not close. They
// are told apart by whether the part is of plastic.
func (w writer) bridges() (plastic, others int) {
	brittle := map[string]bool{}
	for _, g := range w.Sheets {
		for _, pt := range g.Parts {
			brittle[pt.ID] = stockOf(w.V, g.Stock).Family == stock.Plastic
		}
	}
	for _, j := range w.Jobs {
		for _, o := range j.Operations {
			if o.Kind != cut.Outer {
				continue
			}
			for _, s := range o.Strokes {
				id, _, _ := strings.Cut(s.Part, " ") // "rib1 2" is the second copy of rib1
				switch {
				case s.Path.Closed:
				case brittle[id]:
					plastic++
				default:
					others++
				}
			}
			break // further ones repeat it
		}
	}
	return plastic, others
}

// has tells whether something of a kind is cut.
func (w writer) has(k cut.Kind) bool {
	for _, o := range w.Operations() {
		if o.Kind == k {
			return true
		}
	}
	return false
}

// rectangular tells whether a part is a plain rectangle.
func rectangular(pt part.Part) bool {
	b := pt.Outline.Outer.Box()
	return len(pt.Outline.Outer.Segs) == 4 && math.Abs(math.Abs(pt.Outline.Outer.Area())-b.W()*b.H()) < 1e-6*b.W()*b.H()
}

// fold is the sharpest fold of all scores.
func (w writer) fold() float64 {
	most := 0.0
	for _, f := range w.Layout.Folds {
		most = math.Max(most, math.Abs(f.Theta))
	}
	return most
}

// tightest writes the smallest radius of the edge, "" for one that is straight.
func (w writer) tightest() string {
	k, _ := w.Edge.Tightest()
	if k < 1e-9 {
		return ""
	}
	return w.mm(1 / k)
}

// listed joins words as a sentence does.
func listed(words []string) string {
	n := len(words) - 1
	if n < 1 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:n], ", ") + " and " + words[n]
}
