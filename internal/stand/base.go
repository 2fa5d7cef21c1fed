package stand

import (
	"math"
	"strconv"

	"springrib/internal/curve"
	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/part"
	"springrib/internal/plane"
	"springrib/internal/surface"
)

// BaseRoom is what panels standing side by side keep between them where no distance is
// given, mm. Common practice, no source.
const BaseRoom = 10

// Task is what may stand on a base.
type Task struct {
	Values    *design.Values
	Edge      curve.Curve // contact edge of panel and ribs
	PanelLeft bool        // the panel lies to the left of the edge
	Closed    bool        // the edge goes all round
	Feet      []Foot      // of the ribs, in order across the panel
	Longest   int         // index of the foot that the base is laid under
	Outline   plane.Region
	Bent      surface.Strip
	Frames    []surface.Frame // of Bent
}

// Foot is where a rib stands.
type Foot struct {
	Row               int // of the rib in the document, negative for one that has no place of its own
	Across, Thickness float64
	Tenon             bool
	Task              part.RibTask
}

// Base is the plate that the ribs stand in. Its middle is the origin.
type Base struct {
	part.Part
	Slots  []part.Slot
	Copies int            // panels to a base
	Poses  []plane.Affine // what carries the middle of each panel's foot, with the scores along X and facing +Y, to its slots
	Radius float64        // of the ring that they stand on
	One    Standing       // copy of panel and ribs, about the middle of its foot
}

// NewBase makes the plate with a slot for every tenon, nil where none is cut, and says what is
// wrong with it and where the bodies that stand on it meet.
func NewBase(t Task) (*Base, []finding.Finding) {
	p := plate{Task: t, Notes: finding.Notes{Units: t.Values.Units}}
	if k := t.Values.Base.Kind; k != design.NoBase && k != "" {
		p.make()
	}
	return p.out, p.All
}

// plate is a base in the making.
type plate struct {
	Task
	finding.Notes
	out *Base
}

func (p *plate) make() {
	b := &p.Values.Base
	if p.Closed {
		p.Note("base-no-foot", finding.Note, "base.kind", "A panel that goes all round has no foot, so no base is cut.", nil)
		return
	}
	one := p.tenonSlots()
	if len(one) == 0 {
		p.Note("base-no-tenon", finding.Warn, "rib.foot", "No rib has a tenon, so there is nothing to cut slots for and no base is cut.", nil)
		return
	}
	p.out = &Base{One: p.stands()}
	quantity := p.pose()
	for _, m := range p.out.Poses {
		for _, s := range one {
			s.At, s.Turn = m.Apply(s.At), s.Turn+turnOf(m)
			p.out.Slots = append(p.out.Slots, s)
		}
	}
	outline := p.baseOutline(p.out.Slots)
	p.out.Part = part.NewBase(part.BaseTask{ID: "base", Name: "base", From: p.Values.From(b.Stock, b.Thickness, b.StockAt), Outline: outline, Slots: p.out.Slots, Kerf: p.Values.Machine.Kerf, Quantity: quantity})
	p.slotFaults(outline)
	p.feetApart()
	p.room()
}

// tenonSlots returns the slots of one panel's ribs, about the middle of its foot.
func (p *plate) tenonSlots() []part.Slot {
	var out []part.Slot
	for _, s := range p.Feet {
		if s.Task.Stub == nil || !s.Tenon {
			continue
		}
		out = append(out, part.Slot{At: plane.Pt(s.Across, 0), Turn: math.Pi / 2, Length: s.Task.Stub.Width + p.Values.Rib.Fit, Width: s.Thickness + p.Values.Rib.Fit})
	}
	return out
}

// pose says how each panel stands on the base, and returns how many bases are cut.
func (p *plate) pose() int {
	b, all := &p.Values.Base, p.Values.Panel.Quantity
	n := all
	if b.Copies > 0 {
		n = b.Copies
	}
	if b.Kind == design.PlacesBase {
		n = len(b.Places)
	}
	n = max(1, n)
	if b.Kind == design.RingBase {
		p.out.Radius = p.ringOf(n)
	}
	for k := range n {
		var at plane.Affine
		switch b.Kind {
		case design.RowBase:
			at = plane.Translate((float64(k)-float64(n-1)/2)*b.Pitch.Or(p.wide()), 0)
		case design.RingBase:
			// Standing on the ring, facing outward.
			at = plane.Rotate(2 * math.Pi * float64(k) / float64(n)).Mul(plane.Translate(0, p.out.Radius))
		default:
			at = plane.Translate(b.Places[k].X, b.Places[k].Y).Mul(plane.Rotate(b.Places[k].Turn))
		}
		p.out.Poses = append(p.out.Poses, at)
	}
	p.out.Copies = n
	return (all + n - 1) / n
}

// wide is how wide a panel stands that keeps its room to both sides.
func (p *plate) wide() float64 {
	box := p.Outline.Box()
	return 2*math.Max(math.Abs(box.Min.Y), math.Abs(box.Max.Y)) + BaseRoom
}

