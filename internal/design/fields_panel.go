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
		{
			Path: "panel.shape", Card: "panel", Label: "Shape", Kind: Choose, text: Rectangle,
			Choices: []Choice{{Rectangle, "Rectangle"}, {Taper, "Strip that tapers"}, {Ellipse, "Ellipse"}, {Lens, "Lens, between two arcs"}, {Sector, "Sector of a ring"}, {Polygon, "By its corners"}, {Drawn, "Drawn elsewhere"}},
			Help:    "As it lies flat.",
			into:    func(v *Values, r reading) { v.Panel.Shape = r.text },
		}, {
			Path: "panel.width", Card: "panel", Label: "Width", Kind: Length, When: is("panel.shape", Rectangle, Ellipse, Lens), Min: 1, Max: 20000,
			Help: "Along the scores.", Ask: "Say how wide the panel is.", preset: always(100),
			into: func(v *Values, r reading) { v.Panel.Width = r.num },
		}, {
			Path: "panel.footWidth", Card: "panel", Label: "Width at the foot", Kind: Length, When: taper, Min: 1, Max: 20000,
			Help: "Along the scores.", Ask: "Say how wide the panel is at its foot.", preset: always(60),
			into: func(v *Values, r reading) { v.Panel.FootWidth = r.num },
		}, {
			Path: "panel.widestWidth", Card: "panel", Label: "Greatest width", Kind: Length, When: taper, Min: 1, Max: 20000,
			Help: "Along the scores, where the strip is widest.", Ask: "Say how wide the panel is at its widest.",
			preset: func(v *Values) float64 { return v.Panel.FootWidth },
			into:   func(v *Values, r reading) { v.Panel.WidestWidth = r.num },
		}, {
			Path: "panel.widestAt", Card: "panel", Label: "Widest at", Kind: Length, When: taper, Min: 0, Max: 50000,
			Help: "From the foot edge, along the panel.", Auto: "a third of the way from the foot",
			into: func(v *Values, r reading) { v.Panel.WidestAt = Opt{r.num, r.typed} },
		}, {
			Path: "panel.tipWidth", Card: "panel", Label: "Width at the tip", Kind: Length, When: taper, Min: 0.5, Max: 20000,
			Help: "Along the scores.", Ask: "Say how wide the panel is at its tip.",
			preset: func(v *Values) float64 { return sized(v.Panel.FootWidth / 2) },
			into:   func(v *Values, r reading) { v.Panel.TipWidth = r.num },
		}, {
			Path: "panel.tipRound", Card: "panel", Label: "Round tip", Kind: Check, When: taper,
			Help: "The tip ends in a half circle, not in a straight edge.",
			into: func(v *Values, r reading) { v.Panel.TipRound = r.on },
		},
	}
}

