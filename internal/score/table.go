package score

import (
	"math"
	"slices"
	"sort"

	"springrib/internal/hinge"
	"springrib/internal/solve"
)

// table is the spacing by curvature over one side, for stretches whose curvature
// varies: there each of some thousand places would ask for a root of its own. Every
// bound has the widest spacing that it allows by curvature, in logarithms; the least
// of them is the spacing. Of 300,000 at random, 41 were further than 1e-5 from the exact
// root and none further than 2e-4.
type table struct {
	lim           Limits
	side          side
	most          float64 // the edge curvature that it goes to
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

// table returns the spacing that at solves for, tabulated for curvatures of the edge up to
// most, a table made before where there is one.
func (l *Laws) table(lim Limits, sd side, most float64) *table {
	for _, t := range l.tables {
		if t.most >= most && t.side == sd && t.lim.same(lim) {
			return t
		}
	}
	if len(l.tables) >= mostTables {
		l.tables = nil
	}
	t := lim.newTable(sd, roomFor*most, l)
	l.tables = append(l.tables, t)
	return t
}

// mostTables is how many tables are kept: a plan has two for each number of passes, and as
// many again where its scores are laid anew. roomFor is how much further than asked they
// go, for the next curve.
const (
	mostTables = 24
	roomFor    = 1.25
)

// same tells whether two limits are the same.
func (lim Limits) same(b Limits) bool {
	return lim.StandOff == b.StandOff && lim.Fold == b.Fold && lim.Land == b.Land && slices.Equal(lim.Cases, b.Cases)
}

// newTable tabulates the spacing that at solves for, for curvatures of the edge up to most.
func (lim Limits) newTable(sd side, most float64, laws *Laws) *table {
	law := lim.Cases[0].Law
	g := lim.grid()
	t := &table{
		lim: lim, side: sd, most: most,
		widest: Spacing{Pitch: g.most, D: sd.standIn(law, g.most), Bound: ByLaw, Reached: true},
		least:  Spacing{Pitch: g.least, D: sd.standIn(law, g.least), Bound: ByLand},
	}
	sharpest := lim.sharpest(sd)
	columns := make([]*column, len(sharpest))
	for j, s := range sharpest {
		columns[j] = laws.column(s.law, g)
		t.bounds = append(t.bounds, bounding{s.bound, monotone{make([]float64, 0, g.n+1), make([]float64, 0, g.n+1), nil}})
	}
	nominal := laws.column(law, g)
	lnp, ds := make([]float64, 0, g.n+1), make([]float64, 0, g.n+1)
	// From the widest spacing to the least, until all bounds have two knots beyond what is
	// asked for: what lies past those has no part in the values up to it.
	for i, left := 0, len(sharpest); i <= g.n && left > 0; i++ {
		c := nominal.at(i)
		d := sd.fibre(law, c.Neutral)
		lnp, ds = append(lnp, g.ln(i)), append(ds, d)
		left = 0
		for j, s := range sharpest {
			b := &t.bounds[j]
			n := len(b.x)
			if n > 2 && b.x[n-3] > most {
				continue
			}
			left++
			k := math.Min(s.most(columns[j].at(i), d), 1e6) // tighter than a thousandth of a micrometre is all the same
			if k > 0 && (n == 0 || k > b.x[n-1]) {          // nothing is lost where a narrower spacing is sound for no more
				b.x, b.y = append(b.x, k), append(b.y, g.ln(i))
			}
		}
	}
	slices.Reverse(lnp)
	slices.Reverse(ds)
	t.fibre = newMonotone(lnp, ds)
	for j := range t.bounds {
		b := &t.bounds[j]
		for i, k := range b.x {
			b.x[i] = math.Log(k)
		}
		b.monotone = newMonotone(b.x, b.y)
	}
	return t
}

// grid is the spacings of a table, from the widest to the least in even steps of their
// logarithms.
type grid struct {
	least, most float64 // mm
	n           int     // steps
}

func (lim Limits) grid() grid {
	s := lim.Cases[0].Law.Score()
	g := grid{least: s.Width + lim.Land}
	g.most = math.Max(widest*s.Thickness, g.least)
	g.n = max(2, 1+int(math.Ceil(math.Log(g.most/g.least)/math.Log(tableStep))))
	return g
}

// ln returns the logarithm of spacing i, 0 for the widest.
func (g grid) ln(i int) float64 {
	return math.Log(g.least) + math.Log(g.most/g.least)*float64(g.n-i)/float64(g.n)
}

// Laws keeps what laws say at the spacings of tables, so that scores laid again and again
// under the same laws ask for it once. It changes no answer. One is for one at a time.
type Laws struct {
	columns map[lawGrid]*column
	tables  []*table
}

type lawGrid struct {
	law  hinge.Law
	grid grid
}

// column is a law at the spacings of a grid, as far as it was asked for.
type column struct {
	lawGrid
	cells []hinge.Cell // Spacing is 0 where it was not
}

// mostColumns is how many laws are kept: a plan has three for each number of passes.
const mostColumns = 64

func (l *Laws) column(law hinge.Law, g grid) *column {
	key := lawGrid{law, g}
	if c, ok := l.columns[key]; ok {
		return c
	}
	if l.columns == nil || len(l.columns) >= mostColumns {
		l.columns = map[lawGrid]*column{}
	}
	c := &column{key, make([]hinge.Cell, g.n+1)}
	l.columns[key] = c
	return c
}

// at returns the law at spacing i.
func (c *column) at(i int) *hinge.Cell {
	if c.cells[i].Spacing == 0 {
		c.cells[i] = c.law.At(solve.Exp(c.grid.ln(i)))
	}
	return &c.cells[i]
}

// sharp is one condition turned about: the greatest edge curvature at which a spacing of
// the law keeps it, with its fibre d from the contact face.
type sharp struct {
	bound Bound
	law   hinge.Law
	most  func(c *hinge.Cell, d float64) float64
}

// sharpest returns the conditions in the order of tests. Strain, closing and fold go
// as the fibre's curvature; only the height of the flats takes a root.
func (lim Limits) sharpest(sd side) []sharp {
	var out []sharp
	add := func(b Bound, law hinge.Law, turn func(c *hinge.Cell, d float64) float64) {
		out = append(out, sharp{b, law, func(c *hinge.Cell, d float64) float64 { return sd.edge(turn(c, d), d) }})
	}
	for _, c := range lim.Cases {
		if c.Strain > 0 {
			add(ByStrain, c.Law, func(at *hinge.Cell, _ float64) float64 { return c.Strain / at.StrainArm })
		}
	}
	for _, c := range lim.Cases {
		if c.Closing > 0 && sd.closes() {
			add(ByClosing, c.Law, func(at *hinge.Cell, _ float64) float64 {
				return c.Law.Score().Width / (at.Spacing * at.MouthLever * c.Closing)
			})
		}
	}
	law := lim.Cases[0].Law
	if lim.StandOff > 0 {
		add(ByStandOff, law, func(at *hinge.Cell, d float64) float64 { return lim.flattest(sd, at.Spacing, d) })
	}
	if lim.Fold > 0 {
		add(ByFold, law, func(at *hinge.Cell, _ float64) float64 { return lim.Fold / at.Spacing })
	}
	return out
}

// flattest returns the least curvature of the fibre at which flats of the spacing p stand
// off by as much as is accepted.
//
// Over a bulging edge that is p^2 kappa (1 - kappa d)/8 for small turns, more for others,
// and falls again beyond kappa = 1/(2d), where the fibre lies as far from the edge as the
// edge from its centre: the root is sought before that.
func (lim Limits) flattest(sd side, p, d float64) float64 {
	height := func(kappa float64) float64 { return standOff(p*kappa, sd.edge(kappa, d), sd) }
	hi := 3 / p // a flat turned by nearly half a circle
	if sd.wraps {
		hi = math.Min(hi, 0.5/d)
	}
	// The height goes nearly as the curvature where the fibre lies near the edge, so that
	// setting it right in proportion comes there in a few steps.
	kappa := 8 * lim.StandOff / (p * p)
	for range 8 {
		if kappa > hi/2 {
			break
		}
		ratio := lim.StandOff / height(kappa)
		kappa *= ratio
		if math.Abs(ratio-1) < 1e-12 {
			return kappa
		}
	}
	over := func(kappa float64) float64 { return height(kappa)/lim.StandOff - 1 }
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
