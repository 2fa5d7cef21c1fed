package part

import (
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/plane"
)

func TestRectangleIsCutWithFourLines(t *testing.T) {
	a := Allow(Rectangle(100, 50), 0.2)
	require.False(t, a.Failed)
	assert.Len(t, a.Outline.Outer.Segs, 4)
	b := a.Outline.Box()
	assert.InDelta(t, 100.2, b.W(), 1e-9)
	assert.InDelta(t, 50.2, b.H(), 1e-9)
	assert.InDelta(t, 100.2*50.2, a.Outline.Area(), 1e-9)
}

func TestHolesAreCutSmaller(t *testing.T) {
	r := Rectangle(100, 50)
	r.Holes = []plane.Path{RoundHole(plane.Pt(50, 0), 10), SlotHole(plane.Pt(20, 0), 16, 6, 0.3), RoundHole(plane.Pt(80, 0), 0.15)}
	a := Allow(r, 0.2)
	require.False(t, a.Failed)
	require.Len(t, a.Outline.Holes, 2)
	assert.Equal(t, []int{2}, a.Lost, "a hole no wider than the kerf")
	got := []float64{math.Abs(a.Outline.Holes[0].Area()), math.Abs(a.Outline.Holes[1].Area())}
	want := []float64{math.Pi * 4.9 * 4.9, 10*5.8 + math.Pi*2.9*2.9}
	assert.InDelta(t, want[0]+want[1], got[0]+got[1], 1e-6)
	assert.Len(t, a.cuts(), 3)
}

// Cut along the moved line with the kerf, the piece has its own outline again: every
// place of it lies half a kerf from the moved one. Steiner's formula gives the area
// where all corners are round.
func TestEveryOutlineKeepsItsSize(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	shapes := []plane.Region{
		Taper{Length: 300, FootWidth: 70, WidestWidth: 90, WidestAt: 120, TipWidth: 40, Round: true}.Outline(),
		Lens{Length: 120, Width: 40, FootRound: 5}.Outline(), Ellipse(200, 90), Sector{Inner: 30, Outer: 90, Angle: 2}.Outline(),
		RoundedRectangle(100, 50, 8),
	}
	for _, s := range shapes {
		kerf := 0.1 + 0.3*r.Float64()
		a := Allow(s, kerf)
		require.False(t, a.Failed)
		pts := a.Outline.Outer.Flatten(0.0002)
		for i := range 300 {
			q, _ := s.Outer.At(s.Outer.Length() * (float64(i) + 0.5) / 300)
			require.InDelta(t, kerf/2, polyDistance(pts, q), 0.003)
		}
	}
	round := RoundedRectangle(100, 50, 8)
	a := Allow(round, 0.3)
	assert.InDelta(t, round.Area()+round.Outer.Length()*0.15+math.Pi*0.15*0.15, a.Outline.Area(), 1e-9)
	assert.Len(t, a.Outline.Outer.Segs, 8)
}

func polyDistance(pts []plane.Point, q plane.Point) float64 {
	best := math.Inf(1)
	for i := range pts {
		a, b := pts[i], pts[(i+1)%len(pts)]
		d := b.Sub(a)
		if l := d.Dot(d); l > 0 {
			best = math.Min(best, q.Dist(a.Add(d.Mul(math.Max(0, math.Min(1, q.Sub(a).Dot(d)/l))))))
		}
	}
	return best
}

func TestNoKerfNoChange(t *testing.T) {
	r := Rectangle(10, 10)
	assert.Equal(t, r, Allow(r, 0).Outline)
}

// An outline told as it is seen comes with sides that bend at a radius of hundreds of
// metres; a wide kerf is allowed for all the same.
func TestAllowBesideNextToStraightArcs(t *testing.T) {
	r := region(t, `M 0 -22.94 A 373053.2472134 0 1 159.57357286978572 -71.43417768009658 A 3.123152652399 0 1 163.60729422581542 -68.44931756447845
		L 163.60729422581542 -28.74 A 538784.276795 0 1 86.64001983188761 -0.48 A 679443.7667255 0 1 163.60729422581542 20.04 L 163.60729422581542 68.15
		A 893807.8990067 0 1 0 46.59 Z
		M 154.86336463015923 22.07 A 2.631927887522 0 0 149.59950885511566 22.07 A 2.631927887522 0 0 154.86336463015923 22.07 Z`)
	a := Allow(r, 2.4)
	require.False(t, a.Failed)
	require.Len(t, a.Outline.Holes, 1)
	edge := r.Outer.Flatten(0.001)
	for _, q := range a.Outline.Outer.Flatten(0.5) {
		assert.GreaterOrEqual(t, polyDistance(edge, q), 1.2-0.01)
	}
}

// region reads an outline and then its holes.
func region(t *testing.T, text string) plane.Region {
	t.Helper()
	var r plane.Region
	for i, one := range strings.SplitAfter(text, "Z") {
		if strings.TrimSpace(one) == "" {
			continue
		}
		p, err := plane.Parse(one)
		require.NoError(t, err)
		if i == 0 {
			r.Outer = p
		} else {
			r.Holes = append(r.Holes, p)
		}
	}
	return r.Normal()
}
