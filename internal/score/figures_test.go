package score

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/curve"
	"springrib/internal/hinge"
	"springrib/internal/plane"
)

// Figures of the plainest cases, each by hand from plane geometry.

// The height of a flat: over a bulging edge the corner of the tangent polygon stands off the circle by
// R(sec(theta/2)-1), in a cradle the chord's middle by R(1-cos(theta/2)). At R 100 and 60 degrees:
// 100(2/sqrt 3 - 1) and 100(1 - sqrt 3/2).
func TestHeightsByHand(t *testing.T) {
	assert.InDelta(t, 100*(2/math.Sqrt(3)-1), FlatHeight(math.Pi/3, 0.01, true), 1e-12)
	assert.InDelta(t, 100*(1-math.Sqrt(3)/2), FlatHeight(math.Pi/3, 0.01, false), 1e-12)
	assert.True(t, math.IsInf(FlatHeight(math.Pi, 0.01, true), 1), "half round: the flats never meet")
	assert.True(t, math.IsInf(FlatHeight(4, 0.01, false), 1))
	assert.False(t, math.IsInf(FlatHeight(3.14, 0.01, false), 1))
	assert.Zero(t, FlatHeight(0.1, 0, true), "as good as straight")
	assert.Zero(t, FlatHeight(0.1, 0.9e-12, false))
	assert.NotZero(t, FlatHeight(0.1, 1.1e-12, false))
}

// The circle of the fibre: R+D where the panel wraps the rib, R-D in a cradle. At R 4 and D 2 these are
// 6 and 2.
func TestCurvaturesByHand(t *testing.T) {
	wraps, cradle := side{wraps: true}, side{}
	assert.InDelta(t, 1.0/6, wraps.turn(0.25, 2), 1e-15)
	assert.InDelta(t, 1.0/2, cradle.turn(0.25, 2), 1e-15)
	assert.InDelta(t, 0.25, wraps.edge(1.0/6, 2), 1e-15)
	assert.InDelta(t, 0.25, cradle.edge(1.0/2, 2), 1e-15)
	assert.True(t, math.IsInf(cradle.turn(0.5, 2), 1), "a cradle of radius D leaves the fibre none")
	assert.True(t, math.IsInf(cradle.turn(0.6, 2), 1))
	assert.True(t, math.IsInf(wraps.edge(0.5, 2), 1), "a fibre of radius D wraps a point")
	assert.Equal(t, 0.5, cradle.edge(math.Inf(1), 2), "a fibre that is a point lies in a cradle of radius D")
	assert.Equal(t, []int{1, 0}, []int{wraps.way(), cradle.way()})
}

// A score closes where its face is the hollow one: the contact face of a panel that wraps its rib, the
// other in a cradle.
func TestWhereMouthsClose(t *testing.T) {
	for _, c := range []struct{ wraps, towards, closes bool }{{true, true, true}, {true, false, false}, {false, true, false}, {false, false, true}} {
		assert.Equal(t, c.closes, side{c.wraps, c.towards}.closes(), "%+v", c)
	}
	law := mdf()
	far := law.Neutral(5) // from the uncut face
	assert.InDelta(t, far, StandIn(law, 5, false), 1e-12)
	assert.InDelta(t, 3-far, StandIn(law, 5, true), 1e-12, "3 mm thick")
}

// Nothing binds a gentle curve: the spacing is the widest that the law is checked for, eight thicknesses,
// and where scores run apart that is their wide end. A land wider than that goes before it.
func TestWidestSpacing(t *testing.T) {
	lim := Limits{Cases: []Case{{Law: mdf()}}, Land: 0.8}
	for q, want := range map[float64]float64{0: 24, 1: 24, 2: 12} {
		lim.Wider = q
		sp := lim.Wanted(1e-3, true, true)
		assert.InDelta(t, want, sp.Pitch, 1e-12, "%v times as wide", q)
		assert.Equal(t, ByLaw, sp.Bound)
		assert.True(t, sp.Reached)
	}
	lim.Wider, lim.Land = 0, 30
	assert.InDelta(t, 30.2, lim.Wanted(1e-3, true, true).Pitch, 1e-12, "land and score width")
}

