package part

import (
	"math"

	"springrib/internal/curve"
	"springrib/internal/fit"
	"springrib/internal/offset"
	"springrib/internal/plane"
	"springrib/internal/solve"
	"springrib/internal/stock"
)

// RibTask says what a rib is made of.
type RibTask struct {
	ID, Name            string
	From                stock.Sheet
	Edge                curve.Curve // the contact edge
	PanelLeft           bool        // the panel lies to the left of the edge, the rib to the right
	Start, End          float64     // arc lengths where the rib starts and ends
	FootDepth, TipDepth float64     // linear in arc length between
	TipRound            float64     // radius of the tip's back corner; 0 keeps it sharp
	Stub                *Stub       // nil for a plain foot
	Kerf                float64
	Quantity            int
	Tolerance           float64 // of the back edge, mm
	Quick               bool    // fit the edges in the same tolerance with more pieces, sooner
	Hub                 *Hub    // of a ring; nil for none
	// Like is a rib of the same Edge, Start, End, depths and TipRound, whose edges are
	// taken over; nil to fit them.
	Like *Rib
}

// Stub is a tongue that runs on past the foot, along the foot's heading.
type Stub struct{ Depth, Width float64 }

// Rib is the shaped part that holds the curve.
type Rib struct {
	Part
	// Contact is the rib edge from foot to tip.
	Contact plane.Path
	// Back is the back edge from foot to where the tip's rounding starts.
	Back plane.Path
	// Seat is the stub and its shoulders, from back to contact edge; empty for a plain foot.
	Seat plane.Path
}

// DepthAt returns the rib's depth square to the edge at arc length s.
func (t RibTask) DepthAt(s float64) float64 {
	return t.FootDepth + t.slope()*(s-t.Start)
}

func (t RibTask) slope() float64 { return (t.TipDepth - t.FootDepth) / (t.End - t.Start) }

// inward returns the unit normal from the edge into the rib.
func (t RibTask) inward(st curve.State) plane.Point {
	n := st.Tangent().Left()
	if t.PanelLeft {
		n = n.Mul(-1)
	}
	return n
}

// back returns the back edge at s and its derivative.
func (t RibTask) back(s float64) (at, deriv plane.Point) {
	st := t.Edge.At(s)
	n, d := t.inward(st), t.DepthAt(s)
	k := st.Kappa // the normal's derivative is -k T for the left normal, +k T for the right
	if t.PanelLeft {
		k = -k
	}
	return st.P.Add(n.Mul(d)), st.Tangent().Mul(1 - k*d).Add(n.Mul(t.slope()))
}

// Deepest returns the place where the rib's depth takes the greatest share of the
// radius of an edge that bends around it, and that share; at 1 the back edge would
// come to a point, beyond it would cross itself.
func (t RibTask) Deepest() (share, s float64) {
	for _, at := range t.Edge.Samples(2 * math.Pi / 180) {
		if at > t.End {
			break
		}
		if at < t.Start {
			continue
		}
		st := t.Edge.At(at)
		k := st.Kappa
		if t.PanelLeft {
			k = -k
		}
		if f := k * t.DepthAt(at); f > share {
			share, s = f, at
		}
	}
	return share, s
}

// NewRib makes the rib. The caller has checked that Deepest is under 1.
//
// The outline runs along the contact edge, down the tip's end square to it, round the
// tip's back corner, back along the back edge and across the foot.
func NewRib(t RibTask) Rib {
	positive("rib", t.End-t.Start, t.FootDepth, t.TipDepth)
	from, tip := t.tip()
	contact, back := t.edges(from)
	segs := append([]plane.Segment{}, contact...)
	segs = append(segs, tip...)
	segs = append(segs, plane.Path{Segs: back}.Reverse().Segs...)
	foot := t.foot(back[0].A, contact[0].A)
	segs = append(segs, foot...)
	out := plane.Region{Outer: plane.Path{Segs: segs, Closed: true}}.Normal()
	rib := Rib{
		Part:    t.part(out),
		Contact: plane.Path{Segs: contact},
		Back:    plane.Path{Segs: back},
	}
	if t.Stub != nil {
		rib.Seat = plane.Path{Segs: foot}
	}
	return rib
}

// edges returns the contact edge, and the back edge up to where the tip takes over.
func (t RibTask) edges(to float64) (contact, back []plane.Segment) {
	if t.Like != nil {
		return t.Like.Contact.Segs, t.Like.Back.Segs
	}
	contact, ok := t.Edge.Segments(t.Start, t.End)
	if !ok {
		contact = t.fitEdge()
	}
	return contact, t.fitBack(to)
}

// part returns the part that the outline makes.
func (t RibTask) part(out plane.Region) Part {
	p := Part{ID: t.ID, Name: t.Name, From: t.From, Outline: out, Quantity: t.Quantity}
	p.free(t.Kerf)
	return p
}

// tip returns the end of the rib from the contact edge round the back corner, and
// the arc length at which the back edge takes over.
func (t RibTask) tip() (from float64, segs []plane.Segment) {
	end := t.Edge.At(t.End)
	r := math.Min(t.TipRound, 0.95*t.TipDepth)
	corner, _ := t.back(t.End)
	if r <= 0 {
		return t.End, []plane.Segment{plane.LineSeg(end.P, corner)}
	}
	centre := func(s float64) plane.Point {
		at, d := t.back(s)
		n := d.Unit().Left()
		if n.Dot(t.inward(t.Edge.At(s))) > 0 {
			n = n.Mul(-1) // from the back edge toward the contact edge
		}
		return at.Add(n.Mul(r))
	}
	short := func(s float64) float64 { return end.P.Sub(centre(s)).Dot(end.Tangent()) - r }
	from, ok := solve.Root(short, math.Max(t.Start, t.End-4*(r+t.TipDepth)), t.End, 1e-9)
	if !ok {
		return t.End, []plane.Segment{plane.LineSeg(end.P, corner)}
	}
	c := centre(from)
	a := c.Add(end.Tangent().Mul(r))
	b, _ := t.back(from)
	return from, []plane.Segment{plane.LineSeg(end.P, a), plane.ArcTangent(a, a.Sub(end.P).Unit(), b)}
}

