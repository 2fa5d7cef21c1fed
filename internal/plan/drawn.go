package plan

import (
	"errors"
	"math"
	"strconv"

	"springrib/internal/curve"
	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/plane"
)

// Size is how large the panel is where that follows from other figures: before the scores
// are laid, whose ranking by time it decides.
type Size struct {
	Width float64 // mm; 0 where it is typed

	// A panel drawn elsewhere, laid: its foot edge at 0, its middle line at 0.
	region plane.Region
	marks  []plane.Path
}

// DrawnLength is how long an outline drawn elsewhere is along the bend.
func (s *Size) DrawnLength() float64 { return s.region.Outer.Box().W() }

// Width is how wide the panel is, as typed or as it follows.
func (p *Plan) Width() float64 {
	if p.Size.Width > 0 {
		return p.Size.Width
	}
	return p.V.Panel.Width
}

// DrawnMap returns how an outline drawn elsewhere is laid: mirrored, turned, scaled to
// the length asked for along the bend, and moved so that it begins at 0 and its middle
// lies at 0 across.
func DrawnMap(outline plane.Path, d design.DrawnValues) plane.Affine {
	m := turned(d)
	b := outline.Apply(m).Box()
	k := 1.0
	if d.Length.OK && b.W() > 0 {
		k = d.Length.V / b.W()
	}
	return plane.Translate(-k*b.Min.X, -k*b.Centre().Y).Mul(plane.Scale(k, k)).Mul(m)
}

// LineMap returns how a line drawn elsewhere is laid: mirrored, turned and scaled to the
// length asked for.
func LineMap(line plane.Path, d design.DrawnValues) plane.Affine {
	k := 1.0
	if l := line.Length(); d.Length.OK && l > 0 {
		k = d.Length.V / l
	}
	return plane.Scale(k, k).Mul(turned(d))
}

// turned mirrors left to right and then turns.
func turned(d design.DrawnValues) plane.Affine {
	m := plane.Rotate(d.Turn)
	if d.Mirror {
		m = m.Mul(plane.Scale(-1, 1))
	}
	return m
}

// leastDrawn is the smallest outline that is taken for one, mm, and mostDrawn the
// largest: beyond them a file was read in the wrong unit.
const (
	leastDrawn = 1.0
	mostDrawn  = 50_000.0
)

// readDrawing reads and lays the panel's drawing.
func (p *Plan) readDrawing() bool {
	p.Size = Size{}
	d := p.V.Panel.Drawn
	outline, err := closedPath(d.Outline)
	holes, err2 := closedPaths(d.Holes)
	marks, err3 := paths(d.Marks)
	if err := errors.Join(err, err2, err3); err != nil {
		return p.stop("drawn-unreadable", "panel.drawn", unreadable, nil)
	}
	m := DrawnMap(outline, d)
	p.Size.region = plane.Region{Outer: outline, Holes: holes}.Apply(m)
	for i, h := range p.Size.region.Holes {
		if h.Area() > 0 {
			p.Size.region.Holes[i] = h.Reverse()
		}
	}
	for _, mark := range marks {
		p.Size.marks = append(p.Size.marks, mark.Apply(m))
	}
	b := p.Size.region.Outer.Box()
	p.Size.Width = b.H()
	if small := math.Min(b.W(), b.H()); small < leastDrawn || math.Max(b.W(), b.H()) > mostDrawn {
		return p.stop("drawn-size", "panel.drawnLength", "The outline would be "+p.len(b.W())+" long and "+p.len(b.H())+
			" wide. Say how long it is to be, or open the drawing again with the right unit.",
			map[string]float64{"length": b.W(), "width": b.H()})
	}
	return true
}

func paths(texts []string) ([]plane.Path, error) {
	var out []plane.Path
	for _, t := range texts {
		p, err := plane.Parse(t)
		if err != nil {
			return nil, err
		}
		out = append(out, p)
	}
	return out, nil
}

func closedPath(text string) (plane.Path, error) {
	p, err := plane.Parse(text)
	if err == nil && !p.Closed {
		err = errors.New("plan: an open outline")
	}
	return p, err
}

func closedPaths(texts []string) ([]plane.Path, error) {
	var out []plane.Path
	for _, t := range texts {
		p, err := closedPath(t)
		if err != nil {
			return nil, err
		}
		out = append(out, p)
	}
	return out, nil
}

// HoleField returns the field of the document that hole i of the outline comes from;
// member is the one meant of a hole that was typed.
func (p *Plan) HoleField(i int, member string) string {
	if i -= len(p.Size.region.Holes); i >= 0 && i < len(p.V.Panel.Holes) {
		return "panel.holes." + strconv.Itoa(p.V.Panel.Holes[i].Row) + "." + member
	}
	return "panel.drawn"
}

