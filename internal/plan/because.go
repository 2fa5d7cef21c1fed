package plan

import (
	"strings"

	"springrib/internal/state"
	"springrib/internal/unit"
)

// Because says what a range comes from most: "Depth ±0.1 mm is 70 % of this range."
func (p *Plan) Because(r state.Range) string {
	if len(r.From) == 0 {
		return ""
	}
	first := r.From[0]
	s := p.cause(first.Of) + " makes " + percent(first.Share) + " of this range"
	if len(r.From) > 1 && r.From[1].Share >= 0.1 {
		s += ", " + lower(p.cause(r.From[1].Of)) + " " + percent(r.From[1].Share)
	}
	return s + "."
}

func percent(share float64) string { return unit.Decimal(100*share, 0) + " %" }

func lower(s string) string { return strings.ToLower(s[:1]) + s[1:] }

// cause names a quantity with half its range.
func (p *Plan) cause(q state.Quantity) string {
	mm := func(name string) string { return name + " ±" + unit.LengthFine(p.Half(q), p.V.Units) }
	share := func(name string) string { return name + " (±" + percent(p.Half(q)) + ")" }
	switch q {
	case state.Depth:
		if p.FixedSkin() {
			return mm("The skin left")
		}
		return mm("Depth")
	case state.Width:
		return mm("Width of the score")
	case state.Thickness:
		return mm("Thickness")
	case state.Modulus:
		return share("Stiffness of the sheet")
	case state.Through:
		return share("Softness through the thickness")
	case state.Shear:
		return share("Shear through the thickness")
	case state.Faces:
		return share("Stiffness of the faces")
	}
	return share("The strain that cracks it")
}
