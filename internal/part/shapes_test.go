package part

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/plane"
)

// smooth checks that the path joins and turns by no more than a hair at its joints,
// except at the given number of corners.
func smooth(t *testing.T, p plane.Path, corners int) {
	t.Helper()
	n := 0
	for i, s := range p.Segs {
		next := p.Segs[(i+1)%len(p.Segs)]
		require.InDelta(t, 0, s.B.Dist(next.A), 1e-9)
		a, b := s.Tangent(1), next.Tangent(0)
		if math.Abs(math.Atan2(a.Cross(b), a.Dot(b))) > 1e-6 {
			n++
		}
	}
	assert.Equal(t, corners, n)
}

func spans(t *testing.T, r plane.Region, length, width float64) {
	t.Helper()
	b := r.Box()
	assert.InDelta(t, 0, b.Min.X, 1e-9)
	assert.InDelta(t, length, b.Max.X, 1e-9)
	assert.InDelta(t, width, b.H(), 1e-9)
	assert.True(t, r.Outer.IsCCW())
}

// Area of a lens of two arcs: twice the segment R^2 (a - sin a)/2 with a = 4 atan(W/L)
// (any table of areas).
func TestLens(t *testing.T) {
	l := Lens{Length: 120, Width: 40}
	r := l.Outline()
	spans(t, r, 120, 40)
	smooth(t, r.Outer, 2)
	radius, _ := l.side()
	a := 4 * math.Atan(40.0/120)
	assert.InDelta(t, radius*radius*(a-math.Sin(a)), r.Area(), 1e-9)
	assert.Len(t, r.Outer.Segs, 2)
}

func TestLensWithRoundPoints(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 200 {
		l := Lens{Length: 60 + 200*r.Float64(), Width: 20 + 30*r.Float64()}
		l.FootRound, l.TipRound = r.Float64()*l.Width/2.5, r.Float64()*l.Width/2.5
		out := l.Outline()
		spans(t, out, l.Length, l.Width)
		smooth(t, out.Outer, 0)
		assert.Len(t, out.Outer.Segs, 4)
	}
	assert.Panics(t, func() { Lens{Length: 100, Width: 20, TipRound: 10}.Outline() })
}

func TestSector(t *testing.T) {
	for _, angle := range []float64{0.5, 2, 4, 6} {
		s := Sector{Inner: 30, Outer: 80, Angle: angle}
		r := s.Outline()
		assert.InDelta(t, angle/2*(80*80-30*30), r.Area(), 1e-9)
		smooth(t, r.Outer, 4)
		pie := Sector{Outer: 80, Angle: angle}.Outline()
		assert.InDelta(t, angle/2*80*80, pie.Area(), 1e-9)
	}
}

// The frustum of end diameters 5 and 8 in and height 4 in develops to radii 7.12 and
// 11.39 in and an angle of 126.4 degrees (a drawing-office worked example of radial
// line development); its area is slant height times the mean of the circumferences
// (Sheet Metal Drafting, 1920s, rule for frustums).
func TestSectorOfAFrustum(t *testing.T) {
	slant := math.Hypot(4, 1.5)
	r := Sector{Inner: 7.1200031, Outer: 11.3920050, Angle: 126.404439 * math.Pi / 180}.Outline()
	assert.InDelta(t, slant*math.Pi*(5+8)/2, r.Area(), 1e-4)
}

func TestPolygonRounding(t *testing.T) {
	// A square of 100 with corners of radius 10 loses (4-pi) r^2.
	sq := []Corner{{plane.Pt(0, 0), 10}, {plane.Pt(100, 0), 10}, {plane.Pt(100, 100), 10}, {plane.Pt(0, 100), 10}}
	p, err := Polygon(sq)
	require.NoError(t, err)
	assert.InDelta(t, 10000-(4-math.Pi)*100, p.Area(), 1e-9)
	smooth(t, p, 0)
	assert.Len(t, p.Segs, 8)
	sq[2].Radius = 0
	p, err = Polygon(sq)
	require.NoError(t, err)
	smooth(t, p, 1)
}

func TestPolygonWithoutRoom(t *testing.T) {
	sq := []Corner{{plane.Pt(0, 0), 20}, {plane.Pt(100, 0), 90}, {plane.Pt(100, 100), 0}, {plane.Pt(0, 100), 0}}
	_, err := Polygon(sq)
	var e *ErrCorner
	require.True(t, errors.As(err, &e))
	assert.Equal(t, 1, e.Index)
	assert.InDelta(t, 80, e.Room, 1e-9)
	sq[1].Radius = e.Room
	_, err = Polygon(sq)
	assert.NoError(t, err)
	_, err = Polygon([]Corner{{plane.Pt(0, 0), 0}, {plane.Pt(0, 0), 0}, {plane.Pt(5, 5), 0}})
	assert.Error(t, err)
}

