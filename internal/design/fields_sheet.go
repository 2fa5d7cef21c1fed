package design

import (
	"math"

	"springrib/internal/stock"
	"springrib/internal/unit"
)

// Spreads that a typed figure is taken to have: nobody types one, and a figure
// without spread would claim too much. Common practice, no source.
const (
	typedSpread  = 0.10 // bending modulus and strength from a supplier's sheet or a simple test
	testedSpread = 0.10 // strain at rupture from a bend strip
	guessSpread  = 0.25 // strain or softness typed without a test
)

func sheetFields(stocks []stock.Stock) []Field {
	return []Field{
		{Path: "sheet.stock", Label: "What it is", Kind: Choose, text: "mdf-3", Choices: append(stockChoices(stocks), Choice{"own", "Another sheet, of your own"}),
			Help: "The kind of sheet decides how stiff it is and how far it bends before it cracks.",
			into: func(v *Values, r reading) {
				v.Sheet.Own = r.text == "own"
				if v.Sheet.Stock, _ = stock.Lookup(r.text); v.Sheet.Own {
					v.Sheet.Stock = stock.Stock{ID: "own", Name: "Own sheet"}
				}
			}},
		{Path: "sheet.ownName", Label: "Its name", Kind: Text, text: "Own sheet", When: is("sheet.stock", "own"),
			Help: "What you call this sheet.",
			into: func(v *Values, r reading) {
				if v.Sheet.Own {
					v.Sheet.Stock.Name = r.text
				}
			}},
		{Path: "sheet.ownKind", Label: "What it is made of", Kind: Choose, text: "unknown", When: is("sheet.stock", "own"),
			Choices: []Choice{{"unknown", "Not said yet"}, {"wood", "Wood, board, paper or card"}, {"acrylic", "Acrylic (PMMA), certain"}, {"plastic", "Another plastic"}},
			Help:    "A plastic that may hold chlorine must never go under a laser.",
			into: func(v *Values, r reading) {
				if !v.Sheet.Own {
					return
				}
				v.Sheet.Stock.Family = stock.Fibreboard
				if r.text != "wood" {
					v.Sheet.Stock.Family = stock.Plastic
				}
				v.Sheet.Kind = r.text
				const gas = " A plastic that holds chlorine gives off hydrogen chloride under a laser."
				switch r.text {
				case "unknown":
					v.Sheet.Stock.Laser = stock.Laser{Never: true, Why: "Nobody has said what it is made of." + gas}
				case "plastic":
					v.Sheet.Stock.Laser = stock.Laser{Never: true, Why: "Nobody has said which plastic it is." + gas}
				}
			}},
		{Path: "sheet.readings", Label: "Thickness, as measured", Kind: Lengths, Min: 0.2, Max: 30,
			Help: "Measure at five places with a caliper; anything from 0.5 to 25 mm, whatever the label says.", list: (*reader).readings},
		{Path: "sheet.grain", Label: "Face grain", Kind: Choose, text: "across", When: is("sheet.stock", grained(stocks)...),
			Choices: []Choice{{"across", "Runs across the scores"}, {"along", "Runs along the scores"}, {"angle", "At an angle to the scores"}, {"none", "Has no grain"}},
			Help:    "Scores along the face grain split the skin; across it the skin is strong and stiff.",
			other: func(text string) (reading, bool) { // an angle written straight into the field
				a, err := unit.ParseAngle(text)
				return reading{text: "angle", num: a, typed: true}, err == nil && a >= 0 && a <= degrees(90)
			},
			into: func(v *Values, r reading) {
				s := &v.Sheet
				s.Grained = s.Stock.Grain && r.text != "none"
				switch r.text {
				case "along":
					s.GrainToScores = 0
				case "angle": // written straight here, or in the next field
					s.GrainToScores = r.num
				default:
					s.GrainToScores = math.Pi / 2
				}
			}},
		{Path: "sheet.grainAngle", Label: "Angle between face grain and scores", Kind: Angle, Min: 0, Max: math.Pi / 2, preset: always(math.Pi / 4),
			When: is("sheet.grain", "angle"),
			Help: "0 is along the scores, 90 across them.",
			into: func(v *Values, r reading) {
				if r.shown {
					v.Sheet.GrainToScores = r.num
				}
			}},
		{Path: "sheet.batch", Label: "Batch", Kind: Text, More: true, Help: "Your name for the delivery it came with; a new batch asks for new test strips."},
		{Path: "sheet.e", Label: "Bending stiffness (E)", Kind: Stress, Min: 50, Max: 250000, More: true,
			Help: "Bending modulus across the scores; leave it empty for the handbook's.", Auto: "the handbook's figure",
			tells: func(v *Values) string { return tell(Stress, v.Sheet.E) }, into: func(v *Values, r reading) { elastic(&v.Sheet, r) }},
		{Path: "sheet.mor", Label: "Bending strength", Kind: Stress, Min: 1, Max: 2000, More: true,
			Help: "Stress at which an unscored strip breaks; leave it empty for the handbook's.", Auto: "the handbook's figure",
			tells: func(v *Values) string { return tell(Stress, v.Sheet.MOR) }, into: func(v *Values, r reading) { strength(&v.Sheet, r) }},
		{Path: "sheet.ez", Label: "Softness through the thickness (E_z)", Kind: Stress, Min: 1, Max: 250000, More: true,
			Help: "Modulus through the thickness; nearly always unknown, so the range is wide.", Auto: "the handbook's figure",
			tells: func(v *Values) string { return tell(Stress, v.Sheet.EZ) },
			into:  func(v *Values, r reading) { v.Sheet.EZ = r.over(v.Sheet.EZ, guessSpread) }},
		{Path: "sheet.gxz", Label: "Shear through the thickness (G_xz)", Kind: Stress, Min: 1, Max: 100000, More: true,
			Help: "Transverse shear modulus across the scores; nearly always unknown, so the range is wide.", Auto: "the handbook's figure",
			tells: func(v *Values) string { return tell(Stress, v.Sheet.GXZ) },
			into:  func(v *Values, r reading) { v.Sheet.GXZ = r.over(v.Sheet.GXZ, guessSpread) }},
		{Path: "sheet.face", Label: "Stiffness of the faces, times the mean", Kind: Number, Min: 0.8, Max: 1.4, More: true,
			Help: "Pressed board is denser at its faces, and the skin under a score is one; 1 is a sheet that is even.", Auto: "the handbook's figure, or 1",
			tells: func(v *Values) string { return tell(Number, v.Sheet.Face) }, into: func(v *Values, r reading) { faces(&v.Sheet, r) }},
		{Path: "sheet.strainTested", Label: "A bend strip of this sheet gave the strain below", Kind: Check, More: true,
			Help: "A tested strain is a limit; a handbook strain only warns."},
		{Path: "sheet.strainLimit", Label: "Strain at which the skin cracks", Kind: Percent, Min: 0.0005, Max: 0.5, More: true,
			Help: "In percent, from a bend strip if you have one.", Auto: "the handbook's figure",
			tells: func(v *Values) string { return tell(Percent, v.Sheet.Rupture) }, into: func(v *Values, r reading) { rupture(&v.Sheet, r) }},
		{Path: "sheet.ownDensity", Label: "Density", Kind: Density, Min: 20, Max: 9000, preset: always(700), More: true, When: is("sheet.stock", "own"),
			Help: "In kg/m³; weigh a square and divide.",
			into: func(v *Values, r reading) {
				if v.Sheet.Own {
					v.Sheet.Density = figure(r.num, 0.1, r.typed)
				}
			}},
	}
}

