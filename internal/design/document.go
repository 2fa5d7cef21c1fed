// Package design is the document a person works on: what was typed, field by field.
//
// A Document keeps the typed text itself, so that nothing is lost when a figure is
// half written or wrong. Values (values.go) are what the text means in millimetres
// and radians; reading them gathers a finding for each field that can't be read.
// The package computes nothing about panels or ribs.
package design

// Format and Version identify a saved design.
const (
	Format  = "springrib design"
	Version = 1
)

// Document is a design as saved. Every quantity is the text the person typed, with
// or without a unit; without one it is in Units (angles: degrees). An empty text
// takes the default that Fields states for it.
type Document struct {
	Format   string  `json:"format"`
	Version  int     `json:"version"`
	Name     string  `json:"name"`
	Revision string  `json:"revision"`
	Units    string  `json:"units"` // "mm" or "in"
	Notes    string  `json:"notes,omitempty"`
	Sheet    Sheet   `json:"sheet"`
	Machine  Machine `json:"machine"`
	Strips   Strips  `json:"strips"`
	Curve    Curve   `json:"curve"`
	Panel    Panel   `json:"panel"`
	Rib      Rib     `json:"rib"`
	Base     Base    `json:"base,omitzero"`
	Cut      Cut     `json:"cut"`
}

// Sheet is the sheet goods in hand.
type Sheet struct {
	Stock    string   `json:"stock"`    // id of a stock in package stock, or "own"
	Readings []string `json:"readings"` // measured thickness, one to nine readings
	// Overrides of the handbook figures; empty keeps the handbook.
	E            string `json:"e"`                    // bending modulus across the scores, MPa
	EZ           string `json:"ez"`                   // through-thickness modulus, MPa
	GXZ          string `json:"gxz"`                  // transverse shear modulus, MPa
	Face         string `json:"face,omitempty"`       // modulus at the faces over E
	MOR          string `json:"mor"`                  // bending strength, MPa
	StrainLimit  string `json:"strainLimit"`          // strain at rupture of the skin, percent
	StrainTested bool   `json:"strainTested"`         // StrainLimit comes from a bend strip of this sheet
	Grain        string `json:"grain"`                // face grain against the scores: "none", "across", "along", "angle", or an angle itself
	GrainAngle   string `json:"grainAngle,omitempty"` // between face grain and scores, for "angle"
	Batch        string `json:"batch,omitempty"`      // the person's own name of the batch
	OwnName      string `json:"ownName,omitempty"`
	OwnKind      string `json:"ownKind,omitempty"`    // "wood", "acrylic", "plastic", "unknown": decides what a laser may do
	OwnDensity   string `json:"ownDensity,omitempty"` // kg/m3
}

// Machine is what cuts, and how it cuts this sheet.
type Machine struct {
	Tool         string   `json:"tool"`      // "laser", "router", "saw", "knife"
	Reference    string   `json:"reference"` // "top": Depths are depths; "table": Depths are skin left
	BedWidth     string   `json:"bedWidth"`
	BedHeight    string   `json:"bedHeight"`
	Kerf         string   `json:"kerf"`       // width of a through cut
	ScoreWidth   string   `json:"scoreWidth"` // width of a score at its mouth
	Bottom       string   `json:"bottom"`     // "round", "flat", "vee"
	Depths       []string `json:"depths"`     // cumulative, after 1, 2, 3... passes
	DepthSpread  string   `json:"depthSpread"`
	Apart        string   `json:"apart,omitempty"` // what of it differs from score to score
	WidthSpread  string   `json:"widthSpread"`
	Tested       bool     `json:"tested"`            // Depths and ScoreWidth come from test strips
	Setting      string   `json:"setting,omitempty"` // power, speed, focus and air, in the person's own words
	Speed        string   `json:"speed"`             // mm/s while scoring
	Acceleration string   `json:"acceleration"`
}

// Strips is what test strips are to be cut, and what they said.
type Strips struct {
	Which    string    `json:"which,omitempty"` // "all", "depth", "width", "bend", "fit", "none"
	Where    string    `json:"where,omitempty"` // of the bed: "corners", "together"
	Damp     bool      `json:"damp,omitempty"`  // the climate has changed since they were read
	Readings []Reading `json:"readings,omitempty"`
}

