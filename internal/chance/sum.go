package chance

import (
	"cmp"
	"math"
	"slices"

	"springrib/internal/hinge"
	"springrib/internal/solve"
)

// group is scores that answer alike: n of one bend, and as many of each bend like it.
type group struct {
	Score
	bend   int
	n, all float64
	// moment is W of the package comment, strained and closed go as what the score comes
	// to in the hand; tighter is how much more than its own closing its worst member has.
	moment, strained, closed, tighter float64
}

// sum adds up over everything that scores share.
type sum struct {
	p         Panel
	groups    []group
	turns     []float64 // of each bend
	skins     []node    // score to score
	m         float64   // Weibull modulus
	gamma     float64   // Gamma(1+1/m)
	wider     float64   // d ln strain/d ln w times the relative scatter of w
	ruptures  []node    // mean rupture strain
	asked     []int     // the order in which they are
	table     [][]yield // by group, over skins from low to high, scores as logarithms
	low, high float64
	reach     float64 // of the law: see hinge.Takes
	// Of one common state, by group and node of skins:
	yields [][]yield
	marks  [states][][]mark
	loose  []float64 // by bend: what the sum scatters by in the hand
	// Of one state of the panel in it:
	shares [][]float64 // of a group's scores that have a skin, and hold
	always [][]bool    // they stay open
	steps  []step
	stay   []float64
	kept   []float64
	stale  []bool
}

// mark is one score at one skin in one state: the exponent of the share that breaks at
// the mean rupture strain itself, the width at which it just shuts, and the share of
// scores that have this skin.
type mark struct{ load, shuts, weight float64 }

func newSum(p Panel) *sum {
	s := &sum{p: p, skins: ladder(stepSkin, p.Apart), ruptures: ladder(stepRupture, 1), m: modulus(p.Rupture.Within)}
	s.asked, s.gamma = asking(len(s.ruptures)), gamma(1+1/s.m)
	law := s.law(p.Thickness.Mean, s.meanSkin())
	s.reach = law.Reach()
	s.gather(law)
	s.stay, s.kept, s.stale = make([]float64, len(s.groups)), make([]float64, len(s.groups)), make([]bool, len(s.groups))
	s.tabulate()
	s.wider = s.wideness()
	s.loose = make([]float64, len(s.turns))
	for k := range s.marks {
		s.marks[k] = make([][]mark, len(s.groups))
		for i := range s.groups {
			s.marks[k][i] = make([]mark, len(s.skins))
		}
	}
	s.shares, s.always = make([][]float64, len(s.groups)), make([][]bool, len(s.groups))
	for i := range s.groups {
		s.shares[i], s.always[i] = make([]float64, len(s.skins)), make([]bool, len(s.skins))
	}
	return s
}

func (s *sum) meanSkin() float64 {
	if s.p.FromTable {
		return s.p.Setting.Mean
	}
	return s.p.Thickness.Mean - s.p.Setting.Mean
}

// law returns the law with the skin held to what has one.
func (s *sum) law(t, skin float64) hinge.Law {
	return s.p.Law(t, math.Min(math.Max(skin, leastSkin*t), mostSkin*t), s.p.Width.Mean)
}

// even returns the moment that the laid fold asks for where its neighbours lie as far off
// on either side: a straight does not raise the moment at the last score of a bend.
func even(law hinge.Law, g Score) float64 {
	l, r := g.Left, g.Right
	switch {
	case math.IsInf(l, 1):
		l = r
	case math.IsInf(r, 1):
		r = l
	}
	score, lands := law.Parts(law.Beside(l), law.Beside(r))
	return g.Turn / (score + lands)
}

// wideness returns by how much the strain scatters, relatively, for want of knowing the
// width: that of the worst score at the means.
func (s *sum) wideness() float64 {
	w := s.p.Width
	if !(w.SD > 0) || len(s.groups) == 0 {
		return 0
	}
	off := math.Min(w.SD, 0.5*w.Mean)
	t, h := s.p.Thickness.Mean, s.meanSkin()
	g := s.groups[0]
	for _, o := range s.groups[1:] {
		if o.moment > g.moment {
			g = o
		}
	}
	strain := func(width float64) float64 {
		law := s.p.Law(t, math.Min(math.Max(h, leastSkin*t), mostSkin*t), width)
		return law.Fold(g.Turn, g.Left, g.Right, false).Strain
	}
	return solve.Log(strain(w.Mean+off)/strain(w.Mean-off)) / (2 * off) * w.SD
}

