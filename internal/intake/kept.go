package intake

import (
	"math"
	"sort"

	"springrib/internal/plane"
)

// MaxPaths is the largest number of separate paths that are mended and guessed at: a panel
// with holes in it has hundreds.
const MaxPaths = 20_000

// keeper gathers the paths of a drawing, of too many the largest.
type keeper struct {
	items []Item
	left  int // out
}

func (k *keeper) add(it Item) {
	it.box = it.Path.Box()
	if k.items = append(k.items, it); len(k.items) >= 2*MaxPaths {
		k.prune()
	}
}

// prune leaves out the smallest of more than MaxPaths paths, of equal ones the last.
func (k *keeper) prune() {
	n := len(k.items)
	if n <= MaxPaths {
		return
	}
	sizes := make([]float64, n)
	for i, it := range k.items {
		sizes[i] = it.box.W() + it.box.H()
	}
	sort.Float64s(sizes)
	least := sizes[n-MaxPaths]
	room := 0 // for those of the least size
	for i := n - MaxPaths; i < n && sizes[i] == least; i++ {
		room++
	}
	out := k.items[:0]
	for _, it := range k.items {
		size := it.box.W() + it.box.H()
		if size == least {
			room--
		}
		if size > least || size == least && room >= 0 {
			out = append(out, it)
		}
	}
	clear(k.items[len(out):])
	k.left += n - len(out)
	k.items = out
}

// Box returns the smallest box that holds it.
func (it *Item) Box() plane.Box {
	if it.box == (plane.Box{}) {
		it.box = it.Path.Box()
	}
	return it.box
}

// Length returns the length of it, within a thousandth and for few segments exactly. It is
// reckoned once.
func (it *Item) Length() float64 {
	if it.length == 0 {
		if len(it.Path.Segs) <= 1000 {
			it.length = it.Path.Length()
		} else {
			it.length = roughLength(it.Path)
		}
	}
	return it.length
}

// roughLength returns the length within a thousandth: of the quarters of each cubic the mean
// of chord and polygon (Gravesen, Adaptive subdivision and the length and energy of Bezier
// curves, Computational Geometry 8, 1997).
func roughLength(p plane.Path) float64 {
	sum := 0.0
	for i := range p.Segs {
		s := &p.Segs[i]
		if s.Kind != plane.Cubic {
			sum += s.Length()
			continue
		}
		a := s.A
		for k := 1.0; k <= 4; k++ {
			t := k / 4
			b := s.Point(t)
			c, d := a.Add(s.Deriv(t-0.25).Mul(1./12)), b.Sub(s.Deriv(t).Mul(1./12))
			sum += (a.Dist(b) + a.Dist(c) + c.Dist(d) + d.Dist(b)) / 2
			a = b
		}
	}
	return math.Max(sum, math.SmallestNonzeroFloat64)
}
