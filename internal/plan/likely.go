package plan

import (
	"math"
	"slices"

	"springrib/internal/chance"
	"springrib/internal/design"
	"springrib/internal/hinge"
	"springrib/internal/machine"
	"springrib/internal/score"
	"springrib/internal/state"
)

// Cause is one of what makes panels of one design differ.
type Cause uint8

// The causes, in the order in which equal ones are told.
const (
	BreakingMean   Cause = iota // what this sheet breaks at, against others of its name
	BreakingWithin              // one place of a sheet against another
	DepthOfAll                  // the setting, the same for all scores
	DepthApart                  // one score against another
	ThicknessOff                // of the sheet
	WidthOff                    // of the scores
	causes
)

// stripStrained is the length of score in the strip that a rupture strain is the mean of, mm: a
// tongue 30 mm wide with five scores in its bend, and about what the bending test of EN 310
// stretches (50 mm wide, as much of its span as 2.4 mm of score skin a millimetre). No source.
const stripStrained = 150.0

// Lot is a panel as its chance is asked: what scatters, and how its scores lie. It is made
// of the few things it needs, so that a test can ask with figures from a paper.
type Lot struct {
	Sheet  design.SheetValues
	Setup  machine.Setup
	Passes int
	// Law is the law of a sheet of that thickness with a skin and a width of score, mm.
	Law   func(thickness, skin, width float64) hinge.Law
	Bends [][]chance.Score
}

// Chance returns the chance that the panel cracks or pinches on its way to the rib or on
// it.
func (l Lot) Chance() chance.Chances { return chance.Either(l.panel()) }

// Both returns the chances in the hand and on the rib.
func (l Lot) Both() chance.Result { return chance.Of(l.panel()) }

// Without returns the chance that it fails were one of the causes known exactly.
func (l Lot) Without(c Cause) chance.Chances {
	p := l.panel()
	switch c {
	case BreakingMean:
		p.Rupture.Relative = 0
	case BreakingWithin:
		p.Rupture.Within = 0.01
	case DepthOfAll:
		p.Setting.SD = 0
	case DepthApart:
		p.Apart = 0
	case ThicknessOff:
		p.Thickness.SD = 0
	case WidthOff:
		p.Width.SD = 0
	}
	return chance.Either(p)
}

// Most returns the cause without which the panel would fail least, and the chance that
// would be left.
func (l Lot) Most() (cause Cause, left chance.Chances) {
	for c := range causes {
		if w := l.Without(c); c == 0 || w.Fail < left.Fail {
			cause, left = c, w
		}
	}
	return cause, left
}

func (l Lot) panel() chance.Panel {
	s, m := l.Sheet, l.Setup
	depth, apart := m.Spread(l.Passes)/state.NineInTen, m.Between(l.Passes)/state.NineInTen
	skin := m.Skin(l.Passes, s.T, 0).Value
	p := chance.Panel{
		Thickness: chance.Normal{Mean: s.T, SD: s.TSpread / state.NineInTen},
		Setting:   chance.Normal{Mean: skin, SD: math.Sqrt(math.Max(0, depth*depth-apart*apart))},
		FromTable: m.Reference != machine.Top,
		Apart:     apart,
		Width:     chance.Normal{Mean: m.ScoreWidth, SD: math.Min(m.WidthSpread, 0.9*m.ScoreWidth) / state.NineInTen},
		Rupture: chance.Rupture{Mean: s.Rupture.Value, LogNormal: true, Within: s.Stock.Scatter().Value, Strip: stripStrained,
			Relative: math.Log(s.Rupture.High/s.Rupture.Low) / (2 * state.NineInTen)},
		Law:   l.Law,
		Bends: l.Bends,
	}
	if m.Reference == machine.Top {
		p.Setting.Mean = s.T - skin
	}
	return p
}

// Chance is how likely the panel cracks or pinches, of the panels that are cut from such
// sheets with such a machine.
type Chance struct {
	chance.Chances
	Lot Lot
}

// Few is the share of panels that may fail without a word.
func (p *Plan) Few() float64 { return p.V.Panel.MayFail / 100 }

// likely asks for the chance of the panel as cut.
func likely(p *Plan) bool {
	if p.Scores.Cracking.Score == 0 { // no fold lies on the panel
		return true
	}
	t, lengths := p.Try(), p.ScoreLengths()
	lot, material := p.lot(t, lengths)
	p.Proof.Chance.Lot = lot
	if t.Asked && !slices.ContainsFunc(lengths, func(l float64) bool { return math.Abs(l-p.Width()) > 1e-6*l }) {
		p.Proof.Chance.Chances = t.Chance
		return true
	}
	p.Proof.Chance.Chances = p.chanceOf(lot, material)
	return true
}

// ChanceOf returns the chance of the panel with the scores of a number of passes. lengths
// are how much of each score lies on the panel, mm; nil takes them as long as it is wide.
func (p *Plan) ChanceOf(t *Try, lengths []float64) Chance {
	l, material := p.lot(t, lengths)
	return Chance{p.chanceOf(l, material), l}
}

// lot returns the panel as its chance is asked, and the material of its law.
func (p *Plan) lot(t *Try, lengths []float64) (Lot, hinge.Material) {
	s, g := p.V.Sheet, p.scoring()
	long := func(i int) float64 { return lengths[i] }
	if lengths == nil {
		long = func(int) float64 { return p.Width() }
	}
	mat := state.Nominal(&s)
	return Lot{Sheet: s, Setup: p.V.Machine.Setup, Passes: t.Passes, Bends: lotsOf(t.Layout, long),
		Law: func(thickness, skin, width float64) hinge.Law { return g.LawOf(thickness, skin, width, mat) }}, mat
}

// ScoreLengths returns how much of each score lies on the panel, mm.
func (p *Plan) ScoreLengths() []float64 {
	out := make([]float64, len(p.Scores.Layout.Folds))
	for _, s := range p.Panel.Flat.Segments {
		out[s.Score-1] += s.A.Dist(s.B)
	}
	return out
}

// lotsOf returns the scores of a layout by the stretches that one moment bends: the lands
// past either end are straight. long is how much of each score lies on the panel, mm.
func lotsOf(l score.Layout, long func(i int) float64) [][]chance.Score {
	var out [][]chance.Score
	for _, r := range l.Runs {
		inside := func(i int) bool {
			return i >= 0 && i < len(l.Folds) && r.Holds(l.Folds[i].S)
		}
		var bend []chance.Score
		for i, f := range l.Folds {
			if !inside(i) || long(i) <= 0 {
				continue
			}
			c := chance.Score{Turn: math.Abs(f.Theta), Left: f.Left, Right: f.Right, Length: long(i), Opens: !f.Closing}
			if !inside(i - 1) {
				c.Left = math.Inf(1)
			}
			if !inside(i + 1) {
				c.Right = math.Inf(1)
			}
			bend = append(bend, c)
		}
		if len(bend) > 0 {
			out = append(out, bend)
		}
	}
	return out
}
