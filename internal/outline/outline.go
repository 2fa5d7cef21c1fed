// Package outline is the panel's outline, flat.
//
// New takes what was typed of it and the curve that it lies on, with the places that scores have
// along the flat panel. It returns the outline with its holes and marks, made, drawn elsewhere,
// or given as it is seen when bent and then laid flat, and what keeps it from being cut as one
// piece. Across cuts it along the scores: what of it is material where.
package outline

import (
	"errors"
	"math"
	"strconv"

	"springrib/internal/curve"
	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/part"
	"springrib/internal/plane"
	"springrib/internal/score"
)

// Tolerance is how far a fitted outline may lie from the exact one, mm.
const Tolerance = 0.01

// Task is what an outline is made of.
type Task struct {
	Values    *design.Values
	Edge      curve.Curve // contact edge of panel and ribs
	PanelLeft bool        // the panel lies to the left of the edge
	Closed    bool        // the edge goes all round
	Seam      float64     // what the panel needs beyond the girth of a closed edge, mm
	Flat      float64     // length of the flat panel over all of the edge, or as much of it as one part takes, mm
	Places    score.Places
	Size      Size
	Draft     bool
}

// Outline is the panel's, flat, seen from the show face.
type Outline struct {
	Region plane.Region
	// Given is the same as it was given, from the foot of the curve: flat, or as it is seen
	// when bent.
	Given plane.Region
	// Marks came with an outline drawn elsewhere and lie on the flat panel likewise.
	Marks    []plane.Path
	From, To float64 // its ends along the bend, from the foot of the curve
	Length   float64 // between them, mm
}

// making is an outline in the making.
type making struct {
	Task
	finding.Notes
	out Outline
}

func newMaking(t Task) *making { return &making{Task: t, Notes: finding.Notes{Units: t.Values.Units}} }

// NewSize finds how wide the panel is where that is not typed, and reads a drawing of it. along
// is how long the contact edge is.
func NewSize(v *design.Values, along float64) (Size, []finding.Finding, bool) {
	switch p := &v.Panel; p.Shape {
	case design.Sector:
		r := p.InnerRadius + p.Length.Or(along)
		return Size{Width: 2 * r * math.Sin(math.Min(p.SectorAngle, math.Pi)/2)}, nil, true
	case design.Drawn:
		m := newMaking(Task{Values: v})
		ok := m.readDrawing()
		return m.Size, m.All, ok
	}
	return Size{}, nil, true
}

// StopsOfDrawing says what is wrong with an outline drawn elsewhere, wherever it lies on the curve.
func StopsOfDrawing(v design.Values) []finding.Finding {
	v.Panel.Along, v.Panel.Across = 0, 0 // which doesn't matter to its own soundness
	p := newMaking(Task{Values: &v})
	if p.readDrawing() {
		p.whole(p.Size.region)
	}
	return p.All
}

// width is how wide the panel is, as typed or as it follows.
func (p *making) width() float64 {
	if p.Size.Width > 0 {
		return p.Size.Width
	}
	return p.Values.Panel.Width
}

// New makes the outline with its holes, seen from the show face, and finds whatever keeps it
// from being one sound piece on the curve; ok is false where that stops it.
func New(t Task) (out Outline, said []finding.Finding, ok bool) {
	p := newMaking(t)
	ok = p.make()
	return p.out, p.All, ok
}

