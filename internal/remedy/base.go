package remedy

import (
	"math"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/plan"
	"springrib/internal/stand"
)

func footOf(row int) string { return "rib.places." + num(row) + ".foot" }

func giveTenons(p *plan.Plan, _ *finding.Finding) []finding.Remedy {
	r := set("Give the ribs tenons", "rib.foot", design.Tenon)
	for _, s := range p.Supports.All {
		if s.Row >= 0 {
			r.Set[footOf(s.Row)] = "" // as all ribs
		}
	}
	return []finding.Remedy{r}
}

// feetTogether takes the tenons from ribs that do not reach the base, or the greatest
// number of ribs that spread over the panel all start at one place of the curve.
func feetTogether(p *plan.Plan, _ *finding.Finding) []finding.Remedy {
	start := p.Supports.All[p.Supports.Longest].Task.Start
	plain := set("Give only those that reach it a tenon")
	for _, s := range p.Supports.All {
		if s.Foot == design.Tenon && s.Row >= 0 && math.Abs(s.Task.Start-start) > stand.Seat {
			plain.Set[footOf(s.Row)] = design.Plain
		}
	}
	if len(plain.Set) > 0 {
		return []finding.Remedy{plain}
	}
	for n := p.V.Rib.Quantity - 1; n >= 1; n-- {
		ribs := p.V.Rib
		ribs.Quantity = n
		q := withRibs(p, ribs)
		if q == nil {
			continue
		}
		lo, hi, narrow := math.Inf(1), math.Inf(-1), false
		for _, s := range q.Supports.All {
			lo, hi, narrow = math.Min(lo, s.Task.Start), math.Max(hi, s.Task.Start), narrow || s.Narrow
		}
		if narrow || hi-lo > stand.Seat {
			continue
		}
		text := "Use " + num(n) + " ribs"
		if n == 1 {
			text = "Use one rib"
		}
		return one(text, "rib.quantity", num(n))
	}
	return nil
}

// narrowerTenon leaves shoulders as wide as the rib is thick, or half of that.
func narrowerTenon(p *plan.Plan, _ *finding.Finding) []finding.Remedy {
	r := p.V.Rib
	if r.Foot == design.Plain { // then the width is not asked for
		return nil
	}
	for _, shoulders := range []float64{2, 1} {
		if w := math.Floor(10*(r.FootDepth-shoulders*r.Thickness)+1e-9) / 10; w >= 1 {
			return stubWidth(p, w)
		}
	}
	return nil
}

func stubWidth(p *plan.Plan, w float64) []finding.Remedy {
	return one("Make it "+mm(p, w)+" wide", "rib.stubWidth", bare(p, w))
}

// roomier sets panels of a row further apart, makes a ring larger, or stands fewer on it.
func roomier(p *plan.Plan, f *finding.Finding) []finding.Remedy {
	var out []finding.Remedy
	b, s := p.V.Base, p.Base.One
	switch b.Kind {
	case design.RowBase:
		if pitch, ok := s.RowPitch(b.Pitch.V); ok {
			f.Numbers["pitch"] = pitch
			out = one("Set them "+mm(p, pitch)+" apart", "base.pitch", inMM(pitch))
		}
	case design.RingBase:
		n, radius := p.Base.Copies, f.Numbers["radius"]
		if r, ok := s.RingRadius(radius, n, stand.BaseRoom/2); ok {
			f.Numbers["needed"] = r
			out = one("Make the ring "+mm(p, r)+" in radius", "base.radius", inMM(r))
		}
		for k := n - 1; k >= 2; k-- {
			if t, _ := s.RingMeets(radius, k, 0); !t.OK {
				f.Numbers["copies"] = float64(k)
				return append(out, set("Stand only "+num(k)+" on a base", "base.copies", num(k)))
			}
		}
	}
	return out
}
