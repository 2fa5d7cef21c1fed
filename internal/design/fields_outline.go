package design

import (
	"math"

	"springrib/internal/finding"
)

// outlineFields ask for what the other shapes need, for holes, and for where the
// outline lies on the curve.
func outlineFields() []Field {
	lens, sector, polygon := is("panel.shape", Lens), is("panel.shape", Sector), is("panel.shape", Polygon)
	return []Field{
		{Path: "panel.cornerRadius", Label: "Corner radius", Kind: Length, Min: 0, Max: 10000, preset: always(0), More: true, When: cylinders.and("panel.shape", Rectangle),
			Help: "At all four corners."},
		{Path: "panel.footRadius", Label: "Point at the foot rounded to", Kind: Length, Min: 0, Max: 10000, preset: always(0), When: lens,
			Help: "A radius, or 0 for a sharp point; less than half the width."},
		{Path: "panel.tipRadius", Label: "Point at the tip rounded to", Kind: Length, Min: 0, Max: 10000, preset: always(0), When: lens,
			Help: "A radius, or 0 for a sharp point; less than half the width."},
		{Path: "panel.innerRadius", Label: "Inner radius", Kind: Length, Min: 0, Max: 20000, preset: always(0), When: sector,
			Help: "Of the arc at the foot, lying flat; 0 for a full pie piece."},
		{Path: "panel.sectorAngle", Label: "Angle of the sector", Kind: Angle, Min: degrees(1), Max: degrees(170), preset: always(degrees(60)), When: sector,
			Help: "Between its two straight sides.", Ask: "Say the angle between the sides of the sector."},
		{Path: "panel.corners", Label: "Corners, one after the other round the outline", Kind: Rows, Columns: cornerFields(), Row: "corner", When: polygon,
			Help: "Along the bend from the foot edge, and across it from the middle line.", whole: (*reader).cornersMakeAnArea},
		{Path: "panel.length", Label: "Length", Kind: Length, Min: 5, Max: 50000, More: true, When: cylinders.and("panel.shape", Rectangle, Taper, Ellipse, Lens, Sector),
			Help: "Flat, foot edge to tip edge.", Auto: "as long as foot, curve and tip"},
		{Path: "panel.holes", Label: "Holes", Kind: Rows, Columns: holeFields(), Row: "hole", More: true, When: cylinders,
			Help: "Their middles, along the bend from the panel's foot edge and across it from the middle line."},
		{Path: "panel.along", Label: "Starts along the curve at", Kind: Length, Min: -50000, Max: 50000, preset: always(0), More: true, When: cylinders,
			Help: "From the foot of the curve to the panel's foot edge."},
		{Path: "panel.across", Label: "Middle line moved across by", Kind: Length, Min: -20000, Max: 20000, preset: always(0), More: true, When: cylinders,
			Help: "From the line that ribs are measured from."},
		{Path: "panel.view", Label: "These sizes are of the panel", Kind: Choose, text: FlatView, More: true,
			When: cylinders.and("panel.shape", Rectangle, Ellipse, Lens, Polygon, Drawn), Choices: []Choice{{FlatView, "Flat, as it is cut"}, {SeenView, "Bent, as it is seen"}},
			Help: "Seen square to the straight line between the ends of the curve: from above when it lies, from the front when it stands.",
			into: func(v *Values, r reading) { v.Panel.Seen = r.shown && r.text == SeenView }},
	}
}

func cornerFields() []Field {
	return []Field{
		{Path: "along", Label: "Along", Kind: Length, Min: -50000, Max: 50000,
			Help: "Along the bend, from the foot edge.", Ask: "Say where this corner is along the bend."},
		{Path: "across", Label: "Across", Kind: Length, Min: -20000, Max: 20000,
			Help: "Across it, from the middle line.", Ask: "Say where this corner is across the bend."},
		{Path: "radius", Label: "Radius", Kind: Length, Min: 0, Max: 10000, preset: always(0), Help: "That it is rounded to, 0 for sharp."},
	}
}

