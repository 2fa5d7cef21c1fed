package part

import (
	"math"
	"slices"

	"springrib/internal/cut"
	"springrib/internal/plane"
	"springrib/internal/stock"
	"springrib/internal/surface"
)

// Segment is one stretch of a score inside the panel.
type Segment struct {
	Score int         // from the foot, from 1
	A, B  plane.Point // where it enters and leaves the material
	// RunA and RunB are where the tool starts and stops: past the edge by the
	// overrun, or less where the material comes again.
	RunA, RunB plane.Point
	// Held is how much of the overrun was given up at the worse end, mm.
	Held float64
}

// Len returns the length in the material.
func (s Segment) Len() float64 { return s.A.Dist(s.B) }

// Graze is a score that runs along an edge or only touches it.
type Graze struct {
	Score int
	At    plane.Point
}

// Panel is the flat piece that bends.
type Panel struct {
	Part
	Segments []Segment
	Stops    []Stop // scores that end short of the edge, not to run into the next
	Grazes   []Graze
	// Outside lists scores whose ruling misses the panel.
	Outside []int
	// Lapped is how many more scores bend the lap of a seam.
	Lapped int
}

// PanelTask says what a panel is made of.
type PanelTask struct {
	ID, Name string
	From     stock.Sheet
	Outline  plane.Region // in flat coordinates: u along X, v along Y, seen from the show face
	Strip    surface.Strip
	Lap      []surface.Ruling // what bends the lap of a seam, flat; numbered after those of Strip
	Overrun  float64          // wanted past each edge, mm
	// Apart is how far overruns of scores that run toward each other keep from the next score, mm;
	// each is shortened to that. 0 for scores that run parallel.
	Apart    float64
	Mirror   bool // the scored face is the other one: draw it from the machine's side
	Quantity int
	Marks    []plane.Path // on the scored face, same coordinates as Outline
	Kerf     float64
}

// NewPanel clips every ruling by the outline and runs it out by the overrun.
//
// Where a score leaves the panel and enters it again - across a hole or a notch - its
// two overruns share the gap between and each stops at the middle of it at the
// latest, so that no overrun ever scores material again.
func NewPanel(t PanelTask) Panel {
	p := Panel{Part: Part{ID: t.ID, Name: t.Name, From: t.From, Outline: t.Outline, Quantity: t.Quantity}}
	lines := clip(t.Outline, slices.Concat(t.Strip.Rulings, t.Lap))
	for i, c := range lines {
		p.score(i+1, c, t.Overrun)
		if t.Apart > 0 {
			p.stopShort(lines, i, t.Apart)
			p.keepApart(lines, i, t.Apart)
		}
	}
	for _, s := range p.Segments {
		p.Work = append(p.Work, Work{Kind: cut.Score, Path: plane.Open(s.RunA, s.RunB), Score: s.Score})
	}
	p.withoutLap(len(t.Strip.Rulings))
	for _, m := range t.Marks {
		p.Work = append(p.Work, Work{Kind: cut.Mark, Path: plane.Tidy(m)})
	}
	p.free(t.Kerf)
	if t.Mirror {
		p.mirror()
	}
	return p
}

// withoutLap counts the scores past the first n, and leaves to Segments those that bend the
// panel into its curve.
func (p *Panel) withoutLap(n int) {
	last := n
	for _, s := range p.Segments {
		if s.Score > last {
			p.Lapped, last = p.Lapped+1, s.Score
		}
	}
	p.Segments = slices.DeleteFunc(p.Segments, func(s Segment) bool { return s.Score > n })
	p.Grazes = slices.DeleteFunc(p.Grazes, func(g Graze) bool { return g.Score > n })
	p.Outside = slices.DeleteFunc(p.Outside, func(i int) bool { return i > n })
}

// clipped is what of a ruling lies in the panel: spans in mm from start along dir.
type clipped struct {
	start, dir plane.Point
	spans      []plane.Span
}

