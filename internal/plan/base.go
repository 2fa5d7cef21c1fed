package plan

import (
	"math"
	"slices"
	"strconv"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/part"
	"springrib/internal/plane"
)

// BasePart is the plate that the ribs stand in.
type BasePart struct {
	part.Part
	Slots  []part.Slot
	Copies int // panels to a base
}

// BaseRoom is what panels standing side by side keep between them where no distance is
// given, mm. Common practice, no source.
const BaseRoom = 10

// base makes the plate with a slot for every tenon. Its middle is the origin; a panel
// that is not turned stands with its scores along X and faces +Y.
func base(p *Plan) bool {
	b := p.V.Base
	if b.Kind == design.NoBase || b.Kind == "" {
		return true
	}
	if p.Section.Closed || p.Section.Cone != nil {
		p.note("base-no-foot", finding.Note, "base.kind", "A panel that goes all round has no foot, so no base is cut.", nil)
		return true
	}
	one := p.tenonSlots()
	if len(one) == 0 {
		p.note("base-no-tenon", finding.Warn, "rib.foot", "No rib has a tenon, so there is nothing to cut slots for and no base is cut.", nil)
		return true
	}
	copies, quantity := p.basePoses()
	var slots []part.Slot
	for _, m := range copies {
		for _, s := range one {
			s.At, s.Turn = m.Apply(s.At), s.Turn+turnOf(m)
			slots = append(slots, s)
		}
	}
	t := part.BaseTask{ID: "base", Name: "base", From: p.from(b.Stock, b.Thickness, b.StockAt), Outline: p.baseOutline(slots), Slots: slots, Kerf: p.V.Machine.Kerf, Quantity: quantity}
	p.Base = &BasePart{Part: part.NewBase(t), Slots: slots, Copies: len(copies)}
	p.slotFaults(t.Outline)
	p.feetApart()
	p.room(copies)
	return true
}

// tenonSlots returns the slots of one panel's ribs, about the middle of its foot.
func (p *Plan) tenonSlots() []part.Slot {
	var out []part.Slot
	for _, s := range p.Supports.All {
		if s.Task.Stub == nil || s.Foot != design.Tenon {
			continue
		}
		out = append(out, part.Slot{At: pt(s.Across, 0), Turn: math.Pi / 2, Length: s.Task.Stub.Width + p.V.Rib.Fit, Width: s.Thickness + p.V.Rib.Fit})
	}
	return out
}

// basePoses returns how each panel stands on a base, and how many bases are cut.
func (p *Plan) basePoses() ([]plane.Affine, int) {
	b, all := p.V.Base, p.V.Panel.Quantity
	n := all
	if b.Copies > 0 {
		n = b.Copies
	}
	if b.Kind == design.PlacesBase {
		n = len(b.Places)
	}
	n = max(1, n)
	if b.Kind == design.RingBase && p.ring == 0 {
		p.ring = p.ringOf(n)
	}
	var out []plane.Affine
	box := p.Outline.Region.Box()
	wide := 2*math.Max(math.Abs(box.Min.Y), math.Abs(box.Max.Y)) + BaseRoom
	for k := range n {
		switch b.Kind {
		case design.RowBase:
			out = append(out, plane.Translate((float64(k)-float64(n-1)/2)*b.Pitch.Or(wide), 0))
		case design.RingBase:
			// Standing on the ring, facing outward.
			out = append(out, plane.Rotate(2*math.Pi*float64(k)/float64(n)).Mul(plane.Translate(0, p.ring)))
		default:
			at := b.Places[k]
			out = append(out, plane.Translate(at.X, at.Y).Mul(plane.Rotate(at.Turn)))
		}
	}
	return out, (all + n - 1) / n
}

func turnOf(m plane.Affine) float64 {
	d := m.Apply(pt(1, 0)).Sub(m.Apply(pt(0, 0)))
	return math.Atan2(d.Y, d.X)
}

