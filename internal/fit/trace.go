package fit

import (
	"math"

	"springrib/internal/plane"
)

// sampled is a smooth part of a source as dense points and unit tangents.
type sampled struct {
	p, t      []plane.Point
	node      []bool         // pieces may end here
	middle    []bool         // of a polyline: the middle of an edge
	exact     *plane.Segment // set when the part is this line or arc
	polygonal bool           // the polyline through p is the curve itself
}

func (s *sampled) add(p, t plane.Point, node, middle bool) {
	s.p, s.t = append(s.p, p), append(s.t, t)
	s.node, s.middle = append(s.node, node), append(s.middle, middle)
}

// Thresholds of sampling. samplesTurn and sampleSlack bound what a curve does between two
// samples.
const (
	// samplesTurn is the cosine of what the source turns through between two samples, at
	// the most: 20 degrees.
	samplesTurn = 0.94
	// nearSamples is the step, over the tolerance, that is not halved again: whatever the
	// curve does in it stays within a sixteenth.
	nearSamples = 1.0 / 16
	// mostHalvings of one step, for what is no smooth curve.
	mostHalvings = 12
	// An exact line has exactSteps, and an arc one more for each exactTurn, rad.
	exactSteps, exactTurn = 8, 0.1
	// gradedFrom is how many times as long as its neighbour across a joint a step is cut.
	gradedFrom = 3
)

// sampleStretch samples s so densely that the cubic through two neighbours with their
// tangents is within sampleSlack of tol of the curve and turns by less than samplesTurn; what a
// fitted curve does between samples can then be judged from the samples.
// It starts from n even steps of the parameter.
func sampleStretch(s plane.Stretch, tol float64, n int) sampled {
	out := sampled{exact: s.Exact}
	p0, t0 := s.End(0)
	p1, t1 := s.End(1)
	out.add(p0, t0, true, false)
	if s.Exact != nil {
		n = exactSteps + int(math.Abs(s.Exact.Sweep())/exactTurn)
	}
	at := func(i int) (plane.Point, plane.Point) {
		switch i {
		case 0:
			return p0, t0
		case n:
			return p1, t1
		}
		p, d := s.At(float64(i) / float64(n))
		return p, d.Unit()
	}
	pa, ta := p0, t0
	for i := range n {
		pb, tb := at(i + 1)
		out.refine(s, float64(i)/float64(n), float64(i+1)/float64(n), pa, ta, pb, tb, tol, mostHalvings)
		pa, ta = pb, tb
	}
	return out
}

// refine appends samples of s after t0 up to t1.
func (o *sampled) refine(s plane.Stretch, t0, t1 float64, p0, d0, p1, d1 plane.Point, tol float64, depth int) {
	m := (t0 + t1) / 2
	pm, dm := s.At(m)
	dm = dm.Unit()
	chord := p0.Dist(p1)
	// The middle of the cubic with handles of a third of the chord.
	mid := p0.Lerp(p1, 0.5).Add(d0.Sub(d1).Mul(chord / 8))
	off := math.Abs(pm.Sub(mid).Cross(dm))
	if depth == 0 || chord < nearSamples*tol || off <= sampleSlack*tol && d0.Dot(d1) > samplesTurn {
		if s.Exact == nil {
			o.add(pm, dm, true, false)
		}
		o.add(p1, d1, true, false)
		return
	}
	o.refine(s, t0, m, p0, d0, pm, dm, tol, depth-1)
	o.refine(s, m, t1, pm, dm, p1, d1, tol, depth-1)
}

// samplesOf samples the parts of src in order. Chains of three and more lines in a
// path are taken for a sampled curve.
func samplesOf(src plane.Source, tol float64, n int) []sampled {
	switch s := src.(type) {
	case pointsSource:
		return s.smooth(tol, n)
	case plane.Path:
		return pathSamples(s, tol, n)
	case plane.Joined: // each part as it is sampled alone
		var out []sampled
		for _, p := range s.Parts {
			out = append(out, samplesOf(p, tol, n)...)
		}
		return out
	}
	return samplesOfStretches(src.Stretches(), tol, n)
}

