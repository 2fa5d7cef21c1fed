package form

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/plane"
	"springrib/internal/surface"
)

// uneven is a strip of uneven folds, some turning back, on either side of its edge.
func uneven(r *rand.Rand) surface.Strip {
	var cs []surface.Crease
	u := 5.0
	for range 3 + r.IntN(20) {
		u += 1 + 6*r.Float64()
		cs = append(cs, surface.Crease{U: u, Turn: (r.Float64() - 0.3) * 0.2, Height: 3 * r.Float64()})
	}
	return surface.Cylinder(plane.Pt(r.Float64(), r.Float64()), 6*r.Float64(), r.IntN(2) == 0, cs, -40, 40)
}

func near(t *testing.T, want, got surface.Vec) {
	t.Helper()
	require.Less(t, want.Sub(got).Len(), 1e-9, "%v %v", want, got)
}

func same(t *testing.T, want, got surface.Frame) {
	t.Helper()
	near(t, want.Origin, got.Origin)
	near(t, want.U, got.U)
	near(t, want.V, got.V)
	near(t, want.N, got.N)
}

// While the panel is bent, what is folded stays where it will be, what is not is one
// straight piece, and both meet at the fibre that the fold pivots about.
func TestPartlyGoesOnFromTheFoot(t *testing.T) {
	r := rand.New(rand.NewPCG(71, 72))
	for range 200 {
		s := uneven(r)
		n := len(s.Rulings)
		whole := Fold(s)
		folded := r.Float64() * float64(n)
		k := int(folded)
		frames := Partly(s, folded)
		require.Len(t, frames, n+1)
		for i := 0; i <= k; i++ {
			same(t, whole[i], frames[i])
		}
		for i := k + 2; i <= n; i++ {
			same(t, frames[k+1], frames[i])
		}
		ru := s.Rulings[k]
		for _, v := range []float64{-40, 0, 40} {
			near(t, frames[k].At(ru.Flat[0].X, v, ru.Height[0]), frames[k+1].At(ru.Flat[0].X, v, ru.Height[0]))
		}
		turned := math.Acos(math.Max(-1, math.Min(1, frames[k].U.Dot(frames[k+1].U))))
		assert.InDelta(t, math.Abs(ru.Turn)*(folded-float64(k)), turned, 1e-7)
	}
}

func TestPartlyBeginsFlatAndEndsFolded(t *testing.T) {
	s := uneven(rand.New(rand.NewPCG(73, 74)))
	for _, f := range Partly(s, 0) {
		same(t, s.Start, f)
	}
	for _, f := range Partly(s, -3) {
		same(t, s.Start, f)
	}
	for _, folded := range []float64{float64(len(s.Rulings)), 1e9} {
		for i, f := range Partly(s, folded) {
			same(t, Fold(s)[i], f)
		}
	}
}

// The hinge of a ruling, as the page applies it, gives the frames that Partly gives.
func TestHingesPlaceWhatIsStillFlat(t *testing.T) {
	r := rand.New(rand.NewPCG(75, 76))
	for range 100 {
		s := uneven(r)
		whole := Fold(s)
		hinges := Hinges(s)
		require.Len(t, hinges, len(s.Rulings))
		k := r.IntN(len(s.Rulings))
		share := r.Float64()
		same(t, Partly(s, float64(k)+share)[k+1], hinges[k].turn(whole[k], share))
		assert.InDelta(t, 1, hinges[k].Axis.Len(), 1e-12)
	}
}

// A mirrored strip bends as the mirror image: the other side of the edge, every fold
// the other way in space.
func TestPartlyMirrors(t *testing.T) {
	cs := []surface.Crease{{U: 10, Turn: 0.1, Height: 2}, {U: 14, Turn: 0.2, Height: 2.2}, {U: 19, Turn: -0.05, Height: 1.8}}
	left := surface.Cylinder(plane.Pt(1, 2), 0.3, true, cs, -10, 10)
	right := surface.Cylinder(plane.Pt(1, -2), -0.3, false, cs, -10, 10)
	a, b := Partly(left, 1.6), Partly(right, 1.6)
	for i := range a {
		p, q := a[i].At(17, 4, 1), b[i].At(17, 4, 1)
		near(t, surface.Vec{X: p.X, Y: -p.Y, Z: p.Z}, q)
	}
}