func stockChoices(stocks []stock.Stock) []Choice {
	var cs []Choice
	for _, s := range stocks {
		label := s.Name
		if s.Unsized {
			label += " of another thickness"
		}
		cs = append(cs, Choice{s.ID, label})
	}
	return cs
}

func grained(stocks []stock.Stock) []string {
	var ids []string
	for _, s := range stocks {
		if s.Grain {
			ids = append(ids, s.ID)
		}
	}
	return ids
}

func typed(v, spread float64) stock.Figure {
	return stock.Figure{Value: v, Low: v * (1 - spread), High: v * (1 + spread), Source: "typed by you", Grade: stock.Typed}
}

// over returns a handbook's figure, or what was typed over it.
func (r reading) over(handbook stock.Figure, spread float64) stock.Figure {
	if r.typed {
		return typed(r.num, spread)
	}
	return handbook
}

// faces takes the handbook's figure, or what was typed: sure to half of what it lies off 1.
func faces(s *SheetValues, r reading) {
	s.Face = s.Stock.Face
	if r.typed {
		s.Face = typed(r.num, math.Abs(r.num-1)/(2*r.num))
	}
}

// tell says what a handbook figure is, with its range.
func tell(k Kind, f stock.Figure) string {
	if !f.Given() {
		return "" // no figure, and none is needed
	}
	word := "handbook"
	if f.Grade != stock.Published && f.Grade != stock.Computed {
		word = "a guess"
	}
	return k.show(f.Value, unit.MM) + ", " + word + ", " + k.show(f.Low, unit.MM) + " to " + k.show(f.High, unit.MM)
}

