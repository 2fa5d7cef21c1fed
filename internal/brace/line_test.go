package brace

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// bed solves a panel on its glue line by finite differences, n steps of h: with y its
// lift off the rib, EI (y” + kappa) is its moment, the moment's second derivative is
// the pull -k y of the bed, and the ends are free. It returns the greatest pull over
// the width.
func bed(b Bed, kappa func(s float64) float64, length float64, n int) float64 {
	h := length / float64(n)
	k := b.stiffness()
	// Least energy: sum of EI (y”+kappa)^2 h/2 + k y^2 h/2, a five-band matrix.
	a := make([][5]float64, n+1)
	rhs := make([]float64, n+1)
	for i := range a {
		w := h
		if i == 0 || i == n {
			w = h / 2
		}
		a[i][2] += k * w
	}
	for i := 1; i < n; i++ {
		c := [3]float64{1 / (h * h), -2 / (h * h), 1 / (h * h)}
		for p := range 3 {
			for q := range 3 {
				a[i-1+p][2+q-p] += b.EI * h * c[p] * c[q]
			}
			rhs[i-1+p] -= b.EI * h * kappa(float64(i)*h) * c[p]
		}
	}
	for i := range n {
		for r := 1; r <= 2 && i+r <= n; r++ {
			f := a[i+r][2-r] / a[i][2]
			for q := 0; q <= 2; q++ {
				if 2-r+q < 5 {
					a[i+r][2-r+q] -= f * a[i][2+q]
				}
			}
			rhs[i+r] -= f * rhs[i]
		}
	}
	y := make([]float64, n+1)
	most := 0.0
	for i := n; i >= 0; i-- {
		v := rhs[i]
		for q := 1; q <= 2 && i+q <= n; q++ {
			v -= a[i][2+q] * y[i+q]
		}
		y[i] = v / a[i][2]
		most = math.Max(most, math.Abs(y[i]))
	}
	return k * most / b.Width
}

func TestPullOfTheGlueAgainstFiniteDifferences(t *testing.T) {
	for _, b := range []Bed{{EI: 284 * 70, T: 3, EZ: 250, Width: 3}, {EI: 1200 * 40, T: 4, EZ: 900, Width: 6}} {
		const kappa = 1.0 / 80
		length := 16 * b.Reach()
		step := func(s float64) float64 {
			if s < length/2 {
				return kappa
			}
			return 0
		}
		free := PeelAt(kappa, b.EI, 1, b.T, b.EZ, Glue{Width: b.Width, Bond: 1}).Stress
		assert.InEpsilon(t, free, bed(b, step, length, 4000), 0.02, "at the free end of a bend")
		// From one radius to twice that, with the ends out of sight.
		taper := func(s float64) float64 {
			k := kappa / 2
			if s < length/2 {
				k = kappa
			}
			edge := math.Min(1, math.Min(s, length-s)/(length/4))
			return k * (3*edge*edge - 2*edge*edge*edge)
		}
		length = 60 * b.Reach()
		assert.InEpsilon(t, stepPull(b, kappa/2*b.EI), bed(b, taper, length, 8000), 0.05)
		assert.InEpsilon(t, 0.161197*free, stepPull(b, kappa*b.EI), 1e-5)
	}
}

// stepPull is the closed form of stepShare's comment, MPa.
func stepPull(b Bed, dm float64) float64 {
	return stepShare * math.Abs(dm) * math.Sqrt(b.stiffness()/b.EI) / b.Width
}

// A curvature that swells as a wave much longer than the reach is taken as the second
// derivative of the moment says.
func TestPullAlongASwell(t *testing.T) {
	b := Bed{EI: 284 * 70, T: 3, EZ: 250, Width: 3}
	wave := 30 * b.Reach()
	m := func(s float64) float64 { return b.EI / 80 * (1 - math.Cos(2*math.Pi*s/wave)) / 2 }
	most := 0.0
	for i := range 100 {
		most = math.Max(most, b.Along(m, wave*float64(i)/100, b.Span()))
	}
	got := bed(b, func(s float64) float64 { return m(s) / b.EI }, 3*wave, 6000)
	assert.InEpsilon(t, got, most, 0.05)
	assert.Zero(t, b.Along(func(float64) float64 { return 5 }, 0, 1))
	jump := func(s float64) float64 {
		if s > 0 {
			return 7
		}
		return 0
	}
	assert.InEpsilon(t, stepPull(b, 7), b.Along(jump, 1e-6, b.Span()), 1e-9)
}

func TestReleasedSharesThePull(t *testing.T) {
	assert.InDelta(t, 0.01*9/10, Released(0.01, 100, 900), 1e-15)
	assert.InDelta(t, 0.01, Released(0.01, 0, 900), 0)
	// Each beam ends with a moment, and the two are equal: nothing else acts.
	k := Released(0.01, 123, 4567)
	assert.InEpsilon(t, 123*(0.01-0)-123*(0.01-k), 123*k, 1e-12)
	assert.InEpsilon(t, 4567*(0.01-k), 123*k, 1e-9)
}
