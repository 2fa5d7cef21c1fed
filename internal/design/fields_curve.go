package design

import "math"

// maxTurn is where a bend in one piece would run the panel into itself, degrees.
const maxTurn = 350

func curveFields() []Field {
	twice := func(v *Values) float64 { return sized(2 * v.Sheet.T) }
	round, cone, part := is("curve.kind", Box, Oval, Cone, DrawnRound), is("curve.kind", Cone, ConePart), is("curve.kind", ConePart)
	height, slant := cone.and("curve.rims", ByHeight), cone.and("curve.rims", BySlant)
	return []Field{
		{Path: "curve.kind", Label: "Given by", Kind: Choose, text: RadiusAngle,
			Choices: []Choice{{RadiusAngle, "Radius and angle"}, {SpanRise, "Span and rise"}, {LengthRadius, "Length and radius"}, {Chain, "Arcs and straights in a row"}, {Points, "Points it passes through"}, {Box, "A rounded box to wrap"}, {Oval, "An oval to wrap"}, {Cone, "A cone to wrap: a shade, a funnel"}, {ConePart, "Part of a cone: a scoop, a flared side"}, {Drawn, "A line drawn elsewhere"}, {DrawnRound, "A closed line drawn elsewhere, to wrap"}},
			Help:    "Two figures that fix an arc, a row of arcs, points of a smooth curve, or a closed shape that the panel goes all round."},
		{Path: "curve.radius", Label: "Radius", Kind: Length, Min: 2, Max: 100000, preset: always(200), When: is("curve.kind", RadiusAngle, LengthRadius),
			Help: "Of the line chosen below.", Ask: "Say the radius of the curve."},
		{Path: "curve.angle", Label: "Angle turned through", Kind: Angle, Min: degrees(0.5), Max: degrees(maxTurn), preset: always(degrees(90)),
			When: is("curve.kind", RadiusAngle),
			Help: "In all, from the foot to the tip; 90 is a quarter circle.", Ask: "Say the angle that the curve turns through."},
		{Path: "curve.span", Label: "Span", Kind: Length, Min: 5, Max: 50000, preset: always(300), When: is("curve.kind", SpanRise),
			Help: "Straight across, from one end of the arc to the other.", Ask: "Say the span of the curve."},
		{Path: "curve.rise", Label: "Rise", Kind: Length, Min: 0.1, Max: 50000, preset: func(v *Values) float64 { return sized(v.Curve.Span / 6) },
			When: is("curve.kind", SpanRise),
			Help: "How far the middle stands off the straight line between the ends.", Ask: "Say the rise of the curve."},
		{Path: "curve.length", Label: "Length along the curve", Kind: Length, Min: 5, Max: 50000, preset: always(300), When: is("curve.kind", LengthRadius),
			Help: "Along the bend, without the straight foot and tip.", Ask: "Say how long the curve is."},
		{Path: "curve.pieces", Label: "Arcs and straights, foot first", Kind: Rows, Columns: pieceFields(func(v *Values) *[]PieceValues { return &v.Curve.Pieces }), Row: "piece", every: true, When: is("curve.kind", Chain),
			Help: "Each goes on where the last one ended, in the same direction.", whole: (*reader).chainBends},
		{Path: "curve.points", Label: "Points, foot first", Kind: Rows, Columns: pointFields(), Row: "point", most: 500, When: is("curve.kind", Points),
			Help:  "A smooth curve through the points, as a thin batten pinned at each would lie, X along and Y up, straight at both ends.",
			whole: (*reader).enoughPoints},
		{Path: "curve.boxWidth", Label: "Width", Kind: Length, Min: 20, Max: 10000, preset: always(200), When: is("curve.kind", Box, Oval),
			Help: "Over all, along the side that has the seam.", Ask: "Say how wide the shape is."},
		{Path: "curve.boxHeight", Label: "Height", Kind: Length, Min: 20, Max: 10000, preset: always(120), When: is("curve.kind", Box, Oval),
			Help: "Over all, across it.", Ask: "Say how high the shape is."},
		{Path: "curve.corner", Label: "Corner radius", Kind: Length, Min: 5, Max: 5000, preset: always(40), When: is("curve.kind", Box),
			Help: "At all four corners; half the shorter side at most.", Ask: "Say the radius of the corners."},
		{Path: "curve.rims", Label: "The cone is given by", Kind: Choose, text: ByHeight, When: cone,
			Choices: []Choice{{ByHeight, "Two diameters and its height"}, {BySlant, "Large diameter, slant and lean"}},
			Help:    "Height is straight up; the slant runs along the panel and is longer."},
		{Path: "curve.small", Label: "Small diameter", Kind: Length, Min: 10, Max: 5000, preset: always(150), When: height,
			Help: "Of the narrow rim.", Ask: "Say the diameter of the narrow rim."},
		{Path: "curve.large", Label: "Large diameter", Kind: Length, Min: 12, Max: 10000, preset: always(200), When: cone,
			Help: "Of the wide rim.", Ask: "Say the diameter of the wide rim."},
		{Path: "curve.rimHeight", Label: "Height", Kind: Length, Min: 10, Max: 5000, preset: always(160), When: height,
			Help: "Straight up from rim to rim, not along the slant.", Ask: "Say how high the cone is."},
		{Path: "curve.slant", Label: "Slant", Kind: Length, Min: 10, Max: 5000, preset: always(160), When: slant,
			Help: "Along the panel from rim to rim, not straight up.", Ask: "Say how long the slant of the cone is."},
		{Path: "curve.lean", Label: "Lean", Kind: Angle, Min: degrees(0.5), Max: degrees(85), preset: always(degrees(9)), When: slant,
			Help: "Of the panel to the axis; 0 would be a straight tube.", Ask: "Say how far the cone leans."},
		{Path: "curve.sweep", Label: "Goes round by", Kind: Angle, Min: degrees(5), Max: degrees(maxTurn), preset: always(degrees(180)), When: part,
			Help: "About the axis; 180 is half a cone.", Ask: "Say how far round the part goes."},
		{Path: "curve.sizes", Label: "The diameters are of", Kind: Choose, text: Inside, When: cone,
			Choices: []Choice{{Inside, "The inside of the panel"}, {Outside, "The outside of the panel"}, {RingCut, "The rings, flush with the rims"}},
			Help:    "Measured at the rims; a ring cut square touches at its narrow face alone."},
		{Path: "curve.seam", Label: "Seam", Kind: Choose, text: Butt, When: round,
			Choices: []Choice{{Butt, "Ends meet"}, {Lap, "Ends lap"}},
			Help:    "At the bottom of a box or oval, along the slant of a cone; 0.1 mm of thickness moves the girth by 0.6 mm: leave some to lap."},
		{Path: "curve.lap", Label: "Overlap", Kind: Length, Min: 1, Max: 500, preset: practice(12),
			When: round.and("curve.seam", Lap),
			Help: "The second end lies over the first by this much."},
		{Path: "curve.trim", Label: "Left to trim", Kind: Length, Min: 0, Max: 100, When: round.and("curve.seam", Butt),
			Help: "Extra length to cut off once the panel is dry-fitted; 0 for an exact length.",
			preset: func(v *Values) float64 {
				// What the girth may be off by when the thickness is: 2 pi times its spread, rounded up.
				return math.Ceil(2 * math.Pi * 2 * v.Sheet.TSpread)
			}},
		{Path: "curve.gores", Label: "Cut in equal parts", Kind: Count, Min: 1, Max: 24, preset: always(1), More: true, When: is("curve.kind", Cone),
			Help: "More than one where the panel is larger than the bed; each has a seam like the first."},
		{Path: "curve.far", Label: "Section at the far rib", Kind: Choose, text: Same, When: is("curve.kind", spanned...),
			Choices: []Choice{{Same, "The same all along"}, {Scaled, "The same shape, larger, smaller or moved"}, {FarArc, "An arc that turns as far"}, {Chain, "Arcs and straights in a row"}, {Box, "A rounded box, all round"}, {Oval, "An oval, all round"}},
			Help:    "Two ribs of different shape, and the one panel that lies on both without twist."},
		{Path: "curve.apart", Label: "From rib to rib, over all", Kind: Length, Min: 10, Max: 20000, preset: always(200), When: far,
			Help: "From the outer face of the near rib to that of the far one, square to both.", Ask: "Say how far the two ribs are apart."},
		{Path: "curve.farScale", Label: "Size of the far section", Kind: Percent, Min: 0.05, Max: 20, preset: always(0.8), When: is("curve.far", Scaled),
			Help: "Of the near one, its straight ends included; 100 is as large."},
		{Path: "curve.farRadius", Label: "Radius of the far arc", Kind: Length, Min: 2, Max: 100000, preset: always(150), When: is("curve.far", FarArc),
			Help: "It turns as far as the near section does in all.", Ask: "Say the radius of the far arc."},
		{Path: "curve.farPieces", Label: "Far section, foot first", Kind: Rows, Columns: pieceFields(func(v *Values) *[]PieceValues { return &v.Curve.FarPieces }), Row: "piece", every: true, When: is("curve.far", Chain),
			Help: "It must turn as far in all as the near section, over and back in the same order.", whole: (*reader).farBends},
		{Path: "curve.farWidth", Label: "Width of the far section", Kind: Length, Min: 20, Max: 10000, preset: always(150), When: is("curve.far", Box, Oval),
			Help: "Over all, along the side that has the seam.", Ask: "Say how wide the far section is."},
		{Path: "curve.farHeight", Label: "Height of the far section", Kind: Length, Min: 20, Max: 10000, preset: always(100), When: is("curve.far", Box, Oval),
			Help: "Over all, across it.", Ask: "Say how high the far section is."},
		{Path: "curve.farCorner", Label: "Corner radius of the far section", Kind: Length, Min: 5, Max: 5000, preset: always(30), When: is("curve.far", Box),
			Help: "At all four corners; half the shorter side at most.", Ask: "Say the radius of the far corners."},
		{Path: "curve.farRight", Label: "Far section moved along by", Kind: Length, Min: -20000, Max: 20000, preset: always(0), More: true, When: far,
			Help: "Toward the tip, from where its middle faces that of the near one."},
		{Path: "curve.farUp", Label: "Far section moved up by", Kind: Length, Min: -20000, Max: 20000, preset: always(0), More: true, When: far,
			Help: "Square to that, the way the curve rises."},
		{Path: "curve.line", Label: "These figures are for", Kind: Choose, text: Contact, More: true, When: cylinders,
			Choices: []Choice{{Contact, "The rib edge, where panel and rib touch"}, {Outer, "The outer face of the bent panel"}, {Neutral, "The neutral line, which keeps its length"}},
			Help:    "Which line of the bent panel the curve is."},
		{Path: "curve.foot", Label: "Straight foot", Kind: Length, Min: 0, Max: 10000, preset: twice, More: true, When: ended,
			Help: "Plain, unscored length before the curve; twice the thickness keeps the edge sound."},
		{Path: "curve.tip", Label: "Straight tip", Kind: Length, Min: 0, Max: 10000, preset: twice, More: true, When: ended, Help: "Plain, unscored length after the curve."},
	}
}

