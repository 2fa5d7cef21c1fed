package support

import (
	"math"
	"sort"

	"springrib/internal/design"
	"springrib/internal/outline"
	"springrib/internal/plane"
)

// ribPlaces returns the ribs in order across the panel. Without places of their own they
// stand where the panel is: one in its middle, or nearest to there where it reaches both
// ends of the panel; several in the middles of equal parts of its width, of which one
// moves within its part where none reaches the ends.
//
// A rib never follows a slanted middle. A line that climbs by k across for each millimetre
// along lies at (X(s), Z(s), k s) once the panel is bent. It lies in a plane only where
// a X + b Z + c s is the same for all s; differentiated, where the tangent (X', Z') has the
// same product with (a, b) everywhere, so along straights only, not round a bend. A flat rib
// on such a line, tilted as well as can be, would stand off by 0.3 mm at a slant of 1 in 10 round
// 90 degrees of 100 mm radius, and its edge would meet the panel at that slant.
func (p *Task) ribPlaces() []design.RibPlaceValues {
	out := append([]design.RibPlaceValues{}, p.Values.Rib.Places...)
	if len(out) == 0 {
		for _, across := range p.ribsApart(p.Values.Rib.Quantity) {
			out = append(out, p.OpenRib(across))
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return out[i].Across < out[j].Across })
	return out
}

// OpenRib is a rib at a place across of which nothing else was typed.
func (p *Task) OpenRib(across float64) design.RibPlaceValues {
	r := p.Values.Rib
	return design.RibPlaceValues{Row: -1, Across: across, Stock: r.Stock, StockAt: r.StockAt, Thickness: r.Thickness, E: r.E, MOR: r.MOR, Foot: r.Foot}
}

// ribsApart returns the places of ribs that have none of their own.
func (p *Task) ribsApart(n int) []float64 {
	if p.Section.Ruled() {
		return p.ringsApart(n)
	}
	b, t := p.Outline.Region.Box(), p.Values.Rib.Thickness
	if n == 1 {
		middle := p.Middle()
		if !p.Section.Closed && !p.mirrored() {
			if at, ok := p.bestPlace(b.Min.Y, b.Max.Y, middle, t); ok {
				middle = at.across
			}
		}
		return []float64{middle}
	}
	out, part := make([]float64, n), b.H()/float64(n)
	for i := range out {
		out[i] = b.Min.Y + part*(float64(i)+0.5)
	}
	if p.Section.Closed || p.mirrored() {
		return out
	}
	over := func(r ranked) bool { return r.over > 0 }
	best, move := ranked{over: math.MaxInt}, -1
	for i, across := range out {
		if rs := p.rank([]float64{across}, across, t); len(rs) > 0 && !over(rs[0]) {
			return out
		}
		if at, ok := p.bestPlace(b.Min.Y+part*float64(i), b.Min.Y+part*float64(i+1), across, t); ok && (move < 0 || at.before(best)) {
			best, move = at, i
		}
	}
	if move >= 0 {
		out[move] = best.across
	}
	return out
}

// Middle is where one rib stands for choice: the line that the outline is given from,
// unless that lies outside the middle half of the panel and nobody put it there.
func (p *Task) Middle() float64 {
	b := p.Outline.Region.Box()
	if q := b.H() / 4; p.Values.Panel.Across == 0 && (b.Min.Y+q > 0 || b.Max.Y-q < 0) {
		return b.Centre().Y
	}
	return 0
}

// mirrored tells whether the panel is the same on both sides of its middle: then so are its
// ribs.
func (p *Task) mirrored() bool {
	if s := p.Values.Panel.Shape; s != design.Polygon && s != design.Drawn && p.Values.Panel.Edges != "one" {
		return true // by the way it is made
	}
	c := 2 * p.Outline.Region.Box().Centre().Y
	for _, spans := range p.Across.Spans {
		for i, s := range spans {
			if o := spans[len(spans)-1-i]; math.Abs(s.From+o.To+c) > 2*outline.Tolerance {
				return false
			}
		}
	}
	return true
}

// ranked is a place for a rib and how well it does there, in steps coarse enough that no
// rounding decides: by how much more than accepted the panel's ends stand off past it, in
// hundredths of a millimetre; how much glued straight it lacks, with what of it lies over
// holes, in halves; how far it is from where it would stand for choice, in hundredths.
type ranked struct {
	across          float64
	over, lack, off int
}

func (a ranked) before(b ranked) bool {
	switch {
	case a.over != b.over:
		return a.over < b.over
	case a.lack != b.lack:
		return a.lack < b.lack
	case a.off != b.off:
		return a.off < b.off
	}
	return a.across < b.across
}

