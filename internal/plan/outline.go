package plan

import (
	"errors"
	"math"
	"strconv"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/part"
	"springrib/internal/plane"
)

// size finds how wide the panel is where that is not typed.
func size(p *Plan) bool {
	v := &p.V.Panel
	if k := p.Section.Cone; k != nil {
		p.Size.Width = k.Slant()
		return true
	}
	switch v.Shape {
	case design.Sector:
		r := v.InnerRadius + v.Length.Or(p.Section.Edge.Length())
		p.Size.Width = 2 * r * math.Sin(math.Min(v.SectorAngle, math.Pi)/2)
	case design.Drawn:
		return p.readDrawing()
	}
	return true
}

// outline makes the panel's outline with its holes, seen from the show face, and finds
// whatever keeps it from being one sound piece on the curve.
func outline(p *Plan) bool {
	v := p.V.Panel
	d, ok := p.developer()
	if !ok {
		return false
	}
	p.Outline.Length = v.Length.Or(d.length() - v.Along)
	if p.Outline.Length < 1 {
		return p.stop("outline-off-curve", "panel.along", "The panel would start "+p.len(v.Along)+" along, and the curve is only "+
			p.len(d.length())+" long. Start it nearer to the foot.", map[string]float64{"start": v.Along, "curve": d.length()})
	}
	r, ok := p.shape()
	if !ok {
		return false
	}
	for _, h := range v.Holes {
		at := pt(h.Along, h.Across)
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
	p.Outline.Given, p.Outline.Region = r, d.region(r)
	p.drawnMarks(d)
	b := p.Outline.Region.Box()
	p.Outline.From, p.Outline.To = b.Min.X, b.Max.X
	p.Outline.Length = b.W()
	if p.Outline.From > p.Scores.Layout.Length-1 || p.Outline.To < 1 {
		return p.stop("outline-off-curve", "panel.along", "The panel lies wholly past the end of the curve, which runs from 0 to "+
			p.len(p.Scores.Layout.Length)+" along. Move it onto the curve.", map[string]float64{"start": p.Outline.From, "end": p.Outline.To, "curve": p.Scores.Layout.Length})
	}
	return true
}

// shape returns the outline from its own foot edge and middle line.
func (p *Plan) shape() (plane.Region, bool) {
	v := p.V.Panel
	length, width := p.Outline.Length, p.Width()
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
		return plane.Region{}, p.noRoom("panel.cornerRadius", "The corners have room for a radius of "+p.len(most)+" at most, half the shorter side.",
			map[string]float64{"radius": v.CornerRadius, "room": most})
	}
	return part.RoundedRectangle(length, width, v.CornerRadius), true
}

func (p *Plan) lens() (plane.Region, bool) {
	v := p.V.Panel
	l := part.Lens{Length: p.Outline.Length, Width: v.Width, FootRound: v.FootRadius, TipRound: v.TipRadius}
	if l.Width > l.Length {
		return plane.Region{}, p.noRoom("panel.width", "A lens is at most as wide as it is long, and this one would be "+p.len(l.Width)+" by "+p.len(l.Length)+". Make it narrower or longer.",
			map[string]float64{"width": l.Width, "room": l.Length})
	}
	most := l.MostRound()
	for _, end := range []struct {
		field string
		r     float64
	}{{"panel.footRadius", v.FootRadius}, {"panel.tipRadius", v.TipRadius}} {
		if end.r > 0.98*most {
			return plane.Region{}, p.noRoom(end.field, "A point of this lens can be rounded to less than "+p.len(most)+", half its width.",
				map[string]float64{"radius": end.r, "room": most})
		}
	}
	return l.Outline(), true
}

// polygon rounds the corners.
func (p *Plan) polygon() (plane.Region, bool) {
	cs := p.V.Panel.Corners
	corners := make([]part.Corner, len(cs))
	for i, c := range cs {
		corners[i] = part.Corner{P: pt(c.Along, c.Across), Radius: c.Radius}
	}
	path, err := part.Polygon(corners)
	var bad *part.ErrCorner
	if !errors.As(err, &bad) {
		return plane.Region{Outer: path}, true
	}
	at := cs[bad.Index]
	return plane.Region{}, p.noRoom("panel.corners."+strconv.Itoa(at.Row)+".radius", "Corner "+strconv.Itoa(bad.Index+1)+" has room for a radius of "+p.len(bad.Room)+
		" beside its neighbours, not for "+p.len(at.Radius)+".",
		map[string]float64{"radius": at.Radius, "room": bad.Room})
}

func (p *Plan) noRoom(field, text string, numbers map[string]float64) bool {
	return p.stop("radius-no-room", field, text, numbers)
}

// whole looks for what keeps the outline from being cut as one piece.
func (p *Plan) whole(r plane.Region) bool {
	if len(r.Holes) == 0 && p.V.Panel.Shape != design.Polygon && p.V.Panel.Shape != design.Drawn {
		return true // sound by the way it is made
	}
	// A bridge narrower than the sheet is thick breaks in the hand: common practice, no
	// source.
	for _, f := range part.Faults(r, p.V.Sheet.T) {
		if !p.fault(f) {
			return false
		}
	}
	return true
}

// fault turns a fault into a finding; all but a narrow bridge stop.
func (p *Plan) fault(f part.Fault) bool {
	v := p.V.Panel
	where := p.len(f.At.X-v.Along) + " along, " + p.len(f.At.Y-v.Across) + " across"
	numbers := map[string]float64{"along": f.At.X, "across": f.At.Y}
	hole := func(i int) string { return p.HoleField(i, "along") }
	name := func(i int) string { return "hole " + strconv.Itoa(i+1) }
	stop := func(id, field, text string) bool {
		p.stop(id, field, text, numbers)
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
	p.Findings = append(p.Findings, finding.Finding{
		ID: "hole-near", Severity: finding.Warn, Place: finding.Place{Field: hole(f.Other), Part: "panel", At: finding.At(f.At.X)},
		Text:    "Only " + p.len(f.Gap) + " is left " + what + ", " + where + "; less than the sheet is thick breaks easily.",
		Numbers: numbers,
	})
	return true
}

// placed adds a part and a station to the finding that was made last.
func (p *Plan) placed(part string, u float64) {
	at := &p.Findings[len(p.Findings)-1].Place
	at.Part, at.At = part, finding.At(u)
}

// cornerNear returns the field of the corner nearest to a place on the outline.
func (p *Plan) cornerNear(at plane.Point) string {
	v := p.V.Panel
	if v.Shape == design.Drawn {
		return "panel.drawn"
	}
	if v.Shape != design.Polygon {
		return "panel.shape"
	}
	best, row := math.Inf(1), 0
	for _, c := range v.Corners {
		if d := at.Dist(pt(c.Along+v.Along, c.Across+v.Across)); d < best {
			best, row = d, c.Row
		}
	}
	return "panel.corners." + strconv.Itoa(row) + ".along"
}
