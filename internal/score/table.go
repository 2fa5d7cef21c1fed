package score

import (
	"math"
	"sort"

	"springrib/internal/solve"
)

// table is the spacing by curvature over one side, for stretches whose curvature
// varies: there each of some thousand places would ask for a root of its own. Every
// bound has the widest spacing that it allows by curvature, in logarithms; the least
// of them is the spacing. It is within 1e-5 of the exact root.
type table struct {
	bounds        []bounding
	fibre         monotone // contact face to fibre, by the logarithm of the spacing
	widest, least Spacing
}

// bounding is one bound's widest spacing: ln p by ln k.
type bounding struct {
	bound Bound
	monotone
}

// tableStep is the ratio of neighbouring spacings in a table.
const tableStep = 1.03

// newTable tabulates the spacing that at solves for.
func (lim Limits) newTable(sd side) *table {
	law := lim.Cases[0].Law
	least := law.Score().Width + lim.Land
	most := math.Max(widest*law.Score().Thickness, least)
	t := &table{
		widest: Spacing{Pitch: most, D: sd.standIn(law, most), Bound: ByLaw, Reached: true},
		least:  Spacing{Pitch: least, D: sd.standIn(law, least), Bound: ByLand},
	}
	n := max(2, 1+int(math.Ceil(math.Log(most/least)/math.Log(tableStep))))
	var lnp, ps, ds []float64
	for i := range n + 1 {
		x := math.Log(least) + math.Log(most/least)*float64(i)/float64(n)
		p := solve.Exp(x)
		lnp, ps, ds = append(lnp, x), append(ps, p), append(ds, sd.standIn(law, p))
	}
	t.fibre = newMonotone(lnp, ds)
	for _, s := range lim.sharpest(sd) {
		b := bounding{bound: s.bound}
		last := 0.0
		for i := n; i >= 0; i-- {
			k := math.Min(s.most(ps[i], ds[i]), 1e6) // tighter than a thousandth of a micrometre is all the same
			if k > last {                            // nothing is lost where a narrower spacing is sound for no more
				last = k
				b.x, b.y = append(b.x, math.Log(k)), append(b.y, lnp[i])
			}
		}
		b.monotone = newMonotone(b.x, b.y)
		t.bounds = append(t.bounds, b)
	}
	return t
}

// sharp is one condition turned about: the greatest edge curvature at which the
// spacing p keeps it, with its fibre d from the contact face.
type sharp struct {
	bound Bound
	most  func(p, d float64) float64
}

// sharpest returns the conditions in the order of tests. Strain, closing and fold go
// as the fibre's curvature; only the height of the flats takes a root.
func (lim Limits) sharpest(sd side) []sharp {
	var out []sharp
	add := func(b Bound, turn func(p, d float64) float64) {
		out = append(out, sharp{b, func(p, d float64) float64 { return sd.edge(turn(p, d), d) }})
	}
	for _, c := range lim.Cases {
		if c.Strain > 0 {
			add(ByStrain, func(p, _ float64) float64 { return c.Strain / c.Law.Strain(p, 1) })
		}
	}
	for _, c := range lim.Cases {
		if c.Closing > 0 && sd.closes() {
			add(ByClosing, func(p, _ float64) float64 {
				return c.Law.Score().Width / (p * c.Law.MouthLever(p) * c.Closing)
			})
		}
	}
	if lim.StandOff > 0 {
		add(ByStandOff, func(p, d float64) float64 { return lim.flattest(sd, p, d) })
	}
	if lim.Fold > 0 {
		add(ByFold, func(p, _ float64) float64 { return lim.Fold / p })
	}
	return out
}

// flattest returns the fibre's curvature at which flats of the spacing p stand off by
// as much as is accepted.
func (lim Limits) flattest(sd side, p, d float64) float64 {
	over := func(kappa float64) float64 { return standOff(p*kappa, sd.edge(kappa, d), sd)/lim.StandOff - 1 }
	hi := 3 / p // a flat turned by nearly half a circle
	if sd.wraps {
		hi = math.Min(hi, 0.999/d)
	}
	if k, ok := solve.Root(over, 1e-9*hi, hi, 1e-12*hi); ok {
		return k
	}
	return math.Inf(1)
}

