package trial

import (
	"math"
	"strconv"

	"springrib/internal/design"
)

// cone is one to wrap all round, or part of one: a shade, a funnel, a scoop, a flared side.
func (g *gen) cone() {
	c := &g.d.Curve
	c.Kind = g.pick(design.Cone, design.Cone, design.ConePart)
	lean := g.between(4, 30) * math.Pi / 180
	if g.wild(6) {
		lean = g.between(0.3, 75) * math.Pi / 180
	}
	if g.good { // a ring that is cut square leaves a wedge, and a steep cone a small one
		lean = g.between(2, 9) * math.Pi / 180
	}
	slant := g.between(60, 260)
	if g.wild(8) {
		slant = g.between(15, 500)
	}
	g.slant = slant
	small := 2 * g.radius
	if !g.calm {
		small = g.between(10, 300)
	}
	large := small + 2*slant*math.Sin(lean)
	c.Sizes = g.pick("", design.Inside, design.Outside, design.RingCut)
	if g.once(3) {
		c.Rims, c.Large, c.Slant, c.Lean = design.BySlant, g.mm(large), g.mm(slant), plain(lean*180/math.Pi, 2)
	} else {
		c.Rims, c.Small, c.Large, c.RimHeight = g.pick("", design.ByHeight), g.mm(small), g.mm(large), g.mm(slant*math.Cos(lean))
	}
	sweep := 360.0
	if c.Kind == design.ConePart {
		sweep = g.between(40, 300)
		if g.wild(8) {
			sweep = g.between(5, 350)
		}
		c.Sweep = plain(sweep, 1)
	} else {
		g.closed = true
		if g.once(6) {
			n := 2 + g.IntN(3)
			c.Gores, sweep = strconv.Itoa(n), 360/float64(n)
		}
		c.Seam = g.pick(design.Butt, design.Lap, design.Lap)
		if c.Lap, c.Trim = g.maybe(2, 8, 40), g.maybe(3, 1, 8); g.wild(10) {
			c.Trim = "0"
		}
	}
	// Flat it is a fan about the apex.
	out, turn := large/2/math.Sin(lean), sweep*math.Pi/180*math.Sin(lean)
	g.length, g.across = math.Min(2*out, out*turn)+100, math.Max(large, out*(1-math.Min(0, math.Cos(turn/2))))
}