// scoreFields ask for the faces and the scores.
func scoreFields() []Field {
	return []Field{
		{
			Path: "panel.scoredFace", Card: "panel", Label: "Score the", Kind: Choose, text: Hollow,
			Choices: []Choice{{Hollow, "Hollow side"}, {Round, "Round side"}},
			Help:    "Scores on the hollow side close as it bends and can pinch shut; on the round side they open.",
			into:    func(v *Values, r reading) { v.Panel.ScoredFace = r.text },
		}, {
			Path: "panel.showFace", Card: "panel", Label: "The face that shows is the", Kind: Choose, text: Round,
			Choices: []Choice{{Round, "Round side"}, {Hollow, "Hollow side"}},
			Help:    "The good face of the sheet goes there.",
			into:    func(v *Values, r reading) { v.Panel.ShowFace = r.text },
		}, {
			Path: "panel.quantity", Card: "panel", Label: "How many panels", Kind: Count, Min: 1, Max: 500, More: true,
			Help: "Each gets its own place on the sheet.", preset: always(1),
			into: func(v *Values, r reading) { v.Panel.Quantity = int(r.num) },
		}, {
			Path: "panel.finish", Card: "panel", Label: "Finish", Kind: Choose, text: "satin",
			Choices: []Choice{{"gloss", "Gloss: 1° a score"}, {"satin", "Satin: 1.5° a score"}, {"hidden", "Hidden: 3° a score"}, {"any", "Any fold"}},
			Help:    "The gentler the fold at each score, the less the flats show.",
			into: func(v *Values, r reading) {
				v.Panel.Finish = r.text
				// Fold limits by finish: common practice, no source.
				v.Panel.FoldLimit = map[string]float64{"gloss": degrees(1), "satin": degrees(1.5), "hidden": degrees(3)}[r.text]
			},
		}, {
			Path: "panel.spacing", Card: "panel", Label: "Spacing of the scores", Kind: Choose, text: Follow,
			Choices: []Choice{{Follow, "As the curve asks"}, {Even, "Even"}, {FixedCount, "By number of scores"}, {FixedPitch, "By a distance"}},
			Help:    "As the curve asks: close where it bends tightly, wide where it does not.",
			into:    func(v *Values, r reading) { v.Panel.Spacing = r.text },
		}, {
			Path: "panel.count", Card: "panel", Label: "Number of scores", Kind: Count, When: is("panel.spacing", FixedCount), Min: 1, Max: 20000,
			Help: "Over the whole curve.", Ask: "Say how many scores.", preset: always(40),
			into: func(v *Values, r reading) { v.Panel.Count = int(r.num) },
		}, {
			Path: "panel.pitch", Card: "panel", Label: "Spacing, centre to centre", Kind: Length, When: is("panel.spacing", FixedPitch), Min: 0.1, Max: 1000,
			Help: "Along the flat panel.", Ask: "Say the spacing of the scores.", preset: func(v *Values) float64 { return sized(v.Sheet.T) },
			into: func(v *Values, r reading) { v.Panel.Pitch = r.num },
		}, {
			Path: "panel.passes", Card: "panel", Label: "Passes", Kind: Count, Min: 1, Max: 12,
			Help: "How many passes each score gets.", Auto: "the least machine time that is sound",
			into: func(v *Values, r reading) { v.Panel.Passes = int(r.num) },
		}, {
			Path: "panel.standOff", Card: "panel", Label: "Flat height", Kind: Length, Min: 0.001, Max: 20, More: true,
			Help: "How far a flat between two scores may stand off the true curve.", preset: always(0.15),
			into: func(v *Values, r reading) { v.Panel.StandOff = r.num },
		}, {
			Path: "panel.strainSafe", Card: "panel", Label: "Safety against cracking", Kind: Number, Min: 1, Max: 10, More: true,
			Help: "Strain at rupture over the strain allowed.", preset: always(1.5), // common practice, no source
			into: func(v *Values, r reading) { v.Panel.StrainSafe = r.num },
		}, {
			Path: "panel.closingSafe", Card: "panel", Label: "Safety against pinching", Kind: Number, Min: 1, Max: 10, More: true,
			Help: "Angle at which a score pinches shut over the angle allowed.", preset: always(1.1), // common practice, no source
			into: func(v *Values, r reading) { v.Panel.ClosingSafe = r.num },
		}, {
			Path: "panel.minLand", Card: "panel", Label: "Sound land between scores", Kind: Length, Min: 0.05, Max: 100, More: true,
			Help: "What must stay whole between two scores, or it chars and crumbles.",
			// A third of the thickness and at least 0.4 mm: common practice, no source.
			preset: func(v *Values) float64 { return sized(math.Max(0.4, v.Sheet.T/3)) },
			into:   func(v *Values, r reading) { v.Panel.MinLand = r.num },
		}, {
			Path: "panel.overrun", Card: "panel", Label: "Scores run past the edge by", Kind: Length, Min: 0, Max: 200, More: true,
			Help: "So that the head is at full speed all across the panel.", Auto: "by speed and acceleration",
			into: func(v *Values, r reading) { v.Panel.Overrun = Opt{r.num, r.typed} },
		},
	}
}
