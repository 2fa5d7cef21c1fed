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
		{Path: "strips.which", Label: "Strips to cut first", Kind: Choose, text: DepthStrip,
			Help: "Cut them from this sheet with the setting that you will score with.",
			Choices: []Choice{{DepthStrip, "Depth: tongues that sag"}, {WidthStrip, "Width: a strip to close"},
				{BendStrip, "Bend: strips and gauges"}, {FitStrip, "Kerf and fit"}, {AllStrips, "All of them"}, {NoStrips, "None"}}},
		{Path: "strips.where", Label: "Depth strips lie", Kind: Choose, text: Together,
			When:    is("strips.which", DepthStrip, AllStrips).and("machine.tool", "laser", "router", "knife"),
			Choices: []Choice{{Together, "All in one place, to save sheet"}, {Corners, "At the bed's corners and its centre"}},
			Help:    "Strips at the corners and the centre tell how far depth differs over the bed; lay a large sheet or offcuts there.",
			into:    func(v *Values, r reading) { v.Strips.Corners = r.shown && r.text == Corners }},
		{Path: "strips.readings", Label: "What the strips said", Kind: Rows, Columns: readingFields(), Row: "reading",
			Help: "In any order; each is used from then on for this sheet and this setting.", whole: (*reader).readingsWarn},
		{Path: "strips.damp", Label: "The air has turned damp or dry since they were read", Kind: Check,
			Help: "Board swells and softens with moisture, and takes a beam differently."},
	}
}

func readingFields() []Field {
	scored := is("kind", "sag", "skin", "closing", "bend")
	return []Field{
		{Path: "kind", Label: "Reading", Kind: Choose, text: "sag",
			Help: "What was read.",
			Choices: []Choice{{"sag", "Drop of a tongue under a weight"}, {"skin", "Skin of a snapped tongue"}, {"closing", "Turn that shuts a strip"},
				{"bend", "Bent round a gauge"}, {"thickness", "Thickness of the sheet"}, {"kerf", "Width of a through cut"}, {"fit", "Slot less tenon"}}},
		{Path: "value", Label: "Read", Kind: Length, When: is("kind", "sag", "skin", "thickness", "kerf", "fit", "bend"),
			Help: "Drop, skin, thickness or radius of the gauge; of a cut, half of what the window is wider than the block that fell out."},
		{Path: "turn", Label: "Turn of the whole strip", Kind: Angle, When: is("kind", "closing"), Help: "Between its two ends, when the mouths touch."},
		{Path: "verdict", Label: "It", Kind: Choose, text: "ask", When: is("kind", "bend", "fit"),
			Choices: []Choice{{"ask", "say what it did"}, {"held", "held"}, {"broke", "broke"}, {"loose", "was loose"}, {"good", "fitted"}, {"tight", "was tight"}},
			Help:    "What it did."},
		{Path: "passes", Label: "Passes", Kind: Count, When: scored, Help: "None for a tongue without scores."},
		{Path: "spacing", Label: "Spacing", Kind: Length, When: is("kind", "sag", "closing", "bend"),
			Help: "Centre to centre; none for a tongue without scores."},
		{Path: "count", Label: "Scores that share the turn", Kind: Count, When: is("kind", "closing"), Help: "All that bend."},
		{Path: "load", Label: "Weight", Kind: Force, When: is("kind", "sag"), Help: "At the hole; none for its own weight alone."},
		{Path: "length", Label: "Free length", Kind: Length, preset: always(tongueLength), When: is("kind", "sag"),
			Help: "From the table's edge to the hole; empty is as printed."},
		{Path: "width", Label: "Width of the tongue", Kind: Length, preset: always(tongueWidth), When: is("kind", "sag"), Help: "Empty is as printed."},
		{Path: "side", Label: "Scores on the", Kind: Choose, text: Hollow, When: is("kind", "bend"), Choices: []Choice{{Hollow, "Hollow side"}, {Round, "Round side"}},
			Help: "Which side of the bend they were on.", into: func(v *Values, r reading) { last(v.Strips.Readings).RoundSide = r.text == Round }},
		{Path: "spot", Label: "Cut at", Kind: Text, When: is("kind", "sag", "skin"),
			Help: "The last figure of its label: 1 lower left, 2 lower right, 3 upper left, 4 upper right, 5 the centre; or your own words."},
		{Path: "date", Label: "Date", Kind: Text, Help: "Your own words."},
		{Path: "stock", Label: "Sheet", Kind: Text, Help: "Empty is the one above."},
		{Path: "setting", Label: "Setting", Kind: Text, Help: "Empty is the one above."},
		{Path: "batch", Label: "Batch", Kind: Text, Help: "Empty is the one above."},
		{Path: "note", Label: "Note", Kind: Text, Help: "Anything you want to remember."},
	}
}
