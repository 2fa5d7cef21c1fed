package support

import (
	"math"

	"springrib/internal/plane"
)

// End is an end of the panel past the last rib that reaches it. No rib holds it to the
// curve there, so it runs on straight, as it left that rib.
type End struct {
	From float64 // arc length where the last rib ends
	To   float64 // arc length that the panel's end was to lie over
	Free float64 // between them
	Bent float64 // how much of that is curved, and so stands off
	Gap  float64 // how far the panel stands off its curve there, square to it, at most
	At   float64 // arc length of that place
}

// Straight returns where the contact face of a straight end lies that was to lie at arc
// length s: as far on as the flat panel is long there.
func (p *Task) Straight(e End, s float64) plane.Point {
	st := p.Section.Edge.At(e.From)
	return st.P.Add(st.Tangent().Mul(p.Places.U(s) - p.Places.U(e.From)))
}

// Off returns the place of the curve at which an end stands off most, and the place of the
// panel square above it.
func (p *Task) Off(e End) (curve, panel plane.Point) {
	st, at := p.Section.Edge.At(e.From), p.Section.Edge.At(e.At).P
	return at, st.P.Add(st.Tangent().Mul(at.Sub(st.P).Dot(st.Tangent())))
}

// PanelStart and panelEnd return the arc lengths under the panel's ends, kept to the edge.
func (p *Task) PanelStart() float64 { return math.Max(0, p.Places.S(p.Outline.From)) }

func (p *Task) PanelEnd() float64 {
	return math.Min(p.Section.Edge.Length(), p.Places.S(p.Outline.To))
}

// Held returns the arc lengths between which some rib holds the panel.
func Held(ribs []Support) (start, end float64) {
	start, end = math.Inf(1), math.Inf(-1)
	for _, s := range ribs {
		start, end = math.Min(start, s.Task.Start), math.Max(end, s.Task.End)
	}
	return start, end
}

// freeEnds finds how the panel's ends stand off. A rib holds the panel over all of its
// width as far as it hangs together along the scores: the sheet is many times stiffer
// along them than across. What no rib reaches so is an end, or a prong beside the ribs.
func (p *making) freeEnds() {
	start, end := Held(p.out.All)
	p.out.FootEnd, p.out.TipEnd = p.Strays(start, p.PanelStart()), p.Strays(end, p.PanelEnd())
	if !p.Section.Closed {
		p.freeProngs()
	}
}

// Strays returns what comes of the panel running on straight from arc length s to its
// end at e.
func (p *Task) Strays(s, e float64) End {
	out := End{From: s, To: e, Free: math.Abs(e - s), At: e}
	if p.Section.Closed { // a former lies under all of the panel
		return End{}
	}
	st := p.Section.Edge.At(s)
	square := st.Tangent().Left()
	off := func(at float64) {
		if gap := math.Abs(p.Section.Edge.At(at).P.Sub(st.P).Dot(square)); gap > out.Gap {
			out.Gap, out.At = gap, at
		}
	}
	lo, hi := math.Min(s, e), math.Max(s, e)
	for _, st := range p.Section.Edge.Stretches() {
		a, b := math.Max(lo, st.Start), math.Min(hi, st.End)
		if b <= a || st.Sign == 0 {
			continue
		}
		out.Bent += b - a
		for k := range 4 { // a curve that bends back may come near its end again
			off(a + (b-a)*float64(k)/4)
		}
	}
	if out.Bent > 0 {
		off(e)
	}
	return out
}

// TooFar tells whether an end stands off by more than is accepted.
func (p *Task) TooFar(e End) bool { return e.Gap > p.Values.Rib.EndGap*(1+1e-6) }

// prong is a run of material along one ruling. Ribs lie under it from and to these arc
// lengths, or none does. Roots are where what it hangs on toward foot and tip ends to be
// held; NaN where it hangs on nothing that is.
type prong struct {
	lo, hi   float64
	held     bool
	from, to float64
	roots    [2]float64
}

// leastProng is the width of a prong that counts, mm: less lies within what an outline is
// fitted in.
const leastProng = 0.5

// freeProngs looks for prongs of the panel that no rib lies under, and takes the worst of
// them for the panel's ends. One that is held at both its ends lies where it should.
func (p *making) freeProngs() {
	at := p.Across.S
	all := make([][]prong, len(at))
	bare := false
	for i, s := range at {
		for _, span := range p.Across.Spans[i] {
			if span.Len() > leastProng && !span.Graze {
				all[i] = append(all[i], p.prongAt(s, -span.To, -span.From))
				bare = bare || !all[i][len(all[i])-1].held
			}
		}
	}
	if !bare {
		return
	}
	for i := 1; i < len(at); i++ {
		hang(all[i], all[i-1], 0, func(o prong) float64 { return clamp(o.to, at[i-1], at[i]) })
	}
	for i := len(at) - 2; i >= 0; i-- {
		hang(all[i], all[i+1], 1, func(o prong) float64 { return clamp(o.from, at[i], at[i+1]) })
	}
	// Of those that hang on one place the furthest out stands off most.
	foot, tip := p.PanelStart(), p.PanelEnd()
	for i := range at {
		for _, q := range all[i] {
			if math.IsNaN(q.roots[0]) == math.IsNaN(q.roots[1]) {
				continue
			}
			if s := math.Min(tip, at[min(i+1, len(at)-1)]); !math.IsNaN(q.roots[0]) && (q.roots[0] != p.out.TipEnd.From || s > p.out.TipEnd.To) {
				p.out.TipEnd = worse(p.out.TipEnd, p.Strays(q.roots[0], s))
			}
			if s := math.Max(foot, at[max(i-1, 0)]); !math.IsNaN(q.roots[1]) && (q.roots[1] != p.out.FootEnd.From || s < p.out.FootEnd.To) {
				p.out.FootEnd = worse(p.out.FootEnd, p.Strays(q.roots[1], s))
			}
		}
	}
}

// prongAt returns the material between two places across at arc length s.
func (p *making) prongAt(s, lo, hi float64) prong {
	q := prong{lo: lo, hi: hi, from: math.Inf(1), to: math.Inf(-1), roots: [2]float64{math.NaN(), math.NaN()}}
	for _, r := range p.out.All {
		if half := r.Thickness / 2; r.Across+half < lo || r.Across-half > hi || s < r.Task.Start || s > r.Task.End {
			continue
		}
		q.held, q.from, q.to = true, math.Min(q.from, r.Task.Start), math.Max(q.to, r.Task.End)
	}
	return q
}

// hang finds the roots toward one side of prongs whose neighbours on that side are known:
// of several the nearest counts. A prong that is held has none.
func hang(prongs, beside []prong, side int, end func(prong) float64) {
	for i := range prongs {
		q := &prongs[i]
		for _, o := range beside {
			if q.held || math.Min(q.hi, o.hi) <= math.Max(q.lo, o.lo) {
				continue
			}
			root := o.roots[side]
			if o.held {
				root = end(o)
			}
			if math.IsNaN(q.roots[side]) || (root > q.roots[side]) == (side == 0) && !math.IsNaN(root) {
				q.roots[side] = root
			}
		}
	}
}

func clamp(x, lo, hi float64) float64 { return math.Max(lo, math.Min(hi, x)) }

// worse returns the end that stands off more.
func worse(a, b End) End {
	if b.Gap > a.Gap+1e-9 {
		return b
	}
	return a
}