// foot returns the run from the back edge's foot to the contact edge's.
func (t RibTask) foot(back, contact plane.Point) []plane.Segment {
	if t.Stub == nil {
		return []plane.Segment{plane.LineSeg(back, contact)}
	}
	out := t.Edge.At(t.Start).Tangent().Mul(-t.Stub.Depth)
	across := contact.Sub(back)
	w := math.Min(t.Stub.Width, across.Len()) / across.Len()
	a, b := back.Lerp(contact, (1-w)/2), back.Lerp(contact, (1+w)/2)
	pts := []plane.Point{back, a, a.Add(out), b.Add(out), b, contact}
	var segs []plane.Segment
	for i := 0; i+1 < len(pts); i++ {
		if pts[i].Dist(pts[i+1]) > 1e-9 {
			segs = append(segs, plane.LineSeg(pts[i], pts[i+1]))
		}
	}
	return segs
}

// Hub is what a ring holds in its middle: a plate with a hole, on spokes as wide as the ring. The
// ring's edge is a circle about the origin.
type Hub struct {
	Hole   float64 // diameter, mm
	Spokes int     // 2 or more
}

// leastWindow is the least that a window between spokes is wide, mm. Common practice, no source.
const leastWindow = 4

// holes returns the hole of a hub and the windows between its spokes, in a ring of a radius with so
// much left all round: each a piece of a ring between two arcs, its sides along the spokes. Where
// they would be too small there is none, and the ring is a plate.
func (h *Hub) holes(radius, depth float64) []plane.Path {
	out := []plane.Path{plane.CirclePath(plane.Point{}, h.Hole/2)}
	step := 2 * math.Pi / float64(h.Spokes)
	// Spokes run together nearer to the middle than this.
	inner := math.Max(h.Hole/2+depth, (depth+leastWindow)/2/math.Sin(math.Min(step, math.Pi)/2))
	outer := radius - depth
	if outer-inner < leastWindow {
		return out
	}
	for i := range h.Spokes {
		at := func(r, side float64) plane.Point { // side -1 along the spoke at its start, 1 at its end
			a := step * (float64(i) + (side+1)/2)
			return plane.Dir(a - side*math.Asin(depth/2/r)).Mul(r)
		}
		arc := func(a, b plane.Point, turn float64) []plane.Segment {
			var segs []plane.Segment
			from, r := math.Atan2(a.Y, a.X), a.Len()
			sweep := math.Mod(turn*(math.Atan2(b.Y, b.X)-from)+4*math.Pi, 2*math.Pi)
			n := int(math.Ceil(sweep/(math.Pi/2) - 1e-9))
			for k := range n {
				p, q := from+turn*sweep*float64(k)/float64(n), from+turn*sweep*float64(k+1)/float64(n)
				segs = append(segs, plane.ArcTangent(plane.Dir(p).Mul(r), plane.Dir(p).Left().Mul(turn), plane.Dir(q).Mul(r)))
			}
			return segs
		}
		segs := arc(at(outer, -1), at(outer, 1), 1)
		segs = append(segs, plane.LineSeg(at(outer, 1), at(inner, 1)))
		segs = append(segs, arc(at(inner, 1), at(inner, -1), -1)...)
		segs = append(segs, plane.LineSeg(at(inner, -1), at(outer, -1)))
		out = append(out, plane.Path{Segs: segs, Closed: true})
	}
	return out
}

// NewFormer makes the rib of an edge that goes all round: a plate with the edge as its
// outline, and the same shape the foot's depth further in as a hole where there is
// room for one, so that it stays light and hands reach in.
func NewFormer(t RibTask) Rib {
	positive("rib", t.End-t.Start, t.FootDepth)
	edge, ok := t.Edge.Segments(t.Start, t.End)
	if !ok {
		edge = t.fitEdge()
	}
	out := plane.Region{Outer: plane.Path{Segs: edge, Closed: true}}
	inner := t
	inner.TipDepth = t.FootDepth
	if t.Hub != nil {
		out.Holes = t.Hub.holes(t.End/(2*math.Pi), t.FootDepth)
	} else if share, _ := inner.Deepest(); share < 0.9 && inner.roomy() {
		out.Holes = []plane.Path{inner.inside()}
		if len(offset.Crossings(out.Paths()...)) > 0 { // an edge that bends in may leave no room at a neck
			out.Holes = nil
		}
	}
	out = out.Normal()
	return Rib{
		Part:    t.part(out),
		Contact: plane.Path{Segs: edge},
	}
}

// inside returns the hole of a former.
func (t RibTask) inside() plane.Path {
	if hole, ok := t.parallel(t.End); ok {
		hole[len(hole)-1].B = hole[0].A
		return plane.Path{Segs: hole, Closed: true}
	}
	src := plane.Func(true, t.back, t.knots(t.End)...)
	return fit.Fit(src, fit.Options{Tolerance: t.Tolerance, Mode: fit.Arcs, Quick: t.Quick}).Path
}

// roomy tells whether the inner edge of a former stays clear of itself: the edge's box
// is more than three depths wide and high.
func (t RibTask) roomy() bool {
	b := plane.EmptyBox()
	for _, s := range t.Edge.Samples(0.2) {
		b = b.Add(t.Edge.At(s).P)
	}
	return math.Min(b.W(), b.H()) > 3*t.FootDepth
}