func samplesOfStretches(ss []plane.Stretch, tol float64, n int) []sampled {
	var out []sampled
	for _, s := range ss {
		out = append(out, sampleStretch(s, tol, n))
	}
	return out
}

func pathSamples(p plane.Path, tol float64, n int) []sampled {
	var out []sampled
	for i := 0; i < len(p.Segs); {
		k := i
		pts := []plane.Point{p.Segs[i].A}
		for ; k < len(p.Segs) && p.Segs[k].Kind == plane.Line; k++ {
			pts = append(pts, p.Segs[k].B)
		}
		switch closed := p.Closed && k-i == len(p.Segs); {
		case k-i >= 3 && len(withoutRepeats(pts, closed)) > 1:
			out = append(out, Points(pts, closed).(pointsSource).smooth(tol, n)...)
			i = k
		default:
			one := plane.Path{Segs: p.Segs[i : i+1]}
			out = append(out, samplesOfStretches(one.Stretches(), tol, n)...)
			i++
		}
	}
	return out
}

// run is a stretch of the source without corners inside, sampled.
type run struct {
	p, t      []plane.Point
	s         []float64 // arc length from the start
	turned    []float64 // turning from the start, taken without sign
	nodes     []int     // indices of p where pieces may end, first and last included
	natural   []int     // those where parts of the source join
	exact     []exactPart
	cyclic    bool   // ends where it begins, without a corner
	polygonal []bool // the sample belongs to a polyline that is the curve itself
	middle    []bool // and is the middle of an edge
}

// bulges reports whether a fitted curve may stand off farther on either side of
// sample i than at it: always between samples of a curve, and along the edges of a
// polyline that aren't near straight, which have their middles sampled.
func (r *run) bulges(i int) bool { return !r.polygonal[i] || r.middle[i] }

// bulge bounds how much farther than at sample i a fitted curve may stand off next to
// it, from the deviations before, at and after it: by the parabola through them, an
// eighth of its second derivative times the square of the longer step.
func (r *run) bulge(i int, before, at, after float64) float64 {
	h0, h1 := r.s[i]-r.s[i-1], r.s[i+1]-r.s[i]
	if !r.bulges(i) || h0 == 0 || h1 == 0 {
		return 0
	}
	h := max(h0, h1)
	return math.Abs((after-at)/h1-(at-before)/h0) / (h0 + h1) * h * h / 4
}

// exactPart says that samples i to j are this line or arc.
type exactPart struct {
	i, j int
	seg  plane.Segment
}

// runsOf joins the parts of src where the direction jumps by no more than kink.
func runsOf(src plane.Source, tol, kink float64, n int) []*run {
	parts := samplesOf(src, tol, n)
	if len(parts) == 0 {
		return nil
	}
	n = len(parts)
	for i := range parts {
		if k := (i + 1) % n; k != i && (k > 0 || src.Loop()) {
			parts[i], parts[k] = grade(parts[i], parts[k])
		}
	}
	cornerAfter := make([]bool, n) // between part i and the next
	first := -1
	for i := range parts {
		next := parts[(i+1)%n]
		cornerAfter[i] = angleBetween(parts[i].t[len(parts[i].t)-1], next.t[0]) > kink
		if i == n-1 && !src.Loop() {
			cornerAfter[i] = true
		}
		if cornerAfter[i] {
			first = i // the last corner: begin after it
		}
	}
	if first < 0 {
		r := &run{cyclic: true}
		for _, part := range parts {
			r.join(part)
		}
		r.finish()
		return []*run{r}
	}
	var out []*run
	cur := &run{}
	for k := range n {
		i := (first + 1 + k) % n
		cur.join(parts[i])
		if cornerAfter[i] {
			cur.finish()
			out = append(out, cur)
			cur = &run{}
		}
	}
	return out
}

