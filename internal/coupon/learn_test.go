package coupon

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"

	"springrib/internal/finding"
	"springrib/internal/hinge"
)

// ply is 3.9 mm plywood scored 0.18 wide, 2.5, 2.9 and 3.2 deep after one, two and three
// passes (an invented machine). E and rupture strain by Wood Handbook FPL-GTR-190 table
// 12-1 (MOE 6.96-8.55 GPa, MOR 33.72-42.61 MPa); softness from memory.
func ply() Belief {
	const e = 7755
	return Belief{
		Material:  hinge.Material{E: e, NuXY: .3, NuXZ: .3, EZ: .06 * e, GXZ: .06 * e},
		SpreadE:   .15,
		SpreadZ:   .5,
		Thickness: Measured{3.9, .05, 5},
		Density:   680,
		Width:     Measured{.18, .04, 0},
		Skins:     []Measured{{1.4, .15, 0}, {1.0, .15, 0}, {.7, .15, 0}},
		Rupture:   Measured{38.2 / e, .2, 0},
	}
}

// verdict is what a maker asks: does an inside radius pinch, does it crack,
// at the deepest score and a spacing.
func verdict(b Belief, passes int, p, inside float64) (pinches, cracks bool, strain float64) {
	law := b.Law(passes)
	r := inside + b.Thickness.Value - law.Neutral(p)
	strain = law.Strain(p, 1/r)
	return r < law.ClosingRadius(p), strain > b.Rupture.Value, strain
}

// safeRadius is the inside radius at which the strain is the limit over 1.5.
func safeRadius(b Belief, passes int, p float64) float64 {
	law := b.Law(passes)
	return 1.5*law.CrackingRadius(p, b.Rupture.Value) - b.Thickness.Value + law.Neutral(p)
}

func TestBendStripTeachesTheRuptureStrain(t *testing.T) {
	was := ply()
	for passes := 1; passes <= 3; passes++ {
		for _, p := range []float64{1, 1.6, 2.5} { // closer leaves no sound land
			pinches, cracks, _ := verdict(was, passes, p, 12)
			assert.True(t, pinches, "%d passes at %g must pinch at R 12", passes, p)
			assert.True(t, cracks, "%d passes at %g must crack at R 12", passes, p)
		}
	}
	got := Learn(was, []Reading{
		{Kind: KindBend, Passes: 3, Spacing: 1, Value: 30, Verdict: Held, Date: "2 March"},
		{Kind: KindBend, Passes: 3, Spacing: 1, Value: 25, Verdict: Broke, Date: "2 March"},
	}, Owner{})
	assert.Empty(t, got.Findings)
	_, _, held := verdict(was, 3, 1, 30)
	_, _, broke := verdict(was, 3, 1, 25)
	t.Logf("rupture %.4f -> %.4f (held %.4f, broke %.4f); safe R %.1f -> %.1f", was.Rupture.Value, got.Rupture.Value, held, broke, safeRadius(was, 3, 1), safeRadius(got.Belief, 3, 1))
	assert.Greater(t, held, was.Rupture.Value, "the sheet bore more than the handbook says")
	assert.Greater(t, got.Rupture.Value, 0.95*held)
	assert.Less(t, got.Rupture.Value, broke)
	assert.Equal(t, 2, got.Rupture.N)
	assert.True(t, got.RuptureKnown)
	assert.Greater(t, got.Rupture.Sigma, stripScatter, "one pair does not tell more than strips differ by")
	assert.Less(t, got.Rupture.Sigma, 2*stripScatter)
	assert.Less(t, safeRadius(got.Belief, 3, 1), safeRadius(was, 3, 1), "a tighter curve is safe now")
	pinches, _, _ := verdict(got.Belief, 3, 1, 12)
	assert.True(t, pinches, "no strip that bends makes the mouths wider")

	// A weaker board moves it the other way.
	weak := Learn(was, []Reading{
		{Kind: KindBend, Passes: 3, Spacing: 1, Value: 110, Verdict: Held},
		{Kind: KindBend, Passes: 3, Spacing: 1, Value: 90, Verdict: Broke},
	}, Owner{})
	assert.Less(t, weak.Rupture.Value, was.Rupture.Value)
	assert.Greater(t, safeRadius(weak.Belief, 3, 1), safeRadius(was, 3, 1))
}