func turnOf(m plane.Affine) float64 {
	d := m.Apply(plane.Pt(1, 0)).Sub(m.Apply(plane.Pt(0, 0)))
	return math.Atan2(d.Y, d.X)
}

// baseOutline is the outline as given, else round all slots with a border.
func (p *plate) baseOutline(slots []part.Slot) plane.Path {
	b := p.Values.Base
	box, far := plane.EmptyBox(), 0.0
	for _, s := range slots {
		box = box.Union(s.Path().Box())
		for _, g := range s.Path().Segs {
			far = math.Max(far, math.Hypot(g.A.X, g.A.Y))
		}
	}
	if b.Disc {
		return plane.CirclePath(plane.Pt(0, 0), b.Diameter.Or(math.Ceil(2*(far+b.Border)))/2)
	}
	l, w := b.Length.Or(math.Ceil(box.W()+2*b.Border)), b.Width.Or(math.Ceil(box.H()+2*b.Border))
	c := box.Centre()
	return plane.RectPath(plane.BoxOf(plane.Pt(c.X-l/2, c.Y-w/2), plane.Pt(c.X+l/2, c.Y+w/2)))
}

// Seat is what a foot may stand off the base, or in it, mm.
const Seat = 0.2

// feetApart tells of the tenon that misses the base by most: where the outline starts
// further along the curve its rib does so too, and its foot hangs over the base that the
// longest rib stands on.
func (p *plate) feetApart() {
	base := p.Feet[p.Longest]
	worst, off, placed := base, 0.0, false
	for _, s := range p.Feet {
		d := s.Task.Start - base.Task.Start
		if !s.Tenon || math.Abs(d) <= Seat {
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
	how := "further along the curve than the longest, " + p.Len(base.Across) + " across: its tenon hangs over the base."
	if off < 0 {
		how = "before the longest, " + p.Len(base.Across) + " across: it stands in the base."
	}
	f.Text = "The rib " + p.Len(worst.Across) + " across starts " + p.Len(math.Abs(off)) + " " + how + " Give it a plain foot, or the panel a straight foot edge."
	if placed {
		f.Place.Field = "rib.places." + strconv.Itoa(worst.Row) + ".foot"
	}
	p.All = append(p.All, f)
}

// slotFaults says what is wrong with slots and tenons.
func (p *plate) slotFaults(outline plane.Path) {
	v := p.Values
	add := func(id string, sev finding.Severity, field, text string, numbers map[string]float64) {
		p.All = append(p.All, finding.Finding{ID: id, Severity: sev, Place: finding.Place{Part: "base", Field: field}, Text: text, Numbers: numbers})
	}
	if v.Rib.Fit < 0 {
		add("slot-tight", finding.Warn, "rib.fit", "The slots are "+p.Len(-v.Rib.Fit)+" narrower than the rib is thick: the tenon is pressed in, and may split the sheet or not go in at all. Try it in a fit strip first.",
			map[string]float64{"fit": v.Rib.Fit})
	}
	stub := p.Feet[0].Task.Stub
	for _, s := range p.Feet {
		if s.Tenon {
			stub = s.Task.Stub
		}
	}
	if over := stub.Depth - v.Base.Thickness; math.Abs(over) > 0.05*v.Base.Thickness+0.1 {
		what := "stands " + p.Len(over) + " out of"
		if over < 0 {
			what = "ends " + p.Len(-over) + " short of"
		}
		add("tenon-length", finding.Note, "rib.stubDepth", "The tenon goes in by "+p.Len(stub.Depth)+" and "+what+" the far face of a base "+p.Len(v.Base.Thickness)+" thick.", map[string]float64{"over": over})
	}
	p.slotsApart(outline, add)
}

// slotsApart looks at the material between slots and round them. Less than the base is
// thick breaks out. Common practice, no source.
func (p *plate) slotsApart(outline plane.Path, add func(string, finding.Severity, string, string, map[string]float64)) {
	near, edge := math.Inf(1), math.Inf(1)
	slots := make([][]plane.Point, len(p.out.Slots))
	for i, s := range p.out.Slots {
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
	switch p.Values.Base.Kind {
	case design.RingBase:
		place = "base.radius"
	case design.PlacesBase:
		place = "base.places"
	}
	t := p.Values.Base.Thickness
	switch {
	case near <= 0:
		add("slots-meet", finding.Stop, place, "Two slots of the base run into each other. Set the panels further apart.", map[string]float64{"between": 0})
	case near < t:
		add("slots-near", finding.Warn, place, "Between two slots only "+p.Len(near)+" of the base remain, less than it is thick; it breaks there.", map[string]float64{"between": near})
	}
	switch {
	case edge <= 0:
		add("slot-off-base", finding.Stop, "base.border", "A slot runs over the edge of the base. Make the base larger, or leave its size open.", map[string]float64{"edge": 0})
	case edge < t:
		add("slots-near", finding.Warn, "base.border", "Between a slot and the edge of the base only "+p.Len(edge)+" remain, less than it is thick; it breaks out there.", map[string]float64{"edge": edge})
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
