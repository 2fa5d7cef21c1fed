package form

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"

	"springrib/internal/curve"
	"springrib/internal/plane"
	"springrib/internal/surface"
)

// A square tube by hand: folds of 90 degrees at 10, 20 and 30 mm about pivots on the
// contact face bring the end of a 40 mm strip back to its start.
func TestSquareTube(t *testing.T) {
	for _, left := range []bool{true, false} {
		var cr []surface.Crease
		for _, u := range []float64{10, 20, 30} {
			cr = append(cr, surface.Crease{U: u, Turn: math.Pi / 2})
		}
		s := surface.Cylinder(plane.Pt(5, 7), 0.3, left, cr, -20, 20)
		frames := Fold(s)
		end := frames[3].At(40, 0, 0)
		assert.InDelta(t, 5, end.X, 1e-12)
		assert.InDelta(t, 7, end.Y, 1e-12)
		// Positive folds turn away from the panel's side: the panel stays outside.
		mid := frames[2].At(25, 0, 0).Sub(frames[0].At(5, 0, 0))
		assert.Less(t, mid.Dot(frames[0].N), 0.0)
	}
}

// Folding keeps lengths and right angles, and a point of a ruling lies on both flats.
func TestFoldingIsRigid(t *testing.T) {
	r := func(u0, u1, turn, h float64) surface.Ruling {
		return surface.Ruling{Flat: [2]plane.Point{plane.Pt(u0, -30), plane.Pt(u1, 30)}, Turn: turn, Height: [2]float64{h, h}}
	}
	s := surface.Cylinder(plane.Pt(0, 0), 0, true, nil, -30, 30)
	// Slanted rulings, as a cone's: the fold does not ask what the surface is.
	s.Rulings = []surface.Ruling{r(8, 10, 0.2, 0.6), r(16, 20, -0.3, 0.4), r(24, 30, 0.25, 0)}
	frames := Fold(s)
	for _, f := range frames {
		assert.InDelta(t, 1, f.U.Len(), 1e-12)
		assert.InDelta(t, 0, f.U.Dot(f.V), 1e-12)
		assert.InDelta(t, 0, f.U.Dot(f.N), 1e-12)
	}
	for i, ru := range s.Rulings {
		for k, p := range ru.Flat {
			a, b := frames[i].At(p.X, p.Y, ru.Height[k]), frames[i+1].At(p.X, p.Y, ru.Height[k])
			assert.InDelta(t, 0, a.Sub(b).Len(), 1e-12)
		}
	}
	assert.InDelta(t, 0.2, math.Acos(frames[0].N.Dot(frames[1].N)), 1e-9, "the fold angle is the turn")
}

// An unfolded strip on a straight edge touches all along; lifted by 0.3 it stands off
// by 0.3; on the wrong side the sign turns.
func TestMeasureOnAStraight(t *testing.T) {
	edge := curve.Chain(plane.Pt(0, 0), 0, curve.Piece{Length: 50})
	for _, c := range []struct{ lift, want float64 }{{0, 0}, {0.3, 0.3}, {-0.2, -0.2}} {
		s := surface.Cylinder(plane.Pt(0, c.lift), 0, true, nil, -1, 1)
		fit := Measure(s, edge, true, 0, 50)
		assert.InDelta(t, c.want, fit.Least, 1e-12)
		assert.InDelta(t, c.want, fit.Most, 1e-12)
		assert.InDelta(t, math.Abs(c.want), fit.EndMiss, 1e-12)
		down := Measure(s, edge, false, 0, 50)
		assert.InDelta(t, -c.want, down.Least, 1e-12)
	}
}

// A tangent polygon round an arc stands off by R(sec(theta/2)-1) at its corners.
func TestMeasureATangentPolygon(t *testing.T) {
	const R, n, turn = 80.0, 12, math.Pi / 2
	edge := curve.Chain(plane.Pt(0, 0), 0, curve.Piece{Length: R * turn, Kappa: -1 / R})
	th := turn / n
	var cr []surface.Crease
	for i := range n {
		cr = append(cr, surface.Crease{U: R * math.Tan(th/2) * float64(2*i+1), Turn: th})
	}
	s := surface.Cylinder(plane.Pt(0, 0), 0, true, cr, -1, 1)
	fit := Measure(s, edge, true, 0, 2*n*R*math.Tan(th/2))
	assert.InDelta(t, 0, fit.Least, 1e-9)
	assert.InDelta(t, R*(1/math.Cos(th/2)-1), fit.Most, 1e-9)
	assert.InDelta(t, 0, fit.EndMiss, 1e-9)
	// A fold of the wrong size is found out.
	cr[3].Turn *= 1.05
	bad := Measure(surface.Cylinder(plane.Pt(0, 0), 0, true, cr, -1, 1), edge, true, 0, 2*n*R*math.Tan(th/2))
	assert.Greater(t, bad.EndMiss, 0.3)
}

// Over an arc three places say what many do.
func TestOverArcAgainstManyPlaces(t *testing.T) {
	for _, left := range []bool{true, false} {
		edge := curve.Chain(plane.Pt(0, 0), 0.2, curve.Piece{Length: 60, Kappa: 1.0 / 70}, curve.Piece{Length: 90, Kappa: -1.0 / 80}, curve.Piece{Length: 20})
		var cr []surface.Crease
		for i := range 14 {
			cr = append(cr, surface.Crease{U: 6 + 11*float64(i), Turn: 0.13 * math.Copysign(1, float64(i)-5), Height: 0.9})
		}
		s := surface.Cylinder(plane.Pt(0.2, -0.1), 0.17, left, cr, -1, 1)
		frames := Fold(s)
		exact := 0
		for i, f := range frames {
			from, to := 0.0, 165.0
			if i > 0 {
				from = s.Rulings[i-1].Corner(0, true)[0].X
			}
			if i < len(s.Rulings) {
				to = s.Rulings[i].Corner(0, false)[0].X
			}
			place := func(u float64) plane.Point { p := f.At(u, 0, 0); return plane.Pt(p.X, p.Y) }
			g := gauge{edge: edge, left: left, near: from}
			got := g.along(crossed{plane.Pt(from, 0), place(from)}, crossed{plane.Pt(to, 0), place(to)})
			lo, hi := math.Inf(1), math.Inf(-1)
			h := gauge{edge: edge, left: left, near: from}
			for k := range 2001 {
				d := h.gap(place(from + (to-from)*float64(k)/2000))
				lo, hi = math.Min(lo, d), math.Max(hi, d)
				h.near += (to - from) / 2000
			}
			assert.InDelta(t, lo, got.Least, 2e-7, "flat %d", i)
			if _, _, ok := edge.Circle(from, to); ok {
				exact++
				assert.InDelta(t, hi, got.Most, 2e-7, "flat %d", i)
			}
		}
		assert.Greater(t, exact, 8)
	}
}