// clip clips all rulings; parallel ones, as a cylinder's are, in one sweep.
func clip(r plane.Region, rulings []surface.Ruling) []clipped {
	if len(rulings) == 0 {
		return nil
	}
	a, b := rulings[0].Flat[0], rulings[0].Flat[1]
	dir := b.Sub(a).Unit()
	offsets := make([]float64, len(rulings))
	parallel := true
	for i, ru := range rulings {
		parallel = parallel && math.Abs(dir.Cross(ru.Flat[1].Sub(ru.Flat[0]).Unit())) < 1e-12
		offsets[i] = ru.Flat[0].Sub(a).Dot(dir.Left())
	}
	out := make([]clipped, len(rulings))
	if parallel {
		for i, spans := range r.ClipLines(a, b, offsets) {
			out[i] = clipped{a.Add(dir.Left().Mul(offsets[i])), dir, spans}
		}
		return out
	}
	for i, ru := range rulings {
		long := ru.Flat[1].Sub(ru.Flat[0])
		out[i] = clipped{start: ru.Flat[0], dir: long.Unit()}
		for _, s := range r.ClipLine(ru.Flat[0], ru.Flat[1]) {
			// Past the apex of a fan the line may meet the panel again: there it is no ruling.
			if s.To > 0 && s.From < long.Len() {
				out[i].spans = append(out[i].spans, s)
			}
		}
	}
	return out
}

// Stop is a score that ends inside the panel, so far short of its edge, mm.
type Stop struct {
	Score int
	Short float64
}

// runInto is the share of the room asked for between two scores below which they run into each other,
// and are not only laid as close as they may be.
const runInto = 0.6

// stopShort ends the last score, which is line i, where it would run into the one before it: as far from
// the edge as keeps the two apart. Scores that keep so near all along stay.
func (p *Panel) stopShort(lines []clipped, i int, apart float64) {
	if i == 0 {
		return
	}
	off := func(q plane.Point) float64 { return q.Sub(lines[i-1].start).Cross(lines[i-1].dir) }
	end := func(s *Segment, from, run *plane.Point, to plane.Point) {
		a, b := off(*from), off(to)
		if b < 0 { // they may cross
			a, b = -a, -b
		}
		if a >= runInto*apart || b <= apart {
			return
		}
		at := from.Lerp(to, (apart-a)/(b-a))
		p.Stops = append(p.Stops, Stop{s.Score, from.Dist(at)})
		*from, *run = at, at
	}
	for k := range p.Segments {
		if s := &p.Segments[k]; s.Score == i+1 {
			end(s, &s.A, &s.RunA, s.B)
			end(s, &s.B, &s.RunB, s.A)
		}
	}
}

// keepApart shortens the overruns of the last score, which is line i, where they come nearer than
// apart to the next score on either side.
func (p *Panel) keepApart(lines []clipped, i int, apart float64) {
	room := func(end, run plane.Point) plane.Point {
		for _, k := range []int{i - 1, i + 1} {
			if k < 0 || k >= len(lines) {
				continue
			}
			off := func(q plane.Point) float64 { return math.Abs(q.Sub(lines[k].start).Cross(lines[k].dir)) }
			if a, b := off(end), off(run); b < apart && a > b {
				run = end.Lerp(run, math.Max(0, math.Min(1, (a-apart)/(a-b))))
			}
		}
		return run
	}
	for k := range p.Segments {
		if s := &p.Segments[k]; s.Score == i+1 {
			s.RunA, s.RunB = room(s.A, s.RunA), room(s.B, s.RunB)
		}
	}
}

func (p *Panel) score(n int, c clipped, overrun float64) {
	at := func(l float64) plane.Point { return c.start.Add(c.dir.Mul(l)) }
	var in []plane.Span
	for _, s := range c.spans {
		if s.Graze || s.Len()+2*overrun < leastSpur { // shorter than any stroke that leaves
			p.Grazes = append(p.Grazes, Graze{n, at((s.From + s.To) / 2)})
			continue
		}
		in = append(in, s)
	}
	if len(in) == 0 {
		p.Outside = append(p.Outside, n)
	}
	for i, s := range in {
		before, after := overrun, overrun
		if i > 0 {
			before = math.Min(before, (s.From-in[i-1].To)/2)
		}
		if i+1 < len(in) {
			after = math.Min(after, (in[i+1].From-s.To)/2)
		}
		p.Segments = append(p.Segments, Segment{
			Score: n, A: at(s.From), B: at(s.To),
			RunA: at(s.From - before), RunB: at(s.To + after),
			Held: overrun - math.Min(before, after),
		})
	}
}

// mirror turns the drawing over about its u axis.
func (p *Panel) mirror() {
	m := plane.Scale(1, -1)
	p.Outline = p.Outline.Apply(m).Normal()
	for i := range p.Work {
		p.Work[i].Path = p.Work[i].Path.Apply(m)
	}
	for i := range p.Segments {
		s := &p.Segments[i]
		s.A, s.B, s.RunA, s.RunB = flip(s.A), flip(s.B), flip(s.RunA), flip(s.RunB)
	}
	for i := range p.Grazes {
		p.Grazes[i].At = flip(p.Grazes[i].At)
	}
}