// add adds what one common state of that weight loses in state k. The more strain a sheet
// stands, the fewer crack: above a strain that next to none crack at, and below one that all
// do, nothing is asked.
func (s *sum) add(lost *Chances, k int, weight float64) {
	s.order(k)
	for i := range s.groups {
		for n, m := range s.marks[k][i] {
			s.shares[i][n] = m.weight
		}
	}
	pinch := 1 - s.open()
	lost.Pinch += weight * pinch
	all, no := -1, len(s.ruptures) // up to where all crack, and from where none does
	for _, i := range s.asked {
		z, crack, fail := s.ruptures[i], 0.0, pinch
		switch {
		case i >= no:
		case i <= all:
			crack, fail = 1, 1
		default:
			s.hold(k, z.at)
			crack = 1 - s.sound()
			fail = crack + pinch - crack*pinch
			if apart := min(crack, pinch); apart > negligible*max(crack, pinch) && weight*z.weight*apart > ignored*lost.Fail {
				fail = 1 - s.open()
			}
			if crack < none {
				no = min(no, i)
			}
			if crack > 1-none {
				all = max(all, i)
			}
		}
		lost.Crack += weight * z.weight * crack
		lost.Fail += weight * z.weight * fail
	}
}

// asking is the order in which n rupture strains are asked: the least, then from the middle up
// and from the middle down.
func asking(n int) []int {
	out := []int{0}
	for i := n / 2; i < n; i++ {
		out = append(out, i)
	}
	for i := n/2 - 1; i > 0; i-- {
		out = append(out, i)
	}
	return out[:n]
}

// none is a share of panels too small to be gone after: sums are off by less.
const none = 1e-7

// negligible is the share of one chance that the other must have for their hanging together
// to be reckoned: below, their sum is off by no more than that.
const negligible = 0.01

// ignored is the share of what is lost so far below which nothing is reckoned in one node: at
// most the shares of 17 x 13 nodes come out that much too high.
const ignored = 1e-5

// at returns the mean rupture strain z standard deviations off, the relative one being v.
func (r Rupture) at(v, z float64) float64 {
	if r.LogNormal {
		return r.Mean * solve.Exp(v*z)
	}
	return r.Mean * math.Max(0.01, 1+v*z)
}

// mark works out every group at every skin in the states asked for. In the hand scores share land with
// their neighbours; on the rib each turns as it is made to, and no solver has been asked.
func (s *sum) mark(c common, which []int) {
	yields := s.yields
	least := leastSkin * c.t
	for k, z := range s.skins {
		skin := c.skin + s.p.Apart*z.at
		at, share := s.between(c.t, skin)
		for i := range s.groups {
			yields[i][k] = s.table[i][at].towards(s.table[i][at+1], share)
			yields[i][k].takes = s.takes(&s.groups[i], math.Max(skin, least), math.Max(c.skin, least))
		}
	}
	mean, sq := make([]float64, len(s.groups)), make([]float64, len(s.groups))
	whole, spread := make([]float64, len(s.turns)), make([]float64, len(s.turns))
	for i, g := range s.groups {
		shared := 0.0 // what one takes another loses: of the sum only the mean grows
		for k, z := range s.skins {
			score := yields[i][k].score
			mean[i] += z.weight * score
			sq[i] += z.weight * score * score
			shared += z.weight * score * yields[i][k].takes
		}
		whole[g.bend] += g.n * g.moment * (shared + yields[i][0].lands)
		spread[g.bend] += g.n * g.moment * g.moment * math.Max(0, sq[i]-mean[i]*mean[i])
	}
	for b := range s.loose {
		s.loose[b] = math.Sqrt(spread[b]) / whole[b]
	}
	for i, g := range s.groups {
		for k, z := range s.skins {
			y := yields[i][k]
			all := whole[g.bend] + g.moment*(y.score-mean[i])
			strained := [states]float64{ // the turn that strains a score without its neighbours' land as much
				hand:  g.moment * y.score * s.turns[g.bend] / all,
				glued: g.Turn * y.score / (y.score + y.lands),
			}
			closed := strained
			closed[hand] *= y.takes
			strained[either], closed[either] = math.Max(strained[hand], strained[glued]), math.Max(closed[hand], closed[glued])
			for _, st := range which {
				load := g.Length / s.p.Rupture.Strip * solve.Exp(s.m*solve.Log(s.gamma*strained[st]*y.strain/s.p.Rupture.Mean))
				s.marks[st][i][k] = mark{load: load, shuts: closed[st] * y.lever * g.tighter, weight: z.weight}
			}
		}
	}
}

