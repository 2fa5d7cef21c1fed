package chance

import (
	"math"

	"springrib/internal/hinge"
	"springrib/internal/solve"
)

// yield is what a score gives way by in one skin, of plain panel, and the lands beside it;
// strain and lever are those of a turn of 1. takes is what it has of hinge over its own where
// its neighbours leave what was planned (see hinge.Takes).
type yield struct{ score, lands, strain, lever, takes float64 }

// towards returns what lies that share of the way to the next of a table, where scores are
// logarithms: the yield of a score goes about as the inverse of its skin to the square.
func (a yield) towards(b yield, share float64) yield {
	mix := func(x, y float64) float64 { return x + share*(y-x) }
	return yield{solve.Exp(mix(a.score, b.score)), mix(a.lands, b.lands), mix(a.strain, b.strain), mix(a.lever, b.lever), 1}
}

// tabled is how many skins the law is asked at; what lies between them is off by less than
// 1e-3.
const tabled = 33

// tabulate asks the law for every group at skins over all that are reached, in a sheet of
// the mean thickness: what hangs on the thickness alone hangs on the skin's share of it.
func (s *sum) tabulate() {
	t, h := s.p.Thickness.Mean, s.meanSkin()
	sd := math.Hypot(s.p.Setting.SD, s.p.Apart)
	if !s.p.FromTable {
		sd = math.Hypot(sd, s.p.Thickness.SD)
	}
	held := func(h float64) float64 { return math.Min(math.Max(h, leastSkin*t), mostSkin*t) }
	far := math.Max(math.Sqrt2*reach*sd, 1e-3*t)
	s.low, s.high = held(h-far), held(h+far)
	s.table, s.yields = make([][]yield, len(s.groups)), make([][]yield, len(s.groups))
	for i := range s.groups {
		s.table[i], s.yields[i] = make([]yield, tabled), make([]yield, len(s.skins))
	}
	for k := range tabled {
		law := s.law(t, s.low+(s.high-s.low)*float64(k)/(tabled-1))
		for i, g := range s.groups {
			a := law.Beside(g.Left)
			b := a
			if g.Right != g.Left {
				b = law.Beside(g.Right)
			}
			y := &s.table[i][k]
			y.score, y.lands = law.Parts(a, b)
			y.score = solve.Log(y.score)
			one := law.FoldBetween(1, a, b, true)
			y.strain, y.lever = one.Strain, one.Lever
		}
	}
}

// between returns the place of a skin in the table, and the share of the way to the next.
func (s *sum) between(t, skin float64) (at int, share float64) {
	x := (skin*s.p.Thickness.Mean/t - s.low) / (s.high - s.low) * (tabled - 1)
	x = math.Min(math.Max(x, 0), tabled-1)
	at = min(int(x), tabled-2)
	return at, x - float64(at)
}

// takes returns by how much more hinge a score that leaves a skin has than one of its
// neighbours' skin, which are taken as planned: that theirs scatter too makes up a fiftieth of
// what a share scatters by, less than a tenth where scores lie closest.
func (s *sum) takes(g *group, skin, planned float64) float64 {
	left := hinge.Takes(s.reach, skin, planned, g.Left)
	if g.Right == g.Left {
		return left
	}
	return (left + hinge.Takes(s.reach, skin, planned, g.Right)) / 2
}
