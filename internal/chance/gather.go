package chance

import (
	"cmp"
	"math"
	"slices"

	"springrib/internal/hinge"
)

// mostGroups bounds how many kinds of score of a bend are told apart. Along an arc there
// are two; where the radius changes every score is one of its own, and six of them make the
// chance too high by a tenth to a half.
const mostGroups = 6

// gather puts scores that answer alike together. Where there are too many kinds,
// neighbours in strain are put together as if each were the worst of them, in strain and
// in closing, the worst kinds in the smallest lots: the chance comes out a little too
// high, not too low.
func gather(bend []Score, law hinge.Law) []group {
	var out []group
	for _, b := range bend {
		i := slices.IndexFunc(out, func(g group) bool { return alike(g.Score, b) })
		if i < 0 {
			i = len(out)
			out = append(out, newGroup(b, law))
		}
		out[i].n++
	}
	if len(out) <= mostGroups {
		return out
	}
	slices.SortStableFunc(out, func(a, b group) int { return cmp.Compare(b.strained, a.strained) })
	return lots(out)
}

// gather puts the scores of all bends into groups; bends that are alike are one.
func (s *sum) gather(law hinge.Law) {
	starts := []int{0}
	for _, bend := range s.p.Bends {
		groups := gather(bend, law)
		if same := s.like(groups, starts); same >= 0 {
			for i := starts[same]; i < starts[same+1]; i++ {
				s.groups[i].all += s.groups[i].n
			}
			continue
		}
		turn := 0.0
		for _, g := range groups {
			g.bend, g.all = len(s.turns), g.n
			s.groups = append(s.groups, g)
			turn += g.n * g.Turn
		}
		s.turns, starts = append(s.turns, turn), append(starts, len(s.groups))
	}
}

// like returns the bend whose groups are the same, -1 for none: bend b has those from
// starts[b] on.
func (s *sum) like(groups []group, starts []int) int {
	for b := range s.turns {
		own := s.groups[starts[b]:starts[b+1]]
		if slices.EqualFunc(own, groups, func(a, b group) bool { return a.n == b.n && alike(a.Score, b.Score) }) {
			return b
		}
	}
	return -1
}

// newGroup rates a score as it is in the hand where all scores come out as planned.
func newGroup(b Score, law hinge.Law) group {
	g := group{Score: b, moment: even(law, b), tighter: 1}
	x, y := law.Beside(b.Left), law.Beside(b.Right)
	yields, _ := law.Parts(x, y)
	one := law.FoldBetween(1, x, y, true)
	g.strained, g.closed = g.moment*yields*one.Strain, g.moment*yields*one.Lever
	return g
}

// lots merges groups in order of falling strain: lots of 1, 1, 2, 4, ... shares of what
// there is.
func lots(in []group) []group {
	out := make([]group, 0, mostGroups)
	end := 0
	for lot := range mostGroups {
		from := end
		upTo := float64(len(in)) * float64(int(1)<<lot) / float64(int(1)<<(mostGroups-1))
		end = min(max(int(math.Ceil(upTo)), from+1), len(in))
		if from >= end {
			break
		}
		worst := in[from]
		for _, g := range in[from+1 : end] {
			worst.n += g.n
			worst.Length = math.Max(worst.Length, g.Length)
			worst.tighter = math.Max(worst.tighter, g.closed/worst.closed)
			worst.Opens = worst.Opens && g.Opens
		}
		out = append(out, worst)
	}
	return out
}

// near is a call of its own: put in where it is called it costs download.
//
//go:noinline
func near(x, y float64) bool { return x == y || math.Abs(x-y) <= 1e-3*math.Min(x, y) }

// alike tells that two scores answer the same, to a thousandth.
func alike(a, b Score) bool {
	return a.Opens == b.Opens && near(a.Turn, b.Turn) && near(a.Length, b.Length) &&
		(near(a.Left, b.Left) && near(a.Right, b.Right) || near(a.Left, b.Right) && near(a.Right, b.Left))
}