func TestWholeNumbers(t *testing.T) {
	assert.Equal(t, []int{3, 3, 4, 0, 1}, []int{ceil(3), ceil(3 + 5e-10), ceil(3 + 5e-9), ceil(0), ceil(1e-8)})
	assert.Equal(t, []float64{2, 5, 7}, []float64{clamp(1, 2, 7), clamp(5, 2, 7), clamp(9, 2, 7)})
	assert.True(t, same(math.Inf(1), math.Inf(1)) && same(5, 5*(1+9e-10)) && same(-5, -5*(1+9e-10)))
	assert.False(t, same(5, 5*(1+2e-9)) || same(5, math.Inf(1)) || same(0, 1e-12))
}

// A straight, a quarter round of R 60 and a straight again: which places are of the bend.
func TestPlacesOfARun(t *testing.T) {
	l := Lay(arch(60))
	require.Len(t, l.Runs, 1)
	r := &l.Runs[0]
	assert.InDelta(t, 60, r.Radius, 1e-9)
	assert.InDelta(t, 6, r.Start, 1e-12)
	for at, in := range map[float64]bool{r.Start: true, r.Start - 0.9e-6: true, r.Start - 1.1e-6: false, r.End: true, r.End + 0.9e-6: true, r.End + 1.1e-6: false, (r.Start + r.End) / 2: true} {
		assert.Equal(t, in, r.Holds(at), "%v", at)
		assert.Equal(t, in, l.RunAt(at) == r, "%v", at)
	}
	assert.Nil(t, l.RunAt(0))
	assert.InDelta(t, r.Start+1e-6, r.Inside(0), 1e-12)
	assert.InDelta(t, r.End-1e-6, r.Inside(1e9), 1e-12)
	assert.InDelta(t, r.Start+1, r.Inside(r.Start+1), 1e-12)
}

// Past both ends the panel goes on straight, a millimetre for each; on an arc it is longer than its edge
// by 1 + D/R, and back from the flat is the same place.
func TestPastTheEnds(t *testing.T) {
	task := arch(60)
	l := Lay(task)
	p, end := l.Places(task.Edge), task.Edge.Length()
	assert.InDelta(t, -2, p.S(-2), 1e-12)
	assert.InDelta(t, end+5, p.S(l.Length+5), 1e-9)
	for _, s := range []float64{-3, 0, end, end + 3} {
		assert.Equal(t, 1.0, p.Slope(s), "%v", s)
	}
	assert.InDelta(t, 1+l.Folds[0].D/60, p.Slope(end/2), 1e-3)
	assert.InDelta(t, 1, p.Slope(3), 1e-9)
}

// Between knots stands the cubic of the two values and slopes, here t^3, of which it is exact; slopes at
// knots are those of three points, a parabola's: by hand for (0, 0), (1, 1), (3, 2).
func TestCubicsByHand(t *testing.T) {
	for _, x := range []float64{2, 2.5, 3.7, 5} {
		assert.InDelta(t, x*x*x, hermite(2, 5, 8, 125, 12, 75, x), 1e-12)
	}
	m := monotoneSlopes([]float64{0, 1, 3}, []float64{0, 1, 2})
	assert.InDeltaSlice(t, []float64{(3 - 5.0/6) / 2, 5.0 / 6, (1.5 - 5.0/6) / 2}, m, 1e-12)
	assert.Equal(t, []float64{0, 0, 0}, monotoneSlopes([]float64{0, 1, 2}, []float64{0, 0, 0}))
	assert.Zero(t, monotoneSlopes([]float64{0, 1, 2}, []float64{0, 1, 0.5})[1], "flat at an extreme")
	assert.InDelta(t, 0.3, monotoneSlopes([]float64{0, 1, 2}, []float64{0, 0.1, 9})[1], 1e-12, "three times the lesser")
	assert.Equal(t, []float64{2, 2}, monotoneSlopes([]float64{1, 3}, []float64{1, 5}))
	assert.Equal(t, []float64{0}, monotoneSlopes([]float64{1}, []float64{1}))
	f := newMonotone([]float64{0, 1, 3}, []float64{0, 1, 2})
	assert.Equal(t, []float64{0, 2, m[0], m[2]}, []float64{f.at(-1), f.at(4), f.slope(-1), f.slope(4)}, "beyond the knots")
}

