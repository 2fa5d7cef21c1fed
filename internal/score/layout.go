package score

import (
	"fmt"
	"math"
	"sort"

	"springrib/internal/curve"
	"springrib/internal/hinge"
	"springrib/internal/plane"
)

// Lay builds the chain of flats and folds for the task. It panics when the edge is
// empty, when no case is given, or when a rule lacks its number.
//
// On a bulging stretch the flats are tangents of the edge at stations s_0..s_N that
// are equal steps of the integral of (1 + k D)/p ds, so that the developed length
// between folds is the spacing p. In a cradle they are chords between such stations:
// their corners, which is what touches there, then lie exactly on the edge, and the
// straight flats at both ends lie flush on theirs. (Tangents shifted inward by
// p^2 k/8 would touch as well along the stretch, but leave the straight ends either
// standing off by that much or biting into the rib by half of it.)
func Lay(t Task) Layout {
	if t.Edge.Length() <= 0 || len(t.Limits.Cases) == 0 {
		panic("score: a task needs an edge and at least one case")
	}
	b := builder{task: t}
	b.runs()
	b.flats()
	b.folds()
	b.states()
	return b.out
}

type builder struct {
	task  Task
	out   Layout
	spans []run

	solved []solved // see builder.at
}

// run is one curved stretch with its stations.
type run struct {
	st    curve.Stretch
	side  side
	pitch func(s, k float64) Spacing // spacing at arc length s of the edge, where that has curvature k
	cum   cumulative                 // integral of (1+kD)/p along the stretch
	n     int

	at     []float64 // see builder.wanted
	wanted []Spacing
	last   [2]float64
}

// bend returns +1 where a stretch bulges to the panel, -1 in a cradle, 0 straight.
func (b *builder) bend(sign int) int {
	if b.task.PanelLeft {
		return -sign
	}
	return sign
}

// turning converts a heading step of the edge to turning in this package's sense.
func (b *builder) turning(dphi float64) float64 {
	if b.task.PanelLeft {
		return -dphi
	}
	return dphi
}

func (b *builder) normal(dir float64) plane.Point {
	n := plane.Dir(dir).Left()
	if !b.task.PanelLeft {
		n = n.Mul(-1)
	}
	return n
}

// runs finds the spacing along each curved stretch and the number of flats in it.
func (b *builder) runs() {
	t := b.task
	for _, st := range t.Edge.Stretches() {
		way := b.bend(st.Sign)
		if way == 0 {
			continue
		}
		sd := side{wraps: way > 0, towards: t.ScoredTowards}
		b.spans = append(b.spans, run{st: st, side: sd})
	}
	b.choosePitch()
	for i := range b.spans {
		r := &b.spans[i]
		r.lay()
		r.n = max(b.least(*r), ceil(r.cum.total()))
	}
	if t.Rule == Count {
		b.spread(t.Number)
	}
	for i := range b.spans {
		if r, m := &b.spans[i], t.Multiple; m > 1 && r.side.wraps {
			r.n = (r.n + m - 1) / m * m
		}
	}
	for i := range b.spans {
		r := &b.spans[i]
		sp, k := b.tightest(r)
		pitch := math.Max(sp.Pitch*r.cum.total()/float64(r.n), leastGap)
		b.settle(r)
		b.out.Runs = append(b.out.Runs, Run{
			Start: r.st.Start, End: r.st.End, Count: r.n, Spacing: sp, Radius: 1 / k,
			Pitch: pitch,
			Wraps: r.side.wraps, Closing: r.side.closes(),
		})
	}
}

// lay finds how many spacings reach each place of a run.
func (r *run) lay() {
	r.cum = newCumulative(r.st, func(s, k float64) float64 {
		sp := r.pitch(r.st.Start+s, k)
		way := 1.0
		if !r.side.wraps {
			way = -1
		}
		return (1 + way*k*sp.D) / sp.Pitch
	})
}

// settle takes a run's spacing as it is laid, in a whole number of flats, where it was the one
// that is wanted: the fibre that keeps its length lies elsewhere among scores closer together.
func (b *builder) settle(r *run) {
	wanted, share := r.pitch, r.cum.total()/float64(r.n)
	if math.Abs(share-1) < 1e-9 {
		return
	}
	law := b.task.Limits.Cases[0].Law
	var last Spacing // along an arc one place is like the next
	from := math.NaN()
	r.pitch = func(s, k float64) Spacing {
		sp := wanted(s, k)
		if sp.Pitch != from {
			from, last = sp.Pitch, sp
			last.Pitch = math.Max(share*sp.Pitch, leastGap)
			last.D = r.side.standIn(law, last.Pitch)
		}
		return last
	}
	r.lay()
}