func TestBendIntervals(t *testing.T) {
	held := func(r float64) Reading {
		return Reading{Kind: KindBend, Passes: 3, Spacing: 1, Value: r, Verdict: Held}
	}
	broke := func(r float64) Reading {
		return Reading{Kind: KindBend, Passes: 3, Spacing: 1, Value: r, Verdict: Broke}
	}
	strain := func(r float64) float64 { _, _, e := verdict(ply(), 3, 1, r); return e }
	was := ply().Rupture

	got := Learn(ply(), []Reading{held(60), held(30), held(45), broke(25), broke(20)}, Owner{})
	assert.InEpsilon(t, math.Sqrt(strain(30)*strain(25)), got.Rupture.Value, 0.05, "the closest pair decides")

	got = Learn(ply(), []Reading{held(30)}, Owner{})
	assert.InEpsilon(t, strain(30), got.Rupture.Value, 1e-12, "up to what it bore, no further")
	assert.False(t, got.RuptureKnown)
	ids(t, got, IDOnlyHeld)
	got = Learn(ply(), []Reading{held(400)}, Owner{})
	assert.Equal(t, was, got.Rupture, "what held easily says nothing new")
	got = Learn(ply(), []Reading{broke(200)}, Owner{})
	assert.Less(t, got.Rupture.Value, 0.9*strain(200), "it broke there: the mean lies lower, as far as strips differ")
	assert.Greater(t, got.Rupture.Value, 0.4*strain(200))
	assert.Greater(t, got.Rupture.Sigma, 2*stripScatter, "how much lower nothing tells")
	assert.False(t, got.RuptureKnown)
	ids(t, got, IDOnlyBroke)
	got = Learn(ply(), []Reading{broke(25)}, Owner{})
	assert.InEpsilon(t, was.Value, got.Rupture.Value, 0.1, "broke later than the handbook: not raised without one that held")
	assert.LessOrEqual(t, got.Rupture.Value, was.Value)

	got = Learn(ply(), []Reading{held(25), broke(30)}, Owner{})
	assert.Empty(t, got.Findings, "strips differ")
	assert.Greater(t, got.Rupture.Value, 0.95*strain(30))
	assert.Less(t, got.Rupture.Value, strain(25))
	got = Learn(ply(), []Reading{held(24), broke(60)}, Owner{})
	ids(t, got, IDContradicts)
	assert.Equal(t, was, got.Rupture)

	shut := Reading{Kind: KindBend, Passes: 3, Spacing: 1, Value: 12, Verdict: Broke}
	got = Learn(ply(), []Reading{shut}, Owner{})
	ids(t, got, IDShut)
	assert.Equal(t, was, got.Rupture)
	shut.RoundSide = true // mouths open: nothing shuts, the law holds
	ids(t, Learn(ply(), []Reading{shut}, Owner{}), IDOnlyBroke)
	deep := held(30)
	deep.Passes = 4
	ids(t, Learn(ply(), []Reading{deep}, Owner{}), IDUnknownDepth)
}

func ids(t *testing.T, got Learned, want ...string) {
	t.Helper()
	var have []string
	for _, f := range got.Findings {
		have = append(have, f.ID)
		assert.NotEmpty(t, f.Text)
		assert.NotEmpty(t, f.Place.Field)
		for k, v := range f.Numbers {
			assert.False(t, math.IsNaN(v) || math.IsInf(v, 0), "%s of %s", k, f.ID)
		}
	}
	assert.Equal(t, want, have)
}

