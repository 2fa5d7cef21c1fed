package stand

import (
	"math"
	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/plane"
	"springrib/internal/surface"
	"strconv"
)

// room looks at the bodies that stand on a base, and says where two of them meet.
func (p *plate) room() {
	s, poses := p.out.One, p.out.Poses
	p.strikes(s, poses)
	if len(poses) < 2 {
		return
	}
	if p.Values.Base.Kind == design.RingBase {
		p.ringRoom(s, len(poses))
		return
	}
	low := Touch{At: surface.Vec{Z: math.Inf(1)}}
	var a, b int
	far := 2 * s.Reach()
	for i, m := range poses {
		back, ok := m.Inverse()
		if !ok {
			panic("stand: a panel that can't be placed on its base")
		}
		for j := i + 1; j < len(poses); j++ {
			if m.Apply(plane.Point{}).Dist(poses[j].Apply(plane.Point{})) > far {
				continue
			}
			if t := s.Meets(back.Mul(poses[j]), 0); t.OK && t.At.Z < low.At.Z {
				low, a, b = t, i, j
			}
		}
		if p.Values.Base.Kind == design.RowBase {
			break // each sees the next as the first does
		}
	}
	if !low.OK {
		return
	}
	f := p.meeting(low, a, b)
	if p.Values.Base.Kind == design.RowBase {
		f.Place.Field = "base.pitch"
	} else {
		f.Place.Field = "base.places"
	}
	p.All = append(p.All, f)
}

// ringRoom is room for a ring.
func (p *plate) ringRoom(s Standing, n int) {
	radius := p.out.Radius
	low, other := s.RingMeets(radius, n, 0)
	if !low.OK {
		return
	}
	f := p.meeting(low, 0, other)
	f.Place.Field = "base.radius"
	q := plane.Pt(low.At.X, low.At.Y+radius)
	f.Numbers["radius"], f.Numbers["fromMiddle"] = radius, q.Len()
	if q.Len() < 2*p.Values.Sheet.T {
		f.Text += " That is over the middle of the ring."
	} else {
		f.Text += " That is " + p.Len(q.Len()) + " from the middle of the ring."
	}
	p.All = append(p.All, f)
}

// meeting says of two panels that they stand in each other.
func (p *plate) meeting(t Touch, a, b int) finding.Finding {
	above := p.Len(t.At.Z) + " above it"
	if t.At.Z < 0.01 {
		above = "right at its face"
	}
	return finding.Finding{
		ID: "panels-meet", Severity: finding.Warn, Place: finding.Place{Part: "base"},
		Text: "Bent, panels " + strconv.Itoa(a+1) + " and " + strconv.Itoa(b+1) + " on the base run into each other, " +
			above + p.whichSide(t) + ".",
		Numbers: map[string]float64{"first": float64(a + 1), "second": float64(b + 1), "height": math.Max(0, t.At.Z), "across": t.At.X, "outward": t.At.Y},
	}
}

// whichSide says whether they lean together behind the ribs or before the panels.
func (p *plate) whichSide(t Touch) string {
	switch {
	case t.At.Y < -p.Values.Rib.FootDepth/2:
		return ", behind their ribs"
	case t.At.Y > p.Values.Rib.FootDepth/2+2*p.Values.Sheet.T:
		return ", before their feet"
	}
	return ""
}

// ringOf is the radius of a ring of n copies: as given, else as tight as the panels stand
// free of each other, feet and all that bends over them.
func (p *plate) ringOf(n int) float64 {
	b := p.Values.Base
	// Standing on the ring, facing outward. The feet's inner corners keep apart.
	least := p.Values.Rib.FootDepth + p.wide()/(2*math.Tan(math.Pi/float64(max(n, 3))))
	if b.Radius.OK || n < 2 {
		return b.Radius.Or(least)
	}
	if r, ok := p.out.One.RingRadius(least, n, BaseRoom/2); ok {
		return r
	}
	return least
}

// strikes says where a panel that bends down again, or that hangs past its foot, comes
// below the upper face of the base.
func (p *plate) strikes(s Standing, poses []plane.Affine) {
	deep := -Seat
	var at plane.Point
	for _, m := range poses {
		for _, b := range s.Bricks() {
			if b.Lo.Z >= deep {
				continue
			}
			for _, q := range []plane.Point{b.Mid(), plane.Pt(b.Lo.X, b.Lo.Y), plane.Pt(b.Lo.X, b.Hi.Y), plane.Pt(b.Hi.X, b.Lo.Y), plane.Pt(b.Hi.X, b.Hi.Y)} {
				if p.out.Outline.Contains(m.Apply(q)) {
					deep, at = b.Lo.Z, b.Mid()
				}
			}
		}
	}
	if deep >= -Seat {
		return
	}
	where := "in front of its foot"
	if at.Y < 0 {
		where = "behind its foot"
	}
	p.All = append(p.All, finding.Finding{
		ID: "panel-strikes-base", Severity: finding.Warn, Place: finding.Place{Part: "base", Field: "base.kind"},
		Text:    "The bent panel reaches " + p.Len(-deep) + " below the face of the base, " + p.Len(math.Abs(at.Y)) + " " + where + ": the base is in its way. Raise the foot with a longer straight, or make the base smaller there.",
		Numbers: map[string]float64{"below": -deep, "outward": at.Y},
	})
}
