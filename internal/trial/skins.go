package trial

import (
	"math"

	"springrib/internal/design"
)

// skin is a panel between two unlike sections: a tapering arch, a hull side, a hood.
func (g *gen) skin() {
	c := &g.d.Curve
	c.Apart, c.Line = g.size(60, 300), ""
	r, turn := g.radius, g.between(25, 130)*math.Pi/180
	other := r * g.between(0.75, 1.4)
	row := func(turn float64, way string) (out []design.Piece) {
		n := 1 + g.IntN(3)
		for i := range n {
			radius := r * g.between(0.9, 1.8)
			part := turn / float64(n-i)
			turn -= part
			out = append(out, design.Piece{Turn: way, Radius: plain(radius, 4), Length: plain(radius*part, 4)})
			if g.once(3) {
				out = append(out, design.Piece{Turn: design.Straight, Length: g.size(5, 50)})
			}
		}
		return out
	}
	switch c.Kind = g.pick(design.RadiusAngle, design.SpanRise, design.Chain, design.Box, design.Oval); c.Kind {
	case design.RadiusAngle:
		c.Radius, c.Angle = g.mm(r), plain(turn*180/math.Pi, 1)
		if c.Far = g.pick(design.Scaled, design.FarArc); c.Far == design.FarArc {
			c.FarRadius = g.mm(other)
		}
	case design.SpanRise:
		c.Span, c.Rise, c.Far = g.mm(2*r*math.Sin(turn/2)), g.mm(r*(1-math.Cos(turn/2))), design.Scaled
	case design.Chain:
		c.Far = design.Chain
		for i := range 1 + g.IntN(2) {
			turn, way := g.between(20, 80)*math.Pi/180, [2]string{design.Over, design.Back}[i]
			c.Pieces, c.FarPieces = append(c.Pieces, row(turn, way)...), append(c.FarPieces, row(turn, way)...)
		}
	default:
		g.round()
		c.Far = g.pick(design.Box, design.Oval)
		c.FarWidth, c.FarHeight, c.FarCorner = g.mm(g.across*g.between(0.8, 1.1)), g.mm(g.across*g.between(0.8, 1.1)), g.mm(r*g.between(0.8, 1))
	}
	if c.Far == design.Scaled {
		c.FarScale = plain(g.between(75, 130), 1)
	}
	c.FarRight, c.FarUp = g.maybe(3, 1, 25), g.maybe(3, 1, 25)
	g.d.Rib.Edge = g.pick("", design.Square, design.Bevel)
	g.length, g.across = math.Max(g.length, 3*r*turn), math.Max(g.across, 400)
}
