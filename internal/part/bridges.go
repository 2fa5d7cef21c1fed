package part

import (
	"math"
	"sort"

	"springrib/internal/plane"
)

// Spare is what bridges keep clear of: paths, and how far the material of a bridge stays
// from them, mm.
type Spare struct {
	Paths []plane.Path
	Clear float64
	// Beside asks for half a bridge of clear edge on both sides as well: a glued edge is
	// pared there.
	Beside bool
}

// Bridged cuts gaps into a closed tool path, so that bridges of sound material as wide as
// width hold the part: the gap is wider by the kerf, for the tool is round. There are n
// of them spread over the path, each on a straight or gentle stretch and clear of what is
// to be spared. Where no place is to be had there are fewer. With none the path comes
// back whole.
func Bridged(path plane.Path, spare []Spare, width, kerf float64, n int) []plane.Path {
	gap, total := width+kerf, path.Length()
	if n < 1 || gap <= 0 || total < 3*gap {
		return []plane.Path{path}
	}
	s := newSeeker(path, gap, total)
	for _, k := range spare {
		s.spare = append(s.spare, ordered(k, kerf/2))
	}
	for i := range n {
		want := total * (float64(i) + 0.5) / float64(n)
		step := math.Max(gap/4, total/2000)
		for off := 0.0; off <= total/float64(n)/2; off += step {
			if s.take(want+off) || off > 0 && s.take(want-off) {
				break
			}
		}
	}
	if len(s.at) == 0 {
		return []plane.Path{path}
	}
	return without(path, s.at, gap, total)
}

// seeker looks for the middles of gaps along a path, which it has as chords.
type seeker struct {
	pts        []plane.Point
	cum        []float64 // arc length at each point
	gap, total float64
	spare      []spared
	at         []float64
}

func newSeeker(path plane.Path, gap, total float64) *seeker {
	s := &seeker{gap: gap, total: total}
	l := 0.0
	for _, seg := range path.Segs {
		pts := plane.Path{Segs: []plane.Segment{seg}}.Flatten(0.02)
		chords := 0.0
		for i := 1; i < len(pts); i++ {
			chords += pts[i].Dist(pts[i-1])
		}
		at, long := l, seg.Length()
		for i := 1; i < len(pts); i++ {
			s.pts, s.cum = append(s.pts, pts[i-1]), append(s.cum, at)
			at += pts[i].Dist(pts[i-1]) * long / chords
		}
		l += long
	}
	s.pts, s.cum = append(s.pts, path.End()), append(s.cum, total)
	return s
}

// take puts a gap about arc length m, if there is room for it: material as long as two
// gaps stays between any two.
func (s *seeker) take(m float64) bool {
	m = math.Mod(m+s.total, s.total)
	for _, t := range s.at {
		if d := math.Abs(m - t); math.Min(d, s.total-d) < 3*s.gap {
			return false
		}
	}
	if !s.gentle(m) {
		return false
	}
	inside, beside := s.stretch(m, s.gap/2), s.stretch(m, s.gap)
	for i := range s.spare {
		over := inside
		if s.spare[i].Beside {
			over = beside
		}
		if s.spare[i].meets(over) {
			return false
		}
	}
	s.at = append(s.at, m)
	return true
}

// on returns the chord that arc length l lies on, and the place there.
func (s *seeker) on(l float64) (chord int, at plane.Point) {
	i := min(max(sort.SearchFloat64s(s.cum, l), 1), len(s.cum)-1)
	for i > 1 && s.cum[i-1] == s.cum[i] {
		i--
	}
	return i - 1, s.pts[i-1].Lerp(s.pts[i], (l-s.cum[i-1])/math.Max(s.cum[i]-s.cum[i-1], 1e-12))
}

// stretch returns chords of the path to both sides of m.
func (s *seeker) stretch(m, reach float64) []plane.Point {
	from, to := m-reach, m+reach
	if from < 0 {
		from, to = from+s.total, to+s.total
	}
	var out []plane.Point
	for _, part := range [][2]float64{{from, math.Min(to, s.total)}, {0, to - s.total}} {
		if part[1] <= part[0] {
			continue
		}
		first, a := s.on(part[0])
		last, b := s.on(part[1])
		out = append(out, a)
		out = append(out, s.pts[first+1:last+1]...)
		out = append(out, b)
	}
	return out
}