// least returns the fewest flats of a run: none turns more than sharpest from the last.
// One flat takes a bend up by the folds at its ends; a cradle from end to end of the edge
// has none there, and needs two flats to fold.
func (b *builder) least(r run) int {
	n := 1
	if !r.side.wraps && b.starts(r) && b.ends(r) {
		n = 2
	}
	turn := math.Abs(b.task.Edge.At(r.st.End).Phi - b.task.Edge.At(r.st.Start).Phi)
	return max(n, ceil(turn/sharpest))
}

// starts and ends tell whether a run is the edge's first or last stretch.
func (b *builder) starts(r run) bool { return r.st.Start <= 0 }

func (b *builder) ends(r run) bool { return r.st.End >= b.task.Edge.Length()-1e-9 }

// sharpest is about the most that a flat turns from the last one, rad. Flats that turn
// half round never meet, and no sheet folds nearly as far at one score: where fewer are
// asked for, more are laid.
const sharpest = 2

// leastGap stands for the distance of scores that would fall together or pass each
// other, mm: in a cradle tighter than the neutral line lies off its edge.
const leastGap = 1e-3

func ceil(x float64) int { return int(math.Ceil(x - 1e-9)) }

// choosePitch sets each run's spacing by the rule.
func (b *builder) choosePitch() {
	t := b.task
	fixed := 0.0
	switch t.Rule {
	case Even, Count:
		fixed = math.Inf(1)
		for i := range b.spans {
			fixed = math.Min(fixed, b.closest(&b.spans[i]).Pitch)
		}
	case Pitch:
		if !(t.Pitch > 0) {
			panic(fmt.Sprintf("score: pitch %v", t.Pitch))
		}
		fixed = t.Pitch
	}
	laws := t.Laws
	if laws == nil {
		laws = new(Laws)
	}
	var tables [2]*table    // of the two ways to bend
	var sharpest [2]float64 // greatest curvature either way
	for _, r := range b.spans {
		k, _ := r.st.Shape.Tightest()
		sharpest[r.side.way()] = math.Max(sharpest[r.side.way()], k)
	}
	for i := range b.spans {
		r := &b.spans[i]
		if t.Rule != Follow {
			one := Spacing{Pitch: fixed, D: r.side.standIn(t.Limits.Cases[0].Law, fixed)}
			r.pitch = func(_, _ float64) Spacing { return one }
			continue
		}
		if t.Wider != nil {
			r.pitch = b.varying(r)
			continue
		}
		if k := r.curvature(0.5); k == r.curvature(0) && k == r.curvature(0.25) && k == r.curvature(1) {
			one := b.at(k, t.Limits.Wider, r.side)
			r.pitch = func(_, _ float64) Spacing { return one }
			continue
		}
		way := r.side.way()
		if t.Limits.Wider > 1 {
			r.pitch = func(_, k float64) Spacing { return t.Limits.at(k, r.side) } // tables know one end
			continue
		}
		if tables[way] == nil {
			tables[way] = laws.table(t.Limits, r.side, sharpest[way])
		}
		of := tables[way]
		r.pitch = func(_, k float64) Spacing { return of.at(k) }
	}
}

// curvature returns |kappa| at a fraction of the run.
func (r *run) curvature(f float64) float64 {
	return math.Abs(r.st.Shape.Kappa((r.st.End - r.st.Start) * f))
}

// tightest returns the spacing wanted at the run's tightest place, with what bounds it.
func (b *builder) tightest(r *run) (sp Spacing, k float64) {
	k, s := r.st.Shape.Tightest()
	sp = b.closest(r)
	if b.task.Rule == Follow {
		return sp, k
	}
	if one := r.pitch(r.st.Start+s, k); one.Pitch != sp.Pitch {
		sp.Bound, sp.Pitch, sp.D = ByChoice, one.Pitch, one.D
	}
	return sp, k
}

