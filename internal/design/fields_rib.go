package design

import (
	"math"

	"springrib/internal/finding"
	"springrib/internal/stock"
)

func ribFields(stocks []stock.Stock) []Field {
	stub := is("rib.foot", Stub, Tenon)
	return []Field{
		{
			Path: "rib.side", Card: "rib", Label: "The rib sits on the", Kind: Choose, text: Hollow,
			Choices: []Choice{{Hollow, "Hollow side: the panel wraps it"}, {Round, "Round side: it is a cradle"}},
			Help:    "The side of the first bend.",
			into:    func(v *Values, r reading) { v.Rib.Side = r.text },
		}, {
			Path: "rib.stock", Card: "rib", Label: "Cut from", Kind: Choose, text: "same",
			Choices: append([]Choice{{"same", "The same sheet as the panel"}}, stockChoices(stocks)...),
			Help:    "What the rib is cut from.",
			into: func(v *Values, r reading) {
				v.Rib.Stock, v.Rib.StockAt = v.Sheet.Stock, PanelStock
				if s, ok := stock.Lookup(r.text); ok {
					v.Rib.Stock, v.Rib.StockAt = s, "rib.stock"
				}
			},
		}, {
			Path: "rib.thickness", Card: "rib", Label: "Thickness of the rib", Kind: Length, Min: 0.3, Max: 100,
			Help: "As measured; it is the width of the glue line.",
			preset: func(v *Values) float64 {
				if v.Rib.StockAt == PanelStock {
					return sized(v.Sheet.T)
				}
				return v.Rib.Stock.Thickness.Value
			},
			into: func(v *Values, r reading) { v.Rib.Thickness = r.num },
		}, {
			Path: "rib.footDepth", Card: "rib", Label: "Depth at the foot", Kind: Length, Min: 1, Max: 2000,
			Help: "Across the rib, from its edge to its back; it tapers evenly to the tip.", preset: always(25), // common practice, no source
			into: func(v *Values, r reading) { v.Rib.FootDepth = r.num },
		}, {
			Path: "rib.tipDepth", Card: "rib", Label: "Depth at the tip", Kind: Length, Min: 1, Max: 2000,
			Help: "Half of the foot's reads well and stays stiff.", preset: func(v *Values) float64 { return sized(math.Max(1, v.Rib.FootDepth/2)) },
			into: func(v *Values, r reading) { v.Rib.TipDepth = r.num },
		}, {
			Path: "rib.foot", Card: "rib", Label: "Foot", Kind: Choose, text: Plain,
			Choices: []Choice{{Plain, "Plain"}, {Stub, "With a stub"}, {Tenon, "With a tenon, for a base"}},
			Help:    "A stub goes into a slot of what it stands on, a tenon into one of a base cut with it.",
			into:    func(v *Values, r reading) { v.Rib.Foot = r.text },
		}, {
			Path: "rib.stubDepth", Card: "rib", Label: "Stub or tenon goes in by", Kind: Length, When: stub, Min: 0.5, Max: 500,
			Help: "How far it stands out from the foot.", preset: func(v *Values) float64 {
				if v.Rib.Foot == Tenon {
					return v.Rib.Thickness // of a base of the same sheet: flush
				}
				return sized(2 * v.Rib.Thickness)
			},
			into: func(v *Values, r reading) { v.Rib.StubDepth = r.num },
		}, {
			Path: "rib.stubWidth", Card: "rib", Label: "Width of the stub or tenon", Kind: Length, When: stub, Min: 0.5, Max: 2000,
			Help: "Along the foot; the shoulders on both sides carry.", preset: func(v *Values) float64 { return sized(math.Max(0.5, 0.6*v.Rib.FootDepth)) },
			into: func(v *Values, r reading) { v.Rib.StubWidth = r.num },
		}, {
			Path: "rib.tipRound", Card: "rib", Label: "Corner radius at the tip", Kind: Length, Min: 0, Max: 500, More: true,
			Help: "Takes the sharp corners off the tip.", preset: func(v *Values) float64 { return sized(math.Min(4, v.Rib.TipDepth/3)) },
			into: func(v *Values, r reading) { v.Rib.TipRound = r.num },
		}, {
			Path: "rib.endGap", Card: "rib", Label: "Gap allowed at the unglued end", Kind: Length, Min: 0.01, Max: 20, More: true,
			Help: "Past the glue the panel runs straight; this says how far it may stand off.", preset: always(0.3), // common practice, no source
			into: func(v *Values, r reading) { v.Rib.EndGap = r.num },
		}, {
			Path: "rib.short", Card: "rib", Label: "Rib and glue stop short of the curve's end by", Kind: Length, Min: 0, Max: 5000, More: true,
			Help: "So that no glue shows at the tip.", Auto: "by the gap allowed",
			into: func(v *Values, r reading) { v.Rib.Short = Opt{r.num, r.typed} },
		}, {
			Path: "rib.markStart", Card: "rib", Label: "Glue mark starts outside the foot edge by", Kind: Length, Min: 0, Max: 100, More: true,
			Help: "So that its start can be seen when the rib is in place.", preset: always(2), // common practice, no source
			into: func(v *Values, r reading) { v.Rib.MarkStart = r.num },
		}, {
			Path: "rib.e", Card: "rib", Label: "Stiffness of the rib (E)", Kind: Stress, More: true, Min: 50, Max: 250000,
			Help: "Modulus on edge; leave it empty for the handbook's.", Auto: "the handbook's figure",
			tells: func(v *Values) string { return tell(Stress, v.Rib.E) },
			into: func(v *Values, r reading) {
				v.Rib.E = v.Rib.Stock.Edge()
				if r.typed {
					v.Rib.E = typed(r.num, typedSpread)
				}
			},
		}, {
			Path: "rib.mor", Card: "rib", Label: "Strength of the rib", Kind: Stress, More: true, Min: 1, Max: 2000,
			Help: "Bending strength on edge; leave it empty for the handbook's.", Auto: "the handbook's figure",
			tells: func(v *Values) string { return tell(Stress, v.Rib.MOR) },
			into: func(v *Values, r reading) {
				v.Rib.MOR = v.Rib.Stock.EdgeStrength()
				if r.typed {
					v.Rib.MOR = typed(r.num, typedSpread)
				}
			},
		}, {
			Path: "rib.glueBond", Card: "rib", Label: "Strength across the glue line", Kind: Stress, More: true, Min: 0.01, Max: 100,
			Help: "What pulls a face off the sheet (internal bond); leave it empty for the handbook's.", Auto: "the handbook's figure",
			tells: func(v *Values) string { return tell(Stress, v.Rib.GlueBond) },
			into: func(v *Values, r reading) {
				v.Rib.GlueBond = v.Sheet.InternalBond
				if r.typed {
					v.Rib.GlueBond = typed(r.num, guessSpread)
				}
			},
		}, {
			Path: "rib.quantity", Card: "rib", Label: "How many ribs to a panel", Kind: Count, Min: 1, Max: 20, More: true,
			Help: "One stands where it reaches both ends of the panel; more are spread evenly, unless their places are given below.", preset: always(1),
			into: func(v *Values, r reading) { v.Rib.Quantity = int(r.num) },
		}, {
			Path: "rib.caul", Card: "rib", Label: "Matching caul", Kind: Choose, text: "no", More: true,
			Choices: []Choice{{"no", "None"}, {"yes", "Cut one too"}},
			Help:    "A block with the panel's outer face as its edge presses it on the rib while the glue sets.",
			into:    func(v *Values, r reading) { v.Rib.Caul = r.text == "yes" },
		}, {
			Path: "rib.caulPad", Card: "rib", Label: "Pad between panel and caul", Kind: Length, When: is("rib.caul", "yes"), More: true, Min: 0, Max: 100,
			Help: "Felt, cork or card that spares the face and takes up the flats.", preset: always(2), // common practice, no source
			into: func(v *Values, r reading) { v.Rib.CaulPad = r.num },
		}, {
			Path: "rib.caulDepth", Card: "rib", Label: "Depth of the caul", Kind: Length, When: is("rib.caul", "yes"), More: true, Min: 3, Max: 2000,
			Help: "Square to its edge.", preset: func(v *Values) float64 { return sized(math.Max(3, v.Rib.FootDepth)) },
			into: func(v *Values, r reading) { v.Rib.CaulDepth = r.num },
		}, {
			Path: "rib.caulQuantity", Card: "rib", Label: "Cauls to a panel", Kind: Count, When: is("rib.caul", "yes"), More: true, Min: 1, Max: 20,
			Help: "One over each rib at least.", preset: func(v *Values) float64 { return float64(v.Rib.Quantity) },
			into: func(v *Values, r reading) { v.Rib.CaulQuantity = int(r.num) },
		}, {
			Path: "rib.places", Card: "rib", Label: "Ribs at places of their own", Kind: Rows, Columns: RibPlaceFields(stocks), Row: "rib", More: true,
			Help:  "Each across the panel, from the line that the panel's middle is measured from; what is left empty is as above.",
			row:   func(v *Values, i int) { v.Rib.Places = append(v.Rib.Places, RibPlaceValues{Row: i}) },
			whole: (*reader).ribsStandApart,
		},
	}
}

