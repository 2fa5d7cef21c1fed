package coupon

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/hinge"
)

// bedOf hangs the tongues of a bed whose skin after two passes differs by more at each
// spot: all of them in the middle, a dense one at every corner.
func bedOf(more map[string]float64, rnd *rand.Rand) []Reading {
	b := bench{truth: hinge.Material{E: 3300, NuXY: .3, NuXZ: .3, EZ: 260, GXZ: 190}, t: 3, skins: []float64{1.5, .8}, width: .2, rnd: rnd}
	if rnd != nil {
		b.round = .5
	}
	out := b.hang(0, 0, 80, 12, 100, 300)
	at := func(spot string, passes int, spacing float64, grams ...float64) {
		c := b
		c.skins = []float64{b.skins[0] + more[spot], b.skins[1] + more[spot]}
		for _, r := range c.hang(passes, spacing, 80, 12, grams...) {
			r.Spot = spot
			out = append(out, r)
		}
	}
	at("5", 1, .9, 60, 180)
	at("5", 1, 2.4, 60, 180)
	at("5", 2, .9, 10, 30)
	at("5", 2, 2.4, 10, 30)
	for _, c := range []string{"1", "2", "3", "4"} {
		at(c, 2, .9, 10, 30)
	}
	return out
}

// Tongues of five spots give back how the skin differs over the bed: a bed that hangs
// to one side, read without error.
func TestSpotsTellTheBed(t *testing.T) {
	more := map[string]float64{"1": -.1, "2": .1, "3": -.1, "4": .1, "5": 0}
	l := Learn(handbook(), bedOf(more, nil), Owner{})
	require.Len(t, l.Findings, 1)
	assert.Equal(t, IDUneven, l.Findings[0].ID)
	assert.InDelta(t, .2, l.Findings[0].Numbers["difference"], .02)
	assert.Regexp(t, "more skin at the (lower|upper) right than at the (lower|upper) left", l.Findings[0].Text)
	assert.Empty(t, Learn(handbook(), bedOf(nil, nil), Owner{}).Findings, "a level bed is none to speak of")
	require.Len(t, l.Spots, 5)
	assert.InDelta(t, .8, l.Skins[1].Value, .02, "the mean over the bed")
	mean := 0.0
	for _, s := range l.Spots {
		mean += s.More / 5
	}
	for _, s := range l.Spots {
		assert.InDelta(t, more[s.Spot], s.More-mean, .012, "spot %s", s.Spot)
	}
	require.Equal(t, 5, l.OverBed.N)
	assert.InDelta(t, .1, l.OverBed.Value, .015, "of -0.1, 0.1, -0.1, 0.1, 0: root of 4 x 0.01 over 4")
	assert.Positive(t, l.Skins[1].Sigma)
}

// A level bed is told to be level: what readings to half a millimetre scatter by is taken
// off, over many beds; and a bed that is not level comes out so on the whole.
func TestSpotsTakeOffTheReadingsOwnScatter(t *testing.T) {
	rnd := rand.New(rand.NewSource(4))
	level, tilted := 0.0, 0.0
	const n = 25
	for range n {
		flat := Learn(handbook(), bedOf(nil, rnd), Owner{})
		hung := Learn(handbook(), bedOf(map[string]float64{"1": -.12, "2": .12, "3": -.12, "4": .12}, rnd), Owner{})
		require.Equal(t, 5, flat.OverBed.N)
		level += flat.OverBed.Value * flat.OverBed.Value / n
		tilted += hung.OverBed.Value * hung.OverBed.Value / n
		assert.Less(t, flat.OverBed.Value, .05)
	}
	t.Logf("level %.3f mm, tilted %.3f mm", math.Sqrt(level), math.Sqrt(tilted))
	assert.Less(t, math.Sqrt(level), .02)
	assert.InDelta(t, .12, math.Sqrt(tilted), .02)
}

