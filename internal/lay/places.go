package lay

import (
	"math"
	"strings"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/offset"
	"springrib/internal/part"
	"springrib/internal/plane"
	"springrib/internal/sheet"
	"springrib/internal/stock"
	"springrib/internal/unit"
)

// beds returns the sheets to lay parts on: the scrap first where it is of the panel's.
func (l *Lay) beds(from stock.Sheet) []sheet.Bed {
	m, c := l.task.Values.Machine, l.task.Values.Cut
	whole := sheet.Bed{W: m.BedWidth, H: m.BedHeight, Margin: c.Margin}
	scrap := l.scrapOf()
	if len(scrap.Outer.Segs) == 0 || len(offset.Crossings(scrap.Outer)) > 0 || !from.Own {
		return []sheet.Bed{whole}
	}
	return []sheet.Bed{{Outline: scrap, Margin: c.Margin, Count: 1}, whole}
}

// scrapOf returns the scrap as typed, as far as the bed reaches; empty for none.
func (l *Lay) scrapOf() plane.Region {
	m, c := l.task.Values.Machine, l.task.Values.Cut
	pts := make([]plane.Point, len(c.Scrap))
	for i, s := range c.Scrap {
		pts[i] = plane.Pt(s.X, s.Y)
	}
	// No part is laid where the tool does not come.
	pts = upTo(pts, func(q plane.Point) float64 { return m.BedWidth - q.X })
	pts = upTo(pts, func(q plane.Point) float64 { return m.BedHeight - q.Y })
	if len(pts) < 3 {
		return plane.Region{}
	}
	return plane.Region{Outer: plane.Poly(pts...)}.Normal()
}

// upTo cuts a polygon off where room falls below nothing (I. Sutherland & G. Hodgman,
// Reentrant polygon clipping, CACM 1974).
func upTo(pts []plane.Point, room func(plane.Point) float64) []plane.Point {
	var out []plane.Point
	for i, a := range pts {
		b := pts[(i+1)%len(pts)]
		ra, rb := room(a), room(b)
		if ra >= 0 {
			out = append(out, a)
		}
		if ra > 0 && rb < 0 || ra < 0 && rb > 0 {
			out = append(out, a.Lerp(b, ra/(ra-rb)))
		}
	}
	return out
}

// scrap says what is wrong with the scrap as typed; a crossed one is not used.
func (l *laid) scrap() {
	c := l.task.Values.Cut
	if len(c.Scrap) == 0 {
		return
	}
	if len(offset.Crossings(l.scrapOf().Outer)) > 0 {
		l.Note("scrap-crosses", finding.Warn, "cut.scrap", "The outline of the scrap crosses itself, so the scrap is not used. Give its corners one after the other round it.", nil)
		return
	}
	over := 0.0
	for _, s := range c.Scrap {
		over = math.Max(over, math.Max(s.X-l.task.Values.Machine.BedWidth, s.Y-l.task.Values.Machine.BedHeight))
	}
	if over > 1e-9 {
		l.Note("scrap-off-bed", finding.Warn, "cut.scrap", "The scrap reaches "+l.Len(over)+" over the end of the bed. No part is laid there.", map[string]float64{"over": over})
	}
}

// turns returns the turns that parts of a sheet may lie at, those as drawn first.
func (l *Lay) turns(from stock.Sheet) []float64 {
	switch how := l.task.Values.Cut.Turns; {
	case how == design.TurnNone:
		return nil
	case how == design.TurnQuarter, how != design.TurnHalf && !from.Grained:
		return []float64{0, math.Pi / 2, math.Pi, 3 * math.Pi / 2}
	}
	return []float64{0, math.Pi}
}

// pins returns the places of the copies of a part that the person put down, in the
// order they are listed.
func (l *Lay) pins(pt part.Part, piece *sheet.Piece) []sheet.Place {
	var out []sheet.Place
	for _, pin := range l.task.Values.Cut.Pins {
		if len(out) >= pt.Quantity || !Names(pin.Part, pt) {
			continue
		}
		turn := plane.Rotate(pin.Turn)
		box := piece.Outline.Outer.Apply(turn).Box()
		for _, r := range piece.Reach {
			box = box.Union(r.Apply(turn).Box())
		}
		out = append(out, sheet.Place{Sheet: pin.Sheet, X: pin.X - box.Min.X, Y: pin.Y - box.Min.Y, Turn: pin.Turn})
	}
	return out
}

