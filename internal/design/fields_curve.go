package design

// maxTurn is where a bend in one piece would run the panel into itself, degrees.
const maxTurn = 350

func curveFields() []Field {
	twice := func(v *Values) float64 { return sized(2 * v.Sheet.T) }
	return []Field{
		{
			Path: "curve.kind", Card: "curve", Label: "You know its", Kind: Choose, text: RadiusAngle,
			Choices: []Choice{{RadiusAngle, "Radius and angle"}, {SpanRise, "Span and rise"}, {LengthRadius, "Length and radius"}, {Chain, "Arcs and straights in a row"}},
			Help:    "Any two figures that fix an arc, or a row of arcs and straights.",
			into:    func(v *Values, r reading) { v.Curve.Kind = r.text },
		}, {
			Path: "curve.radius", Card: "curve", Label: "Radius", Kind: Length, When: "curve.kind=" + RadiusAngle + "|" + LengthRadius, Min: 2, Max: 100000,
			Help: "Of the line chosen below.", Ask: "Say the radius of the curve.", preset: always(200),
			into: func(v *Values, r reading) { v.Curve.Radius = r.num },
		}, {
			Path: "curve.angle", Card: "curve", Label: "Angle turned through", Kind: Angle, When: "curve.kind=" + RadiusAngle, Min: degrees(0.5), Max: degrees(maxTurn),
			Help: "In all, from the foot to the tip; 90 is a quarter circle.", Ask: "Say the angle that the curve turns through.", preset: always(degrees(90)),
			into: func(v *Values, r reading) { v.Curve.Angle = r.num },
		}, {
			Path: "curve.span", Card: "curve", Label: "Span", Kind: Length, When: "curve.kind=" + SpanRise, Min: 5, Max: 50000,
			Help: "Straight across, from one end of the arc to the other.", Ask: "Say the span of the curve.", preset: always(300),
			into: func(v *Values, r reading) { v.Curve.Span = r.num },
		}, {
			Path: "curve.rise", Card: "curve", Label: "Rise", Kind: Length, When: "curve.kind=" + SpanRise, Min: 0.1, Max: 50000,
			Help: "How far the middle stands off the straight line between the ends.", Ask: "Say the rise of the curve.",
			preset: func(v *Values) float64 { return sized(v.Curve.Span / 6) },
			into:   func(v *Values, r reading) { v.Curve.Rise = r.num },
		}, {
			Path: "curve.length", Card: "curve", Label: "Length along the curve", Kind: Length, When: "curve.kind=" + LengthRadius, Min: 5, Max: 50000,
			Help: "Along the bend, without the straight foot and tip.", Ask: "Say how long the curve is.", preset: always(300),
			into: func(v *Values, r reading) { v.Curve.Length = r.num },
		}, {
			Path: "curve.pieces", Card: "curve", Label: "Arcs and straights, foot first", Kind: Pieces, When: "curve.kind=" + Chain,
			Help: "Each goes on where the last one ended, in the same direction.",
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
			Path: "radius", Card: "curve", Label: "Radius", Kind: Length, Min: 2, Max: 100000, When: "turn=" + Over + "|" + Back,
			Help: "Of this bend.", Ask: "Say the radius of this bend.", preset: always(200),
		},
	}
}