func TestPolygonOfInnerCorners(t *testing.T) {
	// An L: the inner corner turns the other way, its rounding adds material.
	l := []Corner{{plane.Pt(0, 0), 5}, {plane.Pt(60, 0), 5}, {plane.Pt(60, 30), 5}, {plane.Pt(30, 30), 5}, {plane.Pt(30, 60), 5}, {plane.Pt(0, 60), 5}}
	p, err := Polygon(l)
	require.NoError(t, err)
	smooth(t, p, 0)
	assert.InDelta(t, 2700-4*(1-math.Pi/4)*25, p.Area(), 1e-9, "five corners lose, one gains")
}

func TestRoundedRectangle(t *testing.T) {
	spans(t, RoundedRectangle(100, 50, 8), 100, 50)
	assert.InDelta(t, 50*50+math.Pi*25*25, RoundedRectangle(100, 50, 999).Area(), 1e-9, "a stadium at most")
	assert.Len(t, RoundedRectangle(100, 50, 0).Outer.Segs, 4)
}

func TestHoles(t *testing.T) {
	assert.InDelta(t, -math.Pi*16, RoundHole(plane.Pt(5, 5), 8).Area(), 1e-9)
	s := SlotHole(plane.Pt(5, 5), 30, 8, 0.7)
	assert.InDelta(t, -(22*8 + math.Pi*16), s.Area(), 1e-9)
	smooth(t, s, 0)
	assert.InDelta(t, -math.Pi*16, SlotHole(plane.Pt(0, 0), 8, 8, 0).Area(), 1e-9)
}

// The ellipse lies within 0.01 mm of the exact one at any size, in few pieces. Its
// length is checked against the complete elliptic integral (semi-axes 150 and 100:
// 793.2719794645295).
func TestEllipse(t *testing.T) {
	for _, c := range [][2]float64{{60, 30}, {300, 200}, {600, 200}, {40, 400}} {
		r := Ellipse(c[0], c[1])
		assert.LessOrEqual(t, len(r.Outer.Segs), 12, "%v", c)
		for i := range 2000 {
			p, _ := r.Outer.At(r.Outer.Length() * float64(i) / 2000)
			x, y := (p.X-c[0]/2)/(c[0]/2), p.Y/(c[1]/2)
			// distance to first order: f/|grad f|
			f := x*x + y*y - 1
			g := math.Hypot(2*x/(c[0]/2), 2*y/(c[1]/2))
			require.Less(t, math.Abs(f/g), 0.0101)
		}
	}
	assert.Len(t, Ellipse(60, 30).Outer.Segs, 4)
	assert.Len(t, Ellipse(300, 200).Outer.Segs, 5)
	assert.InDelta(t, 793.2719794645295, Ellipse(300, 200).Outer.Length(), 0.02)
	assert.Len(t, Ellipse(80, 80).Outer.Segs, 2)
}

func TestTaper(t *testing.T) {
	tp := Taper{Length: 300, FootWidth: 70, WidestWidth: 90, WidestAt: 120, TipWidth: 40}
	assert.InDelta(t, 120*80+180*65, tp.Outline().Area(), 1e-9)
	spans(t, tp.Outline(), 300, 90)
	tp.Round = true
	r := tp.Outline()
	spans(t, r, 300, 90)
	smooth(t, r.Outer, 4)
	tp.TipWidth, tp.WidestAt = 500, 290 // a rounding that would swallow the side is left out
	smooth(t, tp.Outline().Outer, 6)
	for _, at := range []float64{0, 300} {
		tp := Taper{Length: 300, FootWidth: 70, WidestWidth: 90, WidestAt: at, TipWidth: 40}
		smooth(t, tp.Outline().Outer, 4)
	}
}

// The best cubic for a quarter circle strays by 1.96e-4 with a leg of 0.551915 (M.
// Goldapp, 1991).
func TestCircleCubic(t *testing.T) {
	leg, off := circleCubic(math.Pi / 2)
	assert.InDelta(t, 0.551915, leg, 2e-6)
	assert.InDelta(t, 1.96e-4, off, 1e-6)
	last := off
	for n := 5; n < 12; n++ {
		_, off := circleCubic(2 * math.Pi / float64(n))
		assert.InEpsilon(t, math.Pow(float64(n-1)/float64(n), 6), off/last, 0.1, "as the sixth power of the angle")
		last = off
	}
}