// cylinders are the kinds of curve whose scores run parallel.
var cylinders = is("curve.kind", RadiusAngle, SpanRise, LengthRadius, Chain, Points, Box, Oval, Drawn, DrawnRound).and("curve.far", Same)

// spanned are the kinds of curve from which a skin may go over to another section, and far is
// where it does.
var (
	spanned = []string{RadiusAngle, SpanRise, LengthRadius, Chain, Points, Box, Oval}
	far     = is("curve.kind", spanned...).and("curve.far", Scaled, FarArc, Chain, Box, Oval)
)

// ruled is where scores need not run parallel.
var ruled = Condition{{Path: "curve.kind", Values: []string{Cone, ConePart}, Or: []Term{{Path: "curve.far", Values: far[1].Values}}}}

// ended are the kinds of curve that may begin and end straight.
var ended = is("curve.kind", append([]string{ConePart}, cylinders[0].Values...)...)

func pointFields() []Field {
	return []Field{
		{Path: "x", Label: "X", Kind: Length, Min: -50000, Max: 50000, Help: "Along, from any origin.", Ask: "Say where this point is along.",
			into: func(v *Values, r reading) {
				last(v.Curve.Points)[0], v.Curve.PointRows = r.num, append(v.Curve.PointRows, r.row)
			}},
		{Path: "y", Label: "Y", Kind: Length, Min: -50000, Max: 50000, Help: "Up, from the same origin.", Ask: "Say how high this point is.",
			into: func(v *Values, r reading) { last(v.Curve.Points)[1] = r.num }},
	}
}

func pieceFields(of func(*Values) *[]PieceValues) []Field {
	return []Field{
		{Path: "turn", Label: "Goes", Kind: Choose, text: Over, Choices: []Choice{{Straight, "Straight on"}, {Over, "Round, the way of the first bend"}, {Back, "Back, against it"}},
			Help: "Hollow and round side are named by the first bend."},
		{Path: "length", Label: "Length", Kind: Length, Min: 0.5, Max: 50000, preset: always(50), Help: "Along this piece.", Ask: "Say how long this piece is."},
		{Path: "radius", Label: "Radius", Kind: Length, Min: 2, Max: 100000, preset: always(200), When: is("turn", Over, Back), Help: "Of this bend.", Ask: "Say the radius of this bend.",
			into: func(v *Values, r reading) {
				if r.shown {
					last(*of(v)).Radius = r.num
				}
			}},
	}
}
