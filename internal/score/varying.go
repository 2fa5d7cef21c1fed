package score

import (
	"math"

	"springrib/internal/solve"
)

// sampled is at how many places of a run the spacing is solved for where it changes with more than
// the curvature; between them it runs smoothly.
const sampled = 16

// at returns the limits at arc length s.
func (t *Task) at(s, k float64, sd side) Spacing {
	lim := t.Limits
	lim.Wider = t.wider(s)
	return lim.at(k, sd)
}

// places returns the arc lengths within a run at which its spacing is solved for.
func (r *run) places() []float64 {
	out := make([]float64, sampled+1)
	for i := range out {
		out[i] = (r.st.End - r.st.Start) * float64(i) / sampled
	}
	return out
}

// closest returns the spacing wanted where it is least in a run.
func (b *builder) closest(r *run) Spacing {
	k, s := r.st.Shape.Tightest()
	out := b.task.at(r.st.Start+s, k, r.side)
	if b.task.Wider == nil {
		return out
	}
	for _, s := range r.places() {
		if sp := b.task.at(r.st.Start+s, math.Abs(r.st.Shape.Kappa(s)), r.side); sp.Pitch < out.Pitch || !sp.Reached && out.Reached {
			out = sp
		}
	}
	return out
}

// varying returns the spacing along a run whose scores run apart by more in one place than in
// another.
func (b *builder) varying(r *run) func(s, k float64) Spacing {
	x := r.places()
	lnp, ds := make([]float64, len(x)), make([]float64, len(x))
	var last Spacing
	for i, s := range x {
		k := math.Abs(r.st.Shape.Kappa(s))
		if i == 0 || k != math.Abs(r.st.Shape.Kappa(x[i-1])) || b.task.wider(r.st.Start+s) != b.task.wider(r.st.Start+x[i-1]) {
			last = b.task.at(r.st.Start+s, k, r.side)
		}
		lnp[i], ds[i] = math.Log(last.Pitch), last.D
	}
	p, d := newMonotone(x, lnp), newMonotone(x, ds)
	return func(s, _ float64) Spacing {
		return Spacing{Pitch: solve.Exp(p.at(s - r.st.Start)), D: d.at(s - r.st.Start), Bound: last.Bound, Reached: true}
	}
}
