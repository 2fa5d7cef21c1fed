package plan

import (
	"errors"
	"math"
	"strconv"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/part"
	"springrib/internal/plane"
	"springrib/internal/unit"
)

// size finds how long the panel is and, where that follows from other figures, how wide:
// before the scores are laid, whose ranking by time it decides.
func size(p *Plan) bool {
	v := &p.V.Panel
	if v.Shape == design.Sector {
		r := v.InnerRadius + v.Length.Or(p.Edge.Length())
		v.Width = 2 * r * math.Sin(math.Min(v.SectorAngle, math.Pi)/2)
	}
	if v.Shape == design.Drawn {
		return p.readDrawing()
	}
	return true
}

// outline makes the panel's outline with its holes, seen from the show face, and finds
// whatever keeps it from being one sound piece on the curve.
func outline(p *Plan) bool {
	v := p.V.Panel
	p.places = p.Layout.Places(p.Edge)
	d, ok := p.developer()
	if !ok {
		return false
	}
	p.Length = v.Length.Or(d.length() - v.Along)
	if p.Length < 1 {
		return p.stop("outline-off-curve", "panel.along", "The panel would start "+p.len(v.Along)+" along, and the curve is only "+
			p.len(d.length())+" long. Start it nearer to the foot.", map[string]float64{"start": v.Along, "curve": d.length()},
			startAtFoot(d.length() >= 1 && v.Along > 0, "0")...)
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
	p.Outline = d.region(r)
	p.drawnMarks(d)
	b := p.Outline.Box()
	p.From, p.To = b.Min.X, b.Max.X
	p.Length = b.W()
	if p.From > p.Layout.Length-1 || p.To < 1 {
		return p.stop("outline-off-curve", "panel.along", "The panel lies wholly past the end of the curve, which runs from 0 to "+
			p.len(p.Layout.Length)+" along. Move it onto the curve.", map[string]float64{"start": p.From, "end": p.To, "curve": p.Layout.Length},
			startAtFoot(true, unit.Bare(math.Ceil((v.Along-r.Outer.Box().Min.X)*100-1e-6)/100, p.V.Units))...)
	}
	return true
}

// startAtFoot offers to move the outline to the foot of the curve, where that will do.
func startAtFoot(will bool, along string) []finding.Remedy {
	if !will {
		return nil
	}
	return []finding.Remedy{{Text: "Start at the foot", Set: map[string]string{"panel.along": along}}}
}

// AsLongAsTheCurve tells whether the panel could be as long as the curve: a sound outline,
// with ribs that its whole length leaves room for.
func (p *Plan) AsLongAsTheCurve() bool {
	q := *p
	q.Findings = nil
	q.V.Panel.Length = design.Opt{}
	if !outline(&q) {
		return false
	}
	for _, s := range p.Supports {
		t := s.Task
		t.End = p.Edge.Length()
		if !p.Closed && !q.deepEnough(t) {
			return false
		}
	}
	return true
}

// Moved returns the ends of the panel if its outline started elsewhere along the curve;
// ok is false where it would be no sound outline there.
func (p *Plan) Moved(along float64) (from, to float64, ok bool) {
	q := *p
	q.Findings = nil
	q.V.Panel.Along = along
	if !outline(&q) {
		return 0, 0, false
	}
	return q.From, q.To, true
}

// shape returns the outline from its own foot edge and middle line.
func (p *Plan) shape() (plane.Region, bool) {
	v := p.V.Panel
	length, width := p.Length, v.Width
	switch v.Shape {
	case design.Taper:
		return part.Taper{
			Length: length, FootWidth: v.FootWidth, WidestWidth: v.WidestWidth, TipWidth: v.TipWidth,
			WidestAt: math.Min(v.WidestAt.Or(length/3), length), Round: v.TipRound,
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
		r := p.drawn.region
		r.Holes = append([]plane.Path(nil), r.Holes...)
		return r, true
	}
	if most := math.Min(length, width) / 2; v.CornerRadius > most {
		return plane.Region{}, p.noRoom("panel.cornerRadius", "The corners have room for a radius of "+p.len(most)+" at most, half the shorter side.",
			map[string]float64{"radius": v.CornerRadius, "room": most}, p.take("panel.cornerRadius", most))
	}
	return part.RoundedRectangle(length, width, v.CornerRadius), true
}

func (p *Plan) lens() (plane.Region, bool) {
	v := p.V.Panel
	l := part.Lens{Length: p.Length, Width: v.Width, FootRound: v.FootRadius, TipRound: v.TipRadius}
	if l.Width > l.Length {
		return plane.Region{}, p.noRoom("panel.width", "A lens is at most as wide as it is long, and this one would be "+p.len(l.Width)+" by "+p.len(l.Length)+". Make it narrower or longer.",
			map[string]float64{"width": l.Width, "room": l.Length}, p.take("panel.width", l.Length))
	}
	most := l.MostRound()
	for _, end := range []struct {
		field string
		r     float64
	}{{"panel.footRadius", v.FootRadius}, {"panel.tipRadius", v.TipRadius}} {
		if end.r > 0.98*most {
			return plane.Region{}, p.noRoom(end.field, "A point of this lens can be rounded to less than "+p.len(most)+", half its width.",
				map[string]float64{"radius": end.r, "room": most}, p.take(end.field, 0.95*most))
		}
	}
	return l.Outline(), true
}

// polygon rounds the corners; where one has no room it offers the radii that have.
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
	first := *bad
	field := func(i int) string { return "panel.corners." + strconv.Itoa(cs[i].Row) + ".radius" }
	rem := finding.Remedy{Text: "Use the radii that there is room for", Set: map[string]string{}}
	for range 4 * len(corners) {
		room := math.Floor(bad.Room*100) / 100
		if corners[bad.Index].Radius == room {
			room = 0
		}
		corners[bad.Index].Radius = room
		rem.Set[field(bad.Index)] = unit.Bare(room, unit.MM) + " mm"
		if _, err = part.Polygon(corners); !errors.As(err, &bad) {
			break
		}
	}
	return plane.Region{}, p.noRoom(field(first.Index), "Corner "+strconv.Itoa(first.Index+1)+" has room for a radius of "+p.len(first.Room)+
		" beside its neighbours, not for "+p.len(cs[first.Index].Radius)+".",
		map[string]float64{"radius": cs[first.Index].Radius, "room": first.Room}, rem)
}

func (p *Plan) noRoom(field, text string, numbers map[string]float64, r finding.Remedy) bool {
	return p.stop("radius-no-room", field, text, numbers, r)
}

// take offers a length for a field, rounded down to what can be typed.
func (p *Plan) take(field string, mm float64) finding.Remedy {
	mm = math.Floor(mm*100) / 100
	return finding.Remedy{Text: "Use " + p.len(mm), Set: map[string]string{field: unit.Bare(mm, unit.MM) + " mm"}}
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
	stop := func(id, field, text string, remedies ...finding.Remedy) bool {
		p.stop(id, field, text, numbers, remedies...)
		p.placed("panel", f.At.X)
		return false
	}
	switch f.Kind {
	case part.Crosses:
		return stop("outline-crosses", p.cornerNear(f.At), "The outline crosses itself "+where+". "+p.mendAdvice("Put its corners in the order in which they follow each other round it."), p.inOrder()...)
	case part.Touches:
		return stop("outline-splits", p.cornerNear(f.At), "The outline touches itself "+where+": the panel would hang together at a point, or fall in two. "+p.mendAdvice("Move the corners apart there."))
	case part.NoArea:
		return stop("outline-empty", p.cornerNear(f.At), "The outline encloses nothing. "+p.mendAdvice("Move its corners apart."))
	case part.HoleOutside:
		return stop("hole-outside", hole(f.Hole), "The middle and edge of "+name(f.Hole)+" lie outside the panel. Move it onto it.", p.withoutHole(f.Hole)...)
	case part.HoleAtEdge:
		return stop("hole-at-edge", hole(f.Other), "The edge of "+name(f.Other)+" reaches the edge of the panel, "+where+". Move it inward, or make it smaller.", p.smallerHole(f.Other)...)
	case part.HolesMeet:
		return stop("holes-meet", hole(f.Other), "The edges of "+name(f.Hole)+" and "+name(f.Other)+" meet, "+where+". Move them apart.", p.smallerHole(f.Other)...)
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
