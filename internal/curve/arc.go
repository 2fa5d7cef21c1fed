package curve

import (
	"math"

	"springrib/internal/plane"
)

// arc is a circular arc or straight: constant curvature from a start.
type arc struct {
	start  State
	length float64
	dir    plane.Point // tangent at the start
}

func newArc(start State, length float64) arc { return arc{start, length, start.Tangent()} }

func (a arc) Length() float64 { return a.length }

// At integrates the heading in closed form. The chord of an arc is
// s*sinc(kappa s/2) along the mean heading, which needs no division by kappa and so
// keeps every digit as the arc becomes straight.
func (a arc) At(s float64) State {
	half := a.start.Kappa * s / 2
	sin, cos := math.Sincos(half)
	chord := s
	if math.Abs(half) < 1e-4 {
		chord *= 1 - half*half/6 // the next term is below 1e-18
	} else {
		chord *= sin / half
	}
	d := a.dir
	return State{
		P:     a.start.P.Add(plane.Pt(d.X*cos-d.Y*sin, d.X*sin+d.Y*cos).Mul(chord)),
		Phi:   a.start.Phi + 2*half,
		Kappa: a.start.Kappa,
	}
}

func (a arc) Kappa(float64) float64 { return a.start.Kappa }

// foot returns the place on the arc, run on all round, that p is nearest to, the one of
// the turn that near is in, and the height of p over it, positive to the left.
func (a arc) foot(p plane.Point, near float64) (s, height float64) {
	v := p.Sub(a.start.P)
	along, up, k := v.Dot(a.dir), a.dir.Cross(v), a.start.Kappa
	if k == 0 {
		return along, up
	}
	sin, cos := k*along, 1-k*up // of the turn, times the distance from the centre over the radius
	turn := math.Atan2(sin, cos)
	turn += 2 * math.Pi * math.Round((k*near-turn)/(2*math.Pi))
	// (1 - that distance)/k, without the difference of near equals.
	return turn / k, (2*up - k*v.Dot(v)) / (1 + math.Sqrt(sin*sin+cos*cos))
}

func (a arc) Parallel(d float64) Shape {
	left := a.dir.Left()
	scale := 1 - d*a.start.Kappa
	return newArc(State{
		P:     a.start.P.Add(left.Mul(d)),
		Phi:   a.start.Phi,
		Kappa: a.start.Kappa / scale,
	}, a.length*scale)
}

func (a arc) Tightest() (float64, float64) { return math.Abs(a.start.Kappa), 0 }

// Arc is a circular arc as makers name it.
type Arc struct{ Radius, Angle float64 }

// Length returns the arc length.
func (a Arc) Length() float64 { return a.Radius * a.Angle }

// FromSpanRise returns the arc over a chord of length span that rises by rise at its
// middle: R = span^2/(8 rise) + rise/2, angle = 4 atan(2 rise/span). Both must be
// positive; a rise above half the span gives more than a half circle.
func FromSpanRise(span, rise float64) Arc {
	return Arc{span*span/(8*rise) + rise/2, 4 * math.Atan2(2*rise, span)}
}

// Level returns the pieces as a curve whose ends lie on one horizontal line, first
// end at the origin, last to the right of it. A curve that ends where it began
// starts out along +X.
func Level(pieces ...Piece) Curve {
	c := Chain(plane.Point{}, 0, pieces...)
	end := c.At(c.Length()).P
	if end.Len() < 1e-9*c.Length() || c.Length() == 0 {
		return c
	}
	return Chain(plane.Point{}, -math.Atan2(end.Y, end.X), pieces...)
}
