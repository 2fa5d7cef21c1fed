package coupon

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/hinge"
)

// handbook is 3 mm MDF before anything is measured: Wood Handbook FPL-GTR-190 table
// 12-1 for E; softness through the thickness from memory, within a factor of two.
func handbook() Belief {
	return Belief{
		Material:  hinge.Material{E: 3590, NuXY: .3, NuXZ: .3, EZ: 300, GXZ: 200},
		SpreadE:   .2,
		SpreadZ:   .5,
		Thickness: Measured{3, .02, 5},
		Density:   750,
		Width:     Measured{.2, .04, 0},
		Skins:     []Measured{{1.6, .3, 0}, {.9, .3, 0}},
		Rupture:   Measured{.01, .2, 0},
		Kerf:      Measured{.15, .05, 0},
		Clearance: Measured{.1, .05, 0},
	}
}

// bench is a sheet as it truly is, and the hand that reads its tongues.
type bench struct {
	truth hinge.Material
	t     float64
	skins []float64
	width float64
	round float64 // drops are read to this, mm
	rnd   *rand.Rand
}

// hang reads one tongue under weights in grams.
func (b bench) hang(passes int, spacing, length, width float64, grams ...float64) []Reading {
	m := b.truth
	m.Narrow = true
	ei := width * m.E * b.t * b.t * b.t / 12
	solid := 1.0
	if passes > 0 {
		h := b.skins[passes-1]
		ei = width * hinge.New(m, hinge.Score{Thickness: b.t, Depth: b.t - h, Width: b.width}).Stiffness(spacing)
		solid = 1 - (b.t-h)*b.width/(b.t*spacing)
	}
	tg := Tongue{length, 750e-9 * gravity * b.t * width * solid}
	offset := 0.0
	if b.rnd != nil {
		offset = b.rnd.NormFloat64()
	}
	var out []Reading
	for _, g := range grams {
		drop := tg.Bend(ei, g*gravity/1000).Drop + offset
		if b.round > 0 {
			drop = b.round * math.Round(drop/b.round)
		}
		out = append(out, Reading{Kind: KindSag, Passes: passes, Spacing: spacing, Length: length, Width: width, Load: g * gravity / 1000, Value: drop})
	}
	return out
}

func (b bench) strip() []Reading {
	out := b.hang(0, 0, 150, 20, 200, 500)
	for p := 1; p <= len(b.skins); p++ {
		light, heavy := 10.0, 30.0
		if b.skins[p-1] > 1.2 {
			light, heavy = 30, 90
		}
		out = append(out, b.hang(p, .9, 110, 20, light, heavy)...)
		out = append(out, b.hang(p, 2.4, 110, 20, light, heavy)...)
	}
	return out
}

func softTruth() hinge.Material {
	return hinge.Material{E: 3100, NuXY: .3, NuXZ: .3, EZ: 180, GXZ: 150}
}

// Read without error, the strip gives back what it was made from; what was believed of
// the modulus and of the softness fades before many readings.
func TestDepthStripRoundTrip(t *testing.T) {
	b := bench{truth: softTruth(), t: 3, skins: []float64{1.5, .8}, width: .2}
	was := handbook()
	was.SpreadE, was.SpreadZ = 50, 50
	was.Thickness.Sigma = .02
	got := Learn(was, b.strip(), Owner{})
	assert.Empty(t, got.Findings)
	assert.InEpsilon(t, 3100, got.Material.E, .002)
	assert.InDelta(t, 1.5, got.Skins[0].Value, .004)
	assert.InDelta(t, .8, got.Skins[1].Value, .002)
	assert.Equal(t, 4, got.Skins[1].N)
	for _, p := range []float64{1.6, 2.4, 4} {
		want := hinge.New(softTruth(), hinge.Score{Thickness: 3, Depth: 2.2, Width: .2}).HingeLength(p)
		assert.InEpsilon(t, want, got.Law(2).HingeLength(p), .03)
	}
	assert.Len(t, got.Tongues, 5)
	for _, g := range got.Tongues {
		assert.InEpsilon(t, g.EI, g.Fitted, .01)
		assert.InDelta(t, 0, g.Offset, .05)
	}
	assert.Equal(t, []string{"ln t", "ln E", "ln softness", "logit skin 1", "logit skin 2"}, got.Names)
}

// A hand that reads to 0.5 mm, with an unknown zero, on boards whose modulus lies
// anywhere within 20 %, whose softness is known to a factor, and whose thickness is
// read to 0.02: the skin of 0.8 mm comes out within 0.02 (one sigma), and the error
// stated is the error made.
func TestDepthStripMonteCarlo(t *testing.T) {
	rnd := rand.New(rand.NewSource(7))
	var skin, hingeLength spread
	inside, n := 0, 80
	for range n {
		m := softTruth()
		m.E = 3590 * math.Exp(.2*rnd.NormFloat64())
		z := math.Exp(.5*rnd.NormFloat64()) * m.E / 3590
		m.EZ, m.GXZ = 300*z, 200*z
		b := bench{truth: m, t: 3 + .02*rnd.NormFloat64(), skins: []float64{1.5, .8}, width: .2, round: .5, rnd: rnd}
		got := Learn(handbook(), b.strip(), Owner{})
		require.Equal(t, 4, got.Skins[1].N, "%v", got.Findings)
		e := got.Skins[1].Value - .8
		skin.add(e)
		if math.Abs(e) < got.Skins[1].Sigma {
			inside++
		}
		want := hinge.New(m, hinge.Score{Thickness: b.t, Depth: b.t - .8, Width: .2}).HingeLength(2.4)
		hingeLength.add(math.Log(got.Law(2).HingeLength(2.4) / want))
		assert.InDelta(t, .04, got.SigmaHingeLength(2, 2.4), .03)
	}
	t.Logf("skin: mean %+.4f sd %.4f mm; stated error holds in %d of %d; hinge length sd %.3f", skin.mean(), skin.sd(), inside, n, hingeLength.sd())
	assert.Less(t, skin.rms(), .02)
	assert.Less(t, math.Abs(skin.mean()), .006)
	assert.Less(t, hingeLength.rms(), .06)
	assert.Greater(t, inside, n*60/100, "68 of 100 for a true sigma; the fit allows for the law's error too")
}