func holeFields() []Field {
	slot := is("kind", SlotHole)
	return []Field{
		{Path: "kind", Label: "Kind", Kind: Choose, text: RoundHole, Choices: []Choice{{RoundHole, "Round"}, {SlotHole, "Slot"}},
			Help: "A slot has round ends.", into: func(v *Values, r reading) { last(v.Panel.Holes).Slot = r.text == SlotHole }},
		{Path: "along", Label: "Along", Kind: Length, Min: -50000, Max: 50000,
			Help: "Its middle along the bend, from the foot edge.", Ask: "Say where this hole is along the bend."},
		{Path: "across", Label: "Across", Kind: Length, Min: -20000, Max: 20000, preset: always(0), Help: "Its middle across the bend, from the middle line."},
		{Path: "width", Label: "Width", Kind: Length, Min: 0.5, Max: 20000, preset: always(10),
			Help: "Of a slot, or the diameter of a round hole.", Ask: "Say how wide this hole is."},
		{Path: "length", Label: "Length", Kind: Length, Min: 0.5, Max: 20000, preset: always(30), When: slot,
			Help: "Over all.", Ask: "Say how long this slot is."},
		{Path: "turn", Label: "Turned by", Kind: Angle, Min: -math.Pi, Max: math.Pi, preset: always(0), When: slot,
			Help: "From along the bend; 90 lies along the scores."},
	}
}

// cornersMakeAnArea asks for three corners, all in different places and not in line.
// Whether the outline crosses itself is not asked here.
func (r *reader) cornersMakeAnArea(st *State) {
	p := &r.v.Panel
	cs := p.Corners
	place := func(i int) string { return index("panel.corners", cs[i].Row) + ".along" }
	stand := func() { // something to reckon with in its place
		p.Corners = []CornerValues{{Along: 0, Across: -50}, {Along: 100, Across: -50}, {Along: 100, Across: 50}, {Along: 0, Across: 50}}
	}
	if len(cs) < 3 {
		r.missing(st, "Add at least three corners.", "An outline needs at least three corners.")
		stand()
		return
	}
	for i := range cs {
		a, b := cs[i], cs[(i+1)%len(cs)]
		if math.Hypot(a.Along-b.Along, a.Across-b.Across) < least {
			r.stop("corners-coincide", place((i+1)%len(cs)), "Two neighbouring corners lie in the same place. Move one of them, or remove it.", lessOne(cs, (i+1)%len(cs))...)
			stand()
			return
		}
	}
	if flat, i := inLine(cs); flat {
		r.stop("corners-in-line", place(i), "All corners lie in one line, so that there is nothing between them. Move one of them off it.")
		stand()
	}
}

// lessOne offers to remove a corner where enough are left.
func lessOne(cs []CornerValues, i int) []finding.Remedy {
	if len(cs) < 4 {
		return nil
	}
	return []finding.Remedy{{Text: "Remove this corner", Set: BlankRow("panel.corners", cs[i].Row)}}
}

// least is the shortest side of an outline, mm: no machine holds less.
const least = 0.01

// inLine tells whether all corners are within least of the line through the two that
// are furthest apart from the first, and which of them is furthest off it.
func inLine(cs []CornerValues) (bool, int) {
	far, d := 0, 0.0
	for i, c := range cs {
		if e := math.Hypot(c.Along-cs[0].Along, c.Across-cs[0].Across); e > d {
			far, d = i, e
		}
	}
	u, v := (cs[far].Along-cs[0].Along)/d, (cs[far].Across-cs[0].Across)/d
	most, at := 0.0, 0
	for i, c := range cs {
		if off := math.Abs((c.Across-cs[0].Across)*u - (c.Along-cs[0].Along)*v); off > most {
			most, at = off, i
		}
	}
	return most < least, at
}