// Reading is one figure read off a strip, with where it belongs: the stock, the
// machine's setting and the batch, each empty for those of the design.
type Reading struct {
	Kind    string `json:"kind"` // "sag", "skin", "closing", "bend", "thickness", "kerf", "fit"
	Value   string `json:"value"`
	Turn    string `json:"turn,omitempty"`
	Verdict string `json:"verdict,omitempty"` // "held", "broke", "loose", "good", "tight"
	Passes  string `json:"passes,omitempty"`
	Spacing string `json:"spacing,omitempty"`
	Count   string `json:"count,omitempty"`
	Load    string `json:"load,omitempty"` // grams or ounces without a unit
	Length  string `json:"length,omitempty"`
	Width   string `json:"width,omitempty"`
	Side    string `json:"side,omitempty"` // "hollow", "round": where the scores were
	Spot    string `json:"spot,omitempty"`
	Date    string `json:"date,omitempty"`
	Stock   string `json:"stock,omitempty"`
	Setting string `json:"setting,omitempty"`
	Batch   string `json:"batch,omitempty"`
	Note    string `json:"note,omitempty"`
}

// Curve is the wanted section, foot first.
type Curve struct {
	Kind   string  `json:"kind"` // "radius-angle", "span-rise", "length-radius", "chain", "points", "box", "oval", "cone", "cone-part", "drawn"
	Radius string  `json:"radius"`
	Angle  string  `json:"angle"`
	Span   string  `json:"span"`
	Rise   string  `json:"rise"`
	Length string  `json:"length"`
	Pieces []Piece `json:"pieces,omitempty"` // for "chain"
	Points []Point `json:"points,omitempty"` // for "points"
	// A line drawn elsewhere, for "drawn".
	Drawn       Drawing `json:"drawn,omitzero"`
	DrawnLength string  `json:"drawnLength,omitempty"`
	DrawnSeam   string  `json:"drawnSeam,omitempty"` // of a closed line
	DrawnTurn   string  `json:"drawnTurn,omitempty"`
	DrawnMirror bool    `json:"drawnMirror,omitempty"`
	DrawnBack   bool    `json:"drawnBack,omitempty"` // the foot is its last point
	// A box or oval to wrap all round, seam in the middle of a side.
	BoxWidth  string `json:"boxWidth,omitempty"`  // over all, along the seam's side
	BoxHeight string `json:"boxHeight,omitempty"` // over all, across it
	Corner    string `json:"corner,omitempty"`    // corner radius, for "box"
	// A cone to wrap all round, or part of one.
	Rims      string `json:"rims,omitempty"`      // what it is given by: "height", "slant"
	Small     string `json:"small,omitempty"`     // diameter at the narrow rim
	Large     string `json:"large,omitempty"`     // diameter at the wide rim
	RimHeight string `json:"rimHeight,omitempty"` // from rim to rim, along the axis
	Slant     string `json:"slant,omitempty"`     // along the panel from rim to rim
	Lean      string `json:"lean,omitempty"`      // of the panel to the axis
	Sweep     string `json:"sweep,omitempty"`     // of a part: how far round it goes
	Sizes     string `json:"sizes,omitempty"`     // what the diameters are of: "inside", "outside", "ring"
	Seam      string `json:"seam,omitempty"`      // "butt", "lap"
	Lap       string `json:"lap,omitempty"`       // overlap, for "lap"
	Trim      string `json:"trim,omitempty"`      // left over to be trimmed, for "butt"
	Gores     string `json:"gores,omitempty"`     // equal parts that the panel of a cone is cut in
	// The section at the far rib, where it is not the same all along.
	Far       string  `json:"far,omitempty"`       // "same", "scaled", "arc", "chain", "box", "oval"
	Apart     string  `json:"apart,omitempty"`     // from the outer face of the one rib to that of the other
	FarScale  string  `json:"farScale,omitempty"`  // of the near section, in percent
	FarRadius string  `json:"farRadius,omitempty"` // of an arc that turns as far
	FarPieces []Piece `json:"farPieces,omitempty"`
	FarWidth  string  `json:"farWidth,omitempty"`
	FarHeight string  `json:"farHeight,omitempty"`
	FarCorner string  `json:"farCorner,omitempty"`
	FarRight  string  `json:"farRight,omitempty"` // moved so far along from the middle of the near one
	FarUp     string  `json:"farUp,omitempty"`    // and so far up
	Line      string  `json:"line"`               // which line of the bent panel it is: "contact", "outer", "neutral"
	Foot      string  `json:"foot"`               // straight before the curve
	Tip       string  `json:"tip"`                // straight after it
}

