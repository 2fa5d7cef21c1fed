package curve

import (
	"math"

	"springrib/internal/plane"
)

// Crossing is a place where a curve meets itself: two arc lengths, the same point.
type Crossing struct{ S1, S2 float64 }

// Crossing returns the first place where the curve crosses itself, taking the curve
// as chords of which none turns more than 3 degrees, so that a gap narrower than
// about 0.0004 of the local radius may count as a crossing. A closed curve does not
// cross itself where it ends.
func (c Curve) Crossing() (Crossing, bool) {
	if c.totalTurning() < math.Pi {
		return Crossing{}, false // a curve that turns less than half round can't come back
	}
	closed := c.Closed()
	if closed && c.totalTurning() < 2*math.Pi+1e-6 && len(c.Kinks(1e-9)) == 0 && c.oneWay() {
		return Crossing{}, false // bent one way all round once: the rim of a convex shape
	}
	s := c.Samples(3 * math.Pi / 180)
	pts := make([]plane.Point, len(s))
	for i := range s {
		pts[i] = c.At(s[i]).P
	}
	blocks := blocksOf(pts)
	for a, from := range blocks {
		near := from.near(blocks[a:])
		for i := from.first; i < from.end; i++ {
			for _, to := range near {
				for j := max(i+2, to.first); j < to.end; j++ {
					if i == 0 && j+2 == len(pts) && closed {
						continue // it may end where it begins
					}
					if f, g, ok := meet(pts[i], pts[i+1], pts[j], pts[j+1]); ok {
						return Crossing{s[i] + f*(s[i+1]-s[i]), s[j] + g*(s[j+1]-s[j])}, true
					}
				}
			}
		}
	}
	return Crossing{}, false
}

// oneWay tells whether all bends turn to the same side.
func (c Curve) oneWay() bool {
	way := 0
	for _, st := range c.stretches {
		if st.Sign*way < 0 {
			return false
		}
		if st.Sign != 0 {
			way = st.Sign
		}
	}
	return true
}

// block is a run of chords, numbered first up to end, and the box they lie in.
type block struct {
	first, end int
	box        plane.Box
}

// blocksOf cuts the chords between points into runs of 32, few enough that most pairs of
// runs lie apart.
func blocksOf(pts []plane.Point) []block {
	const size = 32
	var out []block
	for i := 0; i+1 < len(pts); i += size {
		end := min(i+size, len(pts)-1)
		out = append(out, block{i, end, plane.BoxOf(pts[i : end+1]...)})
	}
	return out
}

// near returns those whose boxes reach the box of b, in order.
func (b block) near(all []block) []block {
	var out []block
	for _, c := range all {
		if b.box.Overlaps(c.box) {
			out = append(out, c)
		}
	}
	return out
}

func (c Curve) totalTurning() float64 {
	t := 0.0
	for _, st := range c.stretches {
		t += math.Abs(st.Shape.At(st.End-st.Start).Phi - st.Shape.At(0).Phi)
	}
	return t
}

// meet returns the fractions at which segments ab and cd cross.
func meet(a, b, c, d plane.Point) (f, g float64, ok bool) {
	r, s := b.Sub(a), d.Sub(c)
	den := r.Cross(s)
	if den == 0 {
		return 0, 0, false
	}
	f = c.Sub(a).Cross(s) / den
	g = c.Sub(a).Cross(r) / den
	return f, g, f >= 0 && f <= 1 && g >= 0 && g <= 1
}

// Samples returns arc lengths from 0 to Length, the ends of all stretches among
// them, such that the heading between neighbours turns by about maxTurn at most.
func (c Curve) Samples(maxTurn float64) []float64 {
	if len(c.stretches) == 0 {
		return nil
	}
	out := []float64{0}
	for _, st := range c.stretches {
		k, _ := st.Shape.Tightest()
		l := st.End - st.Start
		n := int(math.Ceil(l*k/maxTurn - 1e-9))
		if n < 1 {
			n = 1
		}
		for i := 1; i < n; i++ {
			out = append(out, st.Start+l*float64(i)/float64(n))
		}
		out = append(out, st.End)
	}
	return out
}

// Nearest returns the arc length of the point of the curve (run on straight past its
// ends) nearest to p, searched around the guess s. On lines and arcs it is exact; else by
// steps to the nearest point of the circle that the curve follows there, each held to a
// tenth of its radius. Past the end of a stretch the search goes on in the next.
func (c Curve) Nearest(p plane.Point, s float64) float64 {
	s, _ = c.Foot(p, s)
	return s
}

// Foot is Nearest with the height of p over that point, positive to the left.
func (c Curve) Foot(p plane.Point, s float64) (at, height float64) {
	n := len(c.stretches)
	if n == 0 {
		return p.X, p.Y
	}
	i := c.stretchOf(clamp(s, 0, c.length))
	came := 0 // +1 from the stretch before, -1 from the one after
	for range 50 {
		st := &c.stretches[i]
		switch sh := st.Shape.(type) {
		case arc:
			at, height = sh.foot(p, s-st.Start)
			s = at + st.Start
		case *smooth:
			s = clamp(s, st.Start, st.End)
			var step float64
			step, height = sh.toward(p, s-st.Start)
			switch to := s + step; {
			case to > st.End && s < st.End:
				s = st.End // look from there before leaving
				continue
			case to < st.Start && s > st.Start:
				s = st.Start
				continue
			default:
				s = to
			}
			if math.Abs(step) > nearEnough && s >= st.Start && s <= st.End {
				continue
			}
		}
		switch {
		case s < st.Start && i == 0:
			return st.at(0).foot(p, 0)
		case s > st.End && i == n-1:
			return st.at(st.End).foot(p, st.End)
		case s < st.Start:
			if came > 0 { // nearest to the corner itself
				return st.Start, height
			}
			i, s, came = i-1, st.Start, -1
		case s > st.End:
			if came < 0 {
				return st.End, height
			}
			i, s, came = i+1, st.End, 1
		default:
			return s, height
		}
	}
	return s, height
}

// nearEnough is the step in mm after which the foot on a smooth curve is exact: what a step
// leaves goes as its square.
const nearEnough = 1e-6

// foot returns the foot of p on the tangent of the state, which is at arc length s, and the
// height of p over it.
func (st State) foot(p plane.Point, s float64) (at, height float64) {
	v, t := p.Sub(st.P), st.Tangent()
	return s + v.Dot(t), t.Cross(v)
}