// angleBetween returns the angle between two vectors without sign.
func angleBetween(a, b plane.Point) float64 { return math.Abs(math.Atan2(a.Cross(b), a.Dot(b))) }

// graded returns s with samples put into its first step, at distances from its start
// that double from h on, so that a piece which begins in a finely sampled part and
// ends in this one is watched all along.
func (s sampled) graded(h float64) sampled {
	step := s.p[0].Dist(s.p[1])
	if h <= 0 || step <= gradedFrom*h {
		return s
	}
	out := sampled{exact: s.exact, polygonal: s.polygonal}
	out.add(s.p[0], s.t[0], s.node[0], s.middle[0])
	two := &run{p: s.p[:2], t: s.t[:2], polygonal: []bool{s.polygonal, s.polygonal}}
	for d := 2 * h; d < step/1.5; d *= 2 {
		p, t := two.inside(0, d/step)
		if s.exact != nil {
			u := d / s.exact.Length()
			p, t = s.exact.Point(u), s.exact.Tangent(u)
		}
		out.add(p, t, !s.polygonal, s.polygonal)
	}
	for k := 1; k < len(s.p); k++ {
		out.add(s.p[k], s.t[k], s.node[k], s.middle[k])
	}
	return out
}

// backwards returns s in the opposite order, tangents as they are.
func (s sampled) backwards() sampled {
	out := sampled{polygonal: s.polygonal}
	for k := len(s.p) - 1; k >= 0; k-- {
		out.add(s.p[k], s.t[k].Mul(-1), s.node[k], s.middle[k])
	}
	if s.exact != nil {
		e := s.exact.Reverse()
		out.exact = &e
	}
	return out
}

// grade puts samples into the steps next to the joint of a and b where one is much
// longer than the other.
func grade(a, b sampled) (sampled, sampled) {
	ha, hb := a.p[len(a.p)-2].Dist(a.p[len(a.p)-1]), b.p[0].Dist(b.p[1])
	if hb > gradedFrom*ha {
		b = b.graded(ha)
	}
	if ha > gradedFrom*hb {
		a = a.backwards().graded(hb).backwards()
	}
	return a, b
}

// join appends part to r.
func (r *run) join(part sampled) {
	from := 0
	i := len(r.p)
	if i > 0 {
		i--
		r.t[i] = r.t[i].Add(part.t[0]).Unit()
		r.polygonal[i] = r.polygonal[i] && part.polygonal
		r.natural = append(r.natural, i)
		from = 1
	}
	for k := from; k < len(part.p); k++ {
		if part.node[k] {
			r.nodes = append(r.nodes, len(r.p))
		}
		r.add(part.p[k], part.t[k], part.middle[k], part.polygonal)
	}
	if part.exact != nil {
		r.exact = append(r.exact, exactPart{i, len(r.p) - 1, *part.exact})
	}
}

func (r *run) add(p, t plane.Point, middle, polygonal bool) {
	r.p, r.t = append(r.p, p), append(r.t, t)
	r.middle, r.polygonal = append(r.middle, middle), append(r.polygonal, polygonal)
}

// finish works out lengths and turning.
func (r *run) finish() {
	n := len(r.p)
	r.s, r.turned = make([]float64, n), make([]float64, n)
	for i := 1; i < n; i++ {
		c := r.p[i].Dist(r.p[i-1])
		w := angleBetween(r.t[i-1], r.t[i])
		r.s[i] = r.s[i-1] + c*(1+w*w/24)
		r.turned[i] = r.turned[i-1] + w
	}
	if r.cyclic {
		t := r.t[0].Add(r.t[n-1]).Unit()
		r.t[0], r.t[n-1] = t, t
		r.p[n-1] = r.p[0]
	}
}