func figure(v, spread float64, byPerson bool) stock.Figure {
	f := typed(v, spread)
	if !byPerson {
		f.Source, f.Grade = "assumed, common practice, no source", stock.Practice
	}
	return f
}

// elastic fills the stiffness figures for the direction in which the panel bends, then
// what was typed over them. It runs once stock and grain are known.
func elastic(s *SheetValues, r reading) {
	if s.Own {
		ownElastic(s, r)
		return
	}
	st := s.Stock
	theta := 0.0
	if s.Grained {
		theta = math.Pi/2 - s.GrainToScores
	}
	s.E, s.GXZ, s.MOR, s.Rupture = st.Bent(theta)
	s.EZ, s.NuXY, s.NuXZ, s.Density, s.InternalBond = st.EZ, st.NuXY, st.NuXZ, st.Density, st.InternalBond
	s.E = r.over(s.E, typedSpread)
}

// startOf returns the modulus that a sheet of the person's own starts from by what it is made
// of, with its low and high end, MPa: from card to birch plywood, cast acrylic, and soft to stiff
// plastics. From memory, confidence low. Of an unknown kind a finding asks for it.
func startOf(kind string) (e, low, high float64) {
	switch kind {
	case "wood":
		return 3500, 1500, 9000
	case "acrylic":
		return 3000, 2700, 3300
	case "plastic":
		return 2400, 1200, 3600
	}
	return 3000, 1500, 6000
}

// ownElastic starts a sheet of the person's own: a fibreboard's ratios for what only
// a laboratory knows, for a plastic the same stiffness every way.
func ownElastic(s *SheetValues, r reading) {
	e, least, most := startOf(s.Kind)
	if r.typed {
		e = r.num
	}
	s.E = figure(e, typedSpread, r.typed)
	guess := func(v, lo, hi float64, source string) stock.Figure {
		return stock.Figure{Value: v, Low: lo, High: hi, Source: source, Grade: stock.MemoryLow}
	}
	if !r.typed {
		s.E = guess(e, least, most, "by the kind of sheet alone")
	}
	s.NuXY = guess(0.3, 0.2, 0.4, "assumed")
	s.NuXZ = s.NuXY
	s.EZ = guess(0.07*e, 0.035*e, 0.14*e, "0.07 E as of fibreboard, within a factor of two")
	s.GXZ = guess(0.055*e, 0.0275*e, 0.11*e, "0.055 E as of fibreboard, within a factor of two")
	if s.Stock.Family == stock.Plastic {
		s.EZ = guess(e, 0.9*e, 1.1*e, "the same in every direction")
		s.GXZ = guess(e/2.6, e/2.8, e/2.4, "E/(2(1+nu))")
	}
	s.InternalBond = guess(0.5, 0.25, 1, "assumed")
}

func strength(s *SheetValues, r reading) {
	if s.Own {
		mor := 0.01 * s.E.Value
		if r.typed {
			mor = r.num
		}
		s.MOR = figure(mor, typedSpread, r.typed)
	} else {
		s.MOR = r.over(s.MOR, typedSpread)
	}
	if r.typed || s.Own {
		// The nominal strain at rupture follows the strength; ends against each other.
		s.Rupture = stock.Figure{
			Value: s.MOR.Value / s.E.Value, Low: s.MOR.Low / s.E.High, High: s.MOR.High / s.E.Low,
			Source: "bending strength over bending modulus", Grade: stock.Computed,
		}
	}
}

func rupture(s *SheetValues, r reading) {
	switch {
	case r.typed && s.StrainTested:
		s.Rupture = typed(r.num, testedSpread)
		s.Rupture.Source, s.Rupture.Grade = "bend strip", stock.Tested
	case r.typed:
		s.Rupture = typed(r.num, guessSpread)
	default:
		s.StrainTested = false // nothing was tested when nothing is written
	}
	if s.Own {
		s.finishOwn()
	}
}

// finishOwn writes the figures into the stock itself, which the rib may be cut from.
func (s *SheetValues) finishOwn() {
	st := &s.Stock
	st.EAlong, st.MORAlong, st.RuptureAlong = s.E, s.MOR, s.Rupture
	st.EZ, st.GXZAlong, st.NuXY, st.NuXZ, st.InternalBond, st.Face = s.EZ, s.GXZ, s.NuXY, s.NuXZ, s.InternalBond, s.Face
	st.GInPlane = s.E.Times(1 / (2 * (1 + s.NuXY.Value)))
	st.Thickness = stock.Figure{Value: s.T, Low: s.T - s.TSpread, High: s.T + s.TSpread, Source: "measured", Grade: stock.Typed}
	st.Notes = []string{"This sheet is not in the handbook: read its maker's safety sheet before you cut or glue it."}
}
