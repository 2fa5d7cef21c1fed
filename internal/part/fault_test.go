package part

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/plane"
)

func poly(xy ...float64) plane.Path {
	var pts []plane.Point
	for i := 0; i+1 < len(xy); i += 2 {
		pts = append(pts, plane.Pt(xy[i], xy[i+1]))
	}
	return plane.Poly(pts...)
}

func circle(x, y, d float64) plane.Path { return RoundHole(plane.Pt(x, y), d) }

func TestFaults(t *testing.T) {
	square := poly(0, 0, 100, 0, 100, 100, 0, 100)
	for _, c := range []struct {
		name  string
		outer plane.Path
		holes []plane.Path
		want  []Fault // Kind, Hole, Other
	}{
		{"square", square, nil, nil},
		{"bow tie", poly(0, 0, 100, 100, 100, 0, 0, 100), nil, []Fault{{Kind: Crosses, Hole: -1, Other: -1}}},
		{"corner on a side", poly(0, 0, 100, 0, 100, 100, 50, 0, 0, 100), nil, []Fault{{Kind: Touches, Hole: -1, Other: -1}}},
		{"two squares at a corner", poly(0, 0, 50, 0, 50, 50, 100, 50, 100, 100, 50, 100, 50, 50, 0, 50), nil, []Fault{{Kind: Touches, Hole: -1, Other: -1}}},
		{"a hair", poly(0, 0, 100, 0, 100, 50, 150, 50, 100, 50.005, 100, 100, 0, 100), nil, []Fault{{Kind: Touches, Hole: -1, Other: -1}}},
		{"a hair and back exactly", poly(0, 0, 100, 0, 150, 0, 100, 0, 100, 100, 0, 100), nil, []Fault{{Kind: Touches, Hole: -1, Other: -1}}},
		{"a spike that is wide enough", poly(0, 0, 100, 0, 100, 50, 150, 51, 100, 52, 100, 100, 0, 100), nil, nil},
		{"rectangle twice round", plane.Path{Closed: true, Segs: append(square.Segs, square.Segs...)}, nil, []Fault{{Kind: Touches, Hole: -1, Other: -1}}},
		{"hole", square, []plane.Path{circle(50, 50, 30)}, nil},
		{"hole outside", square, []plane.Path{circle(150, 50, 30)}, []Fault{{Kind: HoleOutside}}},
		{"hole through the edge", square, []plane.Path{circle(100, 50, 30)}, []Fault{{Kind: HoleAtEdge, Hole: -1}}},
		{"hole touching the edge from within", square, []plane.Path{circle(85, 50, 30)}, []Fault{{Kind: HoleAtEdge, Hole: -1}}},
		{"hole touching the edge from without", square, []plane.Path{circle(115, 50, 30)}, []Fault{{Kind: HoleAtEdge, Hole: -1}, {Kind: HoleOutside}}[:1]},
		{"hole near the edge", square, []plane.Path{circle(83, 50, 30)}, []Fault{{Kind: HoleNear, Hole: -1}}},
		{"hole as large as the panel", square, []plane.Path{circle(50, 50, 300)}, []Fault{{Kind: HoleOutside}}},
		{"holes apart", square, []plane.Path{circle(30, 50, 20), circle(70, 50, 20)}, nil},
		{"holes overlap", square, []plane.Path{circle(40, 50, 20), circle(55, 50, 20)}, []Fault{{Kind: HolesMeet, Hole: 0, Other: 1}}},
		{"holes touch", square, []plane.Path{circle(40, 50, 20), circle(60, 50, 20)}, []Fault{{Kind: HolesMeet, Hole: 0, Other: 1}}},
		{"holes near", square, []plane.Path{circle(40, 50, 20), circle(61.5, 50, 20)}, []Fault{{Kind: HoleNear, Hole: 0, Other: 1}}},
		{"hole in a hole", square, []plane.Path{circle(50, 50, 40), circle(50, 50, 10)}, []Fault{{Kind: HolesMeet, Hole: 0, Other: 1}}},
		{"slot across the panel", square, []plane.Path{SlotHole(plane.Pt(50, 50), 140, 10, 0)}, []Fault{{Kind: HoleAtEdge, Hole: -1}}},
		{"nothing", poly(0, 0, 100, 0, 50, 0), nil, []Fault{{Kind: Touches, Hole: -1, Other: -1}, {Kind: NoArea, Hole: -1, Other: -1}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := Faults(plane.Region{Outer: c.outer, Holes: c.holes}, 3)
			require.Len(t, got, len(c.want), "%+v", got)
			for i, w := range c.want {
				assert.Equal(t, w.Kind, got[i].Kind)
				assert.Equal(t, w.Hole, got[i].Hole)
				if w.Kind != HoleOutside {
					assert.Equal(t, w.Other, got[i].Other)
				}
			}
		})
	}
}