// fewSamples is the number of steps under which a piece needs more samples to be
// judged by: a cubic's deviation has up to six lobes.
const fewSamples = 8

// closer returns r between samples i and j, with samples put in between when there
// are few, or when the edges of a polyline are long against the piece: many samples on
// its short edges say nothing about what the piece does along a long one.
func (r *run) closer(i, j int) (*run, int, int) {
	if j-i >= fewSamples && !r.longEdge(i, j) {
		return r, i, j
	}
	out := r.between(i, j, 2*fewSamples/(j-i))
	return out, 0, len(out.p) - 1
}

// longEdge reports whether a step from sample i to j that runs along the edge of a
// polyline is longer than it would be with the fewest samples.
func (r *run) longEdge(i, j int) bool {
	most := (r.s[j] - r.s[i]) / fewSamples
	for k := i; k < j; k++ {
		if r.s[k+1]-r.s[k] > most && r.onEdge(k) {
			return true
		}
	}
	return false
}

// between returns r from sample i to j with each step cut into n, and edges of a polyline
// that are long against the piece into more: along the cubic through two neighbours, or
// along the edge.
func (r *run) between(i, j, n int) *run {
	out := &run{}
	part := (r.s[j] - r.s[i]) / (2 * fewSamples)
	for k := i; k < j; k++ {
		out.add(r.p[k], r.t[k], r.middle[k], r.polygonal[k])
		poly, cut := r.onEdge(k), max(n, 1)
		if long := r.s[k+1] - r.s[k]; poly && long > float64(2*cut)*part {
			cut = int(math.Ceil(long / part))
		}
		for m := 1; m < cut; m++ {
			p, t := r.inside(k, float64(m)/float64(cut))
			out.add(p, t, poly, poly)
		}
	}
	out.add(r.p[j], r.t[j], r.middle[j], r.polygonal[j])
	out.finish()
	return out
}

// onEdge reports whether the step after sample k runs along the edge of a polyline.
func (r *run) onEdge(k int) bool { return r.polygonal[k] || r.polygonal[k+1] }

// inside returns point and tangent at fraction u of the step after sample k.
func (r *run) inside(k int, u float64) (p, t plane.Point) {
	chord := r.p[k+1].Sub(r.p[k])
	if r.onEdge(k) {
		return r.p[k].Lerp(r.p[k+1], u), chord.Unit()
	}
	h := chord.Len() / 3
	seg := plane.CubicSeg(r.p[k], r.p[k].Add(r.t[k].Mul(h)), r.p[k+1].Sub(r.t[k+1].Mul(h)), r.p[k+1])
	return seg.Point(u), seg.Tangent(u)
}

// rotated returns the cyclic run r begun at node k of its nodes.
func (r *run) rotated(k int) *run {
	n := len(r.p) - 1
	shift := r.nodes[k]
	if shift == 0 || shift == n {
		return r
	}
	out := &run{cyclic: true}
	for i := range n + 1 {
		j := (i + shift) % n
		out.add(r.p[j], r.t[j], r.middle[j], r.polygonal[j])
	}
	for i := range len(r.nodes) - 1 {
		out.nodes = append(out.nodes, r.nodes[(i+k)%(len(r.nodes)-1)])
	}
	for i, v := range out.nodes {
		out.nodes[i] = (v - shift + n) % n
	}
	out.nodes = append(out.nodes, n)
	for _, v := range append([]int{0}, r.natural...) {
		if v = (v - shift + n) % n; v > 0 {
			out.natural = append(out.natural, v)
		}
	}
	sortInts(out.natural)
	for _, e := range r.exact {
		i, j := (e.i-shift+n)%n, (e.j-shift+n)%n
		if j == 0 {
			j = n
		}
		if i < j {
			out.exact = append(out.exact, exactPart{i, j, e.seg})
		}
	}
	out.finish()
	return out
}