func TestWidthStrip(t *testing.T) {
	was := ply()
	truth := was
	truth.Width.Value = .23
	turn := 30 * truth.Law(3).ClosingAngle(1.2)
	r := Reading{Kind: KindClosing, Passes: 3, Spacing: 1.2, Count: 30, Value: turn}
	got := Learn(was, []Reading{r}, Owner{})
	assert.Empty(t, got.Findings)
	assert.InDelta(t, .23, got.Width.Value, 1e-6)
	assert.InDelta(t, .04*.2, got.Width.Sigma, .002)
	assert.Greater(t, got.Width.Sigma, .004)
	assert.InDelta(t, turn/30, got.Law(3).ClosingAngle(1.2), 1e-8)
	assert.Less(t, got.Law(3).ClosingRadius(1.2), was.Law(3).ClosingRadius(1.2), "wider mouths, tighter curve")

	more := r
	more.Value = 1.1 * turn
	both := Learn(was, []Reading{r, more}, Owner{})
	assert.InDelta(t, 1.05*.23, both.Width.Value, .003)

	r.Value *= 5
	got = Learn(was, []Reading{r}, Owner{})
	ids(t, got, IDUnits)
	assert.Equal(t, was.Width, got.Width)
}

// Width and skins need each other; both come back from readings of one truth.
func TestWidthAndSkinsTogether(t *testing.T) {
	b := bench{truth: softTruth(), t: 3, skins: []float64{1.5, .8}, width: .25}
	truth := handbook()
	truth.Material, truth.Width.Value = softTruth(), .25
	truth.Skins = []Measured{{Value: 1.5}, {Value: .8}}
	all := append(b.strip(), Reading{Kind: KindClosing, Passes: 2, Spacing: 1.6, Count: 40, Value: 40 * truth.Law(2).ClosingAngle(1.6)})
	was := handbook()
	was.SpreadE, was.SpreadZ = 50, 50
	got := Learn(was, all, Owner{})
	assert.Empty(t, got.Findings)
	assert.InDelta(t, .25, got.Width.Value, .001)
	assert.InDelta(t, .8, got.Skins[1].Value, .002)
}

func TestKerfAndFit(t *testing.T) {
	kerf := func(v float64) Reading { return Reading{Kind: KindKerf, Value: v} }
	got := Learn(handbook(), []Reading{kerf(.16), kerf(.18), kerf(.17)}, Owner{})
	assert.Empty(t, got.Findings)
	assert.InDelta(t, .17, got.Kerf.Value, 1e-12)
	assert.InDelta(t, .02/math.Sqrt(3), got.Kerf.Sigma, 1e-12)
	got = Learn(handbook(), []Reading{kerf(.16), kerf(.18), kerf(.17), kerf(.4)}, Owner{})
	ids(t, got, IDOutlier)
	assert.InDelta(t, .2275, got.Kerf.Value, 1e-12, "pointed out, not dropped")
	assert.Greater(t, got.Kerf.Sigma, .05)

	slot := func(v float64, d Verdict) Reading { return Reading{Kind: KindFit, Value: v, Verdict: d} }
	got = Learn(handbook(), []Reading{slot(0, Tight), slot(.05, Good), slot(.1, Good), slot(.2, Loose)}, Owner{})
	assert.InDelta(t, .075, got.Clearance.Value, 1e-12)
	got = Learn(handbook(), []Reading{slot(-.05, Tight), slot(.05, Loose)}, Owner{})
	assert.InDelta(t, 0, got.Clearance.Value, 1e-12)
	got = Learn(handbook(), []Reading{slot(.1, Tight), slot(.05, Loose)}, Owner{})
	ids(t, got, IDContradicts)
	assert.Equal(t, handbook().Clearance, got.Clearance)
	got = Learn(handbook(), []Reading{slot(.1, Tight)}, Owner{})
	ids(t, got, IDAlone)
}