func TestFaultsTellThePlace(t *testing.T) {
	at := func(r plane.Region) plane.Point {
		f := Faults(r, 3)
		require.NotEmpty(t, f)
		return f[0].At
	}
	assert.Less(t, at(plane.Region{Outer: poly(0, 0, 100, 100, 100, 0, 0, 100)}).Dist(plane.Pt(50, 50)), 1e-9)
	assert.Less(t, at(plane.Region{Outer: poly(0, 0, 100, 0, 100, 100, 50, 0, 0, 100)}).Dist(plane.Pt(50, 0)), 1e-9)
	near := Faults(plane.Region{Outer: poly(0, 0, 100, 0, 100, 100, 0, 100), Holes: []plane.Path{circle(83, 40, 30)}}, 3)[0]
	assert.InDelta(t, 2, near.Gap, 2*faultFlat)
	assert.Less(t, near.At.Dist(plane.Pt(99, 40)), 1.0, "half way between hole and edge")
}

// Every shape that this package makes is free of faults, and stays so moved, turned over
// and scaled; a hole drawn over its edge never is.
func TestShapesAreSound(t *testing.T) {
	r := rand.New(rand.NewPCG(51, 52))
	for range 300 {
		w := 30 + 200*r.Float64()
		l := w + 20 + 200*r.Float64()
		region := map[int]func() plane.Region{
			0: func() plane.Region { return Ellipse(l, w) },
			1: func() plane.Region { return Lens{Length: l, Width: w}.Outline() },
			2: func() plane.Region {
				return Lens{Length: l, Width: w, FootRound: w * 0.45 * r.Float64(), TipRound: w * 0.45 * r.Float64()}.Outline()
			},
			3: func() plane.Region {
				return Sector{Inner: l * r.Float64(), Outer: l + w, Angle: 0.1 + 5*r.Float64()}.Outline()
			},
			4: func() plane.Region { return RoundedRectangle(l, w, math.Min(l, w)/2*r.Float64()) },
			5: func() plane.Region {
				return Taper{Length: l, FootWidth: w, WidestWidth: w * 1.2, WidestAt: l / 3, TipWidth: w / 2, Round: true}.Outline()
			},
		}[r.IntN(6)]()
		require.Empty(t, Faults(region, 1))
		moved := region.Apply(plane.Rotate(6 * r.Float64())).Apply(plane.Scale(2, -2)).Apply(plane.Translate(50, -20))
		require.Empty(t, Faults(moved, 1))
		p, _ := region.Outer.At(region.Outer.Length() * r.Float64())
		region.Holes = []plane.Path{circle(p.X, p.Y, 5)}
		require.Equal(t, HoleAtEdge, Faults(region, 1)[0].Kind, "%v %+v", p, region)
	}
}

func FuzzFaults(f *testing.F) {
	f.Add([]byte{0, 0, 100, 0, 100, 100, 0, 100})
	f.Add([]byte{0, 0, 100, 100, 100, 0, 0, 100, 7, 7})
	f.Add([]byte{0, 0, 0, 0, 9, 9})
	f.Fuzz(func(t *testing.T, b []byte) {
		var xy []float64
		for _, v := range b {
			xy = append(xy, float64(v))
		}
		if len(b) < 6 || len(b) > 200 {
			return
		}
		// Whatever has no fault is one simple outline: flattened, the winding number of
		// any place is 0 or 1.
		p := poly(xy...)
		if len(Faults(plane.Region{Outer: p}, 1)) > 0 || len(p.Segs) == 0 {
			return
		}
		if p.Area() < 0 {
			p = p.Reverse()
		}
		for i := range 16 {
			w := p.Winding(plane.Pt(float64(i*16)+0.37, float64(i*29%256)+0.41))
			if w != 0 && w != 1 {
				t.Fatalf("winding %d of %v", w, xy)
			}
		}
	})
}

func BenchmarkFaults(b *testing.B) {
	r := Ellipse(400, 200)
	r.Holes = []plane.Path{circle(200, 0, 40), circle(120, 30, 12)}
	for b.Loop() {
		Faults(r, 3)
	}
}
