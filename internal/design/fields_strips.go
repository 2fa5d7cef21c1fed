package design

// StripsValues is what test strips are wanted and what they said.
type StripsValues struct {
	Which    string // of All, DepthStrip... : the strips to cut; NoStrips for none
	Corners  bool   // depth strips lie at the bed's corners and its centre
	Damp     bool   // the sheet has lain in another climate since
	Readings []ReadingValues
	// Taken tells that the readings are in the other values already (package plan).
	Taken bool
}

// ReadingValues is one reading of a strip; which members count its Kind says. Package
// coupon judges them: here they are only what was typed.
type ReadingValues struct {
	Row                                 int // in the document
	Bad                                 bool
	Kind                                string
	Value, Turn, Spacing, Length, Width float64
	Load                                float64 // N
	Passes, Count                       int
	Verdict, Spot                       string
	RoundSide                           bool
	Date, Stock, Setting, Batch, Note   string
}

// The strips that can be cut: Strips.Which.
const (
	AllStrips  = "all"
	DepthStrip = "depth"
	WidthStrip = "width"
	BendStrip  = "bend"
	FitStrip   = "fit"
	NoStrips   = "none"

	Corners  = "corners" // Strips.Where
	Together = "together"
)

func stripsFields() []Field {
	return []Field{
		{
			Path: "strips.which", Card: "strips", Label: "Strips to cut first", Kind: Choose, text: DepthStrip,
			Choices: []Choice{{DepthStrip, "Depth: tongues that sag"}, {WidthStrip, "Width: a strip to close"},
				{BendStrip, "Bend: strips and gauges"}, {FitStrip, "Kerf and fit"}, {AllStrips, "All of them"}, {NoStrips, "None"}},
			Help: "Cut them from this sheet with the setting that you will score with.",
			into: func(v *Values, r reading) { v.Strips.Which = r.text },
		}, {
			Path: "strips.where", Card: "strips", Label: "Depth strips lie", Kind: Choose, text: Together, When: is("strips.which", DepthStrip, AllStrips).and("machine.tool", "laser", "router", "knife"),
			Choices: []Choice{{Together, "All in one place, to save sheet"}, {Corners, "At the bed's corners and its centre"}},
			Help:    "Strips at the corners and the centre tell how far depth differs over the bed; they take a sheet as large as the bed, or offcuts laid there.",
			into:    func(v *Values, r reading) { v.Strips.Corners = r.shown && r.text == Corners },
		}, {
			Path: "strips.readings", Card: "strips", Label: "What the strips said", Kind: Rows, Columns: ReadingFields(), Row: "reading",
			Help:  "In any order; each is used from then on for this sheet and this setting.",
			row:   func(v *Values, i int) { v.Strips.Readings = append(v.Strips.Readings, ReadingValues{Row: i}) },
			whole: (*reader).readingsWarn,
		}, {
			Path: "strips.damp", Card: "strips", Label: "The air has turned damp or dry since they were read", Kind: Check,
			Help: "Board swells and softens with moisture, and takes a beam differently.",
			into: func(v *Values, r reading) { v.Strips.Damp = r.on },
		},
	}
}

