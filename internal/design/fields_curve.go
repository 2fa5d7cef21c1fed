package design

import "math"

// maxTurn is where a bend in one piece would run the panel into itself, degrees.
const maxTurn = 350

func curveFields() []Field {
	twice := func(v *Values) float64 { return sized(2 * v.Sheet.T) }
	return []Field{
		{
			Path: "curve.kind", Card: "curve", Label: "Given by", Kind: Choose, text: RadiusAngle,
			Choices: []Choice{{RadiusAngle, "Radius and angle"}, {SpanRise, "Span and rise"}, {LengthRadius, "Length and radius"}, {Chain, "Arcs and straights in a row"}, {Points, "Points it passes through"}, {Box, "A rounded box to wrap"}, {Oval, "An oval to wrap"}, {Drawn, "A line drawn elsewhere"}, {DrawnRound, "A closed line drawn elsewhere, to wrap"}},
			Help:    "Two figures that fix an arc, a row of arcs, points of a smooth curve, or a closed shape that the panel goes all round.",
			into:    func(v *Values, r reading) { v.Curve.Kind = r.text },
		}, {
			Path: "curve.radius", Card: "curve", Label: "Radius", Kind: Length, When: is("curve.kind", RadiusAngle, LengthRadius), Min: 2, Max: 100000,
			Help: "Of the line chosen below.", Ask: "Say the radius of the curve.", preset: always(200),
			into: func(v *Values, r reading) { v.Curve.Radius = r.num },
		}, {
			Path: "curve.angle", Card: "curve", Label: "Angle turned through", Kind: Angle, When: is("curve.kind", RadiusAngle), Min: degrees(0.5), Max: degrees(maxTurn),
			Help: "In all, from the foot to the tip; 90 is a quarter circle.", Ask: "Say the angle that the curve turns through.", preset: always(degrees(90)),
			into: func(v *Values, r reading) { v.Curve.Angle = r.num },
		}, {
			Path: "curve.span", Card: "curve", Label: "Span", Kind: Length, When: is("curve.kind", SpanRise), Min: 5, Max: 50000,
			Help: "Straight across, from one end of the arc to the other.", Ask: "Say the span of the curve.", preset: always(300),
			into: func(v *Values, r reading) { v.Curve.Span = r.num },
		}, {
			Path: "curve.rise", Card: "curve", Label: "Rise", Kind: Length, When: is("curve.kind", SpanRise), Min: 0.1, Max: 50000,
			Help: "How far the middle stands off the straight line between the ends.", Ask: "Say the rise of the curve.",
			preset: func(v *Values) float64 { return sized(v.Curve.Span / 6) },
			into:   func(v *Values, r reading) { v.Curve.Rise = r.num },
		}, {
			Path: "curve.length", Card: "curve", Label: "Length along the curve", Kind: Length, When: is("curve.kind", LengthRadius), Min: 5, Max: 50000,
			Help: "Along the bend, without the straight foot and tip.", Ask: "Say how long the curve is.", preset: always(300),
			into: func(v *Values, r reading) { v.Curve.Length = r.num },
		}, {
			Path: "curve.pieces", Card: "curve", Label: "Arcs and straights, foot first", Kind: Rows, Columns: PieceFields(), Row: "piece", When: is("curve.kind", Chain),
			Help: "Each goes on where the last one ended, in the same direction.",
		}, {
			Path: "curve.points", Card: "curve", Label: "Points, foot first", Kind: Rows, Columns: PointFields(), Row: "point", When: is("curve.kind", Points),
			Help: "A smooth curve through the points, as a thin batten pinned at each would lie, X along and Y up, straight at both ends.",
		}, {
			Path: "curve.boxWidth", Card: "curve", Label: "Width", Kind: Length, When: is("curve.kind", Box, Oval), Min: 20, Max: 10000,
			Help: "Over all, along the side that has the seam.", Ask: "Say how wide the shape is.", preset: always(200),
			into: func(v *Values, r reading) { v.Curve.BoxWidth = r.num },
		}, {
			Path: "curve.boxHeight", Card: "curve", Label: "Height", Kind: Length, When: is("curve.kind", Box, Oval), Min: 20, Max: 10000,
			Help: "Over all, across it.", Ask: "Say how high the shape is.", preset: always(120),
			into: func(v *Values, r reading) { v.Curve.BoxHeight = r.num },
		}, {
			Path: "curve.corner", Card: "curve", Label: "Corner radius", Kind: Length, When: is("curve.kind", Box), Min: 5, Max: 5000,
			Help: "At all four corners; half the shorter side at most.", Ask: "Say the radius of the corners.", preset: always(40),
			into: func(v *Values, r reading) { v.Curve.Corner = r.num },
		}, {
			Path: "curve.seam", Card: "curve", Label: "Seam", Kind: Choose, text: Butt, When: is("curve.kind", Box, Oval, DrawnRound),
			Choices: []Choice{{Butt, "Ends meet"}, {Lap, "Ends lap"}},
			Help:    "In the middle of the bottom side of a box or an oval; a tenth of a millimetre of thickness moves the girth by six tenths, so leave something to lap or trim.",
			into:    func(v *Values, r reading) { v.Curve.Seam = r.text },
		}, {
			Path: "curve.lap", Card: "curve", Label: "Overlap", Kind: Length, When: is("curve.kind", Box, Oval, DrawnRound).and("curve.seam", Lap), Min: 1, Max: 500,
			Help: "The second end lies over the first by this much.", preset: always(12), // common practice, no source
			into: func(v *Values, r reading) { v.Curve.Lap = r.num },
		}, {
			Path: "curve.trim", Card: "curve", Label: "Left to trim", Kind: Length, When: is("curve.kind", Box, Oval, DrawnRound).and("curve.seam", Butt), Min: 0, Max: 100,
			Help: "Extra length to cut off once the panel is dry-fitted; 0 for an exact length.",
			preset: func(v *Values) float64 {
				// What the girth may be off by when the thickness is: 2 pi times its spread, rounded up.
				return math.Ceil(2 * math.Pi * 2 * v.Sheet.TSpread)
			},
			into: func(v *Values, r reading) { v.Curve.Trim = r.num },
		}, {
			Path: "curve.line", Card: "curve", Label: "These figures are for", Kind: Choose, text: Contact, More: true,
			Choices: []Choice{{Contact, "The rib edge, where panel and rib touch"}, {Outer, "The outer face of the bent panel"}, {Neutral, "The neutral line, which keeps its length"}},
			Help:    "Which line of the bent panel the curve is.",
			into:    func(v *Values, r reading) { v.Curve.Line = r.text },
		}, {
			Path: "curve.foot", Card: "curve", Label: "Straight foot", Kind: Length, Min: 0, Max: 10000, More: true,
			Help: "Plain, unscored length before the curve; twice the thickness keeps the edge sound.", preset: twice,
			into: func(v *Values, r reading) { v.Curve.Foot = r.num },
		}, {
			Path: "curve.tip", Card: "curve", Label: "Straight tip", Kind: Length, Min: 0, Max: 10000, More: true,
			Help: "Plain, unscored length after the curve.", preset: twice,
			into: func(v *Values, r reading) { v.Curve.Tip = r.num },
		},
	}
}

