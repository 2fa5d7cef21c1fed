package surface

import (
	"math"
	"sort"

	"springrib/internal/plane"
)

// Net is where a panel lies flat whose scores run as they like: by lines across it in order, each at
// its place u along, from one rail to the other. Between two lines a flat is plane, so that its
// places are shared in proportion. Beyond its ends the net goes on as it begins, carried along.
type Net struct {
	U     []float64
	Lines [][2]plane.Point
	Width float64 // what a place past the first rail is told of at the second, mm
	// Bends are the runs of lines, first and last, between which the rails are smooth; from one run
	// to the next they run straight. A run may be one line alone, where the rails have a corner.
	Bends [][2]int
}

// End is the last place along.
func (n *Net) End() float64 { return n.U[len(n.U)-1] }

// Place returns the place u along, so far past the first rail.
func (n *Net) Place(u, past float64) plane.Point {
	switch {
	case u > n.End()+Flush:
		return n.Turn().Apply(n.Place(u-n.End(), past))
	case u < -Flush:
		back, _ := n.Turn().Inverse()
		return back.Apply(n.Place(u+n.End(), past))
	}
	i := min(max(sort.SearchFloat64s(n.U, u), 1), len(n.U)-1)
	a, b := n.Lines[i-1], n.Lines[i]
	f := (u - n.U[i-1]) / (n.U[i] - n.U[i-1])
	return a[0].Lerp(b[0], f).Lerp(a[1].Lerp(b[1], f), past/n.Width)
}

// Turn carries what lies at the start of the net to its end: once round, where it closes.
func (n *Net) Turn() plane.Affine {
	a, b := n.Lines[0], n.Lines[len(n.Lines)-1]
	return motion(a[0], a[1], b[0], b[1])
}

// shortest is the least straight beside a bend that is a line of its own, mm: what is shorter becomes
// part of the bend, for no tool follows it.
const shortest = 0.05

// Rail returns the line at a distance past the first rail between two places along: smooth along each
// bend, through its places at the lines, and straight between.
func (n *Net) Rail(past, from, to float64) plane.Source {
	lo, hi := math.Min(from, to), math.Max(from, to)
	var out rail
	last := n.Place(lo, past)
	line := func(p plane.Point) {
		if p.Dist(last) > shortest || len(out) == 0 && p == n.Place(hi, past) {
			out = append(out, plane.LineSeg(last, p).Stretch())
			last = p
		}
	}
	for _, b := range n.Bends {
		u0, u1 := math.Max(lo, n.U[b[0]]), math.Min(hi, n.U[b[1]])
		if u1-u0 < 1e-9 {
			if b[0] == b[1] && n.U[b[0]] > lo && n.U[b[0]] < hi { // one line alone is a corner
				line(n.Place(u0, past))
			}
			continue
		}
		line(n.Place(u0, past))
		us, pts := []float64{u0}, []plane.Point{last}
		add := func(u float64) { us, pts = append(us, u), append(pts, n.Place(u, past)) }
		for i := b[0]; i <= b[1]; i++ {
			if n.U[i] > u0+1e-9 && n.U[i] < u1-1e-9 {
				add(n.U[i])
			}
		}
		add(u1)
		last = pts[len(pts)-1]
		if len(pts) == 2 {
			out = append(out, plane.LineSeg(pts[0], pts[1]).Stretch())
			continue
		}
		out = append(out, smooth(us, pts))
	}
	line(n.Place(hi, past))
	if to < from {
		return out.back()
	}
	return out
}

// rail is a line in stretches.
type rail []plane.Stretch

func (r rail) Stretches() []plane.Stretch { return r }

func (r rail) Loop() bool { return false }

// back is the rail run the other way.
func (r rail) back() rail {
	out := make(rail, 0, len(r))
	for i := len(r) - 1; i >= 0; i-- {
		st := r[i]
		if st.Exact != nil {
			out = append(out, st.Exact.Reverse().Stretch())
			continue
		}
		out = append(out, plane.Stretch{
			At: func(t float64) (p, d plane.Point) {
				p, d = st.At(1 - t)
				return p, d.Mul(-1)
			},
			Bend: func(t float64) plane.Point { return st.Bend(1 - t) },
		})
	}
	return out
}

// held returns a slope that makes the cubic over a chord run neither back nor past its end: at most
// three times as steep (F. N. Fritsch, R. E. Carlson, Monotone piecewise cubic interpolation, SIAM
// Journal on Numerical Analysis 17 (1980)), and never against it.
func held(slope, secant plane.Point) plane.Point {
	switch a, one := slope.Dot(secant), secant.Dot(secant); {
	case a <= 0:
		return secant
	case a > 3*one:
		return slope.Mul(3 * one / a)
	}
	return slope
}

// smooth returns the curve through places at parameters us: between two of them the cubic that heads
// at each as the parabola through it and its neighbours does.
func smooth(us []float64, pts []plane.Point) plane.Stretch {
	n := len(pts)
	slope := make([]plane.Point, n)
	secant := func(i int) plane.Point { return pts[i+1].Sub(pts[i]).Mul(1 / (us[i+1] - us[i])) }
	for i := 1; i+1 < n; i++ {
		h, k := us[i]-us[i-1], us[i+1]-us[i]
		slope[i] = secant(i - 1).Mul(k / (h + k)).Add(secant(i).Mul(h / (h + k)))
	}
	slope[0] = secant(0).Mul(2).Sub(slope[1])
	slope[n-1] = secant(n - 2).Mul(2).Sub(slope[n-2])
	for i := range slope {
		if i > 0 {
			slope[i] = held(slope[i], secant(i-1))
		}
		if i+1 < n {
			slope[i] = held(slope[i], secant(i))
		}
	}
	long := us[n-1] - us[0]
	in := func(t float64) (i int, h, g float64) {
		u := us[0] + long*t
		i = min(max(sort.SearchFloat64s(us, u), 1), n-1) - 1
		h = us[i+1] - us[i]
		return i, h, (u - us[i]) / h
	}
	return plane.Stretch{
		At: func(t float64) (p, d plane.Point) {
			i, h, g := in(t)
			f := 1 - g
			p = pts[i].Mul(f * f * (1 + 2*g)).Add(pts[i+1].Mul(g * g * (1 + 2*f))).Add(slope[i].Mul(h * g * f * f)).Sub(slope[i+1].Mul(h * g * g * f))
			d = pts[i+1].Sub(pts[i]).Mul(6 * g * f / h).Add(slope[i].Mul(f * (1 - 3*g))).Add(slope[i+1].Mul(g * (3*g - 2)))
			return p, d.Mul(long)
		},
		Bend: func(t float64) plane.Point {
			i, h, g := in(t)
			b := pts[i+1].Sub(pts[i]).Mul((6 - 12*g) / (h * h)).Add(slope[i].Mul((6*g - 4) / h)).Add(slope[i+1].Mul((6*g - 2) / h))
			return b.Mul(long * long)
		},
	}
}
