package design

import (
	"math"

	"springrib/internal/finding"
	"springrib/internal/stock"
)

// Base is a plate with slots that ribs with tenons stand in.
type Base struct {
	Kind      string      `json:"kind,omitempty"`  // "none", "row", "ring", "places"
	Stock     string      `json:"stock,omitempty"` // "rib", "same" or the id of a stock
	Thickness string      `json:"thickness,omitempty"`
	Copies    string      `json:"copies,omitempty"` // panels to a base
	Pitch     string      `json:"pitch,omitempty"`  // of a row
	Radius    string      `json:"radius,omitempty"` // of a ring, to the middle of the tenons
	Shape     string      `json:"shape,omitempty"`  // "auto", "rectangle", "disc"
	Length    string      `json:"length,omitempty"`
	Width     string      `json:"width,omitempty"`
	Diameter  string      `json:"diameter,omitempty"`
	Border    string      `json:"border,omitempty"`
	Places    []BasePlace `json:"places,omitempty"`
}

// BasePlace is where one panel stands on the base, from its middle, and which way it
// faces.
type BasePlace struct {
	X    string `json:"x"`
	Y    string `json:"y"`
	Turn string `json:"turn"`
}

// BaseValues is a Base in figures.
type BaseValues struct {
	Kind      string
	Stock     stock.Stock
	StockAt   string // the field that says which stock: PanelStock where it is the panel's sheet
	Thickness float64
	Copies    int // panels to a base; 0: all of them
	Pitch     Opt // left open: a panel's width and a little
	Radius    Opt // left open: as tight as the panels allow
	Disc      bool
	// Length, Width and Diameter left open: the slots and a border.
	Length, Width, Diameter Opt
	Border                  float64
	Places                  []BasePlaceValues
}

// BasePlaceValues is where one panel stands, mm and radians.
type BasePlaceValues struct {
	Row        int // of the document
	X, Y, Turn float64
}

// The choices of a base.
const (
	Tenon = "tenon" // Rib.Foot

	NoBase     = "none" // Base.Kind
	RowBase    = "row"
	RingBase   = "ring"
	PlacesBase = "places"
)

func baseFields(stocks []stock.Stock) []Field {
	any := is("base.kind", RowBase, RingBase, PlacesBase)
	plate := any.and("base.shape", "rectangle")
	return []Field{
		{Path: "base.kind", Label: "A base with slots", Kind: Choose, text: NoBase, When: cylinders,
			Choices: []Choice{{NoBase, "None"}, {RowBase, "Panels in a row"}, {RingBase, "Panels round a ring"}, {PlacesBase, "Panels at places of their own"}},
			Help:    "A plate that ribs with tenons stand in."},
		{Path: "rib.fit", Label: "Slots wider than the rib by", Kind: Length, Min: -0.5, Max: 3, preset: byTool(0.1, 0.2, 0.3, 0.2), More: true, When: any,
			Help: "In all, as a fit strip of this sheet tells; less than nothing is a press fit.",
			into: func(v *Values, r reading) { v.Rib.Fit, v.Rib.FitTyped = r.num, r.typed }},
		{Path: "base.stock", Label: "Base cut from", Kind: Choose, text: "rib", More: true, When: any,
			Choices: append([]Choice{{"rib", "The same as the ribs"}, {"same", "The same sheet as the panel"}}, stockChoices(stocks)...),
			Help:    "What the base is cut from.",
			into: func(v *Values, r reading) {
				v.Base.Stock, v.Base.StockAt = v.cutFrom(r.text, "base.stock", v.Rib.Stock, v.Rib.StockAt)
			}},
		{Path: "base.thickness", Label: "Thickness of the base", Kind: Length, Min: 0.3, Max: 100, More: true, When: any,
			Help: "As measured.",
			preset: func(v *Values) float64 {
				if v.Base.StockAt != PanelStock && v.Base.Stock.ID == v.Rib.Stock.ID {
					return v.Rib.Thickness
				}
				return v.thickness(v.Base.Stock, v.Base.StockAt)
			},
			into: func(v *Values, r reading) {
				if v.Base.Thickness = r.num; v.Base.StockAt != PanelStock {
					v.Base.Stock = v.Base.Stock.Of(r.num)
				}
			}},
		{Path: "base.copies", Label: "Panels to a base", Kind: Count, Min: 1, Max: 200, More: true, When: is("base.kind", RowBase, RingBase),
			Help: "A base is cut for every so many panels.", Auto: "all of them"},
		{Path: "base.pitch", Label: "From one panel to the next", Kind: Length, Min: 1, Max: 20000, More: true, When: is("base.kind", RowBase),
			Help: "From middle to middle.", Auto: "the panel's width and 10 mm"},
		{Path: "base.radius", Label: "Radius of the ring", Kind: Length, Min: 1, Max: 20000, More: true, When: is("base.kind", RingBase),
			Help: "From its middle to the middles of the tenons.", Auto: "as tight as the panels stand free"},
		{Path: "base.places", Label: "Where the panels stand", Kind: Rows, Columns: basePlaceFields(), Row: "place", More: true, When: is("base.kind", PlacesBase),
			Help: "From the middle of the base to the middle of the panel's tenons, each facing away from you until it is turned.",
			whole: func(r *reader, st *State) {
				if len(r.v.Base.Places) == 0 {
					r.missing(st, "Add at least one place.", "Say where the panels stand on the base, or choose a row or a ring.",
						finding.Remedy{Text: "Stand them in a row", Set: map[string]string{"base.kind": RowBase}})
				}
			}},
		{Path: "base.shape", Label: "Shape of the base", Kind: Choose, text: "auto", More: true, When: any,
			Choices: []Choice{{"auto", "A disc for a ring, else a rectangle"}, {"rectangle", "Rectangle"}, {"disc", "Disc"}},
			Help:    "Seen from above.",
			into: func(v *Values, r reading) {
				v.Base.Disc = r.text == "disc" || r.text == "auto" && v.Base.Kind == RingBase
			}},
		{Path: "base.length", Label: "Length of the base", Kind: Length, Min: 5, Max: 20000, More: true, When: plate,
			Help: "Along the row.", Auto: "the slots and a border"},
		{Path: "base.width", Label: "Width of the base", Kind: Length, Min: 5, Max: 20000, More: true, When: plate,
			Help: "Across the row.", Auto: "the slots and a border"},
		{Path: "base.diameter", Label: "Diameter of the base", Kind: Length, Min: 5, Max: 20000, More: true, When: any.and("base.shape", "auto", "disc"),
			Help: "Of a disc.", Auto: "the slots and a border"},
		{Path: "base.border", Label: "Border round the slots", Kind: Length, Min: 0, Max: 2000, preset: practice(15), More: true, When: any,
			Help: "Where no size is given."},
	}
}

func basePlaceFields() []Field {
	return []Field{
		{Path: "x", Label: "To the right", Kind: Length, Min: -20000, Max: 20000,
			Help: "From the middle of the base.", Ask: "Say how far to the right this panel stands."},
		{Path: "y", Label: "Away", Kind: Length, Min: -20000, Max: 20000,
			Help: "From the middle of the base.", Ask: "Say how far away from you this panel stands."},
		{Path: "turn", Label: "Turned", Kind: Angle, Min: -2 * math.Pi, Max: 2 * math.Pi, preset: always(0), Help: "Counter-clockwise."},
	}
}