// RibPlaceFields returns the fields of one of several ribs.
func RibPlaceFields(stocks []stock.Stock) []Field {
	return []Field{
		{
			Path: "across", Card: "rib", Label: "Across", Kind: Length, Min: -20000, Max: 20000, Help: "Where its middle lies across the panel.", Ask: "Say where this rib stands across the panel.",
			into: func(v *Values, r reading) { last(v.Rib.Places).Across = r.num },
		}, {
			Path: "stock", Card: "rib", Label: "Cut from", Kind: Choose, text: "as above", Help: "What this rib is cut from.",
			Choices: append([]Choice{{"as above", "As above"}, {"same", "The panel's sheet"}}, stockChoices(stocks)...),
			into: func(v *Values, r reading) {
				p := last(v.Rib.Places)
				p.Stock, p.StockAt, p.E, p.MOR = v.Rib.Stock, v.Rib.StockAt, v.Rib.E, v.Rib.MOR
				if r.text == "same" {
					p.Stock, p.StockAt = v.Sheet.Stock, PanelStock
				} else if s, ok := stock.Lookup(r.text); ok {
					p.Stock, p.StockAt = s, index("rib.places", p.Row)+".stock"
				}
				if !p.asAbove(v) {
					p.E, p.MOR = p.Stock.Edge(), p.Stock.EdgeStrength()
				}
			},
		}, {
			Path: "thickness", Card: "rib", Label: "Thickness", Kind: Length, Min: 0.3, Max: 100, Help: "As measured.",
			preset: func(v *Values) float64 {
				p := last(v.Rib.Places)
				switch {
				case p.asAbove(v):
					return v.Rib.Thickness
				case p.StockAt == PanelStock:
					return sized(v.Sheet.T)
				}
				return p.Stock.Thickness.Value
			},
			into: func(v *Values, r reading) { last(v.Rib.Places).Thickness = r.num },
		}, {
			Path: "foot", Card: "rib", Label: "Foot", Kind: Choose, text: "as above", Help: "What it stands on.",
			Choices: []Choice{{"as above", "As above"}, {Plain, "Plain"}, {Stub, "With a stub"}, {Tenon, "With a tenon"}},
			into: func(v *Values, r reading) {
				p := last(v.Rib.Places)
				if p.Foot = r.text; r.text == "as above" {
					p.Foot = v.Rib.Foot
				}
			},
		},
	}
}

// asAbove tells whether a rib is of the stock of all ribs, in the same way.
func (p *RibPlaceValues) asAbove(v *Values) bool {
	return (p.StockAt == PanelStock) == (v.Rib.StockAt == PanelStock) && p.Stock.ID == v.Rib.Stock.ID
}

// ribsStandApart stops two ribs that would stand in each other.
func (r *reader) ribsStandApart(*State) {
	ps := r.v.Rib.Places
	for i := range ps {
		for j := range i {
			a, b := ps[j], ps[i]
			if room := math.Abs(a.Across-b.Across) - (a.Thickness+b.Thickness)/2; room < -1e-9 {
				r.stopNumbers("ribs-overlap", index("rib.places", b.Row)+".across", "Two ribs stand in the same place: their middles are only "+
					Length.show(math.Abs(a.Across-b.Across), r.v.Units)+" apart. Move one of them, or remove it.", map[string]float64{"room": room},
					finding.Remedy{Text: "Remove the second", Set: blankRow("rib.places", RibPlaceFields(nil), b.Row)})
				r.v.Rib.Places = append(ps[:i:i], ps[i+1:]...)
				r.ribsStandApart(nil)
				return
			}
		}
	}
}