// mostPlaces is about how many places across are tried for a rib.
const mostPlaces = 64

// bestPlace looks for the best place for a rib between lo and hi across: of those where it
// does as well the nearest to middle. ok is false where the panel covers it nowhere.
func (p *Task) bestPlace(lo, hi, middle, thickness float64) (best ranked, ok bool) {
	lo, hi = math.Ceil(10*(lo+thickness/2)-1e-6)/10, math.Floor(10*(hi-thickness/2)+1e-6)/10
	step := math.Max(0.5, math.Ceil(2*(hi-lo)/mostPlaces)/2)
	all := []float64{lo, hi}
	for k := math.Ceil((lo - middle) / step); middle+k*step <= hi; k++ {
		all = append(all, middle+k*step)
	}
	if lo > hi {
		return ranked{}, false
	}
	for _, r := range p.rank(all, middle, thickness) {
		if !ok || r.before(best) {
			best, ok = r, true
		}
	}
	return best, ok
}

// rank tells how well one rib alone would do at places across; those where the panel does
// not cover it are left out.
func (p *Task) rank(across []float64, middle, thickness float64) []ranked {
	alone := Support{Share: p.Across.Widths(math.Inf(-1), math.Inf(1))}
	alone.Thickness = thickness
	foot, last := p.Section.Foot(), p.Section.LastBend()
	u := p.pull()
	need := [2]float64{
		u.peelAt(&alone, p.Section.CurvatureAfter(foot), foot, u.bond).Length,
		u.peelAt(&alone, p.Section.CurvatureBefore(last), last, u.bond).Length + ShortOfTip,
	}
	var out []ranked
	for i, r := range p.reaches(across, thickness) {
		start, end := math.Max(0, p.Places.S(r[0])), math.Min(p.Section.Edge.Length(), p.Places.S(r[1]))
		if !(end-start > 1) {
			continue
		}
		over := 0.0
		for _, e := range []End{p.Strays(start, p.PanelStart()), p.Strays(end, p.PanelEnd())} {
			over += math.Max(0, e.Gap-p.Values.Rib.EndGap)
		}
		lack := p.overHoles(across[i], thickness) + math.Max(0, need[0]-math.Max(0, foot-start)) + math.Max(0, need[1]-math.Max(0, end-last))
		out = append(out, ranked{across[i], steps(over, 0.01), steps(lack, 0.5), steps(math.Abs(across[i]-middle), 0.01)})
	}
	return out
}

// overHoles returns how much of a rib's length at a place across lies over holes.
func (p *Task) overHoles(across, thickness float64) float64 {
	sum := 0.0
	for _, h := range p.Outline.Region.Holes {
		if b := h.Box(); b.Max.Y > across-thickness/2 && b.Min.Y < across+thickness/2 {
			sum += b.W()
		}
	}
	return sum
}

func steps(x, step float64) int { return int(math.Round(math.Min(x, 1e6) / step)) }

// Covers returns from where to where along the flat panel a strip of it as wide as the
// rib is thick lies on it: between its first and its last edge, holes and notches
// between them bridged. ok is false where there is no such strip.
func (p *Task) Covers(across, thickness float64) (from, to float64, ok bool) {
	r := p.reaches([]float64{across}, thickness)[0]
	return r[0], r[1], r[1]-r[0] > 1
}

// reaches is Covers at several places.
func (p *Task) reaches(across []float64, thickness float64) [][2]float64 {
	sides := []float64{-thickness / 2, 0, thickness / 2}
	if thickness == 0 {
		sides = sides[1:2]
	}
	var lines []float64
	for _, a := range across {
		for _, s := range sides {
			lines = append(lines, a+s)
		}
	}
	out := make([][2]float64, len(across))
	for i := range out {
		out[i] = [2]float64{math.Inf(-1), math.Inf(1)}
	}
	outer := plane.Region{Outer: p.Outline.Region.Outer}
	for i, spans := range outer.ClipLines(plane.Pt(0, 0), plane.Pt(1, 0), lines) {
		first, last := math.Inf(1), math.Inf(-1)
		for _, s := range spans {
			// A rib may stand flush with a straight side, which is a graze.
			if s.Len() > 1e-9 {
				first, last = math.Min(first, s.From), math.Max(last, s.To)
			}
		}
		r := &out[i/len(sides)]
		r[0], r[1] = math.Max(r[0], first), math.Min(r[1], last)
	}
	return out
}
