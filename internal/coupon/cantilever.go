package coupon

import (
	"math"

	"springrib/internal/solve"
)

// Tongue is a strip clamped level at the edge of a table, free beyond it.
type Tongue struct {
	Length float64 // from the edge to the mark where the weight hangs and the drop is read, mm
	Weight float64 // of the strip itself, N per mm of its length
}

// Shape is a tongue at rest under a weight.
type Shape struct {
	Drop  float64 // of the mark below the clamp, mm
	Reach float64 // of the mark from the edge, level, mm
	Slope float64 // at the mark, rad below level
}

// Bend returns the shape of a tongue of stiffness ei, N mm^2 for the whole strip, under
// load, N, at its mark. The strip is an elastica: it may bend as far as it likes but
// does not stretch,
//
//	EI theta'' = -(P + q (L - s)) cos theta,   theta(0) = 0,  theta'(L) = 0,
//
// solved by shooting from the mark, where the slope is unknown: theta at the table is
// increasing in it at every solution (the variation of theta obeys v” = (P+qt) sin theta
// v / EI, which can't turn down), so there is one. Drop and reach are right to 2e-7
// of the length for P L^2/EI + q L^3/EI up to 20, to 2e-5 up to 400; past that, where a
// strip hangs down but for a short bend at the table, to 1 % of what is left of the
// length. It panics unless ei and the length are positive and the loads
// not negative.
func (t Tongue) Bend(ei, load float64) Shape {
	if !(ei > 0) || !(t.Length > 0) || !(load >= 0) || !(t.Weight >= 0) {
		panic("coupon: a tongue needs positive stiffness and length, and loads from 0 up")
	}
	l := t.Length
	alpha, beta := load*l*l/ei, t.Weight*l*l*l/ei
	if alpha+beta == 0 {
		return Shape{Reach: l}
	}
	if alpha+beta > limp {
		// EI theta'^2/2 = F (1 - sin theta) integrated from 0 to pi/2, F the force
		// at the table.
		root := math.Sqrt(alpha + beta)
		return Shape{Drop: l * (1 - (2-math.Sqrt2)/root), Reach: l * math.Sqrt2 / root, Slope: math.Pi / 2}
	}
	s := newShot(alpha, beta)
	slope := s.aim()
	e := s.fire(slope)
	return Shape{Drop: l * e.y, Reach: l * e.x, Slope: slope}
}

// aim finds the slope at the mark that makes the table level: Newton from the slope of
// small drops bent below a right angle, or Brent's method if that strays.
func (s shot) aim() float64 {
	small := s.alpha/2 + s.beta/6
	a := math.Atan(small)
	for range 12 {
		e := s.fire(a)
		step := -e.theta / e.dTheta
		a += step
		if !(a > 0 && a < math.Pi/2) {
			break
		}
		if math.Abs(step) < 1e-9 {
			return a - s.fire(a).theta/e.dTheta
		}
	}
	a, _ = solve.Root(func(a float64) float64 { return s.fire(a).theta }, 0, math.Pi/2, 1e-15)
	return a
}

// limp is the (P + q L) L^2/EI above which a strip is taken to hang straight down.
const limp = 400

// shot integrates the elastica from the mark to the table in fixed steps of the
// classical Runge-Kutta method, lengths over L.
type shot struct {
	alpha, beta float64
	n           int
}

// newShot always takes as many steps, so that the drop is a smooth function of the
// stiffness and inverts exactly.
func newShot(alpha, beta float64) shot { return shot{alpha, beta, 48} }

// tongueState is slope, curvature and place, and how the first two grow with the slope
// at the mark.
type tongueState struct{ theta, omega, x, y, dTheta, dOmega float64 }

func (s shot) slope(t float64, u tongueState) tongueState {
	sin, cos := math.Sincos(u.theta)
	f := s.alpha + s.beta*t
	return tongueState{u.omega, -f * cos, cos, sin, u.dOmega, f * sin * u.dTheta}
}

func (u tongueState) plus(h float64, d tongueState) tongueState {
	return tongueState{
		u.theta + h*d.theta, u.omega + h*d.omega, u.x + h*d.x, u.y + h*d.y,
		u.dTheta + h*d.dTheta, u.dOmega + h*d.dOmega,
	}
}

// fire returns the state at the table for the given slope at the mark.
func (s shot) fire(slope float64) tongueState {
	u := tongueState{theta: slope, dTheta: 1}
	h := 1 / float64(s.n)
	for i := range s.n {
		t := float64(i) * h
		k1 := s.slope(t, u)
		k2 := s.slope(t+h/2, u.plus(h/2, k1))
		k3 := s.slope(t+h/2, u.plus(h/2, k2))
		k4 := s.slope(t+h, u.plus(h, k3))
		u = u.plus(h/6, k1).plus(h/3, k2).plus(h/3, k3).plus(h/6, k4)
		if u.theta < -math.Pi/2 {
			break // the shot is far too low; what follows only says so louder
		}
	}
	return u
}

// Stiffness returns the EI, N mm^2 for the whole strip, that gives the drop under the
// load, and whether there is one: the drop must be more than 0 and less than the
// strip hanging straight down shows. It inverts Bend to 1e-12 of EI in the middle of
// the range; near either end of it a drop says little, as ReadingGain tells.
func (t Tongue) Stiffness(load, drop float64) (ei float64, ok bool) {
	l := t.Length
	if !(drop > 0 && drop < l) || !(load+t.Weight*l > 0) {
		return 0, false
	}
	// Small drops: EI = (P L^3/3 + q L^4/8)/drop; large ones are softer than that.
	guess := (load*l*l*l/3 + t.Weight*l*l*l*l/8) / drop
	miss := func(ln float64) float64 { return t.Bend(solve.Exp(ln), load).Drop - drop }
	high := math.Log(guess) + .7
	low := high - 1
	for miss(high) > 0 {
		high += .5
	}
	for miss(low) < 0 {
		if low -= 1; low < high-20 {
			return 0, false
		}
	}
	ln, ok := solve.Root(miss, low, high, 1e-13)
	return solve.Exp(ln), ok
}

// ReadingGain returns d ln EI / d drop at the given state, 1/mm: what an error of the
// drop does to the stiffness.
func (t Tongue) ReadingGain(ei, load float64) float64 {
	const h = 1e-4
	up, down := t.Bend(ei*(1+h), load).Drop, t.Bend(ei*(1-h), load).Drop
	return math.Abs(2 * h / (up - down))
}