// spread sets the numbers of flats so that exactly total folds result, or the fewest that
// there can be. Each run gets its share by developed length, and never less than its
// least; the largest remainders round up, the run nearer the foot first. A cradle run has
// one fold more than flats.
func (b *builder) spread(total int) {
	if total < 1 {
		panic(fmt.Sprintf("score: count %d", total))
	}
	// Runs whose share would be less than their least get that, and the others share the
	// rest anew, until there are no more of these.
	left := total - b.extraFolds()
	shared := make([]bool, len(b.spans))
	for i := range shared {
		shared[i] = true
	}
	sum := 0.0
	for again := true; again; {
		again, sum = false, 0
		for i, r := range b.spans {
			if shared[i] {
				sum += r.cum.total()
			}
		}
		all := left
		for i := range b.spans {
			r := &b.spans[i]
			if n := b.least(*r); shared[i] && float64(all)*r.cum.total()/sum < float64(n) {
				shared[i], again = false, true
				r.n = n
				left -= n
			}
		}
	}
	all := left
	rem := make([]float64, len(b.spans))
	for i := range b.spans {
		if !shared[i] {
			continue
		}
		r := &b.spans[i]
		share := float64(all) * r.cum.total() / sum
		r.n = int(share + 1e-9)
		rem[i] = share - float64(r.n)
		left -= r.n
	}
	for ; left > 0; left-- {
		best := -1
		for i := range rem {
			if shared[i] && (best < 0 || rem[i] > rem[best]+1e-12) {
				best = i
			}
		}
		if best < 0 {
			return
		}
		b.spans[best].n++
		rem[best]--
	}
}

// extraFolds counts the folds beyond one a flat: each chain of cradle runs has a
// fold at both of its ends, shared where two cradle runs meet, and none where the edge
// itself starts or ends.
func (b *builder) extraFolds() int {
	extra := 0
	for i, r := range b.spans {
		if r.side.wraps {
			continue
		}
		joined := i > 0 && !b.spans[i-1].side.wraps && b.spans[i-1].st.End == r.st.Start
		switch {
		case b.starts(r):
		case !joined:
			extra++
		}
		if b.ends(r) {
			extra--
		}
	}
	return extra
}

// flats lists the lines of all flats in order.
func (b *builder) flats() {
	next, n := 0, len(b.task.Edge.Stretches())
	for _, r := range b.spans {
		n += r.n
	}
	b.out.Flats = make([]Flat, 0, n)
	for _, st := range b.task.Edge.Stretches() {
		if b.bend(st.Sign) == 0 {
			b.straight(st)
			continue
		}
		r := b.spans[next]
		next++
		if r.side.wraps {
			b.tangent(st.Start, -1, hair)
			for i := 1; i <= r.n; i++ {
				b.tangent(r.station(i), next-1, 1e-12)
			}
			continue
		}
		for i := 1; i <= r.n; i++ {
			b.chord(r.station(i-1), r.station(i), next-1)
		}
	}
}

func (r run) station(i int) float64 {
	if i == 0 {
		return r.st.Start
	}
	if i == r.n {
		return r.st.End
	}
	return r.st.Start + r.cum.inverse(r.cum.total()*float64(i)/float64(r.n))
}

// hair is a turn that no score is cut for, rad: a hundredth of a degree. Pieces of a line
// drawn elsewhere meet as nearly as its file has digits.
const hair = 0.01 * math.Pi / 180

// straight adds a straight of the edge by its own heading, which at its start may differ by
// a hair from that of the bend before: the last flat of that bend is then this line.
func (b *builder) straight(st curve.Stretch) {
	at, dir := b.task.Edge.At(st.Start), b.task.Edge.At((st.Start+st.End)/2).Phi
	if n := len(b.out.Flats); n > 0 {
		last := &b.out.Flats[n-1]
		off := math.Abs(last.Dir - dir)
		switch {
		case last.Chord:
		case off < 1e-12, last.run < 0 && off*(st.End-st.Start) < 5*leastGap:
			return
		case last.run >= 0 && off < hair:
			last.P, last.Dir = at.P, dir
			return
		}
	}
	b.out.Flats = append(b.out.Flats, Flat{P: at.P, Dir: dir, S: st.Start, run: -1})
}

// tangent adds the tangent at s unless the last flat is that line already, within a turn.
func (b *builder) tangent(s float64, run int, within float64) {
	st := b.task.Edge.At(s)
	if n := len(b.out.Flats); n > 0 {
		last := b.out.Flats[n-1]
		if !last.Chord && math.Abs(last.Dir-st.Phi) < within {
			return
		}
	}
	b.out.Flats = append(b.out.Flats, Flat{P: st.P, Dir: st.Phi, S: s, run: run})
}

func (b *builder) chord(s0, s1 float64, run int) {
	a, c := b.task.Edge.At(s0), b.task.Edge.At(s1)
	v := c.P.Sub(a.P)
	mean := (a.Phi + c.Phi) / 2
	dir := mean + math.Remainder(math.Atan2(v.Y, v.X)-mean, 2*math.Pi)
	b.out.Flats = append(b.out.Flats, Flat{P: a.P, Dir: dir, S: s0, Chord: true, run: run})
}