// Piece is one arc or straight of a chain; each continues where the last one ended.
type Piece struct {
	Turn   string `json:"turn"`   // "straight", "over" (the first bend's way), "back" (against it)
	Length string `json:"length"` // along the wanted line
	Radius string `json:"radius"` // ignored for "straight"
}

// Point is a place that a smooth curve goes through: X along, Y up.
type Point struct {
	X string `json:"x"`
	Y string `json:"y"`
}

// Panel is the flat piece that bends.
type Panel struct {
	Shape       string `json:"shape"` // "rectangle", "taper", "ellipse", "lens", "sector", "polygon", "drawn"
	Length      string `json:"length"`
	Width       string `json:"width"`
	FootWidth   string `json:"footWidth"`
	WidestAt    string `json:"widestAt"` // from the foot edge
	WidestWidth string `json:"widestWidth"`
	TipWidth    string `json:"tipWidth"`
	TipRound    bool   `json:"tipRound"`
	Edges       string `json:"edges,omitempty"` // of a taper: "both" taper, or "one" is straight
	ScoredFace  string `json:"scoredFace"`      // "hollow" or "round": side of the first bend
	ShowFace    string `json:"showFace"`        // "hollow" or "round"
	Quantity    string `json:"quantity"`
	// Outlines of other shapes, all from their own foot edge and their middle line.
	CornerRadius string   `json:"cornerRadius,omitempty"` // of a rectangle
	FootRadius   string   `json:"footRadius,omitempty"`   // rounds the points of a lens
	TipRadius    string   `json:"tipRadius,omitempty"`
	InnerRadius  string   `json:"innerRadius,omitempty"` // of a sector
	SectorAngle  string   `json:"sectorAngle,omitempty"`
	Corners      []Corner `json:"corners,omitempty"` // of a polygon
	Drawn        Drawing  `json:"drawn,omitzero"`    // for "drawn"
	DrawnLength  string   `json:"drawnLength,omitempty"`
	DrawnTurn    string   `json:"drawnTurn,omitempty"`
	DrawnMirror  bool     `json:"drawnMirror,omitempty"`
	Holes        []Hole   `json:"holes,omitempty"`
	Along        string   `json:"along,omitempty"`  // where the outline starts, from the foot of the curve
	Across       string   `json:"across,omitempty"` // where its middle line lies, from v = 0
	View         string   `json:"view,omitempty"`   // "flat", or "seen": as it looks when bent
	// Scores.
	Spacing     string `json:"spacing"`     // "follow", "even", "count", "pitch"
	Count       string `json:"count"`       // for "count"
	Pitch       string `json:"pitch"`       // for "pitch"
	Passes      string `json:"passes"`      // "auto" or a number
	StandOff    string `json:"standOff"`    // accepted height of the flats
	Finish      string `json:"finish"`      // "gloss", "satin", "hidden", "any"
	StrainSafe  string `json:"strainSafe"`  // factor on rupture strain
	ClosingSafe string `json:"closingSafe"` // factor on closing
	MayFail     string `json:"mayFail"`     // panels in 100 that may fail
	MinLand     string `json:"minLand"`     // sound land between two scores
	Overrun     string `json:"overrun"`     // past the edge; "auto" by speed
}

// Corner is a corner of a polygon: along the bend, across it, and the radius it is
// rounded to.
type Corner struct {
	Along  string `json:"along"`
	Across string `json:"across"`
	Radius string `json:"radius"`
}

// Hole is a round hole or a slot with round ends.
type Hole struct {
	Kind   string `json:"kind"` // "round", "slot"
	Along  string `json:"along"`
	Across string `json:"across"`
	Width  string `json:"width"`  // diameter of a round hole
	Length string `json:"length"` // over all, of a slot
	Turn   string `json:"turn"`   // of a slot's length against the bend
}

