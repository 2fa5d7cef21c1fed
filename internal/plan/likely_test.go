package plan

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/chance"
	"springrib/internal/design"
	"springrib/internal/hinge"
	"springrib/internal/machine"
	"springrib/internal/stock"
)

// lamp is a shade of 3 mm fibreboard in figures alone: 60 scores 2.2 mm deep and 3 mm
// apart, each turning by 1.6 degrees.
func lamp() Lot {
	mdf, _ := stock.Lookup("mdf-3")
	bend := make([]chance.Score, 60)
	for i := range bend {
		bend[i] = chance.Score{Turn: 1.6 * math.Pi / 180, Left: 3, Right: 3, Length: 140}
	}
	bend[0].Left, bend[59].Right = math.Inf(1), math.Inf(1)
	return Lot{
		Sheet:  design.SheetValues{Stock: mdf, T: 3.02, TSpread: 0.03, Rupture: stock.Figure{Value: 0.010, Low: 0.0075, High: 0.014}},
		Setup:  machine.Setup{Depths: []float64{1.4, 2.2}, DepthSpread: 0.08, ScoreWidth: 0.2, WidthSpread: 0.04},
		Passes: 2,
		Law: func(t, skin, w float64) hinge.Law {
			return hinge.New(hinge.Material{E: 3200, NuXY: 0.25, NuXZ: 0.3, EZ: 220, GXZ: 200}, hinge.Score{Thickness: t, Depth: t - skin, Width: w})
		},
		Bends: [][]chance.Score{bend},
	}
}

// A panel is no likelier to fail where more is known; the cause that Most names is the one
// whose knowing helps most.
func TestKnowingHelps(t *testing.T) {
	l := lamp()
	all := l.Chance().Fail
	require.InDelta(t, 0.02, all, 0.03)
	require.Greater(t, all, 0.001)
	best := math.Inf(1)
	for c := range causes {
		w := l.Without(c).Fail
		assert.LessOrEqual(t, w, all*1.01, "%d", c)
		best = math.Min(best, w)
	}
	cause, left := l.Most()
	assert.Equal(t, best, left.Fail)
	assert.Equal(t, BreakingMean, cause, "a handbook's strain is what is least known")

	r := l.Both()
	assert.Equal(t, all, r.Either.Fail)
	assert.GreaterOrEqual(t, all, math.Max(r.Hand.Fail, r.Glued.Fail)*0.999)
	assert.LessOrEqual(t, all, r.Hand.Fail+r.Glued.Fail)
}

// A strip that breaks where the handbook says it would leaves a tenth of the chance or less.
func TestAStripThatConfirmsHelps(t *testing.T) {
	l := lamp()
	was := l.Chance().Fail
	l.Sheet.Rupture.Low, l.Sheet.Rupture.High = 0.0093, 0.0108
	assert.Less(t, l.Chance().Fail, was/10)
}

func TestChanceGoesWithTheDesign(t *testing.T) {
	was := lamp().Chance().Fail
	for name, edit := range map[string]func(*Lot){
		"turns more":         func(l *Lot) { eachScore(l, func(s *chance.Score) { s.Turn *= 1.1 }) },
		"longer scores":      func(l *Lot) { eachScore(l, func(s *chance.Score) { s.Length *= 3 }) },
		"depths vary more":   func(l *Lot) { l.Setup.DepthSpread *= 2 },
		"weaker sheet":       func(l *Lot) { l.Sheet.Rupture = l.Sheet.Rupture.Times(0.9) },
		"one of two sheets":  func(l *Lot) { l.Sheet.TSpread *= 5 },
		"twice as many":      func(l *Lot) { l.Bends = append(l.Bends, l.Bends[0]) },
		"plies, more uneven": func(l *Lot) { l.Sheet.Stock, _ = stock.Lookup("birch-3") },
	} {
		l := lamp()
		edit(&l)
		assert.Greater(t, l.Chance().Fail, was*1.05, name)
	}
	l := lamp()
	slices.Reverse(l.Bends[0])
	eachScore(&l, func(s *chance.Score) { s.Left, s.Right = s.Right, s.Left })
	assert.InEpsilon(t, was, l.Chance().Fail, 1e-9, "from the other end")
}

func eachScore(l *Lot, edit func(*chance.Score)) {
	for _, b := range l.Bends {
		for i := range b {
			edit(&b[i])
		}
	}
}

// Set from the table a thickness that is not known moves the depth, not the skin.
func TestAToolSetFromTheTableKeepsTheSkin(t *testing.T) {
	l := lamp()
	l.Setup.Reference, l.Setup.Depths = machine.Table, []float64{1.62, 0.82}
	was := l.Chance().Fail
	l.Sheet.TSpread = 0.2
	assert.InEpsilon(t, was, l.Chance().Fail, 0.02)
	l = lamp()
	was = l.Chance().Fail
	l.Sheet.TSpread = 0.2
	assert.Greater(t, l.Chance().Fail, 1.1*was)
}

// Scores that miss the panel are none; a straight between two bends is no land of either.
func TestLotsOfALayout(t *testing.T) {
	v := exampleValues(t)[0]
	p := Make(v)
	require.True(t, p.Drawn)
	all := lotsOf(p.Layout, func(int) float64 { return 140 })
	n := 0
	for _, b := range all {
		n += len(b)
		assert.True(t, math.IsInf(b[0].Left, 1) && math.IsInf(b[len(b)-1].Right, 1))
		for _, s := range b[1 : len(b)-1] {
			assert.False(t, math.IsInf(s.Left+s.Right, 1))
		}
	}
	assert.Equal(t, len(p.Layout.Folds), n)
	some := lotsOf(p.Layout, func(i int) float64 { return float64(i%2) * 140 })
	n = 0
	for _, b := range some {
		n += len(b)
	}
	assert.Equal(t, len(p.Layout.Folds)/2, n)
}