// ReadingFields returns the fields of one reading.
func ReadingFields() []Field {
	row := func(set func(*ReadingValues, reading)) func(*Values, reading) {
		return func(v *Values, r reading) { set(last(v.Strips.Readings), r) }
	}
	scored := is("kind", "sag", "skin", "closing", "bend")
	return []Field{
		{
			Path: "kind", Card: "strips", Label: "Reading", Kind: Choose, text: "sag",
			Choices: []Choice{{"sag", "Drop of a tongue under a weight"}, {"skin", "Skin of a snapped tongue"}, {"closing", "Turn that shuts a strip"},
				{"bend", "Bent round a gauge"}, {"thickness", "Thickness of the sheet"}, {"kerf", "Width of a through cut"}, {"fit", "Slot less tenon"}},
			Help: "What was read.", into: row(func(x *ReadingValues, r reading) { x.Kind = r.text }),
		}, {
			Path: "value", Card: "strips", Label: "Read", Kind: Length, When: is("kind", "sag", "skin", "thickness", "kerf", "fit", "bend"),
			Help: "Drop, skin, thickness or radius of the gauge; of a cut, half of what the window is wider than the block that fell out.", into: row(func(x *ReadingValues, r reading) { x.Value = r.num }),
		}, {
			Path: "turn", Card: "strips", Label: "Turn of the whole strip", Kind: Angle, When: is("kind", "closing"),
			Help: "Between its two ends, when the mouths touch.", into: row(func(x *ReadingValues, r reading) { x.Turn = r.num }),
		}, {
			Path: "verdict", Card: "strips", Label: "It", Kind: Choose, When: is("kind", "bend", "fit"), text: "ask",
			Choices: []Choice{{"ask", "say what it did"}, {"held", "held"}, {"broke", "broke"}, {"loose", "was loose"}, {"good", "fitted"}, {"tight", "was tight"}},
			Help:    "What it did.", into: row(func(x *ReadingValues, r reading) { x.Verdict = r.text }),
		}, {
			Path: "passes", Card: "strips", Label: "Passes", Kind: Count, When: scored,
			Help: "None for a tongue without scores.", into: row(func(x *ReadingValues, r reading) { x.Passes = int(r.num) }),
		}, {
			Path: "spacing", Card: "strips", Label: "Spacing", Kind: Length, When: is("kind", "sag", "closing", "bend"),
			Help: "Centre to centre; none for a tongue without scores.", into: row(func(x *ReadingValues, r reading) { x.Spacing = r.num }),
		}, {
			Path: "count", Card: "strips", Label: "Scores that share the turn", Kind: Count, When: is("kind", "closing"),
			Help: "All that bend.", into: row(func(x *ReadingValues, r reading) { x.Count = int(r.num) }),
		}, {
			Path: "load", Card: "strips", Label: "Weight", Kind: Force, When: is("kind", "sag"),
			Help: "At the hole; none for its own weight alone.", into: row(func(x *ReadingValues, r reading) { x.Load = r.num }),
		}, {
			Path: "length", Card: "strips", Label: "Free length", Kind: Length, When: is("kind", "sag"),
			Help: "From the table's edge to the hole; empty is as printed.", preset: always(tongueLength), into: row(func(x *ReadingValues, r reading) { x.Length = r.num }),
		}, {
			Path: "width", Card: "strips", Label: "Width of the tongue", Kind: Length, When: is("kind", "sag"),
			Help: "Empty is as printed.", preset: always(tongueWidth), into: row(func(x *ReadingValues, r reading) { x.Width = r.num }),
		}, {
			Path: "side", Card: "strips", Label: "Scores on the", Kind: Choose, When: is("kind", "bend"), text: Hollow,
			Choices: []Choice{{Hollow, "Hollow side"}, {Round, "Round side"}},
			Help:    "Which side of the bend they were on.", into: row(func(x *ReadingValues, r reading) { x.RoundSide = r.text == Round }),
		}, {
			Path: "spot", Card: "strips", Label: "Cut at", Kind: Text, When: is("kind", "sag", "skin"),
			Help: "The last figure of its label: 1 lower left, 2 lower right, 3 upper left, 4 upper right, 5 the centre of the bed; or a place in your own words.", into: row(func(x *ReadingValues, r reading) { x.Spot = r.text }),
		}, {
			Path: "date", Card: "strips", Label: "Date", Kind: Text,
			Help: "Your own words.", into: row(func(x *ReadingValues, r reading) { x.Date = r.text }),
		}, {
			Path: "stock", Card: "strips", Label: "Sheet", Kind: Text,
			Help: "Empty is the one above.", into: row(func(x *ReadingValues, r reading) { x.Stock = r.text }),
		}, {
			Path: "setting", Card: "strips", Label: "Setting", Kind: Text,
			Help: "Empty is the one above.", into: row(func(x *ReadingValues, r reading) { x.Setting = r.text }),
		}, {
			Path: "batch", Card: "strips", Label: "Batch", Kind: Text,
			Help: "Empty is the one above.", into: row(func(x *ReadingValues, r reading) { x.Batch = r.text }),
		}, {
			Path: "note", Card: "strips", Label: "Note", Kind: Text,
			Help: "Anything you want to remember.", into: row(func(x *ReadingValues, r reading) { x.Note = r.text }),
		},
	}
}