// Without the plain tongue the modulus is only the handbook's and the skin pays for it.
func TestPlainTongueMatters(t *testing.T) {
	b := bench{truth: softTruth(), t: 3, skins: []float64{1.5, .8}, width: .2}
	all := b.strip()
	with := Learn(handbook(), all, Owner{})
	without := Learn(handbook(), all[2:], Owner{})
	assert.Greater(t, without.Skins[1].Sigma, 2*with.Skins[1].Sigma)
	require.Len(t, without.Findings, 1)
	assert.Equal(t, IDNoControl, without.Findings[0].ID)
	// One caliper reading of a snapped tongue brings most of it back.
	calipered := Learn(handbook(), append(all[2:], Reading{Kind: KindSkin, Passes: 2, Value: .81}), Owner{})
	assert.Less(t, calipered.Skins[1].Sigma, .8*without.Skins[1].Sigma)
	assert.Less(t, math.Abs(calipered.Skins[1].Value-.8), math.Abs(without.Skins[1].Value-.8))
}

func TestCaliperAlone(t *testing.T) {
	got := Learn(handbook(), []Reading{{Kind: KindSkin, Passes: 2, Value: .7}, {Kind: KindSkin, Passes: 2, Value: .74}}, Owner{})
	assert.Empty(t, got.Findings)
	assert.InDelta(t, .72, got.Skins[1].Value, .01)
	assert.InDelta(t, caliperSigma/math.Sqrt2, got.Skins[1].Sigma, .005)
	assert.Equal(t, handbook().Skins[0], got.Skins[0], "the other depth stays")
	assert.Equal(t, handbook().Material, got.Material)
}

// A face far stiffer than the core makes the skin bend as if it were thicker than it
// measures; it is said, and both are used.
func TestStiffFacesArePointedOut(t *testing.T) {
	b := bench{truth: softTruth(), t: 3, skins: []float64{1.5, .8}, width: .2}
	got := Learn(handbook(), append(b.strip(), Reading{Kind: KindSkin, Passes: 2, Value: .6}), Owner{})
	require.Len(t, got.Findings, 1)
	assert.Equal(t, IDStiffFaces, got.Findings[0].ID)
	assert.Equal(t, "readings.10", got.Findings[0].Place.Field)
	assert.Less(t, got.Skins[1].Value, .8)
	assert.Greater(t, got.Skins[1].Value, .6)
}

// A third tongue that is off is named; it still pulls.
func TestOddTongueIsPointedOut(t *testing.T) {
	b := bench{truth: softTruth(), t: 3, skins: []float64{1.5, .8}, width: .2}
	all := b.strip()
	other := b
	other.skins = []float64{1.5, .87}
	for length := 100.0; length < 103; length++ {
		more := b.hang(2, .9, length, 20, 10, 30)
		if length == 102 {
			more = other.hang(2, .9, length, 20, 10, 30)
		}
		all = append(all, more...)
	}
	got := Learn(handbook(), all, Owner{})
	require.Len(t, got.Findings, 1)
	assert.Equal(t, IDOutlier, got.Findings[0].ID)
	assert.Equal(t, "readings.14", got.Findings[0].Place.Field)
	assert.Greater(t, got.Skins[1].Value, .81, "it is not dropped")
}

func TestOrderOfReadingsDoesNotMatter(t *testing.T) {
	b := bench{truth: softTruth(), t: 3, skins: []float64{1.5, .8}, width: .2, round: .5}
	all := b.strip()
	want := Learn(handbook(), all, Owner{})
	rnd := rand.New(rand.NewSource(3))
	for range 3 {
		rnd.Shuffle(len(all), func(i, j int) { all[i], all[j] = all[j], all[i] })
		got := Learn(handbook(), all, Owner{})
		for k := range want.Skins {
			assert.InEpsilon(t, want.Skins[k].Value, got.Skins[k].Value, 1e-6)
		}
		assert.InEpsilon(t, want.Material.E, got.Material.E, 1e-6)
	}
}

type spread struct{ n, sum, sq float64 }

func (s *spread) add(v float64) { s.n, s.sum, s.sq = s.n+1, s.sum+v, s.sq+v*v }
func (s spread) mean() float64  { return s.sum / s.n }
func (s spread) rms() float64   { return math.Sqrt(s.sq / s.n) }
func (s spread) sd() float64    { return math.Sqrt(s.sq/s.n - s.mean()*s.mean()) }

func BenchmarkLearn(b *testing.B) {
	readings := bench{truth: softTruth(), t: 3, skins: []float64{1.5, .8}, width: .2, round: .5}.strip()
	for range b.N {
		Learn(handbook(), readings, Owner{})
	}
}