func TestThicknessReadings(t *testing.T) {
	thick := func(v float64) Reading { return Reading{Kind: KindThickness, Value: v} }
	byName := handbook()
	byName.Thickness.N = 0
	got := Learn(byName, []Reading{thick(2.9), thick(2.92), thick(2.88), thick(2.9), thick(2.9)}, Owner{})
	assert.InDelta(t, 2.9, got.Thickness.Value, 1e-12)
	assert.InDelta(t, .02/math.Sqrt(5), got.Thickness.Sigma, 1e-12)
	assert.Equal(t, 5, got.Thickness.N)
	got = Learn(handbook(), []Reading{thick(.118)}, Owner{})
	ids(t, got, IDUnits)
	assert.Equal(t, handbook().Thickness, got.Thickness)
}

// Three readings of the caliper and one of a strip count by what each is off by, and where
// they can't both be right the thickness is little known.
func TestThicknessOfStripsAndCaliper(t *testing.T) {
	thick := func(v float64) Reading { return Reading{Kind: KindThickness, Value: v} }
	was := handbook()
	was.Thickness = Measured{3.0, 0.01, 3}
	got := Learn(was, []Reading{thick(3.02)}, Owner{})
	assert.InDelta(t, 3.005, got.Thickness.Value, 1e-3, "three readings outweigh one")
	assert.Less(t, got.Thickness.Sigma, 0.015)
	assert.Equal(t, 4, got.Thickness.N)
	assert.Empty(t, got.Findings)
	got = Learn(was, []Reading{thick(2.6)}, Owner{})
	ids(t, got, IDOutlier)
	assert.InDelta(t, 2.9, got.Thickness.Value, 0.01)
	assert.Greater(t, got.Thickness.Sigma, 0.1)
	assert.Less(t, math.Abs(got.Thickness.Value-2.6)/got.Thickness.Sigma, 2.5, "either may be right")
}

// Skins that contradict each other widen what is known: two as far apart as these tell
// little, and four of them not twice as much.
func TestSkinsThatContradictWiden(t *testing.T) {
	skin := func(v float64) Reading { return Reading{Kind: KindSkin, Passes: 1, Value: v} }
	got := Learn(handbook(), []Reading{skin(.9), skin(.4)}, Owner{})
	assert.InDelta(t, .65, got.Skins[0].Value, .02)
	assert.InDelta(t, .25, got.Skins[0].Sigma, .03, "half their distance")
	ids(t, got, IDOutlier, IDOutlier)
	got = Learn(handbook(), []Reading{skin(.9), skin(.4), skin(.9), skin(.4)}, Owner{})
	assert.Greater(t, got.Skins[0].Sigma, .12)
	got = Learn(handbook(), []Reading{skin(.66), skin(.64)}, Owner{})
	assert.InDelta(t, caliperSigma/math.Sqrt2, got.Skins[0].Sigma, .003, "those that agree are as sure as they are")
	assert.Empty(t, got.Findings)
}

// Strips broken and held at random strains, drawn from a sheet whose mean is known: it
// lies in the range told about as often as nine in ten.
func TestRuptureRangesHold(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 14))
	const sheets = 400
	inside := 0
	for range sheets {
		truth := math.Log(0.012) + 0.3*r.NormFloat64()
		belief := rupture{mean: math.Log(0.012), sigma: 0.3}
		for range 1 + r.IntN(5) {
			eps := math.Exp(truth + 0.25*r.NormFloat64())
			own := math.Exp(truth + stripScatter*r.NormFloat64())
			belief.strips = append(belief.strips, BendResult{Strain: eps, Broke: own <= eps})
		}
		mean, sigma := belief.learn()
		if math.Abs(mean-truth) < 1.645*sigma {
			inside++
		}
	}
	assert.InDelta(t, 0.9*sheets, inside, 4*math.Sqrt(0.09*sheets))
}

