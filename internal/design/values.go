package design

import (
	"springrib/internal/machine"
	"springrib/internal/stock"
	"springrib/internal/unit"
)

// Opt is a length that the person may leave to the program.
type Opt struct {
	V  float64 // mm
	OK bool    // false: to be chosen
}

// Or returns the length, or def when it was left open.
func (o Opt) Or(def float64) float64 {
	if o.OK {
		return o.V
	}
	return def
}

// Values is what a Document means: mm, radians, MPa, mm/s, with every default in its
// place. Where a text could not be used the default stands, so that a Values can
// always be computed with; whether that is worth showing is for the caller, who has
// the findings.
type Values struct {
	Name, Revision, Notes string
	Units                 unit.System
	Sheet                 SheetValues
	Machine               MachineValues
	Strips                StripsValues
	Curve                 CurveValues
	Panel                 PanelValues
	Rib                   RibValues
	Base                  BaseValues
	Cut                   CutValues
}

// SheetValues is the sheet in hand, its elastic figures for bending as this panel bends.
type SheetValues struct {
	Kind     string      // what a sheet of the person's own is made of
	Stock    stock.Stock // handbook stock, or one made of what was typed for "own"
	Own      bool
	Readings []float64 // mm, those that could be read; nil when not measured
	Measured bool
	T        float64 // thickness to work with: mean of the readings, or nominal
	TSpread  float64 // half width of what it may be off by
	// Grained tells that the face grain matters; GrainToScores is the angle between face
	// grain and scores, from 0 (along: the skin splits) to pi/2 (across).
	Grained       bool
	GrainToScores float64

	E, GXZ, EZ   stock.Figure // bending modulus across the scores, transverse shear, through the thickness
	Face         stock.Figure // modulus at the faces over E; none for a sheet taken as even
	MOR          stock.Figure
	Rupture      stock.Figure // strain of the outer skin at rupture
	NuXY, NuXZ   stock.Figure
	Density      stock.Figure
	InternalBond stock.Figure
	StrainTested bool // Rupture comes from a bend strip of this sheet
	Batch        string
}

// MachineValues is the machine with its setting.
type MachineValues struct {
	machine.Setup
	Tested bool // depths come from test strips
	// WidthTested tells that the width of a score does.
	WidthTested bool
	Typed       bool // depths were typed at all
	// Setting is the person's own name of power, speed, focus and air.
	Setting string
	// SpreadTyped and WidthTyped tell that a person gave the spread of the depths and the
	// width of a score.
	SpreadTyped, WidthTyped bool
}

// CurveValues is the wanted section. Only the members that Kind calls for count.
type CurveValues struct {
	Kind                              string
	Radius, Angle, Span, Rise, Length float64
	Pieces                            []PieceValues
	Points                            [][2]float64 // x, y in mm
	PointRows                         []int        // the row of the document each came from
	Drawn                             DrawnValues
	BoxWidth, BoxHeight, Corner       float64
	Rims                              string  // what a cone is given by
	Small, Large, RimHeight           float64 // of a cone: diameters of its rims, and between them; also where it is given by its slant
	Slant, Lean                       float64 // of a cone that is given by them
	Sweep                             float64 // of part of a cone: how far round it goes, rad
	Sizes                             string  // what the diameters are of
	Seam                              string
	Lap, Trim                         float64
	Gores                             int     // equal parts that the panel of a cone is cut in
	Far                               string  // what the section at the far rib is
	Apart                             float64 // from the outer face of the near rib to that of the far one
	FarScale, FarRadius               float64 // FarScale is a share of the near one
	FarPieces                         []PieceValues
	FarWidth, FarHeight, FarCorner    float64
	FarRight, FarUp                   float64 // the far one moved against the middle of the near one
	Line                              string
	Foot, Tip                         float64
}

// PieceValues is one arc or straight of a chain. The first arc is always "over".
type PieceValues struct {
	Turn           string
	Length, Radius float64
}

// PanelValues is the flat piece and its scores.
type PanelValues struct {
	Shape                            string
	Length                           Opt     // left open: as long as the curve
	Width                            float64 // of a taper the greatest, of a polygon over all
	FootWidth, WidestWidth, TipWidth float64
	Bulges                           bool   // a taper has a greatest width of its own
	WidestAt                         Opt    // of one that bulges; left open: a third of the length from the foot
	Edges                            string // of a taper: at "one" the lower edge runs straight on from the foot
	TipRound                         bool
	CornerRadius                     float64
	FootRadius, TipRadius            float64
	InnerRadius, SectorAngle         float64
	Corners                          []CornerValues
	Holes                            []HoleValues
	Drawn                            DrawnValues
	Along, Across                    float64
	Seen                             bool // the outline is given as it looks when bent
	ScoredFace, ShowFace             string
	Quantity                         int
	Spacing                          string
	Count                            int
	Pitch                            float64
	Passes                           int // 0: to be chosen
	StandOff                         float64
	Finish                           string
	FoldLimit                        float64 // radians a score; 0 for none
	StrainSafe, ClosingSafe          float64
	MayFail                          float64 // panels in 100
	MinLand                          float64
	Overrun                          Opt // left open: by speed
}

