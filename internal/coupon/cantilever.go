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
// solved by shooting from the mark, where the slope is unknown. Theta at the table
// grows with it at every solution (its variation v obeys v” = (P+qt) sin theta v/EI,
// which can't turn down), so there is one. Drop and reach are right to 1e-10 of the
// length for P L^2/EI + q L^3/EI up to 20 and to 1e-7 up to 400; past that, where a
// strip hangs down but for a short bend at the table, to 1 % of what is left of the
// length. It panics unless ei and the length are positive and the loads not negative.
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

// aim finds the slope at the mark that makes the table level, looking first around what
// small drops bent below a right angle would give.
func (s shot) aim() float64 {
	miss := func(a float64) float64 { return s.fire(a).theta }
	guess := math.Atan(s.alpha/2 + s.beta/6)
	low, high := .8*guess, .5*guess+math.Pi/4
	if miss(low) > 0 {
		low = 0
	}
	if miss(high) < 0 {
		high = math.Pi / 2
	}
	a, _ := solve.Root(miss, low, high, 1e-15)
	return a
}

// limp is the (P + q L) L^2/EI above which a strip is taken to hang straight down.
const limp = 400

// order is that of the Taylor series below.
const order = 20

// shot integrates the elastica from the mark to the table, lengths over L, by its Taylor
// series in a few equal steps. The series of theta, sin theta and cos theta follow from
// one another (R. E. Moore, Interval Analysis, 1966, chapter 11). Singularities lie no
// nearer than pi/2 of the length 1/sqrt(alpha+beta) that the strip bends over; a step
// of half that length leaves an error of 0.32^21.
type shot struct {
	alpha, beta float64
	steps       int
}

func newShot(alpha, beta float64) shot {
	return shot{alpha, beta, 1 + int(2*math.Sqrt(alpha+beta))}
}

type tongueState struct{ theta, omega, x, y float64 }

// fire returns the state at the table for the given slope at the mark.
func (s shot) fire(slope float64) tongueState {
	u := tongueState{theta: slope}
	h := 1 / float64(s.steps)
	for i := range s.steps {
		u = s.step(u, h, s.alpha+s.beta*h*float64(i))
		if u.theta < -math.Pi/2 {
			break // the shot is far too low; what follows only says so louder
		}
	}
	return u
}

// step advances by h; force is alpha + beta t at its start. All coefficients are those
// of powers of t/h.
func (s shot) step(u tongueState, h, force float64) tongueState {
	var a, d, sin, cos [order + 2]float64 // theta, theta', and their sine and cosine
	sin[0], cos[0] = math.Sincos(u.theta)
	a[0], a[1] = u.theta, u.omega*h
	d[0] = a[1]
	grow := s.beta * h
	f := force * cos[0] * h * h
	for k := 0; k < order; k++ {
		a[k+2] = -f / float64((k+1)*(k+2))
		d[k+1] = float64(k+2) * a[k+2]
		var ds, dc float64
		for j := 0; j <= k; j++ {
			ds += d[j] * cos[k-j]
			dc -= d[j] * sin[k-j]
		}
		sin[k+1], cos[k+1] = ds/float64(k+1), dc/float64(k+1)
		f = (force*cos[k+1] + grow*cos[k]) * h * h
	}
	var next tongueState
	for k := order; k >= 0; k-- {
		next.theta += a[k]
		next.omega += d[k]
		next.x += cos[k] / float64(k+1)
		next.y += sin[k] / float64(k+1)
	}
	next.omega /= h
	next.x, next.y = u.x+h*next.x, u.y+h*next.y
	return next
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

// Load returns the weight, N, that takes the mark down to the drop, and whether there is
// one: the strip must not hang lower by its own weight, nor need to hang straight. Two
// weights for drops of about 0.15 and 0.4 of the length read best.
func (t Tongue) Load(ei, drop float64) (load float64, ok bool) {
	if !(drop < .93*t.Length) || t.Bend(ei, 0).Drop >= drop {
		return 0, false
	}
	high := 3 * ei * drop / (t.Length * t.Length * t.Length)
	for t.Bend(ei, high).Drop < drop {
		high *= 2
	}
	return solve.Root(func(p float64) float64 { return t.Bend(ei, p).Drop - drop }, 0, high, 1e-12*high)
}

// ReadingGain returns d ln EI / d drop at the given state, 1/mm: what an error of the
// drop does to the stiffness.
func (t Tongue) ReadingGain(ei, load float64) float64 {
	const h = 1e-4
	up, down := t.Bend(ei*(1+h), load).Drop, t.Bend(ei*(1-h), load).Drop
	return math.Abs(2 * h / (up - down))
}
