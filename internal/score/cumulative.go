package score

import (
	"math"
	"sort"

	"springrib/internal/curve"
)

// cumulative is the running integral of a density over one curved stretch, kept at
// nodes and inverted by a monotone cubic between them.
type cumulative struct {
	s, f, d []float64 // place, integral up to it, density there
}

// newCumulative integrates density(s, |kappa|) along the stretch. Constant curvature
// needs two nodes and is exact; otherwise each of the intervals is integrated by
// Simpson's rule.
func newCumulative(st curve.Stretch, density func(s, k float64) float64) cumulative {
	l := st.End - st.Start
	at := func(s float64) float64 { return density(s, math.Abs(st.Shape.Kappa(s))) }
	// A node to each flat or two follows the spacing as closely as the flats do.
	d0, d1, d2, d3, d4 := at(0), at(l/4), at(l/2), at(3*l/4), at(l)
	n := min(max(32, ceil(l*(d0+d1+d2+d3+d4)/5)), 256)
	if d0 == d1 && d0 == d2 && d0 == d3 && d0 == d4 {
		n = 1
	}
	c := cumulative{s: []float64{0}, f: []float64{0}, d: []float64{at(0)}}
	for i := 1; i <= n; i++ {
		a, b := l*float64(i-1)/float64(n), l*float64(i)/float64(n)
		db := at(b)
		sum := (b - a) / 6 * (c.d[i-1] + 4*at((a+b)/2) + db)
		c.s, c.f, c.d = append(c.s, b), append(c.f, c.f[i-1]+sum), append(c.d, db)
	}
	return c
}

func (c cumulative) total() float64 { return c.f[len(c.f)-1] }

// inverse returns the place where the integral reaches y: a step by the mean density
// of the interval, corrected by one Newton step with the density interpolated.
func (c cumulative) inverse(y float64) float64 {
	i := sort.SearchFloat64s(c.f, y)
	i = min(max(i, 1), len(c.f)-1)
	h := c.s[i] - c.s[i-1]
	g := (y - c.f[i-1]) / (c.f[i] - c.f[i-1])
	mean := (c.f[i] - c.f[i-1]) / h
	d0, d1 := c.d[i-1], c.d[i]
	for range 4 {
		// integral of the density a + b x + c x^2 with the interval's true total
		q := 6*mean - 3*(d0+d1) // bubble term so that the integral is exact
		val := h * (d0*g + (d1-d0)*g*g/2 + q*(g*g/2-g*g*g/3))
		den := h * (d0 + (d1-d0)*g + q*(g-g*g))
		if den <= 0 {
			break
		}
		g -= (val - (y - c.f[i-1])) / den
	}
	return c.s[i-1] + h*clamp(g, 0, 1)
}
