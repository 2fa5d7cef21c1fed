package score

import (
	"math"

	"springrib/internal/solve"
)

// sampled is at how many places of a run the spacing is solved for where it changes with more than
// the curvature; between them it runs smoothly.
const sampled = 8

// solved is the spacing wanted at a curvature, where scores run apart by q.
type solved struct {
	k, q float64
	side side
	is   Spacing
}

// at returns the spacing wanted where the edge has curvature k and scores run apart by q. Corners
// of a box ask the same again, and mirrored ones the same but for rounding.
func (b *builder) at(k, q float64, sd side) Spacing {
	for _, s := range b.solved {
		if same(s.k, k) && same(s.q, q) && s.side == sd {
			return s.is
		}
	}
	lim := b.task.Limits
	lim.Wider = q
	is := lim.at(k, sd)
	b.solved = append(b.solved, solved{k, q, sd, is})
	return is
}

// wanted returns the spacings along a run whose scores run apart by more in one place than in
// another, and the arc lengths in it that they are for.
func (b *builder) wanted(r *run) (at []float64, out []Spacing) {
	if r.wanted == nil {
		for i := range sampled + 1 {
			s := (r.st.End - r.st.Start) * float64(i) / sampled
			k, q := math.Abs(r.st.Shape.Kappa(s)), b.task.wider(r.st.Start+s)
			r.at = append(r.at, s)
			if n := len(r.wanted); n > 0 && k == r.last[0] && q == r.last[1] {
				r.wanted = append(r.wanted, r.wanted[n-1])
				continue
			}
			r.last = [2]float64{k, q}
			r.wanted = append(r.wanted, b.at(k, q, r.side))
		}
	}
	return r.at, r.wanted
}

// closest returns the spacing wanted where it is least in a run.
func (b *builder) closest(r *run) Spacing {
	if b.task.Wider == nil {
		k, _ := r.st.Shape.Tightest()
		return b.at(k, b.task.Limits.Wider, r.side)
	}
	_, all := b.wanted(r)
	out := all[0]
	for _, sp := range all {
		if sp.Pitch < out.Pitch || !sp.Reached && out.Reached {
			out = sp
		}
	}
	return out
}

// varying returns the spacing along such a run.
func (b *builder) varying(r *run) func(s, k float64) Spacing {
	x, all := b.wanted(r)
	lnp, ds := make([]float64, len(x)), make([]float64, len(x))
	for i, sp := range all {
		lnp[i], ds[i] = math.Log(sp.Pitch), sp.D
	}
	p, d := newMonotone(x, lnp), newMonotone(x, ds)
	bound := b.closest(r).Bound
	return func(s, _ float64) Spacing {
		return Spacing{Pitch: solve.Exp(p.at(s - r.st.Start)), D: d.at(s - r.st.Start), Bound: bound, Reached: true}
	}
}