// The spacings of a table run from the widest, eight thicknesses, to the least, score and land, in even
// ratios of at most 1.03.
func TestGridOfATable(t *testing.T) {
	lim := Limits{Cases: []Case{{Law: mdf()}}, Land: 0.8}
	g := lim.grid()
	assert.InDelta(t, math.Log(24), g.ln(0), 1e-12)
	assert.InDelta(t, math.Log(1), g.ln(g.n), 1e-12)
	assert.LessOrEqual(t, g.ln(3)-g.ln(4), math.Log(1.03))
	assert.Greater(t, g.ln(3)-g.ln(4), math.Log(1.029))
	assert.InDelta(t, g.ln(0)-g.ln(1), g.ln(g.n-1)-g.ln(g.n), 1e-12)
	lim.Land = 40
	wide := lim.grid()
	assert.InDelta(t, 40.2, wide.most, 1e-12, "land goes before the law's domain")
	assert.Equal(t, 2, wide.n)
}

// A table is used again for what it reaches and the same limits, on the same side; laws at its spacings
// are asked for once. What is kept is bounded.
func TestTablesAreKept(t *testing.T) {
	l := new(Laws)
	lim, sd := limits(mdf()), side{true, true}
	one := l.table(lim, sd, 0.02)
	assert.Same(t, one, l.table(lim, sd, 0.02*1.25), "a quarter further is kept ready")
	assert.NotSame(t, one, l.table(lim, sd, 0.02*1.26))
	assert.NotSame(t, one, l.table(lim, side{true, false}, 0.02))
	for _, change := range []func(*Limits){
		func(b *Limits) { b.StandOff *= 1.1 }, func(b *Limits) { b.Fold = 0.1 }, func(b *Limits) { b.Land *= 1.1 },
		func(b *Limits) { b.Cases = []Case{{Law: mdf(), Strain: 0.007, Closing: 1.1}} },
	} {
		other := lim
		change(&other)
		assert.NotSame(t, one, l.table(other, sd, 0.02))
	}
	assert.Same(t, one, l.table(lim, sd, 0.01))
	for i := range mostTables {
		other := lim
		other.StandOff = 0.2 + 0.01*float64(i)
		l.table(other, sd, 0.02)
		assert.LessOrEqual(t, len(l.tables), mostTables)
	}
	assert.NotSame(t, one, l.table(lim, sd, 0.02), "forgotten among so many")

	law, g := mdf(), lim.grid()
	c := l.column(law, g)
	assert.Same(t, c, l.column(law, g))
	assert.InDelta(t, 24, c.at(0).Spacing, 1e-9)
	assert.Same(t, c.at(4), c.at(4))
	for i := range 2 * mostColumns {
		l.column(hinge.New(hinge.Material{E: 3000 + float64(i), NuXY: 0.3, NuXZ: 0.3}, law.Score()), g)
		assert.LessOrEqual(t, len(l.columns), mostColumns)
	}
}

// Three scores among bends of 30, 40 and 20 degrees of one radius: each flat is one, and the remainder goes to the
// larger. Of two bends that are alike the one nearer the foot has it.
func TestSharesOfACount(t *testing.T) {
	counts := func(n int, degrees ...float64) []int {
		task := arch(60)
		ps := []curve.Piece{{Length: 6}}
		for _, d := range degrees {
			ps = append(ps, curve.Piece{Length: 60 * d * math.Pi / 180, Kappa: 1.0 / 60}, curve.Piece{Length: 10})
		}
		task.Edge, task.PanelLeft = curve.Chain(plane.Pt(0, 0), 0, ps...), false
		task.Rule, task.Number = Count, n
		var out []int
		for _, r := range Lay(task).Runs {
			out = append(out, r.Count)
		}
		return out
	}
	assert.Equal(t, []int{30, 40, 20}, counts(90, 30, 40, 20))
	assert.Equal(t, []int{30, 41, 20}, counts(91, 30, 40, 20), "91 x 4/9 is 40.4, the largest remainder")
	assert.Equal(t, []int{5, 4}, counts(9, 30, 30))
	assert.Equal(t, []int{1, 5}, counts(6, 2, 60), "a bend's share is never less than one")
}

func TestWhatATaskMustHave(t *testing.T) {
	for name, change := range map[string]func(*Task){
		"an edge": func(t *Task) { t.Edge = curve.Curve{} }, "a case": func(t *Task) { t.Limits.Cases = nil },
		"a number": func(t *Task) { t.Rule = Count }, "a pitch": func(t *Task) { t.Rule = Pitch },
	} {
		task := arch(60)
		change(&task)
		assert.Panics(t, func() { Lay(task) }, name)
	}
}