// CopyName says which copy of which part an id in a job is: "rib1 2" is the second rib.
func (l *Lay) CopyName(id string) string {
	kind, n, many := strings.Cut(id, " ")
	for _, g := range l.Sheets {
		for _, pt := range g.Parts {
			if pt.ID == kind && many {
				return pt.Name + " (copy " + n + ")"
			} else if pt.ID == kind {
				return pt.Name
			}
		}
	}
	return id
}

// Names tells whether a word is the name of a part, or its id.
func Names(word string, pt part.Part) bool {
	return strings.EqualFold(word, pt.Name) || strings.EqualFold(word, pt.ID)
}

// strayPins says which pins hold no part that there is.
func (l *laid) strayPins() {
	left := map[string]int{}
	for _, pin := range l.task.Values.Cut.Pins {
		found := false
		for _, g := range l.Sheets {
			for _, pt := range g.Parts {
				if !Names(pin.Part, pt) {
					continue
				}
				found = true
				if left[pt.ID]++; left[pt.ID] == pt.Quantity+1 {
					l.Note("pin-idle", finding.Note, "cut.pins", "More places are given for "+unit.The(pt.Name)+" than are cut of it. Those left over do nothing.", nil)
				}
			}
		}
		if !found {
			l.Note("pin-idle", finding.Note, "cut.pins", "No part is called “"+pin.Part+"”, so its place does nothing.", nil)
		}
	}
}

// place lays every group: as packed before where that is still sound, else in rows.
func (l *laid) place() {
	stale := false
	for i := range l.Sheets {
		g := &l.Sheets[i]
		rows := sheet.Rows(g.Job)
		g.Layout = rows
		if len(l.task.Values.Cut.Places) > 0 {
			if packed, ok := l.packed(g, rows.Missing, l.task.Values.Cut.Places); ok {
				g.Layout, g.Packed = packed, true
			} else {
				stale = true
			}
		}
		l.All = append(l.All, g.Layout.Findings(&g.Job, l.task.Values.Units)...)
		if len(l.task.Values.Cut.Pins) > 0 {
			l.All = append(l.All, sheet.FaultFindings(&g.Job, &g.Layout, sheet.Verify(&g.Job, &g.Layout), l.task.Values.Units)...)
		}
	}
	if stale {
		l.Note("packing-old", finding.Note, "cut.turns", "The parts have changed since they were packed, so they lie in rows again. Pack them closer once more when you are done.", nil)
	}
}

// packed returns the layout that packing left, and whether it still holds: every copy
// laid once but for those that found no room, and nothing nearer than it may be.
func (l *Lay) packed(g *Group, missing []sheet.Missing, places []design.LayValues) (sheet.Layout, bool) {
	job := &g.Job
	out := sheet.Layout{Missing: missing}
	index := map[string]int{}
	for i, pc := range job.Pieces {
		index[pc.ID] = i
	}
	for _, at := range places {
		i, ok := index[at.Part]
		if !ok {
			continue // of another group, or gone
		}
		pc := job.Pieces[i]
		place := sheet.Place{Sheet: at.Sheet, X: at.X, Y: at.Y, Turn: at.Turn}
		for _, t := range pc.Turns {
			if math.Abs(t-at.Turn) < 1e-6 {
				place.Turn = t
			}
		}
		if at.Copy < len(pc.Pins) {
			place = pc.Pins[at.Copy]
		}
		if at.Copy >= pc.Quantity || at.Sheet >= sheet.MaxSheets {
			return out, false
		}
		out.Placed = append(out.Placed, sheet.Placed{Piece: i, Copy: at.Copy, Place: place})
	}
	out.Sum(job)
	for _, f := range sheet.Verify(job, &out) {
		if f.A < 0 || out.Placed[f.A].Copy >= len(job.Pieces[out.Placed[f.A].Piece].Pins) || f.B >= 0 && out.Placed[f.B].Copy >= len(job.Pieces[out.Placed[f.B].Piece].Pins) {
			return out, false
		}
	}
	return out, true
}
