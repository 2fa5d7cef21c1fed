package cut

import (
	"math"
	"slices"
	"sort"

	"springrib/internal/plane"
)

// collinear is how far a stroke may lie off a score line and still be a piece of
// it, mm: far more than rounding, far less than any land.
const collinear = 0.01

// scoreLines returns the scores of p line by line, in the order given. Strokes that
// follow each other on one straight are pieces of one line.
func scoreLines(p Part) [][]Stroke {
	var lines [][]Stroke
	for _, path := range p.Strokes[Score] {
		if len(path.Segs) == 0 {
			continue
		}
		s := Stroke{Part: p.ID, Path: path}
		if n := len(lines); n > 0 && onLine(lines[n-1][0].Path, path) {
			lines[n-1] = append(lines[n-1], s)
			continue
		}
		lines = append(lines, []Stroke{s})
	}
	for _, l := range lines {
		straighten(l)
	}
	return lines
}

// straighten turns and sorts the pieces of one line so that they run along it.
func straighten(line []Stroke) {
	if len(line) == 1 {
		return
	}
	u := line[0].Path.End().Sub(line[0].Path.Start())
	for i, s := range line {
		if s.Path.End().Sub(s.Path.Start()).Dot(u) < 0 {
			line[i].Path = s.Path.Reverse()
		}
	}
	sort.SliceStable(line, func(i, j int) bool { return line[i].Path.Start().Dot(u) < line[j].Path.Start().Dot(u) })
}

// onLine reports whether both ends of q lie on the straight through the ends of p.
func onLine(p, q plane.Path) bool {
	a := p.Start()
	u := p.End().Sub(a).Unit()
	return u != (plane.Point{}) && math.Abs(u.Cross(q.Start().Sub(a))) < collinear && math.Abs(u.Cross(q.End().Sub(a))) < collinear
}

// thirds returns the element that runs lines in three sweeps of every third line.
// Of the orders and directions of the sweeps it takes those in which fewest
// neighbours follow each other (none, from four lines on), then those with the
// least travel. Each line is run from the end that is nearer by then.
func thirds(lines [][]Stroke) element {
	els := make([]element, len(lines))
	for i, l := range lines {
		els[i] = lineElement(l)
	}
	var best []int
	bestBeside, bestTravel := 0, 0.0
	sweeps(len(lines), func(seq []int) {
		beside := neighboursInRow(seq)
		if best != nil && beside > bestBeside {
			return
		}
		travel := zigzag(els, seq)
		if best == nil || beside < bestBeside || travel < bestTravel-worthwhile {
			best, bestBeside, bestTravel = append(best[:0], seq...), beside, travel
		}
	})
	return sweepElement(els, best)
}

// neighboursInRow counts how often neighbours follow each other in seq.
func neighboursInRow(seq []int) int {
	n := 0
	for i := 1; i < len(seq); i++ {
		if d := seq[i] - seq[i-1]; d == 1 || d == -1 {
			n++
		}
	}
	return n
}

// zigzag returns the least travel through lines in the order seq, each run either way.
func zigzag(els []element, seq []int) float64 {
	last := els[seq[0]].ways
	var cost [2]float64 // by the way the last line was run
	for _, k := range seq[1:] {
		next := els[k].ways
		var c [2]float64
		for w := range c {
			a, b := cost[0]+gap(last[0].out, next[w].in), cost[1]+gap(last[1].out, next[w].in)
			if b < a {
				a = b
			}
			c[w] = next[w].cost + a
		}
		cost, last = c, next
	}
	return math.Min(cost[0], cost[1])
}

// sweeps tells each of the orders in which n lines can be taken as three sweeps: six
// orders of the sweeps, each sweep from either end. What it tells is good until the next.
func sweeps(n int, each func(seq []int)) {
	seq := make([]int, 0, n)
	for _, order := range [][3]int{{0, 1, 2}, {0, 2, 1}, {1, 0, 2}, {1, 2, 0}, {2, 0, 1}, {2, 1, 0}} {
		for turned := range 8 {
			seq = seq[:0]
			for i, class := range order {
				seq = sweep(seq, n, class, turned>>i&1 == 1)
			}
			each(seq)
		}
	}
}

// sweep adds every third of n lines from line class on to seq, or these backwards.
func sweep(seq []int, n, class int, back bool) []int {
	first := len(seq)
	for i := class; i < n; i += 3 {
		seq = append(seq, i)
	}
	if back {
		slices.Reverse(seq[first:])
	}
	return seq
}

// sequence returns the tour of the lines in the order seq, the first run the given
// way and the others as travel has it least.
func sequence(els []element, seq []int, firstWay int) *tour {
	ordered := make([]element, len(seq))
	for i, k := range seq {
		ordered[i] = els[k]
	}
	ways := slices.Clone(ordered[0].ways)
	ways[1-firstWay].cost = math.Inf(1) // never the way not asked for
	ordered[0].ways = ways
	t := newTour(ordered, ways[firstWay].in)
	t.bestWays()
	return t
}

// lineElement returns a whole score line as one element.
func lineElement(line []Stroke) element {
	a, b := line[0].Path.Start(), line[len(line)-1].Path.End()
	cost := 0.0
	for i := 1; i < len(line); i++ {
		cost += gap(line[i-1].Path.End(), line[i].Path.Start())
	}
	return element{
		ways: []way{{in: a, out: b, back: 1, cost: cost}, {in: b, out: a, back: 0, cost: cost}},
		run: func(w int) []Stroke {
			if w == 0 {
				return line
			}
			return backwards(line)
		},
	}
}

// backwards returns strokes in the opposite order, each turned round.
func backwards(strokes []Stroke) []Stroke {
	out := make([]Stroke, len(strokes))
	for i, s := range strokes {
		out[len(out)-1-i] = Stroke{s.Part, s.Path.Reverse()}
	}
	return out
}

// sweepElement returns the element that runs the lines in the order seq, begun at
// either end of its first line, or all of it backwards.
func sweepElement(els []element, seq []int) element {
	var e element
	var runs [2][]Stroke
	for w := range runs {
		t := sequence(els, seq, w)
		for _, k := range t.order {
			runs[w] = append(runs[w], t.els[k].run(t.way[k])...)
		}
		cost := t.length()
		in, out := runs[w][0].Path.Start(), runs[w][len(runs[w])-1].Path.End()
		e.ways = append(e.ways, way{in: in, out: out, back: 2*w + 1, cost: cost}, way{in: out, out: in, back: 2 * w, cost: cost})
	}
	e.run = func(w int) []Stroke {
		if w%2 == 0 {
			return runs[w/2]
		}
		return backwards(runs[w/2])
	}
	return e
}
