package part

import (
	"math"
	"math/rand"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/cut"
	"springrib/internal/plane"
)

func plate(kerf float64, slots ...Slot) Part {
	return NewBase(BaseTask{ID: "base", Name: "base", Outline: plane.RectPath(plane.BoxOf(plane.Pt(0, 0), plane.Pt(120, 80))), Slots: slots, Kerf: kerf, Quantity: 1})
}

// The finished slot is as wide as asked: the tool's path lies half a kerf inside it, that
// of the outline half a kerf outside.
func TestSlotsComeOutAtTheirSize(t *testing.T) {
	p := plate(0.2, Slot{plane.Pt(40, 40), 0.3, 20, 3.1}, Slot{plane.Pt(80, 40), -1, 20, 3.1})
	require.Len(t, p.Work, 3)
	for i := range 2 {
		assert.Equal(t, cut.Inner, p.Work[i].Kind)
		assert.InDelta(t, 19.8*2.9, math.Abs(p.Work[i].Path.Area()), 1e-6)
	}
	assert.Equal(t, cut.Outer, p.Work[2].Kind)
	assert.InDelta(t, 120.2*80.2, math.Abs(p.Work[2].Path.Area()), 1e-6)
	assert.Equal(t, []int{0}, plate(4, Slot{plane.Pt(40, 40), 0, 20, 3.1}).Allowance.Lost, "a cutter wider than the slot can't cut it")
}

// swept tells whether a round cutter that runs along a path reaches q.
func swept(path plane.Path, radius float64, q plane.Point) bool {
	return toChords(path.Flatten(0.02), q) <= radius+1e-6
}

// A square tenon has its corners at the corners of the slot: they must be cut away, and
// nothing further than the corner's own overcut may be.
func TestReliefReachesTheCorners(t *testing.T) {
	const d = 3.175
	s := Slot{plane.Pt(60, 40), 0.7, 24, 6.2}
	p, q := plate(d, s), plate(d, s)
	q.Relieve(d / 2)
	before, after := p.Work[0].Path, q.Work[0].Path
	assert.Equal(t, p.Work[1].Path, q.Work[1].Path, "the outer corners are left alone")
	for _, seg := range s.Path().Segs {
		assert.False(t, swept(before, d/2, seg.A))
		assert.True(t, swept(after, d/2, seg.A))
		out := seg.A.Sub(s.At).Unit()
		assert.False(t, swept(after, d/2, seg.A.Add(out.Mul(0.05))), "no deeper than the corner")
	}
	assert.InDelta(t, before.Length()+8*(d/2*math.Sqrt2-d/2), after.Length(), 1e-6, "out and back at four square corners")
}

func TestReliefAtShoulders(t *testing.T) {
	pts := []plane.Point{plane.Pt(0, 0), plane.Pt(30, 0), plane.Pt(30, -6), plane.Pt(60, -6), plane.Pt(60, 0), plane.Pt(90, 0), plane.Pt(90, 40), plane.Pt(0, 40)}
	p := NewBase(BaseTask{ID: "rib", Outline: plane.Poly(pts...), Kerf: 3, Quantity: 1})
	p.Relieve(1.5)
	for i, q := range pts {
		inside := i == 1 || i == 4
		if inside {
			assert.True(t, swept(p.Work[0].Path, 1.5, q), "%v", q)
		}
	}
	assert.Len(t, p.Work[0].Path.Segs, 8+4)
}

func TestBridgesLeaveMaterial(t *testing.T) {
	rng := rand.New(rand.NewSource(4))
	for range 60 {
		w, h := 10+60*rng.Float64(), 8+40*rng.Float64()
		width, kerf := 0.3+rng.Float64(), 0.1+0.3*rng.Float64()
		n := 1 + rng.Intn(4)
		path := plane.RectPath(plane.BoxOf(plane.Pt(0, 0), plane.Pt(w, h)))
		keep := plane.Open(plane.Pt(0, -kerf/2), plane.Pt(w, -kerf/2)) // along its lower side
		got := Bridged(path, []Spare{{Paths: []plane.Path{keep}, Beside: true}}, width, kerf, n)
		require.NotEmpty(t, got)
		total := 0.0
		for i, g := range got {
			assert.False(t, g.Closed)
			total += g.Length()
			next := got[(i+1)%len(got)]
			a, b := g.End(), next.Start()
			assert.InDelta(t, width+kerf, a.Dist(b), 1e-6, "the tool is round: the bridge is the gap less the kerf")
			assert.Greater(t, a.Y, 1e-9, "never on the kept edge")
			assert.Greater(t, b.Y, 1e-9)
		}
		assert.InDelta(t, path.Length()-float64(len(got))*(width+kerf), total, 1e-6)
		assert.LessOrEqual(t, len(got), n)
	}
	whole := plane.RectPath(plane.BoxOf(plane.Pt(0, 0), plane.Pt(2, 2)))
	assert.Equal(t, []plane.Path{whole}, Bridged(whole, nil, 4, 1, 2), "too short for any")
	assert.Equal(t, []plane.Path{whole}, Bridged(whole, nil, 0.1, 0.1, 0))
}