func (p *making) make() bool {
	v := p.Values.Panel
	d, ok := p.developer()
	if !ok {
		return false
	}
	p.out.Length = v.Length.Or(d.length() - v.Along)
	if p.out.Length < 1 {
		return p.Stop("outline-off-curve", "panel.along", "The panel would start "+p.Len(v.Along)+" along, and the curve is only "+
			p.Len(d.length())+" long. Start it nearer to the foot.", map[string]float64{"start": v.Along, "curve": d.length()})
	}
	r, ok := p.shape()
	if !ok {
		return false
	}
	for _, h := range v.Holes {
		at := plane.Pt(h.Along, h.Across)
		if h.Slot {
			r.Holes = append(r.Holes, part.SlotHole(at, h.Length, h.Width, h.Turn))
		} else {
			r.Holes = append(r.Holes, part.RoundHole(at, h.Width))
		}
	}
	if v.Along != 0 || v.Across != 0 {
		r = r.Apply(plane.Translate(v.Along, v.Across))
	}
	if r.Outer.Area() < 0 {
		r.Outer = r.Outer.Reverse()
	}
	if !p.whole(r) {
		return false
	}
	p.out.Given, p.out.Region = r, d.region(r)
	p.drawnMarks(d)
	b := p.out.Region.Box()
	p.out.From, p.out.To = b.Min.X, b.Max.X
	p.out.Length = b.W()
	if p.out.From > p.Flat-1 || p.out.To < 1 {
		return p.Stop("outline-off-curve", "panel.along", "The panel lies wholly past the end of the curve, which runs from 0 to "+
			p.Len(p.Flat)+" along. Move it onto the curve.", map[string]float64{"start": p.out.From, "end": p.out.To, "curve": p.Flat})
	}
	return true
}

// shape returns the outline from its own foot edge and middle line.
func (p *making) shape() (plane.Region, bool) {
	v := p.Values.Panel
	length, width := p.out.Length, p.width()
	switch v.Shape {
	case design.Taper:
		return part.Taper{
			Length: length, FootWidth: v.FootWidth, WidestWidth: v.WidestWidth, TipWidth: v.TipWidth,
			WidestAt: math.Min(v.WidestAt.Or(length/3), length), Round: v.TipRound, OneEdge: v.Edges == "one",
		}.Outline(), true
	case design.Ellipse:
		return part.Ellipse(length, width), true
	case design.Lens:
		return p.lens()
	case design.Sector:
		return part.Sector{Inner: v.InnerRadius, Outer: v.InnerRadius + length, Angle: v.SectorAngle}.Outline(), true
	case design.Polygon:
		return p.polygon()
	case design.Drawn:
		r := p.Size.region
		r.Holes = append([]plane.Path(nil), r.Holes...)
		return r, true
	}
	if most := math.Min(length, width) / 2; v.CornerRadius > most {
		return plane.Region{}, p.noRoom("panel.cornerRadius", "The corners have room for a radius of "+p.Len(most)+" at most, half the shorter side.",
			map[string]float64{"radius": v.CornerRadius, "room": most})
	}
	return part.RoundedRectangle(length, width, v.CornerRadius), true
}

func (p *making) lens() (plane.Region, bool) {
	v := p.Values.Panel
	l := part.Lens{Length: p.out.Length, Width: v.Width, FootRound: v.FootRadius, TipRound: v.TipRadius}
	if l.Width > l.Length {
		return plane.Region{}, p.noRoom("panel.width", "A lens is at most as wide as it is long, and this one would be "+p.Len(l.Width)+" by "+p.Len(l.Length)+". Make it narrower or longer.",
			map[string]float64{"width": l.Width, "room": l.Length})
	}
	most := l.MostRound()
	for _, end := range []struct {
		field string
		r     float64
	}{{"panel.footRadius", v.FootRadius}, {"panel.tipRadius", v.TipRadius}} {
		if end.r > 0.98*most {
			return plane.Region{}, p.noRoom(end.field, "A point of this lens can be rounded to less than "+p.Len(most)+", half its width.",
				map[string]float64{"radius": end.r, "room": most})
		}
	}
	return l.Outline(), true
}

// polygon rounds the corners.
func (p *making) polygon() (plane.Region, bool) {
	cs := p.Values.Panel.Corners
	corners := make([]part.Corner, len(cs))
	for i, c := range cs {
		corners[i] = part.Corner{P: plane.Pt(c.Along, c.Across), Radius: c.Radius}
	}
	path, err := part.Polygon(corners)
	var bad *part.ErrCorner
	if !errors.As(err, &bad) {
		return plane.Region{Outer: path}, true
	}
	at := cs[bad.Index]
	return plane.Region{}, p.noRoom("panel.corners."+strconv.Itoa(at.Row)+".radius", "Corner "+strconv.Itoa(bad.Index+1)+" has room for a radius of "+p.Len(bad.Room)+
		" beside its neighbours, not for "+p.Len(at.Radius)+".",
		map[string]float64{"radius": at.Radius, "room": bad.Room})
}