// baseOutline is the outline as given, else round all slots with a border.
func (p *Plan) baseOutline(slots []part.Slot) plane.Path {
	b := p.V.Base
	box, far := plane.EmptyBox(), 0.0
	for _, s := range slots {
		box = box.Union(s.Path().Box())
		for _, g := range s.Path().Segs {
			far = math.Max(far, math.Hypot(g.A.X, g.A.Y))
		}
	}
	if b.Disc {
		return plane.CirclePath(pt(0, 0), b.Diameter.Or(math.Ceil(2*(far+b.Border)))/2)
	}
	l, w := b.Length.Or(math.Ceil(box.W()+2*b.Border)), b.Width.Or(math.Ceil(box.H()+2*b.Border))
	c := box.Centre()
	return plane.RectPath(plane.BoxOf(pt(c.X-l/2, c.Y-w/2), pt(c.X+l/2, c.Y+w/2)))
}

// Seat is what a foot may stand off the base, or in it, mm.
const Seat = 0.2

// feetApart tells of the tenon that misses the base by most: where the outline starts
// further along the curve its rib does so too, and its foot hangs over the base that the
// longest rib stands on.
func (p *Plan) feetApart() {
	base := p.Supports.All[p.Supports.Longest]
	worst, off, placed := base, 0.0, false
	for _, s := range p.Supports.All {
		d := s.Task.Start - base.Task.Start
		if s.Foot != design.Tenon || math.Abs(d) <= Seat {
			continue
		}
		placed = placed || s.Row >= 0
		if math.Abs(d) > math.Abs(off) {
			worst, off = s, d
		}
	}
	if off == 0 {
		return
	}
	f := finding.Finding{ID: "feet-apart", Severity: finding.Warn, Place: finding.Place{Part: "base", Field: "rib.quantity"},
		Numbers: map[string]float64{"apart": off, "across": worst.Across, "longest": base.Across}}
	how := "further along the curve than the longest, " + p.len(base.Across) + " across: its tenon hangs over the base."
	if off < 0 {
		how = "before the longest, " + p.len(base.Across) + " across: it stands in the base."
	}
	f.Text = "The rib " + p.len(worst.Across) + " across starts " + p.len(math.Abs(off)) + " " + how + " Give it a plain foot, or the panel a straight foot edge."
	if placed {
		f.Place.Field = "rib.places." + strconv.Itoa(worst.Row) + ".foot"
	}
	p.Findings = append(p.Findings, f)
}

// slotFaults says what is wrong with slots and tenons.
func (p *Plan) slotFaults(outline plane.Path) {
	v := &p.V
	add := func(id string, sev finding.Severity, field, text string, numbers map[string]float64) {
		p.Findings = append(p.Findings, finding.Finding{ID: id, Severity: sev, Place: finding.Place{Part: "base", Field: field}, Text: text, Numbers: numbers})
	}
	if v.Rib.Fit < 0 {
		add("slot-tight", finding.Warn, "rib.fit", "The slots are "+p.len(-v.Rib.Fit)+" narrower than the rib is thick: the tenon is pressed in, and may split the sheet or not go in at all. Try it in a fit strip first.",
			map[string]float64{"fit": v.Rib.Fit})
	}
	stub := p.Supports.All[0].Task.Stub
	for _, s := range p.Supports.All {
		if s.Foot == design.Tenon {
			stub = s.Task.Stub
		}
	}
	if over := stub.Depth - v.Base.Thickness; math.Abs(over) > 0.05*v.Base.Thickness+0.1 {
		what := "stands " + p.len(over) + " out of"
		if over < 0 {
			what = "ends " + p.len(-over) + " short of"
		}
		add("tenon-length", finding.Note, "rib.stubDepth", "The tenon goes in by "+p.len(stub.Depth)+" and "+what+" the far face of a base "+p.len(v.Base.Thickness)+" thick.", map[string]float64{"over": over})
	}
	p.slotsApart(outline, add)
}

