package design

import (
	"math"

	"springrib/internal/finding"
	"springrib/internal/stock"
)

func ribFields(stocks []stock.Stock) []Field {
	stub := is("rib.foot", Stub, Tenon)
	return []Field{
		{Path: "rib.side", Label: "The rib sits on the", Kind: Choose, text: Hollow, When: cylinders,
			Choices: []Choice{{Hollow, "Hollow side: the panel wraps it"}, {Round, "Round side: it is a cradle"}},
			Help:    "The side of the first bend."},
		{Path: "rib.stock", Label: "Cut from", Kind: Choose, text: "same", Choices: append([]Choice{{"same", "The same sheet as the panel"}}, stockChoices(stocks)...),
			Help: "What the rib is cut from.",
			into: func(v *Values, r reading) {
				v.Rib.Stock, v.Rib.StockAt = v.cutFrom(r.text, "rib.stock", v.Sheet.Stock, PanelStock)
			}},
		{Path: "rib.thickness", Label: "Thickness of the rib", Kind: Length, Min: 0.3, Max: 100,
			preset: func(v *Values) float64 { return v.thickness(v.Rib.Stock, v.Rib.StockAt) },
			Help:   "As measured; it is the width of the glue line.",
			into: func(v *Values, r reading) {
				if v.Rib.Thickness = r.num; v.Rib.StockAt != PanelStock {
					v.Rib.Stock = v.Rib.Stock.Of(r.num)
				}
			}},
		{Path: "rib.footDepth", Label: "Depth at the foot", Kind: Length, Min: 1, Max: 2000, preset: practice(25),
			Help: "Across the rib, from its edge to its back; it tapers evenly to the tip."},
		{Path: "rib.tipDepth", Label: "Depth at the tip", Kind: Length, Min: 1, Max: 2000,
			preset: func(v *Values) float64 { return sized(math.Max(1, v.Rib.FootDepth/2)) },
			Help:   "Half of the depth at the foot looks right and stays stiff."},
		{Path: "rib.foot", Label: "Foot", Kind: Choose, text: Plain, When: cylinders, Choices: []Choice{{Plain, "Plain"}, {Stub, "With a stub"}, {Tenon, "With a tenon, for a base"}},
			Help: "A stub goes into a slot of what it stands on, a tenon into one of a base cut with it."},
		{Path: "rib.stubDepth", Label: "Stub or tenon goes in by", Kind: Length, Min: 0.5, Max: 500, When: stub,
			Help: "How far it stands out from the foot.",
			preset: func(v *Values) float64 {
				if v.Rib.Foot == Tenon {
					return v.Rib.Thickness // of a base of the same sheet: flush
				}
				return sized(2 * v.Rib.Thickness)
			}},
		{Path: "rib.stubWidth", Label: "Width of the stub or tenon", Kind: Length, Min: 0.5, Max: 2000,
			preset: func(v *Values) float64 { return sized(math.Max(0.5, 0.6*v.Rib.FootDepth)) }, When: stub,
			Help: "Along the foot; the shoulders on both sides carry."},
		{Path: "rib.tipRound", Label: "Corner radius at the tip", Kind: Length, Min: 0, Max: 500,
			preset: func(v *Values) float64 { return sized(math.Min(4, v.Rib.TipDepth/3)) }, More: true,
			Help: "Takes the sharp corners off the tip."},
		{Path: "rib.endGap", Label: "Gap allowed at the unglued end", Kind: Length, Min: 0.01, Max: 20, preset: practice(0.3), More: true, When: cylinders,
			Help: "Past the glue the panel runs straight; this says how far it may stand off."},
		{Path: "rib.short", Label: "Rib and glue stop short of the curve's end by", Kind: Length, Min: 0, Max: 5000, More: true, When: cylinders,
			Help: "So that no glue shows at the tip.", Auto: "by the gap allowed"},
		{Path: "rib.markStart", Label: "Glue mark starts outside the foot edge by", Kind: Length, Min: 0, Max: 100, preset: practice(2), More: true,
			Help: "So that its start can be seen when the rib is in place."},
		{Path: "rib.e", Label: "Stiffness of the rib (E)", Kind: Stress, Min: 50, Max: 250000, More: true,
			Help: "Modulus on edge; leave it empty for the handbook's.", Auto: "the handbook's figure", tells: func(v *Values) string { return tell(Stress, v.Rib.E) },
			into: func(v *Values, r reading) { v.Rib.E = r.over(v.Rib.Stock.Edge(), typedSpread) }},
		{Path: "rib.mor", Label: "Strength of the rib", Kind: Stress, Min: 1, Max: 2000, More: true,
			Help: "Bending strength on edge; leave it empty for the handbook's.", Auto: "the handbook's figure",
			tells: func(v *Values) string { return tell(Stress, v.Rib.MOR) },
			into:  func(v *Values, r reading) { v.Rib.MOR = r.over(v.Rib.Stock.EdgeStrength(), typedSpread) }},
		{Path: "rib.glueBond", Label: "Strength across the glue line", Kind: Stress, Min: 0.01, Max: 100, More: true,
			Help: "What pulls a face off the sheet (internal bond); leave it empty for the handbook's.", Auto: "the handbook's figure",
			tells: func(v *Values) string { return tell(Stress, v.Rib.GlueBond) },
			into:  func(v *Values, r reading) { v.Rib.GlueBond = r.over(v.Sheet.InternalBond, guessSpread) }},
		{Path: "rib.quantity", Label: "How many ribs to a panel", Kind: Count, Min: 1, Max: 20,
			preset: func(v *Values) float64 {
				if v.Curve.Ruled() { // one at each rim
					return 2
				}
				return 1
			},
			Help: "One stands where it reaches both ends of the panel; more are spread evenly, unless their places are given below."},
		{Path: "rib.edge", Label: "Edges of the ribs", Kind: Choose, text: Square, More: true, When: ruled,
			Choices: []Choice{{Square, "Cut square"}, {Bevel, "Bevelled by hand to the panel"}},
			Help:    "Square edges touch a leaning panel at one face only; those to be bevelled are cut to their larger face."},
		{Path: "rib.hub", Label: "Hole for a lamp holder", Kind: Choose, text: NoHub, More: true, When: is("curve.kind", Cone),
			Choices: []Choice{{NoHub, "None"}, {HubNarrow, "In the ring nearest the narrow rim"}, {HubWide, "In the ring nearest the wide rim"}},
			Help:    "In the middle of that ring, on spokes as wide as the ring."},
		{Path: "rib.hubHole", Label: "Diameter of the hole", Kind: Length, Min: 3, Max: 2000, preset: always(40), More: true, When: is("rib.hub", HubNarrow, HubWide),
			Help: "As the holder's maker gives it.", Ask: "Say how wide the hole for the lamp holder is."},
		{Path: "rib.spokes", Label: "Spokes", Kind: Count, Min: 2, Max: 12, preset: practice(3), More: true, When: is("rib.hub", HubNarrow, HubWide),
			Help: "From the ring to the plate round the hole."},
		{Path: "rib.caul", Label: "Matching caul", Kind: Choose, text: "no", More: true, When: cylinders, Choices: []Choice{{"no", "None"}, {"yes", "Cut one too"}},
			Help: "A block with the panel's outer face as its edge presses it on the rib while the glue sets.",
			into: func(v *Values, r reading) { v.Rib.Caul = r.text == "yes" }},
		{Path: "rib.caulPad", Label: "Pad between panel and caul", Kind: Length, Min: 0, Max: 100, preset: practice(2), More: true, When: is("rib.caul", "yes"),
			Help: "Felt, cork or card that spares the face and takes up the flats."},
		{Path: "rib.caulDepth", Label: "Depth of the caul", Kind: Length, Min: 3, Max: 2000,
			preset: func(v *Values) float64 { return sized(math.Max(3, v.Rib.FootDepth)) }, More: true, When: is("rib.caul", "yes"),
			Help: "Square to its edge."},
		{Path: "rib.caulQuantity", Label: "Cauls to a panel", Kind: Count, Min: 1, Max: 20, preset: func(v *Values) float64 { return float64(v.Rib.Quantity) },
			More: true, When: is("rib.caul", "yes"),
			Help: "One over each rib at least."},
		{Path: "rib.places", Label: "Ribs at places of their own", Kind: Rows, Columns: ribPlaceFields(stocks), Row: "rib",
			Help: "Each across the panel, from its middle line; what is left empty is as above.", whole: (*reader).ribsStandApart},
	}
}

