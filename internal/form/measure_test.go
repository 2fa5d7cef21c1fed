package form

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/curve"
	"springrib/internal/plane"
	"springrib/internal/surface"
)

// Folds that pivot at a height take height tan(turn/2) from the contact face on either side:
// a polygon about an arc is longer by that at each corner, and touches all the same. Its
// corners stand off by R(sec(theta/2)-1): geometry of a tangent polygon.
func TestMeasureCountsWithTheHeightOfTheFolds(t *testing.T) {
	const R, n, turn, height = 80.0, 12, math.Pi / 2, 1.7
	edge := curve.Chain(plane.Pt(0, 0), 0, curve.Piece{Length: R * turn, Kappa: -1 / R})
	half := turn / n / 2
	var cr []surface.Crease
	for i := range n {
		cr = append(cr, surface.Crease{U: (R + height) * math.Tan(half) * float64(2*i+1), Turn: 2 * half, Height: height})
	}
	length := 2 * n * (R + height) * math.Tan(half)
	s := surface.Cylinder(plane.Pt(0, 0), 0, true, cr, -1, 1)
	fit := Measure(s, edge, true, 0, length)
	corner := R * (1/math.Cos(half) - 1)
	require.Len(t, fit.Flats, n+1)
	assert.InDelta(t, 0, fit.EndMiss, 1e-9)
	assert.InDelta(t, 0, fit.LeastFlat, 1e-9)
	for i, g := range fit.Flats {
		assert.InDelta(t, 0, g.Least, 1e-9, "flat %d", i)
		assert.InDelta(t, corner, g.Most, 1e-9, "flat %d", i)
		from, to := 0.0, length
		if i > 0 {
			from = s.Rulings[i-1].Corner(0, true)[0].X
		}
		if i < n {
			to = s.Rulings[i].Corner(0, false)[0].X
		}
		assert.InDelta(t, 0, math.Min(math.Abs(g.At-from), math.Abs(g.At-to)), 1e-9, "the most is at a corner of flat %d", i)
		if i > 0 && i < n {
			assert.InDelta(t, 2*R*math.Tan(half), to-from, 1e-9, "flat %d", i)
		}
	}
	// Lifted off, the first flat by all of the lift and each after it by less, down to none.
	off := Measure(surface.Cylinder(plane.Pt(0, 0.25), 0, true, cr, -1, 1), edge, true, 0, length)
	assert.InDelta(t, 0.25, off.LeastFlat, 1e-9)
	assert.InDelta(t, 0.25, off.Flats[0].Least, 1e-9)
	assert.Less(t, math.Abs(off.Flats[n].Least), 0.01)
	in := Measure(surface.Cylinder(plane.Pt(0, -0.25), 0, true, cr, -1, 1), edge, true, 0, length)
	assert.InDelta(t, -0.25, in.LeastFlat, 1e-9)
	assert.InDelta(t, -0.25, in.Least, 1e-9)
}

// Corners of the flats beside a ruling lie height tan(turn/2) off it, square to it: of one
// that slants 3 by 4, by hand.
func TestCornersBesideASlantedRuling(t *testing.T) {
	r := surface.Ruling{Flat: [2]plane.Point{plane.Pt(10, -20), plane.Pt(40, 20)}, Turn: 0.4, Height: [2]float64{2, 3}}
	k := math.Tan(.2)
	for _, c := range []struct {
		h     float64
		after bool
		want  [2]plane.Point
	}{
		{0, true, [2]plane.Point{plane.Pt(10+.8*2*k, -20-.6*2*k), plane.Pt(40+.8*3*k, 20-.6*3*k)}},
		{0, false, [2]plane.Point{plane.Pt(10-.8*2*k, -20+.6*2*k), plane.Pt(40-.8*3*k, 20+.6*3*k)}},
		{3, true, [2]plane.Point{plane.Pt(10-.8*k, -20+.6*k), plane.Pt(40, 20)}},
	} {
		got := r.Corner(c.h, c.after)
		for i := range got {
			assert.InDelta(t, 0, c.want[i].Dist(got[i]), 1e-12, "%g %v", c.h, c.after)
		}
	}
}

// Over a smooth edge, whose curvature changes all along, a few places and parabolas find the
// least gap that ten thousand places find, and the most to what sixteen steps show.
func TestLeastOverASmoothEdge(t *testing.T) {
	edge, err := curve.Through(plane.Pt(0, 0), plane.Pt(30, 9), plane.Pt(60, 10), plane.Pt(95, -5), plane.Pt(120, -30))
	require.NoError(t, err)
	inside := 0
	for _, left := range []bool{true, false} {
		for k := range 9 {
			at := edge.At(10 + 11*float64(k))
			dir := at.Phi
			const half, before = 9.3, 7.7 // it touches between two of sixteen steps
			f := surface.Cylinder(at.P.Sub(plane.Dir(dir).Mul(before)), dir, left, nil, -1, 1).Start
			g := gauge{edge: edge, left: left, near: 10 + 11*float64(k) - before}
			place := func(u float64) plane.Point { p := f.At(u, 0, 0); return plane.Pt(p.X, p.Y) }
			got := g.along(crossed{plane.Pt(0, 0), place(0)}, crossed{plane.Pt(2*half, 0), place(2 * half)})
			h := gauge{edge: edge, left: left, near: 10 + 11*float64(k) - before}
			const n = 10000
			lo, hi, where := math.Inf(1), math.Inf(-1), 0
			for j := range n + 1 {
				d := h.gap(place(2 * half * float64(j) / n))
				if d < lo {
					lo, where = d, j
				}
				hi = math.Max(hi, d)
			}
			assert.InDelta(t, lo, got.Least, 1e-6, "at %d, left %v", k, left)
			assert.LessOrEqual(t, got.Most, hi+1e-9)
			assert.InDelta(t, hi, got.Most, 0.01, "at %d, left %v", k, left)
			again := gauge{edge: edge, left: left, near: 10 + 11*float64(k) - before + got.At}
			assert.InDelta(t, got.Most, again.gap(place(got.At)), 1e-9)
			if where > n/8 && where < n*7/8 {
				inside++
			}
		}
	}
	assert.Greater(t, inside, 5, "flats that touch in their middles")
}

// Before undoes a fold.
func TestBeforeUndoesAFold(t *testing.T) {
	s := bow(6, 12, 4, 0.3, 1.2)
	frames := Fold(s)
	for i, r := range s.Rulings {
		same(t, frames[i], Before(frames[i+1], r))
	}
}
