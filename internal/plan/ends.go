package plan

import (
	"math"

	"springrib/internal/form"
	"springrib/internal/plane"
	"springrib/internal/surface"
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
func (p *Plan) Straight(e End, s float64) plane.Point {
	st := p.Section.Edge.At(e.From)
	return st.P.Add(st.Tangent().Mul(p.Scores.places.U(s) - p.Scores.places.U(e.From)))
}

// Off returns the place of the curve at which an end stands off most, and the place of the
// panel square above it.
func (p *Plan) Off(e End) (curve, panel plane.Point) {
	st, at := p.Section.Edge.At(e.From), p.Section.Edge.At(e.At).P
	return at, st.P.Add(st.Tangent().Mul(at.Sub(st.P).Dot(st.Tangent())))
}

// panelStart and panelEnd return the arc lengths under the panel's ends, kept to the edge.
func (p *Plan) panelStart() float64 { return math.Max(0, p.Scores.places.S(p.Outline.From)) }

func (p *Plan) panelEnd() float64 {
	return math.Min(p.Section.Edge.Length(), p.Scores.places.S(p.Outline.To))
}

// held returns the arc lengths between which some rib holds the panel.
func (p *Plan) held() (start, end float64) {
	start, end = math.Inf(1), math.Inf(-1)
	for _, s := range p.Supports.All {
		start, end = math.Min(start, s.Task.Start), math.Max(end, s.Task.End)
	}
	return start, end
}

// freeEnds finds how the panel's ends stand off. A rib holds the panel over all of its
// width as far as it hangs together along the scores: the sheet is many times stiffer
// along them than across. What no rib reaches so is an end, or a prong beside the ribs.
func (p *Plan) freeEnds() {
	start, end := p.held()
	p.Supports.FootEnd, p.Supports.TipEnd = p.strays(start, p.panelStart()), p.strays(end, p.panelEnd())
	if !p.Section.Closed {
		p.freeProngs()
	}
}

// strays returns what comes of the panel running on straight from arc length s to its
// end at e.
func (p *Plan) strays(s, e float64) End {
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

// over tells whether an end stands off by more than is accepted.
func (p *Plan) over(e End) bool { return e.Gap > p.V.Rib.EndGap*(1+1e-6) }

// Over tells the same of the panel's foot and tip.
func (p *Plan) Over() (foot, tip bool) { return p.over(p.Supports.FootEnd), p.over(p.Supports.TipEnd) }

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
func (p *Plan) freeProngs() {
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
	foot, tip := p.panelStart(), p.panelEnd()
	for i := range at {
		for _, q := range all[i] {
			if math.IsNaN(q.roots[0]) == math.IsNaN(q.roots[1]) {
				continue
			}
			if s := math.Min(tip, at[min(i+1, len(at)-1)]); !math.IsNaN(q.roots[0]) && (q.roots[0] != p.Supports.TipEnd.From || s > p.Supports.TipEnd.To) {
				p.Supports.TipEnd = worse(p.Supports.TipEnd, p.strays(q.roots[0], s))
			}
			if s := math.Max(foot, at[max(i-1, 0)]); !math.IsNaN(q.roots[1]) && (q.roots[1] != p.Supports.FootEnd.From || s < p.Supports.FootEnd.To) {
				p.Supports.FootEnd = worse(p.Supports.FootEnd, p.strays(q.roots[1], s))
			}
		}
	}
}

// prongAt returns the material between two places across at arc length s.
func (p *Plan) prongAt(s, lo, hi float64) prong {
	q := prong{lo: lo, hi: hi, from: math.Inf(1), to: math.Inf(-1), roots: [2]float64{math.NaN(), math.NaN()}}
	for _, r := range p.Supports.All {
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

// lies returns the panel as it lies: folded where ribs hold it, straight past them, along
// the rib's edge where that ends.
func (p *Plan) lies() surface.Strip {
	start, end := p.held()
	out := p.Panel.Strip
	if p.strays(start, p.panelStart()).Bent == 0 && p.strays(end, p.panelEnd()).Bent == 0 {
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