// shoulders tells of a stub or tenon that leaves too little of its foot, or none: it is then
// cut no wider than the foot. A shoulder narrower than half the rib's thickness breaks off.
// Common practice, no source.
func (p *Plan) shoulders() {
	r := p.V.Rib
	on := slices.IndexFunc(p.Supports.All, func(s Support) bool { return s.Task.Stub != nil })
	shoulder := (r.FootDepth - r.StubWidth) / 2
	if on < 0 || shoulder >= r.Thickness/2-1e-9 {
		return
	}
	s := p.Supports.All[on]
	what := "tenon"
	if s.Foot == design.Stub {
		what = "stub"
	}
	f := finding.Finding{ID: "tenon-wide", Severity: finding.Warn, Place: finding.Place{Part: p.Ribs.Kinds[s.Kind].ID, Field: "rib.stubWidth"},
		Text: "The " + what + " leaves shoulders of only " + p.len(math.Max(0, shoulder)) + " on the foot.", Numbers: map[string]float64{"shoulder": shoulder}}
	if shoulder < 0 {
		f.Text = "The " + what + " is wider than the foot, so it is cut as wide as the foot and has no shoulders to stand on."
	}
	p.Findings = append(p.Findings, f)
}

// slotsApart looks at the material between slots and round them. Less than the base is
// thick breaks out. Common practice, no source.
func (p *Plan) slotsApart(outline plane.Path, add func(string, finding.Severity, string, string, map[string]float64)) {
	near, edge := math.Inf(1), math.Inf(1)
	slots := make([][]plane.Point, len(p.Base.Slots))
	for i, s := range p.Base.Slots {
		slots[i] = s.Path().Flatten(0.01)
	}
	rim := outline.Flatten(0.01)
	for i, a := range slots {
		for _, b := range slots[:i] {
			near = math.Min(near, between(a, b))
			if crossed(a, b) {
				near = 0
			}
		}
		edge = math.Min(edge, between(a, rim))
		for _, q := range a {
			if !outline.Contains(q) {
				edge = 0
			}
		}
	}
	place := "base.pitch"
	switch p.V.Base.Kind {
	case design.RingBase:
		place = "base.radius"
	case design.PlacesBase:
		place = "base.places"
	}
	t := p.V.Base.Thickness
	switch {
	case near <= 0:
		add("slots-meet", finding.Stop, place, "Two slots of the base run into each other. Set the panels further apart.", map[string]float64{"between": 0})
	case near < t:
		add("slots-near", finding.Warn, place, "Between two slots only "+p.len(near)+" of the base remain, less than it is thick; it breaks there.", map[string]float64{"between": near})
	}
	switch {
	case edge <= 0:
		add("slot-off-base", finding.Stop, "base.border", "A slot runs over the edge of the base. Make the base larger, or leave its size open.", map[string]float64{"edge": 0})
	case edge < t:
		add("slots-near", finding.Warn, "base.border", "Between a slot and the edge of the base only "+p.len(edge)+" remain, less than it is thick; it breaks out there.", map[string]float64{"edge": edge})
	}
}

// between returns the least distance between the corners of one polyline and the edges of
// the other, both ways.
func between(a, b []plane.Point) float64 {
	best := math.Inf(1)
	one := func(pts, line []plane.Point) {
		for _, q := range pts {
			for i := 0; i+1 < len(line); i++ {
				d := line[i+1].Sub(line[i])
				t := 0.0
				if l := d.Dot(d); l > 0 {
					t = math.Max(0, math.Min(1, q.Sub(line[i]).Dot(d)/l))
				}
				best = math.Min(best, q.Dist(line[i].Add(d.Mul(t))))
			}
		}
	}
	one(a, b)
	one(b, a)
	return best
}

// crossed tells whether an edge of one closed polyline crosses one of the other, or one
// lies in the other.
func crossed(a, b []plane.Point) bool {
	side := func(p, q, r plane.Point) float64 { return q.Sub(p).Cross(r.Sub(p)) }
	for i := 0; i+1 < len(a); i++ {
		for k := 0; k+1 < len(b); k++ {
			if side(a[i], a[i+1], b[k])*side(a[i], a[i+1], b[k+1]) < 0 && side(b[k], b[k+1], a[i])*side(b[k], b[k+1], a[i+1]) < 0 {
				return true
			}
		}
	}
	return plane.Poly(a[:len(a)-1]...).Contains(b[0]) || plane.Poly(b[:len(b)-1]...).Contains(a[0])
}