// Each bad reading gives its finding and changes nothing.
func TestBadReadings(t *testing.T) {
	b := bench{truth: softTruth(), t: 3, skins: []float64{1.5, .8}, width: .2}
	plain := b.hang(0, 0, 150, 20, 200, 500)
	change := func(k int, f func(*Reading)) []Reading {
		out := append([]Reading(nil), plain...)
		f(&out[k])
		return out
	}
	inches := b.hang(0, 0, 150, 20, 200, 500)
	for i := range inches {
		inches[i].Value /= 25.4
	}
	cases := []struct {
		name     string
		readings []Reading
		ids      []string
	}{
		{"negative skin", []Reading{{Kind: KindSkin, Passes: 1, Value: -.8}}, []string{IDNotPositive}},
		{"skin of nothing", []Reading{{Kind: KindSkin, Passes: 1, Value: 0}}, []string{IDNotPositive}},
		{"not a number", []Reading{{Kind: KindSkin, Passes: 1, Value: math.NaN()}}, []string{IDNotPositive}},
		{"infinite", []Reading{{Kind: KindKerf, Value: math.Inf(1)}}, []string{IDNotPositive}},
		{"skin thicker than the sheet", []Reading{{Kind: KindSkin, Passes: 1, Value: 3.2}}, []string{IDSkinOver}},
		{"skin in metres", []Reading{{Kind: KindSkin, Passes: 1, Value: .0008}}, []string{IDUnits}},
		{"skin of unknown passes", []Reading{{Kind: KindSkin, Value: .8}}, []string{IDIncomplete}},
		{"drop longer than the tongue", change(1, func(r *Reading) { r.Value = 151 }), []string{IDDropOver, IDAlone}},
		{"hangs straight down", change(1, func(r *Reading) { r.Value = 145 }), []string{IDDropOver, IDAlone}},
		{"negative drop", change(1, func(r *Reading) { r.Value = -4 }), []string{IDNotPositive, IDAlone}},
		{"negative weight", change(1, func(r *Reading) { r.Load = -4 }), []string{IDNotPositive, IDAlone}},
		{"one weight only", plain[:1], []string{IDAlone}},
		{"the same weight twice", change(1, func(r *Reading) { r.Load = plain[0].Load }), []string{IDAlone}},
		{"heavier and higher", change(1, func(r *Reading) { r.Value = 2 }), []string{IDContradicts}},
		{"drops in inches", inches, []string{IDUnits}},
		{"no spacing", []Reading{{Kind: KindSag, Passes: 2, Length: 100, Width: 20, Load: 1, Value: 5}}, []string{IDIncomplete}},
		{"no kind", []Reading{{Value: 5}}, []string{IDIncomplete}},
		{"closing without a count", []Reading{{Kind: KindClosing, Passes: 2, Spacing: 1, Value: 1}}, []string{IDIncomplete}},
		{"closing in degrees", []Reading{{Kind: KindClosing, Passes: 2, Spacing: 1, Count: 10, Value: 45}}, []string{IDUnits}},
		{"bend without a verdict", []Reading{{Kind: KindBend, Passes: 2, Spacing: 1, Value: 30}}, []string{IDIncomplete}},
		{"kerf of a saw pit", []Reading{{Kind: KindKerf, Value: 25}}, []string{IDUnits}},
		{"fit without a verdict", []Reading{{Kind: KindFit, Value: .1}}, []string{IDIncomplete}},
		{"fit in no unit", []Reading{{Kind: KindFit, Value: 20, Verdict: Good}}, []string{IDUnits}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got := Learn(handbook(), c.readings, Owner{})
			ids(t, got, c.ids...)
			assert.Equal(t, handbook(), got.Belief, "the estimate as it was")
			for _, f := range got.Findings {
				assert.Equal(t, finding.Warn, f.Severity)
			}
		})
	}
}

