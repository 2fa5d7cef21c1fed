package plan

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
func (p *Plan) beds(from stock.Sheet) []sheet.Bed {
	m, c := p.V.Machine, p.V.Cut
	whole := sheet.Bed{W: m.BedWidth, H: m.BedHeight, Margin: c.Margin}
	scrap := p.scrapOf()
	if len(scrap.Outer.Segs) == 0 || len(offset.Crossings(scrap.Outer)) > 0 || !from.Own {
		return []sheet.Bed{whole}
	}
	return []sheet.Bed{{Outline: scrap, Margin: c.Margin, Count: 1}, whole}
}

// scrapOf returns the scrap as typed, as far as the bed reaches; empty for none.
func (p *Plan) scrapOf() plane.Region {
	m, c := p.V.Machine, p.V.Cut
	pts := make([]plane.Point, len(c.Scrap))
	for i, s := range c.Scrap {
		pts[i] = pt(s.X, s.Y)
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
func (p *Plan) scrap() {
	c := p.V.Cut
	if len(c.Scrap) == 0 {
		return
	}
	if len(offset.Crossings(p.scrapOf().Outer)) > 0 {
		p.note("scrap-crosses", finding.Warn, "cut.scrap", "The outline of the scrap crosses itself, so the scrap is not used. Give its corners one after the other round it.", nil)
		return
	}
	over := 0.0
	for _, s := range c.Scrap {
		over = math.Max(over, math.Max(s.X-p.V.Machine.BedWidth, s.Y-p.V.Machine.BedHeight))
	}
	if over > 1e-9 {
		p.note("scrap-off-bed", finding.Warn, "cut.scrap", "The scrap reaches "+p.len(over)+" over the end of the bed. No part is laid there.", map[string]float64{"over": over})
	}
}

func (p *Plan) note(id string, sev finding.Severity, field, text string, numbers map[string]float64) {
	p.Findings = append(p.Findings, finding.Finding{ID: id, Severity: sev, Place: finding.Place{Field: field}, Text: text, Numbers: numbers})
}

// turns returns the turns that parts of a sheet may lie at, those as drawn first.
func (p *Plan) turns(from stock.Sheet) []float64 {
	switch how := p.V.Cut.Turns; {
	case how == design.TurnNone:
		return nil
	case how == design.TurnQuarter, how != design.TurnHalf && !from.Grained:
		return []float64{0, math.Pi / 2, math.Pi, 3 * math.Pi / 2}
	}
	return []float64{0, math.Pi}
}

// pins returns the places of the copies of a part that the person put down, in the
// order they are listed.
func (p *Plan) pins(pt part.Part, piece *sheet.Piece) []sheet.Place {
	var out []sheet.Place
	for _, pin := range p.V.Cut.Pins {
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
func (p *Plan) CopyName(id string) string {
	kind, n, many := strings.Cut(id, " ")
	for _, g := range p.Lay.Sheets {
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
func (p *Plan) strayPins() {
	left := map[string]int{}
	for _, pin := range p.V.Cut.Pins {
		found := false
		for _, g := range p.Lay.Sheets {
			for _, pt := range g.Parts {
				if !Names(pin.Part, pt) {
					continue
				}
				found = true
				if left[pt.ID]++; left[pt.ID] == pt.Quantity+1 {
					p.note("pin-idle", finding.Note, "cut.pins", "More places are given for "+unit.The(pt.Name)+" than are cut of it. Those left over do nothing.", nil)
				}
			}
		}
		if !found {
			p.note("pin-idle", finding.Note, "cut.pins", "No part is called “"+pin.Part+"”, so its place does nothing.", nil)
		}
	}
}

// place lays every group: as packed before where that is still sound, else in rows.
func (p *Plan) place() {
	stale := false
	for i := range p.Lay.Sheets {
		g := &p.Lay.Sheets[i]
		rows := sheet.Rows(g.Job)
		g.Layout = rows
		if len(p.V.Cut.Places) > 0 {
			if packed, ok := p.packed(g, rows); ok {
				g.Layout, g.Packed = packed, true
			} else {
				stale = true
			}
		}
		p.Findings = append(p.Findings, g.Layout.Findings(&g.Job, p.V.Units)...)
		if len(p.V.Cut.Pins) > 0 {
			p.Findings = append(p.Findings, sheet.FaultFindings(&g.Job, &g.Layout, sheet.Verify(&g.Job, &g.Layout), p.V.Units)...)
		}
	}
	if stale {
		p.note("packing-old", finding.Note, "cut.turns", "The parts have changed since they were packed, so they lie in rows again. Pack them closer once more when you are done.", nil)
	}
}

// packed returns the layout that packing left, and whether it still holds: every copy
// laid once, and nothing nearer than it may be.
func (p *Plan) packed(g *Group, rows sheet.Layout) (sheet.Layout, bool) {
	job := &g.Job
	l := sheet.Layout{Missing: rows.Missing}
	index := map[string]int{}
	for i, pc := range job.Pieces {
		index[pc.ID] = i
	}
	for _, at := range p.V.Cut.Places {
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
			return l, false
		}
		l.Placed = append(l.Placed, sheet.Placed{Piece: i, Copy: at.Copy, Place: place})
	}
	l.Sum(job)
	for _, f := range sheet.Verify(job, &l) {
		if f.A < 0 || l.Placed[f.A].Copy >= len(job.Pieces[l.Placed[f.A].Piece].Pins) || f.B >= 0 && l.Placed[f.B].Copy >= len(job.Pieces[l.Placed[f.B].Piece].Pins) {
			return l, false
		}
	}
	return l, true
}

// Pack lays the parts of a design closer, by their real outlines, with so much effort
// (see sheet.Pack) shared among its stocks by their number of parts. It returns places
// for the design to keep; nil where there is nothing to lay.
func Pack(v design.Values, effort int64, watch sheet.Watch) (Plan, []design.LayValues) {
	v.Cut.Places = nil
	p := Make(v)
	if !p.Drawn {
		return p, nil
	}
	all := 0
	for _, g := range p.Lay.Sheets {
		all += len(g.Layout.Placed)
	}
	var out []design.LayValues
	for i := range p.Lay.Sheets {
		g := &p.Lay.Sheets[i]
		share := int64(float64(effort) * float64(len(g.Layout.Placed)) / math.Max(1, float64(all)))
		if l := sheet.Pack(g.Job, share, watch); closer(l, g.Layout) {
			g.Layout = l
		}
		g.Packed = true
		for _, at := range g.Layout.Placed {
			out = append(out, design.LayValues{Part: g.Job.Pieces[at.Piece].ID, Copy: at.Copy, Sheet: at.Sheet, X: at.X, Y: at.Y, Turn: at.Turn})
		}
	}
	p.relay()
	return p, out
}

// closer tells whether a lays more than b, or the same on fewer sheets, or on as many
// with more left of the last.
func closer(a, b sheet.Layout) bool {
	if len(a.Placed) != len(b.Placed) {
		return len(a.Placed) > len(b.Placed)
	}
	if len(a.Sheets) != len(b.Sheets) {
		return len(a.Sheets) < len(b.Sheets)
	}
	n := len(a.Sheets)
	return n > 0 && a.Sheets[n-1].Length <= b.Sheets[n-1].Length
}

// relay lists what is cut again after parts were moved.
func (p *Plan) relay() {
	p.Lay.Jobs, p.Lay.Times, p.Lay.Beds, p.Lay.Froms = nil, nil, nil, nil
	p.jobs()
}
