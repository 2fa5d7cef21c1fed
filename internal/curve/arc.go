package curve

import (
	"math"

	"springrib/internal/plane"
)

// arc is a circular arc or straight: constant curvature from a start.
type arc struct {
	start  State
	length float64
}

func (a arc) Length() float64 { return a.length }

// At integrates the heading in closed form. The chord of an arc is
// s*sinc(kappa s/2) along the mean heading, which needs no division by kappa and so
// keeps every digit as the arc becomes straight.
func (a arc) At(s float64) State {
	half := a.start.Kappa * s / 2
	chord := s * sinc(half)
	return State{
		P:     a.start.P.Add(plane.Dir(a.start.Phi + half).Mul(chord)),
		Phi:   a.start.Phi + 2*half,
		Kappa: a.start.Kappa,
	}
}

func sinc(x float64) float64 {
	if math.Abs(x) < 1e-4 {
		return 1 - x*x/6 // the next term is below 1e-18
	}
	return math.Sin(x) / x
}

func (a arc) Parallel(d float64) Shape {
	left := a.start.Tangent().Left()
	scale := 1 - d*a.start.Kappa
	return arc{
		start: State{
			P:     a.start.P.Add(left.Mul(d)),
			Phi:   a.start.Phi,
			Kappa: a.start.Kappa / scale,
		},
		length: a.length * scale,
	}
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

// Span returns the chord and Rise the height of the arc over it.
func (a Arc) Span() float64 { return 2 * a.Radius * math.Sin(a.Angle/2) }

// Rise returns the height of the arc over its chord.
func (a Arc) Rise() float64 { return 2 * a.Radius * sq(math.Sin(a.Angle/4)) }

func sq(x float64) float64 { return x * x }

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