// Two tongues swapped: more passes seem to leave more skin.
func TestSwappedTongues(t *testing.T) {
	b := bench{truth: softTruth(), t: 3, skins: []float64{.8, 1.5}, width: .2}
	got := Learn(handbook(), b.strip(), Owner{})
	ids(t, got, IDContradicts)
	assert.Equal(t, handbook(), got.Belief)
}

// Tongue and caliper of two different sheets.
func TestHopelessMisfitLeavesTheEstimate(t *testing.T) {
	b := bench{truth: softTruth(), t: 3, skins: []float64{1.5, .8}, width: .2}
	got := Learn(handbook(), append(b.strip(), Reading{Kind: KindSkin, Passes: 2, Value: 2.5}), Owner{})
	ids(t, got, IDContradicts)
	assert.Equal(t, handbook(), got.Belief)
}

func TestReadingsBelongToStockSettingAndBatch(t *testing.T) {
	r := func(stock, setting, batch string, v float64) Reading {
		return Reading{Kind: KindKerf, Stock: stock, Setting: setting, Batch: batch, Value: v}
	}
	all := []Reading{
		r("mdf-3", "40 W slow", "spring", .2), r("ply-4", "40 W slow", "spring", .5),
		r("mdf-3", "60 W", "spring", .7), r("mdf-3", "40 W slow", "autumn", .22),
	}
	got := Learn(handbook(), all, Owner{"mdf-3", "40 W slow", "autumn"})
	assert.InDelta(t, .21, got.Kerf.Value, 1e-12)
	ids(t, got, IDOtherBatch, IDOtherStock, IDOtherSetting)
	assert.Equal(t, "readings.0", got.Findings[0].Place.Field)
	got = Learn(handbook(), all[3:], Owner{"mdf-3", "40 W slow", "autumn"})
	ids(t, got)
	got = Learn(handbook(), all[3:], Owner{"mdf-3", "", ""})
	ids(t, got, IDOtherSetting, IDOtherBatch)
	assert.InDelta(t, .22, got.Kerf.Value, 1e-12, "used, and said")
	got = Learn(handbook(), nil, Owner{"mdf-3", "40 W slow", "autumn"})
	ids(t, got)
	assert.Equal(t, handbook(), got.Belief)
}

func TestLearnDoesNotTouchWhatItWasGiven(t *testing.T) {
	was, keep := handbook(), handbook()
	b := bench{truth: softTruth(), t: 3, skins: []float64{1.5, .8, .6}, width: .2}
	got := Learn(was, b.strip(), Owner{})
	assert.Equal(t, keep, was)
	assert.Len(t, got.Skins, 3, "a depth nobody had believed in")
	assert.InDelta(t, .6, got.Skins[2].Value, .02)
	again := Learn(was, b.strip(), Owner{})
	assert.Equal(t, got, again, "the same readings, the same answer")
	assert.True(t, math.IsNaN(Learned{}.SigmaHingeLength(1, 2)))
	assert.True(t, math.IsNaN(got.SigmaHingeLength(7, 2)))
	assert.Panics(t, func() { Learn(Belief{}, nil, Owner{}) })
	bad := handbook()
	bad.SpreadE = -1
	assert.Panics(t, func() { Learn(bad, nil, Owner{}) })
}

// Isotropic sheets have no softness to find.
func TestIsotropicSheet(t *testing.T) {
	was := handbook()
	was.Material = hinge.Material{E: 3100, NuXY: .37}
	truth := hinge.Material{E: 3000, NuXY: .37}
	b := bench{truth: truth, t: 3, skins: []float64{1.5, .8}, width: .2}
	got := Learn(was, b.strip(), Owner{})
	assert.Empty(t, got.Findings)
	assert.True(t, got.Material.Isotropic())
	assert.InEpsilon(t, 3000, got.Material.E, .01)
	assert.InDelta(t, .8, got.Skins[1].Value, .005)
}