func (p *making) noRoom(field, text string, numbers map[string]float64) bool {
	return p.Stop("radius-no-room", field, text, numbers)
}

// whole looks for what keeps the outline from being cut as one piece.
func (p *making) whole(r plane.Region) bool {
	if len(r.Holes) == 0 && p.Values.Panel.Shape != design.Polygon && p.Values.Panel.Shape != design.Drawn {
		return true // sound by the way it is made
	}
	// A bridge narrower than the sheet is thick breaks in the hand: common practice, no
	// source.
	for _, f := range part.Faults(r, p.Values.Sheet.T) {
		if !p.fault(f) {
			return false
		}
	}
	return true
}

// fault turns a fault into a finding; all but a narrow bridge stop.
func (p *making) fault(f part.Fault) bool {
	v := p.Values.Panel
	where := p.Len(f.At.X-v.Along) + " along, " + p.Len(f.At.Y-v.Across) + " across"
	numbers := map[string]float64{"along": f.At.X, "across": f.At.Y}
	hole := func(i int) string { return p.Size.HoleField(&p.Values.Panel, i, "along") }
	name := func(i int) string { return "hole " + strconv.Itoa(i+1) }
	stop := func(id, field, text string) bool {
		p.Stop(id, field, text, numbers)
		p.placed("panel", f.At.X)
		return false
	}
	switch f.Kind {
	case part.Crosses:
		return stop("outline-crosses", p.cornerNear(f.At), "The outline crosses itself "+where+". "+p.mendAdvice("Put its corners in the order in which they follow each other round it."))
	case part.Touches:
		return stop("outline-splits", p.cornerNear(f.At), "The outline touches itself "+where+": the panel would hang together at a point, or fall in two. "+p.mendAdvice("Move the corners apart there."))
	case part.NoArea:
		return stop("outline-empty", p.cornerNear(f.At), "The outline encloses nothing. "+p.mendAdvice("Move its corners apart."))
	case part.HoleOutside:
		return stop("hole-outside", hole(f.Hole), "The middle and edge of "+name(f.Hole)+" lie outside the panel. Move it onto it.")
	case part.HoleAtEdge:
		return stop("hole-at-edge", hole(f.Other), "The edge of "+name(f.Other)+" reaches the edge of the panel, "+where+". Move it inward, or make it smaller.")
	case part.HolesMeet:
		return stop("holes-meet", hole(f.Other), "The edges of "+name(f.Hole)+" and "+name(f.Other)+" meet, "+where+". Move them apart.")
	}
	numbers["left"] = f.Gap
	what := "between " + name(f.Other) + " and the edge"
	if f.Hole >= 0 {
		what = "between " + name(f.Hole) + " and " + name(f.Other)
	}
	p.All = append(p.All, finding.Finding{
		ID: "hole-near", Severity: finding.Warn, Place: finding.Place{Field: hole(f.Other), Part: "panel", At: finding.At(f.At.X)},
		Text:    "Only " + p.Len(f.Gap) + " is left " + what + ", " + where + "; less than the sheet is thick breaks easily.",
		Numbers: numbers,
	})
	return true
}

// placed adds a part and a station to the finding that was made last.
func (p *making) placed(part string, u float64) {
	at := &p.All[len(p.All)-1].Place
	at.Part, at.At = part, finding.At(u)
}

// cornerNear returns the field of the corner nearest to a place on the outline.
func (p *making) cornerNear(at plane.Point) string {
	v := p.Values.Panel
	if v.Shape == design.Drawn {
		return "panel.drawn"
	}
	if v.Shape != design.Polygon {
		return "panel.shape"
	}
	best, row := math.Inf(1), 0
	for _, c := range v.Corners {
		if d := at.Dist(plane.Pt(c.Along+v.Along, c.Across+v.Across)); d < best {
			best, row = d, c.Row
		}
	}
	return "panel.corners." + strconv.Itoa(row) + ".along"
}
