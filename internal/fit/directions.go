package fit

import (
	"math"

	"springrib/internal/plane"
)

// directions estimates the unit tangent at each point of a polyline sampled from a
// smooth curve; wrap says that its ends meet smoothly. At each point a cubic
// polynomial over arc length is fitted by least squares to the points in a window
// (Savitzky & Golay, Smoothing and differentiation of data by simplified least
// squares procedures, Analytical Chemistry 36, 1964, for uneven steps); the window
// grows until noise turns the answer by less than a milliradian or the polynomial
// no longer fits.
func directions(pts []plane.Point, wrap bool, tol float64) []plane.Point {
	w := window{pts: pts, wrap: wrap, s: make([]float64, len(pts))}
	for i := 1; i < len(pts); i++ {
		w.s[i] = w.s[i-1] + pts[i].Dist(pts[i-1])
	}
	noise := w.noise()
	out := make([]plane.Point, len(pts))
	for i := range pts {
		out[i] = w.direction(i, noise, tol)
	}
	if wrap {
		out[len(out)-1] = out[0]
	}
	return out
}

const (
	// Windows begin with leastHalf points on either side and end with mostHalf.
	leastHalf, mostHalf = 3, 60
	// misfit is the residual, in scatters, from which the polynomial no longer fits: of a
	// hundred points scattered normally one in 250 windows has one so far off. The
	// tolerance over misfitOver is for points without scatter.
	misfit, misfitOver = 4.5, 50
	// steady is the turn, rad, by which noise may still move the answer; slopeScatter times
	// noise over half the window and the root of its points is twice what it does, for a
	// fitted cubic.
	steady, slopeScatter = 1e-3, 5
)

// window is a polyline with its arc lengths.
type window struct {
	pts  []plane.Point
	s    []float64
	wrap bool
}

// at returns point i and its arc length; i may lie outside when the polyline wraps.
func (w *window) at(i int) (plane.Point, float64) {
	n := len(w.pts) - 1
	switch {
	case i < 0 && w.wrap:
		return w.pts[i+n], w.s[i+n] - w.s[n]
	case i > n && w.wrap:
		return w.pts[i-n], w.s[i-n] + w.s[n]
	}
	return w.pts[i], w.s[i]
}

// noise estimates the scatter of the points about a smooth curve: the root mean
// square of fourth differences, which for pure noise of unit scatter is sqrt(70)
// (sum of the squared binomials 1 4 6 4 1), taken over the calmer half of the curve.
func (w *window) noise() float64 {
	var d []float64
	for i := 4; i < len(w.pts); i++ {
		p := w.pts
		v := p[i].Add(p[i-4]).Sub(p[i-1].Add(p[i-3]).Mul(4)).Add(p[i-2].Mul(6))
		// Across the curve only: uneven steps along it are no noise.
		n := p[i].Sub(p[i-4]).Unit().Left()
		d = append(d, math.Abs(v.Dot(n)))
	}
	if len(d) == 0 {
		return 0
	}
	// The median of |x| is 0.6745 of the scatter for a normal distribution.
	return median(d) / 0.6745 / math.Sqrt(70)
}

// direction returns the tangent at point i.
func (w *window) direction(i int, noise, tol float64) plane.Point {
	last := len(w.pts) - 1
	most := mostHalf
	if w.wrap {
		most = min(most, last/2)
	}
	best := plane.Point{}
	for half := leastHalf; ; half += 1 + half/3 {
		lo, hi := i-min(half, most), i+min(half, most)
		if !w.wrap {
			lo, hi = max(lo, 0), min(hi, last)
		}
		dir, residual := w.fit(i, lo, hi)
		if best != (plane.Point{}) && residual > misfit*noise+tol/misfitOver {
			return best
		}
		best = dir
		_, a := w.at(lo)
		_, b := w.at(hi)
		if half >= most || hi-lo >= last || slopeScatter*noise/((b-a)*math.Sqrt(float64(hi-lo+1))) < steady {
			return best
		}
	}
}

// fit returns the direction at point i of the polynomial of degree up to 3 over arc
// length through the points lo..hi, and its largest residual.
func (w *window) fit(i, lo, hi int) (dir plane.Point, residual float64) {
	p0, s0 := w.at(i)
	_, a := w.at(lo)
	_, b := w.at(hi)
	scale := math.Max(b-s0, s0-a)
	degree := min(3, hi-lo)
	var m [4][6]float64 // normal equations for x and y at once
	for k := lo; k <= hi; k++ {
		p, s := w.at(k)
		u := (s - s0) / scale
		pow := [4]float64{1, u, u * u, u * u * u}
		for r := range degree + 1 {
			for c := range degree + 1 {
				m[r][c] += pow[r] * pow[c]
			}
			m[r][4] += pow[r] * (p.X - p0.X)
			m[r][5] += pow[r] * (p.Y - p0.Y)
		}
	}
	c := solveNormal(m, degree+1)
	for k := lo; k <= hi; k++ {
		p, s := w.at(k)
		u := (s - s0) / scale
		q := c[0].Add(c[1].Add(c[2].Add(c[3].Mul(u)).Mul(u)).Mul(u))
		residual = math.Max(residual, q.Dist(p.Sub(p0)))
	}
	dir = c[1].Unit()
	if dir == (plane.Point{}) {
		p, _ := w.at(lo)
		q, _ := w.at(hi)
		dir = q.Sub(p).Unit()
	}
	return dir, residual
}

// solveNormal solves the n by n positive system in the first n columns of m for its
// two right-hand sides in columns 4 and 5 (Gauss, no pivoting: positive definite).
func solveNormal(m [4][6]float64, n int) (c [4]plane.Point) {
	for k := range n {
		if m[k][k] <= 0 {
			continue
		}
		for r := k + 1; r < n; r++ {
			f := m[r][k] / m[k][k]
			for j := k; j < 6; j++ {
				m[r][j] -= f * m[k][j]
			}
		}
	}
	for k := n - 1; k >= 0; k-- {
		if m[k][k] <= 0 {
			continue
		}
		x, y := m[k][4], m[k][5]
		for j := k + 1; j < n; j++ {
			x -= m[k][j] * c[j].X
			y -= m[k][j] * c[j].Y
		}
		c[k] = plane.Pt(x/m[k][k], y/m[k][k])
	}
	return c
}

// median returns the middle of v, which it reorders.
func median(v []float64) float64 {
	lo, hi, k := 0, len(v)-1, len(v)/2
	for lo < hi { // Hoare's selection
		pivot := v[(lo+hi)/2]
		i, j := lo, hi
		for i <= j {
			for v[i] < pivot {
				i++
			}
			for v[j] > pivot {
				j--
			}
			if i <= j {
				v[i], v[j] = v[j], v[i]
				i++
				j--
			}
		}
		if k <= j {
			hi = j
		} else if k >= i {
			lo = i
		} else {
			break
		}
	}
	return v[k]
}
