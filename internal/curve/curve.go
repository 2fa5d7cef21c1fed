// Package curve describes the wanted section of a bent panel by arc length: where
// the line is, which way it heads and how sharply it turns.
//
// A Curve is a chain of stretches. Within one stretch the curvature is continuous
// and keeps its sign (or is zero throughout); from one to the next the heading is
// continuous but the curvature may step. Lengths are mm, angles radians, curvature
// 1/mm, positive turning left.
package curve

import (
	"fmt"
	"math"
	"sort"

	"springrib/internal/plane"
)

// State is what a curve is at one place.
type State struct {
	P     plane.Point
	Phi   float64 // heading, unwrapped: it keeps counting past a full turn
	Kappa float64 // dPhi/ds
}

// Tangent returns the unit vector along the heading.
func (s State) Tangent() plane.Point { return plane.Dir(s.Phi) }

// Shape is a smooth piece of curve by its own arc length, 0 to Length.
type Shape interface {
	Length() float64
	At(s float64) State
	// Kappa is the curvature that At returns, for less.
	Kappa(s float64) float64
	// Parallel returns the piece at distance d to the left. The distance must be
	// less than the least radius on that side, which the caller has checked.
	Parallel(d float64) Shape
	// Tightest returns the greatest |curvature| and the place of it.
	Tightest() (kappa, s float64)
}

// Stretch is one Shape in its place on a Curve.
type Stretch struct {
	Shape      Shape
	Start, End float64 // arc length along the curve
	Sign       int     // +1 turns left, -1 turns right, 0 straight
	whole      float64 // whole turns to add to the shape's heading so that it counts on
}

// Curve is a chain of stretches. The zero Curve is empty.
type Curve struct {
	stretches []Stretch
	length    float64
}

// Piece is a line or circular arc of a chain: Length > 0 along it, Kappa its
// curvature, zero for a straight.
type Piece struct{ Length, Kappa float64 }

// Chain returns the curve of the pieces, each continuing where and as the one
// before it ended. Pieces of no length are left out; neighbours of equal curvature
// become one. It panics on a negative or non-finite figure.
func Chain(start plane.Point, heading float64, pieces ...Piece) Curve {
	at := State{P: start, Phi: heading}
	var shapes []Shape
	for _, p := range mergePieces(pieces) {
		at.Kappa = p.Kappa
		a := newArc(at, p.Length)
		shapes = append(shapes, a)
		at = a.At(p.Length)
	}
	return Join(shapes...)
}

func mergePieces(pieces []Piece) []Piece {
	var out []Piece
	for _, p := range pieces {
		if !(p.Length >= 0) || math.IsInf(p.Length, 0) || math.IsNaN(p.Kappa) || math.IsInf(p.Kappa, 0) {
			panic(fmt.Sprintf("curve: piece of length %v and curvature %v", p.Length, p.Kappa))
		}
		if p.Length == 0 {
			continue
		}
		if n := len(out); n > 0 && out[n-1].Kappa == p.Kappa {
			out[n-1].Length += p.Length
			continue
		}
		out = append(out, p)
	}
	return out
}

// Join returns the curve of the shapes in order. Each must start where the one
// before it ended; Kinks reports where that fails in heading.
func Join(shapes ...Shape) Curve {
	var c Curve
	for _, sh := range shapes {
		l := sh.Length()
		sign := 0
		if k := sh.Kappa(l / 2); k > 0 {
			sign = 1
		} else if k < 0 {
			sign = -1
		}
		whole := 0.0
		if n := len(c.stretches); n > 0 {
			gap := c.At(c.length).Phi - sh.At(0).Phi
			whole = gap - math.Remainder(gap, 2*math.Pi)
		}
		c.stretches = append(c.stretches, Stretch{sh, c.length, c.length + l, sign, whole})
		c.length += l
	}
	return c
}

// Length returns the arc length of the whole curve.
func (c Curve) Length() float64 { return c.length }

// Stretches returns the stretches in order. The caller must not change them.
func (c Curve) Stretches() []Stretch { return c.stretches }

// At returns the state at arc length s. Before the start and past the end the curve
// runs on straight along its end tangents.
func (c Curve) At(s float64) State {
	if len(c.stretches) == 0 {
		return State{}
	}
	switch {
	case s < 0:
		return onward(c.stretches[0].at(0), s)
	case s > c.length:
		last := c.stretches[len(c.stretches)-1]
		return onward(last.at(last.End), s-c.length)
	}
	return c.stretches[c.stretchOf(s)].at(s)
}