// RibPlace is one of several ribs across the panel. What is empty is as of the Rib.
type RibPlace struct {
	Across    string `json:"across"`
	Stock     string `json:"stock"` // "", "same" or the id of a stock
	Thickness string `json:"thickness"`
	Foot      string `json:"foot"` // "", "plain", "stub", "tenon"
}

// Rib is the shaped part that holds the curve.
type Rib struct {
	Side      string `json:"side"` // "hollow" or "round" side of the first bend
	Stock     string `json:"stock"`
	Thickness string `json:"thickness"`
	E         string `json:"e"`
	MOR       string `json:"mor"`
	FootDepth string `json:"footDepth"` // depth of the rib at the foot
	TipDepth  string `json:"tipDepth"`
	TipRound  string `json:"tipRound"`       // radius of the tip's corners
	Foot      string `json:"foot"`           // "plain", "stub", "tenon"
	Edge      string `json:"edge,omitempty"` // "square", "bevel": of ribs that the panel leans against
	StubDepth string `json:"stubDepth"`
	StubWidth string `json:"stubWidth"`
	Short     string `json:"short"`         // how far the rib and glue stop short of the curve's end: "auto" or a length
	EndGap    string `json:"endGap"`        // accepted gap of the unglued end, for "auto"
	MarkStart string `json:"markStart"`     // how far outside the foot edge the glue mark starts
	GlueBond  string `json:"glueBond"`      // internal bond strength across the glue line, MPa
	Quantity  string `json:"quantity"`      // to a panel, where Places is empty
	Fit       string `json:"fit,omitempty"` // slots wider than the rib
	// A matching caul presses the panel on.
	Caul         string `json:"caul,omitempty"`         // "no", "yes"
	CaulPad      string `json:"caulPad,omitempty"`      // thickness of the pad between
	CaulDepth    string `json:"caulDepth,omitempty"`    // of the caul, square to its edge
	CaulQuantity string `json:"caulQuantity,omitempty"` // to a panel
	// A hole in the middle of a ring.
	Hub     string `json:"hub,omitempty"` // "none", "narrow", "wide": in which ring
	HubHole string `json:"hubHole,omitempty"`
	Spokes  string `json:"spokes,omitempty"`
	// Places of several ribs across the panel.
	Places []RibPlace `json:"places,omitempty"`
}

// Cut is how parts lie on the sheet and what the operations are called.
type Cut struct {
	EveryThird   bool                 `json:"everyThird"`   // scores in three sweeps of every third line
	RepeatLayers bool                 `json:"repeatLayers"` // passes as layers of their own
	TravelSpeed  string               `json:"travelSpeed,omitempty"`
	SheetPrice   string               `json:"sheetPrice,omitempty"` // of one whole sheet of the panel's stock
	HourPrice    string               `json:"hourPrice,omitempty"`  // of an hour of the machine
	Currency     string               `json:"currency,omitempty"`   // put before prices
	Gap          string               `json:"gap"`                  // sound bridge between parts
	Margin       string               `json:"margin"`               // kept free along the bed's edge
	Operations   map[string]Operation `json:"operations,omitempty"`
	// How parts lie and how they are held there: fields_lay.go.
	Turns       string       `json:"turns,omitempty"`   // "grain", "none", "half", "quarter"
	CutOuts     bool         `json:"cutOuts,omitempty"` // small parts may lie in holes of others
	Scrap       []ScrapPoint `json:"scrap,omitempty"`
	Pins        []Pin        `json:"pins,omitempty"`
	Places      []Lay        `json:"places,omitempty"`  // from packing
	Bridges     string       `json:"bridges,omitempty"` // "small", "none", "all"
	BridgeWidth string       `json:"bridgeWidth,omitempty"`
	BridgeBelow string       `json:"bridgeBelow,omitempty"`
	Relief      string       `json:"relief,omitempty"` // "auto", "none"
	Curves      string       `json:"curves,omitempty"` // free curves in DXF: "arcs", "splines"
	Paper       string       `json:"paper,omitempty"`  // "auto", "a4", "letter"
}

// Operation names and colours one of "score", "mark", "inner", "outer".
type Operation struct {
	Name   string `json:"name"`
	Colour string `json:"colour"`
	Passes string `json:"passes"`
	Speed  string `json:"speed"`
}
