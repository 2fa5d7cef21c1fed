package view

import (
	"math"
	"strconv"

	"springrib/internal/design"
	"springrib/internal/plane"
)

// roundingGrip is the middle of a rectangle's corner at the tip, on the upper side of the
// drawing: all four are rounded alike.
func roundingGrip(f flatView, length float64, v design.PanelValues) grip {
	tip := f.at(length, f.hand*v.Width/2)
	g := roundedCorner("panel-corner", labelOf("panel.cornerRadius"), "panel.cornerRadius", tip, plane.Pt(-1, -1).Unit(), math.Pi/2, v.CornerRadius)
	g.knobs[0].high = math.Min(g.knobs[0].high, math.Floor(10*math.Min(length, v.Width)/2)/10)
	return g
}

// corner is the middle of the arc that rounds a corner of the flat drawing, whose sides
// stand at an angle about the way in: a rounding of r lies r (1/sin(angle/2) - 1) inside.
func roundedCorner(id, label, path string, tip, in plane.Point, angle, radius float64) grip {
	stretch := 1 / (1/math.Sin(angle/2) - 1)
	return straightGrip(id, label, "flat", "track", tip.Add(in.Mul(radius/stretch)), path, tip, in, stretch)
}

// sectorGrips are the inner corner of a sector, which moves with its inner radius, a place
// of its outer arc, which moves with its length, and its outer corner, with its angle; all
// on the upper side of the drawing.
func sectorGrips(f flatView, length float64, v design.PanelValues) []grip {
	h := v.SectorAngle / 2
	foot, centre, outer := f.at(0, 0), f.at(-v.InnerRadius, 0), v.InnerRadius+length
	// The middle of the inner arc stays at the foot, so a corner moves by dir(h) - dir(0)
	// for each millimetre of radius.
	move := plane.Dir(h).Sub(plane.Pt(1, 0))
	inner := straightGrip("inner-radius", labelOf("panel.innerRadius"), "flat", "track", foot.Add(move.Mul(v.InnerRadius)),
		"panel.innerRadius", foot, move.Unit(), 1/move.Len())
	half := plane.Dir(h / 2)
	long := straightGrip("panel-length", labelOf("panel.length"), "flat", "track", centre.Add(half.Mul(outer)),
		"panel.length", centre.Add(half.Mul(v.InnerRadius)), half, 1)
	low, high := boundsOf("panel.sectorAngle")
	return []grip{inner, long, {
		id: "sector-angle", label: labelOf("panel.sectorAngle"), drawing: "flat", ways: "track", at: centre.Add(plane.Dir(h).Mul(outer)),
		knobs: []knob{{path: "panel.sectorAngle", kind: design.Angle, value: v.SectorAngle, low: low, high: high}},
		pull: func(to plane.Point) ([]float64, float64) {
			d := to.Sub(centre)
			return []float64{2 * math.Atan2(d.Y, d.X)}, outer / 2
		},
	}}
}

// polygonGrips are the corners of a polygon, and the middles of those that are rounded.
func polygonGrips(f flatView, v design.PanelValues) []grip {
	var out []grip
	n := len(v.Corners)
	at := func(i int) plane.Point { c := v.Corners[(i+n)%n]; return f.at(c.Along, c.Across) }
	for i, c := range v.Corners {
		name, path := strconv.Itoa(c.Row+1), "panel.corners."+strconv.Itoa(c.Row)
		out = append(out, freeGrip("corner "+name, "Corner "+name, "flat", at(i), path+".along", path+".across", f.origin, plane.Pt(1, f.hand)))
		a, b := at(i-1).Sub(at(i)).Unit(), at(i+1).Sub(at(i)).Unit()
		angle := math.Atan2(math.Abs(a.Cross(b)), a.Dot(b))
		// At a corner that is nearly straight a rounding lies nowhere else.
		if c.Radius > 0 && angle < blunt {
			g := roundedCorner("corner-radius "+name, "Radius of corner "+name, path+".radius", at(i), a.Add(b).Unit(), angle, c.Radius)
			g.knobs[0].high = math.Min(g.knobs[0].high, math.Max(c.Radius, cornerRoom(v.Corners, i)))
			out = append(out, g)
		}
	}
	return out
}

// blunt is the angle from which on the rounding of a corner can't be held: its middle lies
// within a fiftieth of the radius of the corner itself.
const blunt = 2.75

// cornerRoom is the radius that a corner has room for while its neighbours keep theirs.
func cornerRoom(cs []design.CornerValues, i int) float64 {
	n := len(cs)
	at := func(i int) plane.Point { c := cs[(i+n)%n]; return plane.Pt(c.Along, c.Across) }
	// slope is what a rounding takes off both sides for each millimetre of radius.
	slope := func(i int) float64 {
		a, b := at(i).Sub(at(i-1)), at(i+1).Sub(at(i))
		return math.Tan(math.Abs(math.Atan2(a.Cross(b), a.Dot(b))) / 2)
	}
	room := math.Inf(1)
	for _, k := range []int{i - 1, i + 1} {
		left := at(i).Dist(at(k)) - cs[(k+n)%n].Radius*slope(k)
		room = math.Min(room, left/slope(i))
	}
	return math.Floor(10*math.Max(0, room)) / 10
}

// holeGrips are the middles of holes, and what tells their sizes: the side of a round one,
// the side and both ends of a slot.
func holeGrips(f flatView, v design.PanelValues) []grip {
	var out []grip
	for _, h := range v.Holes {
		n, path := strconv.Itoa(h.Row+1), "panel.holes."+strconv.Itoa(h.Row)
		at := f.at(h.Along, h.Across)
		out = append(out, freeGrip("hole "+n, "Hole "+n, "flat", at, path+".along", path+".across", f.origin, plane.Pt(1, f.hand)))
		if !h.Slot {
			side := plane.Pt(1, 0)
			out = append(out, straightGrip("hole-width "+n, "Diameter of hole "+n, "flat", "x", at.Add(side.Mul(h.Width/2)), path+".width", at, side, 2))
			continue
		}
		way := plane.Pt(math.Cos(h.Turn), f.hand*math.Sin(h.Turn))
		across := way.Left()
		wide := straightGrip("hole-width "+n, "Width of hole "+n, "flat", "track", at.Add(across.Mul(h.Width/2)), path+".width", at, across, 2)
		long := straightGrip("hole-length "+n, "Length of hole "+n, "flat", "track", at.Add(way.Mul(math.Max(h.Length, h.Width)/2)), path+".length", at, way, 2)
		out = append(out, wide, long, turnGrip(f, at, h, n, path))
	}
	return out
}

// turnGrip is the near end of a slot, which turns it about its middle.
func turnGrip(f flatView, at plane.Point, h design.HoleValues, n, path string) grip {
	low, high := boundsOf(path + ".turn")
	reach := math.Max(h.Length, h.Width) / 2
	way := plane.Pt(math.Cos(h.Turn), f.hand*math.Sin(h.Turn))
	return grip{
		id: "hole-turn " + n, label: "Turn of hole " + n, drawing: "flat", ways: "track", at: at.Sub(way.Mul(reach)),
		knobs: []knob{{path: path + ".turn", kind: design.Angle, value: h.Turn, low: low, high: high}},
		pull: func(to plane.Point) ([]float64, float64) {
			d := at.Sub(to)
			turn := math.Atan2(f.hand*d.Y, d.X)
			// The nearer of the two ways round, so that it never flips to the other end of its
			// figures under the hand.
			turn = h.Turn + math.Remainder(turn-h.Turn, 2*math.Pi)
			return []float64{turn}, reach
		},
	}
}