// gentle tells whether the path bends by less than 15 degrees over a gap and its
// neighbourhood: a bridge at a corner tears it.
func (s *seeker) gentle(m float64) bool {
	pts := s.stretch(m, s.gap)
	first := plane.Point{}
	for i := 0; i+1 < len(pts); i++ {
		d := pts[i+1].Sub(pts[i])
		if d.Len() < 1e-6 {
			continue
		}
		if first == (plane.Point{}) {
			first = d
		}
		if math.Abs(math.Atan2(first.Cross(d), first.Dot(d))) > math.Pi/12 {
			return false
		}
	}
	return true
}

// spared is a Spare as chords in the order of their left ends, so that those near a place
// are found among thousands of scores.
type spared struct {
	Spare
	chords [][2]plane.Point
	widest float64
}

// sparing is how much further than asked a bridge stays off what is spared, mm.
const sparing = 0.05

// ordered prepares a Spare; off is how far the tool's path runs from the edge.
func ordered(k Spare, off float64) spared {
	out := spared{Spare: k}
	out.Clear += off + sparing
	for _, p := range k.Paths {
		pts := p.Flatten(0.02)
		for i := 0; i+1 < len(pts); i++ {
			a, b := pts[i], pts[i+1]
			if b.X < a.X {
				a, b = b, a
			}
			out.chords = append(out.chords, [2]plane.Point{a, b})
			out.widest = math.Max(out.widest, b.X-a.X)
		}
	}
	sort.SliceStable(out.chords, func(i, j int) bool { return out.chords[i][0].X < out.chords[j][0].X })
	return out
}

// meets tells whether a polyline comes too near.
func (k *spared) meets(pts []plane.Point) bool {
	box := plane.BoxOf(pts...).Grow(k.Clear)
	first := sort.Search(len(k.chords), func(i int) bool { return k.chords[i][0].X >= box.Min.X-k.widest })
	for _, c := range k.chords[first:] {
		if c[0].X > box.Max.X {
			break
		}
		if !plane.BoxOf(c[0], c[1]).Overlaps(box) {
			continue
		}
		for i := 0; i+1 < len(pts); i++ {
			if apart(pts[i], pts[i+1], c[0], c[1]) < k.Clear {
				return true
			}
		}
	}
	return false
}

// apart returns how far two chords are apart, 0 where they cross.
func apart(a, b, c, d plane.Point) float64 {
	side := func(p, q, r plane.Point) bool { return q.Sub(p).Cross(r.Sub(p)) > 0 }
	if side(a, b, c) != side(a, b, d) && side(c, d, a) != side(c, d, b) {
		return 0
	}
	ab, cd := []plane.Point{a, b}, []plane.Point{c, d}
	return math.Min(math.Min(toChords(ab, c), toChords(ab, d)), math.Min(toChords(cd, a), toChords(cd, b)))
}

// toChords returns how far q lies from a polyline.
func toChords(pts []plane.Point, q plane.Point) float64 {
	best := math.Inf(1)
	for i := 0; i+1 < len(pts); i++ {
		d := pts[i+1].Sub(pts[i])
		t := 0.0
		if l := d.Dot(d); l > 0 {
			t = math.Max(0, math.Min(1, q.Sub(pts[i]).Dot(d)/l))
		}
		best = math.Min(best, q.Dist(pts[i].Add(d.Mul(t))))
	}
	return best
}

// without returns what is left of a closed path once gaps around the middles are taken
// out, in its direction.
func without(path plane.Path, at []float64, gap, total float64) []plane.Path {
	sorted := append([]float64{}, at...)
	sort.Float64s(sorted)
	var out []plane.Path
	for i, m := range sorted {
		end := sorted[(i+1)%len(sorted)] - gap/2
		if i == len(sorted)-1 {
			end += total
		}
		out = append(out, plane.Tidy(stretch(path, m+gap/2, end, total)))
	}
	return out
}

// stretch returns the part of a closed path from arc length a to b, b > a, past its start
// where b is beyond its end.
func stretch(path plane.Path, a, b, total float64) plane.Path {
	var segs []plane.Segment
	for lap := range 3 {
		s := float64(lap) * total
		for _, seg := range path.Segs {
			l := seg.Length()
			from, to := math.Max(a, s), math.Min(b, s+l)
			if to-from > 1e-9 {
				segs = append(segs, seg.Split(seg.ParamAt(from-s), seg.ParamAt(to-s)))
			}
			s += l
		}
	}
	return plane.Path{Segs: segs}
}