// PointFields returns the fields of one point of a smooth curve.
func PointFields() []Field {
	return []Field{
		{Path: "x", Card: "curve", Label: "X", Kind: Length, Min: -50000, Max: 50000, Help: "Along, from any origin.", Ask: "Say where this point is along."},
		{Path: "y", Card: "curve", Label: "Y", Kind: Length, Min: -50000, Max: 50000, Help: "Up, from the same origin.", Ask: "Say how high this point is."},
	}
}

// PieceFields returns the fields of one piece of a chain; the path of each is that
// within the piece, "length" for "curve.pieces.2.length".
func PieceFields() []Field {
	return []Field{
		{
			Path: "turn", Card: "curve", Label: "Goes", Kind: Choose, text: Over,
			Choices: []Choice{{Straight, "Straight on"}, {Over, "Round, the way of the first bend"}, {Back, "Back, against it"}},
			Help:    "Hollow and round side are named by the first bend.",
		}, {
			Path: "length", Card: "curve", Label: "Length", Kind: Length, Min: 0.5, Max: 50000,
			Help: "Along this piece.", Ask: "Say how long this piece is.", preset: always(50),
		}, {
			Path: "radius", Card: "curve", Label: "Radius", Kind: Length, Min: 2, Max: 100000, When: is("turn", Over, Back),
			Help: "Of this bend.", Ask: "Say the radius of this bend.", preset: always(200),
		},
	}
}