// folds intersects neighbouring flats, shifted to the fibre each fold pivots about,
// and sums the developed length along the way.
func (b *builder) folds() {
	fl := b.out.Flats
	fl[0].U = 0
	b.out.Folds = make([]Fold, 0, len(fl)-1)
	for i := 0; i+1 < len(fl); i++ {
		p, q := &fl[i], &fl[i+1]
		d := b.standIn(*p, *q)
		np, nq := b.normal(p.Dir), b.normal(q.Dir)
		tp, tq := plane.Dir(p.Dir), plane.Dir(q.Dir)
		o, e := p.P.Add(np.Mul(d)), q.P.Add(nq.Mul(d))
		along := e.Sub(o).Cross(tq) / tp.Cross(tq)
		pivot := o.Add(tp.Mul(along))
		u := p.U + along
		q.U = u + e.Sub(pivot).Dot(tq)
		b.out.Folds = append(b.out.Folds, Fold{
			U: u, S: b.task.Edge.Nearest(pivot, (p.S+q.S)/2),
			Theta: b.turning(q.Dir - p.Dir), D: d, Pivot: pivot,
		})
	}
	last := fl[len(fl)-1]
	end := b.task.Edge.At(b.task.Edge.Length())
	b.out.Length = last.U + end.P.Sub(last.P).Dot(plane.Dir(last.Dir))
}

// standIn returns D for the fold between flats p and q, which turn within a run: q's
// when q is a station or chord of one, else p's. Where the edge has a kink between
// two straights there is no run, and the fold pivots as an isolated score does.
func (b *builder) standIn(p, q Flat) float64 {
	n := q.run
	if n < 0 {
		n = p.run
	}
	if n < 0 {
		law := b.task.Limits.Cases[0].Law
		return side{towards: b.task.ScoredTowards}.standIn(law, math.Inf(1))
	}
	r := b.spans[n]
	if p.Chord && q.Chord && p.run != q.run {
		// The corner is the joint itself and belongs to both, from whichever end one comes.
		o := b.spans[p.run]
		return (o.pitch(o.st.End, o.curvature(1)).D + r.pitch(r.st.Start, r.curvature(0)).D) / 2
	}
	mid := clamp((p.S+q.S)/2, r.st.Start, r.st.End)
	return r.pitch(mid, math.Abs(r.st.Shape.Kappa(mid-r.st.Start))).D
}

// At returns the developed place of the edge's arc length s: its foot on the flat that
// lies on or over it there, from that flat's fold to the next.
func (l Layout) At(edge curve.Curve, s float64) float64 {
	i := sort.Search(len(l.Folds), func(i int) bool { return l.Folds[i].S >= s })
	f := l.Flats[i]
	return f.U + edge.At(s).P.Sub(f.P).Dot(plane.Dir(f.Dir))
}

func clamp(x, lo, hi float64) float64 { return math.Max(lo, math.Min(hi, x)) }

// same tells whether two figures of neighbouring scores differ by no more than the
// rounding of where the scores lie. One of them may be infinite.
func same(a, b float64) bool {
	return a == b || math.Abs(a-b) <= 1e-9*math.Min(math.Abs(a), math.Abs(b))
}

// states works out what each fold does to the panel, from its true neighbours.
// A neighbour across a straight end is infinitely far.
func (b *builder) states() {
	law := b.task.Limits.Cases[0].Law
	fs := b.out.Folds
	var right hinge.Side
	worked := -1 // the fold whose left is known by right
	for i := range fs {
		f := &fs[i]
		f.Left, f.Right = math.Inf(1), math.Inf(1)
		if i > 0 {
			f.Left = math.Max(f.U-fs[i-1].U, leastGap)
		}
		if i+1 < len(fs) {
			f.Right = math.Max(fs[i+1].U-f.U, leastGap)
		}
		f.Wider = b.task.wider(f.S)
		f.Closing = side{f.Theta > 0, b.task.ScoredTowards}.closes()
		if i > 0 && same(math.Abs(f.Theta), math.Abs(fs[i-1].Theta)) && same(f.Left, fs[i-1].Left) && same(f.Right, fs[i-1].Right) {
			f.State = fs[i-1].State // along an arc one score is like the next
			continue
		}
		left := right // what the fold before has on its right
		if worked != i || f.Left != fs[i-1].Right {
			left = law.Beside(f.Left)
		}
		right = left
		if f.Right != f.Left {
			right = law.Beside(f.Right)
		}
		f.State = law.FoldBetween(math.Abs(f.Theta), left, right, false)
		worked = i + 1
	}
}
