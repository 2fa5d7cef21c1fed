package strips

import (
	"math"

	"springrib/internal/coupon"
	"springrib/internal/plane"
	"springrib/internal/sheet"
)

// spreading is where tongues are held on the bed, by their ids; nil pins when they lie
// with the others. cramped tells that the bed has no room for what was wanted.
type spreading struct {
	pins    map[string]sheet.Place
	cramped bool
}

// depthStrips returns the tongues, at the corners and the centre of the bed where that is
// wanted and there is room: all scored ones at the centre if possible, those of the
// design's passes otherwise; along the bed if possible, across it otherwise.
func (p *Task) depthStrips(o coupon.Order) ([]coupon.Strip, spreading) {
	if !p.Values.Strips.Corners {
		return o.Depth(), spreading{}
	}
	o.Corners = true
	for _, o.ChosenOnly = range []bool{false, true} {
		pieces := o.Depth()
		for _, turn := range []float64{0, math.Pi / 2} {
			if pins := p.overBed(pieces, turn); pins != nil {
				return pieces, spreading{pins: pins}
			}
		}
	}
	o.Corners, o.ChosenOnly = false, false
	return o.Depth(), spreading{cramped: true}
}

// overBed holds the tongues that have a spot at it, nil where they don't fit. Boxes of all
// tool paths keep the gap between corner and corner and to the block at the centre.
func (p *Task) overBed(pieces []coupon.Strip, turn float64) map[string]sheet.Place {
	m, gap := p.Values.Machine, p.Values.Cut.Gap
	room := plane.Box{Max: plane.Pt(m.BedWidth, m.BedHeight)}.Grow(-p.Values.Cut.Margin)
	pins := map[string]sheet.Place{}
	var corners []plane.Box
	var centre []coupon.Strip
	for _, s := range pieces {
		if s.Spot == coupon.Centre {
			centre = append(centre, s)
		}
		at, ok := corner(room, s.Spot)
		if !ok {
			continue
		}
		_, reach := stripBoxes(s, turn)
		// The box's own corner comes to lie in the room's.
		own, _ := corner(reach, s.Spot)
		d := at.Sub(own)
		box := plane.Box{Min: reach.Min.Add(d), Max: reach.Max.Add(d)}
		for _, c := range corners {
			if tooNear(box, c, gap) {
				return nil
			}
		}
		corners = append(corners, box)
		pins[s.ID] = sheet.Place{X: d.X, Y: d.Y, Turn: turn}
	}
	if len(corners) == 0 || len(centre) == 0 {
		return nil
	}
	for columns := 1; columns <= len(centre); columns++ {
		block, places := stacked(centre, room.Centre(), turn, columns, gap)
		if block.Min.X < room.Min.X || block.Min.Y < room.Min.Y || block.Max.X > room.Max.X || block.Max.Y > room.Max.Y {
			continue
		}
		free := true
		for _, c := range corners {
			free = free && !tooNear(block, c, gap)
		}
		if free {
			for i, s := range centre {
				pins[s.ID] = places[i]
			}
			return pins
		}
	}
	return nil
}

// corner returns the corner of a box that a spot is, false for another spot.
func corner(b plane.Box, spot string) (plane.Point, bool) {
	switch spot {
	case coupon.LowerLeft:
		return b.Min, true
	case coupon.LowerRight:
		return plane.Pt(b.Max.X, b.Min.Y), true
	case coupon.UpperLeft:
		return plane.Pt(b.Min.X, b.Max.Y), true
	case coupon.UpperRight:
		return b.Max, true
	}
	return plane.Point{}, false
}

// stripBoxes are the box of a strip's outline and that of all its tool paths.
func stripBoxes(s coupon.Strip, turn float64) (body, reach plane.Box) {
	piece, m := stripPiece(s), plane.Rotate(turn)
	body = piece.Outline.Outer.Apply(m).Box()
	reach = body
	for _, r := range piece.Reach {
		reach = reach.Union(r.Apply(m).Box())
	}
	return body, reach
}

// tooNear tells whether two boxes keep less than the gap.
func tooNear(a, b plane.Box, gap float64) bool {
	return a.Min.X < b.Max.X+gap && b.Min.X < a.Max.X+gap && a.Min.Y < b.Max.Y+gap && b.Min.Y < a.Max.Y+gap
}

// stacked sets tongues in columns about a point, side by side across their length, and
// returns the box of all. Overruns of neighbours share the strip between them.
func stacked(pieces []coupon.Strip, about plane.Point, turn float64, columns int, gap float64) (plane.Box, []sheet.Place) {
	long, wide, over := 0.0, 0.0, 0.0
	for _, s := range pieces {
		body, reach := stripBoxes(s, 0)
		long, wide = math.Max(long, reach.W()), math.Max(wide, body.H())
		over = math.Max(over, math.Max(body.Min.Y-reach.Min.Y, reach.Max.Y-body.Max.Y))
	}
	rows := (len(pieces) + columns - 1) / columns
	step, next := wide+over+gap, long+gap
	size := plane.Pt(float64(columns)*next-gap, float64(rows-1)*step+wide+2*over)
	m := plane.Translate(about.X, about.Y).Mul(plane.Rotate(turn)).Mul(plane.Translate(-size.X/2, -size.Y/2))
	places := make([]sheet.Place, len(pieces))
	for i, s := range pieces {
		body, reach := stripBoxes(s, 0)
		at := m.Apply(plane.Pt(float64(i%columns)*next-reach.Min.X, float64(i/columns)*step+over-body.Min.Y))
		places[i] = sheet.Place{X: at.X, Y: at.Y, Turn: turn}
	}
	a, b := m.Apply(plane.Point{}), m.Apply(size)
	return plane.BoxOf(a, b), places
}