// DrawnHoles returns how many of the outline's first holes came with a drawing.
func (p *Plan) DrawnHoles() int { return len(p.Size.region.Holes) }

// mendAdvice says how an outline is mended: typed ones as said, drawn ones at home.
func (p *Plan) mendAdvice(typed string) string {
	if p.V.Panel.Shape == design.Drawn {
		return "Mend it there in the program it was drawn with, and open it again."
	}
	return typed
}

// leastMark is the shortest mark that is drawn, mm: a shorter one is a point to a machine.
const leastMark = 0.02

// drawnMarks lays the drawing's marks onto the flat panel, and tells of those that run
// off it.
func (p *Plan) drawnMarks(d *developer) {
	off := plane.Translate(p.V.Panel.Along, p.V.Panel.Across)
	var out []plane.Path
	lost := 0
	for _, m := range p.Size.marks {
		if m.Length() < leastMark {
			lost++
			continue
		}
		m = m.Apply(off)
		if d.seen {
			m = d.path(m)
		}
		out = append(out, m)
	}
	p.Outline.Marks = out
	if lost > 0 {
		p.note("mark-lost", finding.Warn, "panel.drawn", "Marks of the drawing that are shorter than "+p.len(leastMark)+" are left out of the file: "+strconv.Itoa(lost)+" in all. Draw dots as short crosses.",
			map[string]float64{"lost": float64(lost), "least": leastMark})
	}
	count, at := 0, plane.Point{}
	for _, m := range out {
		if q, ok := outside(m, p.Outline.Region); ok {
			if count == 0 {
				at = q
			}
			count++
		}
	}
	if count == 0 {
		return
	}
	which := "A mark runs"
	if count > 1 {
		which = strconv.Itoa(count) + " marks run"
	}
	p.Findings = append(p.Findings, finding.Finding{
		ID: "mark-outside", Severity: finding.Warn, Place: finding.Place{Field: "panel.drawn", Part: "panel", At: finding.At(at.X)},
		Text: which + " off the panel, " + p.len(at.X) + " along, " + p.len(at.Y) +
			" across: the machine would draw on what lies beside it. Open the drawing again and leave that out.",
		Numbers: map[string]float64{"count": float64(count), "along": at.X, "across": at.Y},
	})
}

// outside returns a point of m that lies off the region by more than files resolve.
func outside(m plane.Path, r plane.Region) (plane.Point, bool) {
	for _, s := range m.Segs {
		for i := range 9 {
			q := s.Point(float64(i) / 8)
			if !r.Contains(q) && !nearEdge(q, r, outlineTolerance) {
				return q, true
			}
		}
	}
	return plane.Point{}, false
}

// nearEdge tells whether q lies within about d of an edge: a small cross about it does
// not lie all outside.
func nearEdge(q plane.Point, r plane.Region, d float64) bool {
	for i := range 8 {
		if r.Contains(q.Add(plane.Dir(float64(i) * math.Pi / 4).Mul(d))) {
			return true
		}
	}
	return false
}

// maxLine bounds the pieces of a line drawn elsewhere; a fitted one has dozens.
const maxLine = 2000

// drawnLine returns the curve along a line drawn elsewhere, laid and scaled, with its
// straight ends.
func (l *lining) drawnLine() (c curve.Curve, ok bool) {
	d := l.c.Drawn
	line, err := plane.Parse(d.Line)
	if err != nil || len(line.Segs) > maxLine || !(line.Length() > 0) {
		return c, l.Stop("drawn-unreadable", "curve.drawn", unreadable, nil)
	}
	if line.Closed {
		return c, l.Stop("curve-closed", "curve.drawn", "The line is closed. Wrap it all round, or leave it open where the panel's ends are to be, and open it again.", nil)
	}
	if d.Back {
		line = line.Reverse()
	}
	c, err = curve.FromPath(line.Apply(LineMap(line, d)))
	if err != nil {
		return c, l.Stop("drawn-unreadable", "curve.drawn", unreadable, nil)
	}
	if length := c.Length(); length < 5 || length > mostDrawn {
		return c, l.Stop("drawn-size", "curve.drawnLength", "The line is "+l.Len(length)+" long. Say how long it is to be, or open the drawing again with the right unit.",
			map[string]float64{"length": length})
	}
	if firstBend(c) == 0 && len(c.Kinks(kinkSeen)) == 0 {
		return c, l.Stop("curve-straight", "curve.drawn", "The line is straight, so that nothing bends. Choose another.", nil)
	}
	return withStraights(c, l.c.Foot, l.c.Tip), true
}

// unreadable is said of paths that can't be read, which a design that was saved here never
// comes to; its id is drawn-unreadable.
const unreadable = "What this design keeps of the drawing can't be read. Open the drawing again."