// hold works out the share of a group's scores that have each skin and hold its strain,
// where the mean rupture strain is z standard deviations off.
func (s *sum) hold(st int, z float64) {
	own := math.Hypot(s.p.Rupture.Relative, s.wider)
	less, bend := 0.0, -1
	for i, g := range s.groups {
		if g.bend != bend {
			v := own
			if st != glued {
				v = math.Hypot(own, s.loose[g.bend])
			}
			less, bend = solve.Power(s.p.Rupture.Mean/s.p.Rupture.at(v, z), s.m), g.bend
		}
		for n, m := range s.marks[st][i] {
			s.shares[i][n] = m.weight * holds(m.load*less)
		}
	}
}

// holds is exp(-x), most often asked where little breaks.
func holds(x float64) float64 {
	if x < 0.02 {
		return 1 - x*(1-x*(1.0/2)*(1-x*(1.0/3)*(1-x*(1.0/4)*(1-x*(1.0/5))))) // what is left out is under x^6/720
	}
	return solve.Exp(-x)
}

// sound returns the share of panels that don't crack.
func (s *sum) sound() float64 {
	logs := 0.0
	for i, g := range s.groups {
		one := 0.0
		for _, share := range s.shares[i] {
			one += share
		}
		logs += g.all * solve.Log(one)
	}
	return solve.Exp(logs)
}

// step is where one more skin of a group's scores stays open as the width grows: z, in
// standard deviations of what is not known of the width, and the share of widths below.
type step struct {
	z, below    float64
	group, skin int
}

// beyond is how many standard deviations off the width is not looked for.
const beyond = 5

// order lists the steps of a state in order of the width, those left out that always stay
// open; these are marked as such.
func (s *sum) order(st int) {
	s.steps = s.steps[:0]
	for i, g := range s.groups {
		for n, m := range s.marks[st][i] {
			sd := s.p.Width.SD
			if st != glued {
				sd = math.Hypot(sd, m.shuts*s.loose[g.bend])
			}
			z := (m.shuts - s.p.Width.Mean) / math.Max(sd, 1e-12)
			s.always[i][n] = g.Opens || z < -beyond
			if !s.always[i][n] && z < beyond {
				s.steps = append(s.steps, step{z, solve.Normal(z), i, n})
			}
		}
	}
	slices.SortStableFunc(s.steps, func(a, b step) int { return cmp.Compare(a.z, b.z) })
}

// open returns the share of panels none of whose mouths shuts, of scores that hold as
// hold has it: the sum over the width, from one step to the next.
func (s *sum) open() float64 {
	stay, kept, stale := s.stay, s.kept, s.stale // kept: logarithms of what stays, where not stale
	clear(stay)
	for i := range s.groups {
		for n, share := range s.shares[i] {
			if s.always[i][n] {
				stay[i] += share
			}
		}
	}
	for i := range stale {
		stale[i] = true
	}
	all := func() float64 {
		logs := 0.0
		for i, g := range s.groups {
			if stale[i] {
				kept[i], stale[i] = g.all*solve.Log(math.Max(stay[i], 0)), false
			}
			logs += kept[i]
		}
		return solve.Exp(logs)
	}
	total, below := 0.0, 0.0
	for _, p := range s.steps {
		if p.below > below+leastStep {
			total += all() * (p.below - below)
			below = p.below
		}
		stay[p.group] += s.shares[p.group][p.skin]
		stale[p.group] = true
	}
	return total + all()*(1-below)
}

// leastStep is the share of widths that steps are put together within: with 500 steps of a
// state the chance is off by less than 1e-6.
const leastStep = 1e-9