// edge returns the curvature of the edge under a fibre of curvature kappa: the inverse
// of turn.
func (sd side) edge(kappa, d float64) float64 {
	if !sd.wraps {
		if math.IsInf(kappa, 1) {
			return 1 / d
		}
		return kappa / (1 + kappa*d)
	}
	if kappa*d >= 1 {
		return math.Inf(1)
	}
	return kappa / (1 - kappa*d)
}

// at returns the spacing at edge curvature k.
func (t *table) at(k float64) Spacing {
	if k <= 0 {
		return t.widest
	}
	x, best, bound := math.Log(k), math.Inf(1), ByLaw
	for _, b := range t.bounds {
		if x > b.x[len(b.x)-1] {
			out := t.least
			out.Failed = b.bound
			return out
		}
		if y := b.at(x); x > b.x[0] && y < best {
			best, bound = y, b.bound
		}
	}
	if bound == ByLaw {
		return t.widest
	}
	return Spacing{Pitch: solve.Exp(best), D: t.fibre.at(best), Bound: bound, Reached: true}
}

// monotone is a smooth function through points, monotone where they are (F. N. Fritsch
// and R. E. Carlson, Monotone piecewise cubic interpolation, SIAM J. Numer. Anal. 17,
// 1980).
type monotone struct{ x, y, m []float64 }

func newMonotone(x, y []float64) monotone { return monotone{x, y, monotoneSlopes(x, y)} }

// at returns the value at x, that of the nearer end beyond the points.
func (f monotone) at(x float64) float64 {
	n := len(f.x)
	i := sort.SearchFloat64s(f.x, x)
	switch {
	case i == 0:
		return f.y[0]
	case i == n:
		return f.y[n-1]
	}
	return hermite(f.x[i-1], f.x[i], f.y[i-1], f.y[i], f.m[i-1], f.m[i], x)
}

// slope returns the derivative at x, that of the nearer end beyond the points.
func (f monotone) slope(x float64) float64 {
	n := len(f.x)
	i := sort.SearchFloat64s(f.x, x)
	switch {
	case i == 0:
		return f.m[0]
	case i == n:
		return f.m[n-1]
	}
	h := f.x[i] - f.x[i-1]
	g := (x - f.x[i-1]) / h
	return 6*g*(1-g)*(f.y[i]-f.y[i-1])/h + (1-g)*(1-3*g)*f.m[i-1] + g*(3*g-2)*f.m[i]
}

// hermite returns the cubic between (x0, y0) and (x1, y1) with slopes m0 and m1 at x.
func hermite(x0, x1, y0, y1, m0, m1, x float64) float64 {
	h := x1 - x0
	g := (x - x0) / h
	f := 1 - g
	return y0*f*f*(1+2*g) + y1*g*g*(1+2*f) + h*g*f*(m0*f-m1*g)
}

// monotoneSlopes returns slopes at the knots for which the cubics between them are
// monotone where the values are: three-point differences, limited to three times the
// smaller neighbour and zero at an extreme.
func monotoneSlopes(x, y []float64) []float64 {
	n := len(x)
	m := make([]float64, n)
	if n < 2 {
		return m
	}
	secant := func(i int) float64 { return (y[i+1] - y[i]) / (x[i+1] - x[i]) }
	limit := func(m, a, b float64) float64 {
		if a*b <= 0 {
			return 0
		}
		return math.Copysign(math.Min(math.Abs(m), 3*math.Min(math.Abs(a), math.Abs(b))), a)
	}
	for i := 1; i+1 < n; i++ {
		a, b := secant(i-1), secant(i)
		h0, h1 := x[i]-x[i-1], x[i+1]-x[i]
		m[i] = limit((a*h1+b*h0)/(h0+h1), a, b)
	}
	if n == 2 {
		m[0] = secant(0)
		m[1] = m[0]
		return m
	}
	m[0] = limit((3*secant(0)-m[1])/2, secant(0), secant(0))
	m[n-1] = limit((3*secant(n-2)-m[n-2])/2, secant(n-2), secant(n-2))
	return m
}
