package outline

import (
	"errors"
	"math"
	"strconv"

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

// DrawnHoles returns how many of the outline's first holes came with a drawing.
func (s *Size) DrawnHoles() int { return len(s.region.Holes) }

// HoleField returns the field of the document that hole i of the outline comes from;
// member is the one meant of a hole that was typed.
func (s *Size) HoleField(p *design.PanelValues, i int, member string) string {
	if i -= len(s.region.Holes); i >= 0 && i < len(p.Holes) {
		return "panel.holes." + strconv.Itoa(p.Holes[i].Row) + "." + member
	}
	return "panel.drawn"
}

// DrawnMap returns how an outline drawn elsewhere is laid: mirrored, turned, scaled to
// the length asked for along the bend, and moved so that it begins at 0 and its middle
// lies at 0 across.
func DrawnMap(outline plane.Path, d design.DrawnValues) plane.Affine {
	m := plane.Turned(d.Turn, d.Mirror)
	b := outline.Apply(m).Box()
	k := 1.0
	if d.Length.OK && b.W() > 0 {
		k = d.Length.V / b.W()
	}
	return plane.Translate(-k*b.Min.X, -k*b.Centre().Y).Mul(plane.Scale(k, k)).Mul(m)
}

// leastDrawn is the smallest outline that is taken for one, mm: below it a file was read in
// the wrong unit.
const leastDrawn = 1.0

// readDrawing reads and lays the panel's drawing.
func (p *making) readDrawing() bool {
	p.Size = Size{}
	d := p.Values.Panel.Drawn
	outline, err := closedPath(d.Outline)
	holes, err2 := closedPaths(d.Holes)
	marks, err3 := paths(d.Marks)
	if err := errors.Join(err, err2, err3); err != nil {
		return p.Stop("drawn-unreadable", "panel.drawn", design.Unreadable, nil)
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
	if small := math.Min(b.W(), b.H()); small < leastDrawn || math.Max(b.W(), b.H()) > design.MostDrawn {
		return p.Stop("drawn-size", "panel.drawnLength", "The outline would be "+p.Len(b.W())+" long and "+p.Len(b.H())+
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

// mendAdvice says how an outline is mended: typed ones as said, drawn ones at home.
func (p *making) mendAdvice(typed string) string {
	if p.Values.Panel.Shape == design.Drawn {
		return "Mend it there in the program it was drawn with, and open it again."
	}
	return typed
}

// leastMark is the shortest mark that is drawn, mm: a shorter one is a point to a machine.
const leastMark = 0.02

// drawnMarks lays the drawing's marks onto the flat panel, and tells of those that run
// off it.
func (p *making) drawnMarks(d *developer) {
	off := plane.Translate(p.Values.Panel.Along, p.Values.Panel.Across)
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
	p.out.Marks = out
	if lost > 0 {
		p.Note("mark-lost", finding.Warn, "panel.drawn", "Marks of the drawing that are shorter than "+p.Len(leastMark)+" are left out of the file: "+strconv.Itoa(lost)+" in all. Draw dots as short crosses.",
			map[string]float64{"lost": float64(lost), "least": leastMark})
	}
	count, at := 0, plane.Point{}
	for _, m := range out {
		if q, ok := outside(m, p.out.Region); ok {
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
	p.All = append(p.All, finding.Finding{
		ID: "mark-outside", Severity: finding.Warn, Place: finding.Place{Field: "panel.drawn", Part: "panel", At: finding.At(at.X)},
		Text: which + " off the panel, " + p.Len(at.X) + " along, " + p.Len(at.Y) +
			" across: the machine would draw on what lies beside it. Open the drawing again and leave that out.",
		Numbers: map[string]float64{"count": float64(count), "along": at.X, "across": at.Y},
	})
}

// outside returns a point of m that lies off the region by more than files resolve.
func outside(m plane.Path, r plane.Region) (plane.Point, bool) {
	for _, s := range m.Segs {
		for i := range 9 {
			q := s.Point(float64(i) / 8)
			if !r.Contains(q) && !nearEdge(q, r, Tolerance) {
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