// Two spots differ, but tell no spread; one is none, and changes nothing of the fit.
func TestFewSpotsTellNoSpread(t *testing.T) {
	all := bedOf(map[string]float64{"1": .1}, nil)
	var two, one, none []Reading
	for _, r := range all {
		if r.Spot == "" || r.Spot == "5" {
			one = append(one, r)
			r.Spot = ""
			none = append(none, r)
			r.Spot = "5"
		}
		if r.Passes == 0 || r.Spot == "5" || r.Spot == "1" {
			two = append(two, r)
		}
	}
	l := Learn(handbook(), two, Owner{})
	assert.Len(t, l.Spots, 2)
	assert.Zero(t, l.OverBed.N)
	assert.Positive(t, l.Spots[1].More-l.Spots[0].More)
	a, b := Learn(handbook(), one, Owner{}), Learn(handbook(), none, Owner{})
	assert.Empty(t, a.Spots)
	assert.Equal(t, a.Skins, b.Skins)
}

// The hinge length keeps its range with spots in the fit.
func TestSpotsKeepTheHingeLength(t *testing.T) {
	l := Learn(handbook(), bedOf(nil, nil), Owner{})
	s := l.SigmaHingeLength(2, .9)
	assert.Greater(t, s, 0.0)
	assert.Less(t, s, .5)
	assert.Equal(t, l.Names[len(l.Names)-1], "spot 4")
}

// FuzzLearn: no readings, however wild, panic or leave a belief that is none.
func FuzzLearn(f *testing.F) {
	f.Add(int64(1), 0.0, 80.0, 12.0, 0.2, 11.5, uint8(2), uint8(0))
	f.Add(int64(2), -1.0, 1e9, 0.0, 1e300, math.Inf(1), uint8(1), uint8(3))
	f.Add(int64(3), 1e-300, 80.0, 12.0, 0.3, 40.0, uint8(2), uint8(7))
	kinds := []Kind{KindSag, KindSkin, KindClosing, KindBend, KindThickness, KindKerf, KindFit, "?"}
	verdicts := []Verdict{Held, Broke, Loose, Good, Tight, ""}
	f.Fuzz(func(t *testing.T, seed int64, spacing, length, width, load, value float64, passes, kind uint8) {
		rnd := rand.New(rand.NewSource(seed))
		readings := bedOf(nil, nil)[:rnd.Intn(12)]
		for range 1 + rnd.Intn(4) {
			k := 1 + rnd.NormFloat64()/4
			readings = append(readings, Reading{
				Kind: kinds[(int(kind)+rnd.Intn(3))%len(kinds)], Verdict: verdicts[rnd.Intn(len(verdicts))], Passes: int(passes % 5), Spacing: spacing * k,
				Length: length, Width: width, Load: load * k, Value: value * k, Count: rnd.Intn(50), Spot: []string{"", "1", "2", "3"}[rnd.Intn(4)], RoundSide: rnd.Intn(2) > 0,
			})
		}
		was := handbook()
		l := Learn(was, readings, Owner{})
		sound := func(what string, v float64) {
			if math.IsNaN(v) || math.IsInf(v, 0) || v < 0 {
				t.Fatalf("%s is %g after %+v", what, v, readings)
			}
		}
		for i, h := range l.Skins {
			sound("skin", h.Value)
			sound("skin's sigma", h.Sigma)
			if h.N > 0 && !(h.Value < l.Thickness.Value) {
				t.Fatalf("skin %d of %g in a sheet of %g", i+1, h.Value, l.Thickness.Value)
			}
		}
		for what, m := range map[string]Measured{"thickness": l.Thickness, "width": l.Width, "rupture": l.Rupture, "kerf": l.Kerf, "over the bed": l.OverBed} {
			sound(what, m.Value)
			sound(what+"'s sigma", m.Sigma)
		}
		sound("E", l.Material.E)
		sound("spread of E", l.SpreadE)
		if !(l.Material.E > 0 && l.Thickness.Value > 0 && l.Width.Value > 0) {
			t.Fatalf("nothing left of the sheet: %+v", l.Belief)
		}
	})
}