// CornerValues is a corner of a polygon.
type CornerValues struct {
	Row                   int // of the document
	Along, Across, Radius float64
}

// HoleValues is a hole; Length and Turn count for a slot.
type HoleValues struct {
	Row                          int // of the document
	Slot                         bool
	Along, Across, Width, Length float64
	Turn                         float64
}

// RibPlaceValues is one of several ribs across the panel.
type RibPlaceValues struct {
	Row       int // of the document
	Across    float64
	Stock     stock.Stock
	StockAt   string // the field that says which stock: PanelStock where it is the panel's sheet
	Thickness float64
	E, MOR    stock.Figure // on edge
	Foot      string
}

// RibValues is the shaped part.
type RibValues struct {
	Side                 string
	Stock                stock.Stock
	StockAt              string // the field that says which stock: PanelStock where it is the panel's sheet
	Thickness            float64
	E, MOR               stock.Figure // on edge
	FootDepth, TipDepth  float64
	TipRound             float64
	Foot                 string
	Edge                 string // of ribs that the panel leans against: Square or Bevel
	StubDepth, StubWidth float64
	Short                Opt // left open: from EndGap
	EndGap               float64
	MarkStart            float64
	GlueBond             stock.Figure
	Fit                  float64 // slots wider than the rib
	FitTyped             bool
	Quantity             int // to a panel, where Places is empty
	Caul                 bool
	CaulPad, CaulDepth   float64
	CaulQuantity         int
	Hub                  string  // which ring of a cone has a hole in its middle
	HubHole              float64 // its diameter
	Spokes               int
	Places               []RibPlaceValues // nil: Quantity of them, evenly
}

// CutValues is the lay-out on the sheet.
type CutValues struct {
	Gap, Margin              float64
	EveryThird, RepeatLayers bool
	TravelSpeed              float64 // mm/s; 0 when not known
	SheetPrice, HourPrice    float64 // 0 when not typed
	Currency                 string
	Turns                    string        // how parts may be turned
	CutOuts                  bool          // small parts may lie in holes of others
	Scrap                    []ScrapValues // nil for none
	Pins                     []PinValues
	Places                   []LayValues // from packing, nil for rows
	Bridges                  string
	BridgeWidth, BridgeBelow float64
	Relief                   bool // inside corners of joints are cleared for a round cutter
	Splines                  bool // free curves go into DXF files as splines
	Letter                   bool // what is printed goes on Letter, else on A4
	// Operations in cutting order: score, mark, inner cuts, outer cuts.
	Operations [4]OperationValues
}

// OperationValues names and colours one operation.
type OperationValues struct {
	Name   string
	Colour string  // "#RRGGBB"
	Passes int     // 0: as planned
	Speed  float64 // mm/s; 0: not known
}

// PanelStock is the field of the panel's stock.
const PanelStock = "sheet.stock"

// The choices of a Document, as they are saved.
const (
	RadiusAngle  = "radius-angle" // Curve.Kind
	SpanRise     = "span-rise"
	LengthRadius = "length-radius"
	Chain        = "chain"
	Points       = "points"
	Box          = "box"
	Oval         = "oval"
	Cone         = "cone"
	ConePart     = "cone-part"

	NoHub     = "none" // Rib.Hub
	HubNarrow = "narrow"
	HubWide   = "wide"

	Same   = "same" // Curve.Far, besides Chain, Box and Oval
	Scaled = "scaled"
	FarArc = "arc"

	Square = "square" // Rib.Edge
	Bevel  = "bevel"

	ByHeight = "height" // Curve.Rims
	BySlant  = "slant"

	Inside  = "inside" // Curve.Sizes
	Outside = "outside"
	RingCut = "ring"

	Butt = "butt" // Curve.Seam
	Lap  = "lap"

	Contact = "contact" // Curve.Line
	Outer   = "outer"
	Neutral = "neutral"

	Straight = "straight" // Piece.Turn
	Over     = "over"
	Back     = "back"

	Rectangle = "rectangle" // Panel.Shape
	Taper     = "taper"
	Ellipse   = "ellipse"
	Lens      = "lens"
	Sector    = "sector"
	Polygon   = "polygon"

	FlatView = "flat" // Panel.View
	SeenView = "seen"

	Drawn = "drawn" // Panel.Shape, Curve.Kind

	DrawnRound = "drawn-round" // Curve.Kind: a closed line

	RoundHole = "round" // Hole.Kind
	SlotHole  = "slot"

	Hollow = "hollow" // Panel.ScoredFace, Panel.ShowFace, Rib.Side
	Round  = "round"

	Follow     = "follow" // Panel.Spacing
	Even       = "even"
	FixedCount = "count"
	FixedPitch = "pitch"

	Plain = "plain" // Rib.Foot
	Stub  = "stub"
)