// stretchOf returns the index of the stretch that holds the arc length s from 0 to Length,
// the earlier of two that meet there.
func (c Curve) stretchOf(s float64) int {
	i, n := 0, len(c.stretches)-1
	if n > 8 {
		i = sort.Search(n, func(i int) bool { return c.stretches[i].End >= s })
	}
	for i < n && c.stretches[i].End < s {
		i++
	}
	return i
}

// Kappa returns the curvature at arc length s, 0 past the ends: that of At, for less.
func (c Curve) Kappa(s float64) float64 {
	if len(c.stretches) == 0 || s < 0 || s > c.length {
		return 0
	}
	st := &c.stretches[c.stretchOf(s)]
	return st.Shape.Kappa(s - st.Start)
}

// at returns the state at arc length s of the whole curve.
func (st Stretch) at(s float64) State {
	at := st.Shape.At(s - st.Start)
	at.Phi += st.whole
	return at
}

func onward(st State, d float64) State {
	st.P = st.P.Add(st.Tangent().Mul(d))
	st.Kappa = 0
	return st
}

// Circle returns the circle that the curve is from arc length s0 to s1, if that is a part
// of one arc: its centre, and its signed curvature. A straight has a curvature of 0 and no
// centre.
func (c Curve) Circle(s0, s1 float64) (centre plane.Point, kappa float64, ok bool) {
	if s0 > s1 {
		s0, s1 = s1, s0
	}
	if len(c.stretches) == 0 || s0 < 0 || s1 > c.length {
		return centre, 0, false
	}
	st := &c.stretches[c.stretchOf(s0)]
	a, ok := st.Shape.(arc)
	if !ok || s1 > st.End {
		return centre, 0, false
	}
	if kappa = a.start.Kappa; kappa != 0 {
		centre = a.start.P.Add(a.dir.Left().Mul(1 / kappa))
	}
	return centre, kappa, true
}

// Turning returns the heading gained from the first end to the last.
func (c Curve) Turning() float64 {
	if len(c.stretches) == 0 {
		return 0
	}
	return c.At(c.length).Phi - c.At(0).Phi
}

// Tightest returns the greatest |curvature| and the arc length where it is.
func (c Curve) Tightest() (kappa, s float64) {
	for _, st := range c.stretches {
		if k, at := st.Shape.Tightest(); k > kappa {
			kappa, s = k, st.Start+at
		}
	}
	return kappa, s
}

// TightestTo returns the greatest curvature toward one side, +1 left or -1 right,
// and where it is; zero when the curve never turns that way.
func (c Curve) TightestTo(side int) (kappa, s float64) {
	for _, st := range c.stretches {
		if st.Sign != side {
			continue
		}
		if k, at := st.Shape.Tightest(); k > kappa {
			kappa, s = k, st.Start+at
		}
	}
	return kappa, s
}

// ErrTooTight says that a parallel was asked for beyond a centre of curvature.
type ErrTooTight struct {
	Distance float64 // mm asked for
	Radius   float64 // least radius on that side, mm
	At       float64 // arc length where it is
}

func (e *ErrTooTight) Error() string {
	return fmt.Sprintf("a parallel at %.3f mm passes the centre of a bend of radius %.3f mm", e.Distance, e.Radius)
}

// Parallel returns the curve at distance d to the left (right when negative). Its
// length is Length - d*Turning. The error is an *ErrTooTight.
func (c Curve) Parallel(d float64) (Curve, error) {
	side := 1
	if d < 0 {
		side = -1
	}
	if k, s := c.TightestTo(side); k > 0 && math.Abs(d)*k >= 1-1e-9 {
		return Curve{}, &ErrTooTight{d, 1 / k, s}
	}
	shapes := make([]Shape, len(c.stretches))
	for i, st := range c.stretches {
		shapes[i] = st.Shape.Parallel(d)
	}
	return Join(shapes...), nil
}

// Kink is a place where the heading steps.
type Kink struct{ S, Angle float64 }

// Kinks returns the joints where the heading steps by more than tol radians.
func (c Curve) Kinks(tol float64) []Kink {
	var out []Kink
	for i := 1; i < len(c.stretches); i++ {
		a, b := c.stretches[i-1], c.stretches[i]
		turn := math.Remainder(b.Shape.At(0).Phi-a.Shape.At(a.End-a.Start).Phi, 2*math.Pi)
		if math.Abs(turn) > tol {
			out = append(out, Kink{b.Start, turn})
		}
	}
	return out
}
