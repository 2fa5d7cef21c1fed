package design

import (
	"math"
	"slices"
)

func panelFields() []Field {
	return slices.Concat(shapeFields(), drawnFields(), outlineFields(), scoreFields())
}

// shapeFields ask for the shape and its size.
func shapeFields() []Field {
	taper := is("panel.shape", Taper)
	return []Field{
		{Path: "panel.shape", Label: "Shape", Kind: Choose, text: Rectangle, When: cylinders, // a cone unrolls to what it is
			Choices: []Choice{{Rectangle, "Rectangle"}, {Taper, "Strip that tapers"}, {Ellipse, "Ellipse"}, {Lens, "Lens, between two arcs"}, {Sector, "Sector of a ring"}, {Polygon, "By its corners"}, {Drawn, "Drawn elsewhere"}},
			Help:    "As it lies flat."},
		{Path: "panel.width", Label: "Width", Kind: Length, Min: 1, Max: 20000, preset: always(100), When: cylinders.and("panel.shape", Rectangle, Ellipse, Lens),
			Help: "Along the scores.", Ask: "Say how wide the panel is."},
		{Path: "panel.footWidth", Label: "Width at the foot", Kind: Length, Min: 1, Max: 20000, preset: always(60), When: taper,
			Help: "Along the scores.", Ask: "Say how wide the panel is at its foot."},
		{Path: "panel.tipWidth", Label: "Width at the tip", Kind: Length, Min: 0.5, Max: 20000, preset: func(v *Values) float64 { return sized(v.Panel.FootWidth / 2) },
			When: taper,
			Help: "Along the scores.", Ask: "Say how wide the panel is at its tip."},
		{Path: "panel.edges", Label: "Edges", Kind: Choose, text: "both", When: taper, Choices: []Choice{{"both", "Both taper"}, {"one", "One is straight"}},
			Help: "Where one is straight, the other takes all of the taper."},
		{Path: "panel.widestWidth", Label: "Greatest width", Kind: Length, Min: 1, Max: 20000, preset: func(v *Values) float64 { return max(v.Panel.FootWidth, v.Panel.TipWidth) },
			More: true, When: taper,
			Help: "Along the scores, where the strip is widest.",
			into: func(v *Values, r reading) { v.Panel.WidestWidth, v.Panel.Bulges = r.num, r.typed }},
		{Path: "panel.widestAt", Label: "Widest at", Kind: Length, Min: 0, Max: 50000, More: true, When: taper,
			Help: "From the foot edge, along the panel.", Auto: "as the widths say"},
		{Path: "panel.tipRound", Label: "Round tip", Kind: Check, When: taper.and("panel.edges", "both"), Help: "The tip ends in a half circle, not in a straight edge."},
	}
}

// scoreFields ask for the faces and the scores.
func scoreFields() []Field {
	return []Field{
		{Path: "panel.scoredFace", Label: "Score the", Kind: Choose, text: Hollow, Choices: []Choice{{Hollow, "Hollow side"}, {Round, "Round side"}},
			Help: "Scores on the hollow side close as it bends and can pinch shut; on the round side they open."},
		{Path: "panel.showFace", Label: "The face that shows is the", Kind: Choose, text: Round, Choices: []Choice{{Round, "Round side"}, {Hollow, "Hollow side"}},
			Help: "The good face of the sheet goes there."},
		{Path: "panel.quantity", Label: "How many panels", Kind: Count, Min: 1, Max: 500, preset: always(1),
			Help: "Each gets its own place on the sheet."},
		{Path: "panel.finish", Label: "Finish", Kind: Choose, text: "satin",
			Choices: []Choice{{"gloss", "Gloss: 1° a score"}, {"satin", "Satin: 1.5° a score"}, {"hidden", "Hidden: 3° a score"}, {"any", "Any fold"}},
			Help:    "The gentler the fold at each score, the less the flats show.",
			into: func(v *Values, r reading) {
				v.Panel.Finish = r.text
				// Fold limits by finish: common practice, no source.
				v.Panel.FoldLimit = map[string]float64{"gloss": degrees(1), "satin": degrees(1.5), "hidden": degrees(3)}[r.text]
			}},
		{Path: "panel.spacing", Label: "Spacing of the scores", Kind: Choose, text: Follow,
			Choices: []Choice{{Follow, "As the curve asks"}, {Even, "Even"}, {FixedCount, "By number of scores"}, {FixedPitch, "By a distance"}},
			Help:    "As the curve asks: close where it bends tightly, wide where it does not."},
		{Path: "panel.count", Label: "Number of scores", Kind: Count, Min: 1, Max: 20000, preset: always(40), When: is("panel.spacing", FixedCount),
			Help: "Over the whole curve.", Ask: "Say how many scores."},
		{Path: "panel.pitch", Label: "Spacing, centre to centre", Kind: Length, Min: 0.1, Max: 1000, preset: func(v *Values) float64 { return sized(v.Sheet.T) },
			When: is("panel.spacing", FixedPitch),
			Help: "Along the flat panel.", Ask: "Say the spacing of the scores."},
		{Path: "panel.passes", Label: "Passes", Kind: Count, Min: 1, Max: 12,
			Help: "How many passes each score gets.", Auto: "the least machine time that is sound"},
		{Path: "panel.standOff", Label: "Flat height", Kind: Length, Min: 0.001, Max: 20, preset: always(0.15), More: true,
			Help: "How far a flat between two scores may stand off the true curve."},
		{Path: "panel.strainSafe", Label: "Safety against cracking", Kind: Number, Min: 1, Max: 10, preset: practice(1.5), More: true,
			Help: "Strain at rupture over the strain allowed."},
		{Path: "panel.closingSafe", Label: "Safety against pinching", Kind: Number, Min: 1, Max: 10, preset: practice(1.1), More: true,
			Help: "Angle at which a score pinches shut over the angle allowed."},
		{Path: "panel.mayFail", Label: "Panels in 100 that may fail", Kind: Number, Min: 0.01, Max: 100, preset: practice(1), More: true,
			Help: "Of panels cut from such sheets; 100 asks for no chance."},
		// A third of the thickness and at least 0.4 mm: common practice, no source.
		{Path: "panel.minLand", Label: "Material left between scores", Kind: Length, Min: 0.05, Max: 100,
			preset: func(v *Values) float64 { return sized(math.Max(0.4, v.Sheet.T/3)) }, More: true,
			Help: "The least that stays whole between two scores; less chars and crumbles."},
		{Path: "panel.overrun", Label: "Scores run past the edge by", Kind: Length, Min: 0, Max: 200, More: true,
			Help: "So that the head is at full speed all across the panel.", Auto: "by speed and acceleration"},
	}
}