func ribPlaceFields(stocks []stock.Stock) []Field {
	return []Field{
		{Path: "across", Label: "Across", Kind: Length, Min: -20000, Max: 20000,
			Help: "Where its middle lies across the panel.", Ask: "Say where this rib stands across the panel."},
		{Path: "stock", Label: "Cut from", Kind: Choose, text: "as above",
			Choices: append([]Choice{{"as above", "As above"}, {"same", "The panel's sheet"}}, stockChoices(stocks)...),
			Help:    "What this rib is cut from.",
			into: func(v *Values, r reading) {
				p := last(v.Rib.Places)
				p.Stock, p.StockAt = v.cutFrom(r.text, index("rib.places", p.Row)+".stock", v.Rib.Stock, v.Rib.StockAt)
				if p.E, p.MOR = v.Rib.E, v.Rib.MOR; !p.asAbove(v) {
					p.E, p.MOR = p.Stock.Edge(), p.Stock.EdgeStrength()
				}
			}},
		{Path: "thickness", Label: "Thickness", Kind: Length, Min: 0.3, Max: 100,
			Help: "As measured.",
			preset: func(v *Values) float64 {
				p := last(v.Rib.Places)
				if p.asAbove(v) {
					return v.Rib.Thickness
				}
				return v.thickness(p.Stock, p.StockAt)
			},
			into: func(v *Values, r reading) {
				p := last(v.Rib.Places)
				if p.Thickness = r.num; p.StockAt != PanelStock && !p.asAbove(v) {
					p.Stock = p.Stock.Of(r.num)
					p.E, p.MOR = p.Stock.Edge(), p.Stock.EdgeStrength()
				}
			}},
		{Path: "foot", Label: "Foot", Kind: Choose, text: "as above",
			Choices: []Choice{{"as above", "As above"}, {Plain, "Plain"}, {Stub, "With a stub"}, {Tenon, "With a tenon"}},
			Help:    "What it stands on.",
			into: func(v *Values, r reading) {
				p := last(v.Rib.Places)
				if p.Foot = r.text; r.text == "as above" {
					p.Foot = v.Rib.Foot
				}
			}},
	}
}

// cutFrom returns the stock that a choice names and where that is said: the choice's own
// path for one of the handbook, and what is given for neither that nor the panel's sheet.
func (v *Values) cutFrom(choice, path string, otherwise stock.Stock, at string) (stock.Stock, string) {
	if s, ok := stock.Lookup(choice); ok {
		return s, path
	}
	if choice == "same" {
		return v.Sheet.Stock, PanelStock
	}
	return otherwise, at
}

// thickness returns that of a stock by its name, and of the panel's sheet as measured.
func (v *Values) thickness(s stock.Stock, at string) float64 {
	if at == PanelStock {
		return sized(v.Sheet.T)
	}
	return s.Thickness.Value
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
				r.say(finding.Stop, "ribs-overlap", index("rib.places", b.Row)+".across", "Two ribs stand in the same place: their middles are only "+
					Length.show(math.Abs(a.Across-b.Across), r.v.Units)+" apart. Move one of them, or remove it.", map[string]float64{"room": room},
					finding.Remedy{Text: "Remove the second", Set: BlankRow("rib.places", b.Row)})
				r.v.Rib.Places = append(ps[:i:i], ps[i+1:]...)
				r.ribsStandApart(nil)
				return
			}
		}
	}
}
