package main

import (
	"math"

	"springrib/internal/hinge"
)

// solidCase is a panel whose scores don't run on alike, solved as a solid. Lengths are over the
// thickness, moduli over E. X runs along the scores, Y across them, Z up from the uncut face.
//
// A wedge is half of three scores of a cone's flat panel: from its middle score to half way past an
// outer one, between two distances from the apex. A pair is half of a long and a short score of a
// flat panel, from the middle of the one to the middle of the other; the short one begins at X = 0,
// the long one runs on behind it.
type solidCase struct {
	name        string
	depth, wide float64
	ez, g       float64 // 0, 0: isotropic
	from, to    float64 // along the scores; of a wedge, distances from the apex
	turn, fold  float64 // of a wedge: from score to score in the flat, and about each score, rad
	gap         float64 // of a pair: from score to score
}

// solidCases are a wedge and two pairs, of an isotropic sheet and of one soft through its thickness.
func solidCases() []solidCase {
	var out []solidCase
	for _, s := range [][2]float64{{0, 0}, {0.1, 0.06}} {
		out = append(out, solidCase{name: "cone", depth: 0.733, wide: 0.067, ez: s[0], g: s[1], from: 18, to: 45, turn: 1.0 / 30, fold: 1.0 / 30})
		for _, p := range []float64{0.533, 1.333} {
			out = append(out, solidCase{name: "stop", depth: 0.733, wide: 0.067, ez: s[0], g: s[1], from: -4, to: 4 + 6*p, gap: p})
		}
	}
	return out
}

func (c solidCase) law() hinge.Law {
	return refCase{depth: c.depth, wide: c.wide, ez: c.ez, g: c.g}.law()
}

// spacing is the distance from score to score at a place along them.
func (c solidCase) spacing(x float64) float64 {
	if c.turn > 0 {
		return 2 * x * math.Tan(c.turn/2)
	}
	return c.gap
}

// size is how fine a mesh is: the least element at a root and at a tip, by how much each next one is
// longer, and the longest of all across and along, over what is usual.
type size struct{ root, tip, growth, across, along float64 }

var (
	usual  = size{0.0112, 0.1, 1.7, 0.7, 1}
	coarse = size{0.0167, 0.1, 1.7, 1, 1}
)

// gridLine is a line of nodes along the scores: beside a ray at an angle, and further from it by a share
// of what half a land is wider than at the narrow end.
type gridLine struct {
	angle, beside, share float64
	score                int // 1 or 2 in a score or on its wall
}

// solidMesh is the mesh of a solidCase, of elements with a node half way along every edge.
type solidMesh struct {
	solidCase
	cols   []gridLine
	xs, zs []float64
	ids    map[[3]int]int // by place along, column, height
	order  [][3]int
}

// steps returns places from one to another whose steps grow from a first one up to a greatest.
func steps(from, to, first, growth, most float64) []float64 {
	var all []float64
	l, sum, h := math.Abs(to-from), 0.0, first
	for sum < l*(1-1e-9) {
		all = append(all, h)
		sum += h
		h = math.Min(h*growth, most)
	}
	out := []float64{from}
	for _, h := range all {
		out = append(out, out[len(out)-1]+h*(to-from)/sum)
	}
	return out
}

// back returns places in the other order.
func back(v []float64) []float64 {
	out := make([]float64, len(v))
	for i, x := range v {
		out[len(v)-1-i] = x
	}
	return out
}

func (c solidCase) mesh(z size) *solidMesh {
	b := &solidMesh{solidCase: c, ids: map[[3]int]int{}}
	half, mid := c.wide/2, c.spacing(c.from)/2
	under := halves(steps(0, half, z.root, z.growth, 1))
	land := halves(steps(half, mid, z.root, z.growth, 0.2*z.across))
	// beside has the columns from a ray to the middle of the land beside it, on its left or right.
	beside := func(angle, ray, hand float64, score int) []gridLine {
		var out []gridLine
		for _, y := range under {
			out = append(out, gridLine{angle, ray + hand*y, 0, score})
		}
		for _, y := range land[1:] {
			f := (y - half) / (mid - half)
			out = append(out, gridLine{angle, ray + hand*y, hand * f * f, 0})
		}
		return out
	}
	b.cols = beside(0, 0, 1, 1)
	next := beside(c.turn, c.gap, -1, 2)
	for i := len(next) - 2; i >= 0; i-- {
		b.cols = append(b.cols, next[i])
	}
	if c.turn > 0 {
		b.cols = append(b.cols, beside(c.turn, 0, 1, 2)[1:]...)
	}
	web := 1 - c.depth
	b.zs = halves(append(back(steps(web, 0, z.root, z.growth, 0.1*z.across)), steps(web, 1, z.root, z.growth, 0.25*z.across)[1:]...))
	if c.turn > 0 {
		mid := (c.from + c.to) / 2
		b.xs = halves(append(steps(c.from, mid, 3*z.tip, z.growth, 2*z.along), back(steps(c.to, mid, 3*z.tip, z.growth, 2*z.along))[1:]...))
	} else {
		b.xs = halves(append(back(steps(0, c.from, z.tip, z.growth, z.along)), steps(0, c.to, z.tip, z.growth, 0.8*z.along)[1:]...))
	}
	return b
}

// at is the place of a node. A wedge stands as it is bent, free of stress, its cone's axis along Z and
// its first score over X: its uncut face outward.
func (b *solidMesh) at(k [3]int) [3]float64 {
	q, x, z := b.cols[k[1]], b.xs[k[0]], b.zs[k[2]]
	y := q.beside + q.share*(b.spacing(x)-b.spacing(b.from))/2
	if b.turn == 0 {
		return [3]float64{x, y, z}
	}
	// Under a score the sheet turns by and by, along a parabola that runs on into the flats.
	half, under := b.fold/2, b.wide/2
	down, share := math.Abs(y), 1.0
	if down < under {
		down, share = (y*y/under+under)/2, down/under
	}
	sin, cos := math.Sincos(half * math.Copysign(share, y))
	y, z = y*math.Cos(half)-z*sin, down*math.Sin(half)+z*cos
	// Square to the axis, and along it.
	lean := b.lean()
	out, up := x*math.Sin(lean)-z*math.Cos(lean), x*math.Cos(lean)+z*math.Sin(lean)
	sin, cos = math.Sincos(q.angle / b.turn * b.round())
	return [3]float64{out*cos - y*sin, out*sin + y*cos, up}
}

// lean is the angle between a score of a wedge and its axis, round that from score to score about it,
// by what each turns in the flat and folds.
func (c solidCase) lean() float64 {
	return math.Atan(math.Sin(c.turn/2) / math.Cos(c.turn/2) / math.Sin(c.fold/2))
}

func (c solidCase) round() float64 {
	sin, cos := math.Sincos(c.turn / 2)
	out := cos*math.Sin(c.lean()) - sin*math.Sin(c.fold/2)*math.Cos(c.lean())
	return 2 * math.Atan2(sin*math.Cos(c.fold/2), out)
}

// open tells whether the element that ends at a node of corners lies in a score.
func (b *solidMesh) open(i, j, k int) bool {
	s := b.cols[j].score
	return s > 0 && s == b.cols[j-2].score && b.zs[k-1] > 1-b.depth && (s == 1 || b.turn > 0 || b.xs[i-1] > 0)
}
