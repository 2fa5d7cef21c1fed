package skin

import (
	"math"
	"springrib/internal/curve"
	"springrib/internal/solve"
	"springrib/internal/surface"
)

type Rail struct {
	Curve        curve.Curve
	Origin, X, Y surface.Vec
}
type Ruling struct {
	A, B float64
	N    surface.Vec
}
type Piece struct {
	From, To, Turn float64
	a, b           [2]float64
	t0             float64
}
type Refusal struct{ Turns [2]float64 }
type Skin struct {
	Pieces []Piece
	a, b   Rail
	left   bool
}

func (s *Skin) piece(x float64) *Piece {
	for i := range s.Pieces {
		if x <= s.Pieces[i].To {
			return &s.Pieces[i]
		}
	}
	return &s.Pieces[len(s.Pieces)-1]
}
func (r Rail) at(s float64) surface.Vec {
	p := r.Curve.At(s).P
	return r.Origin.Add(r.X.Mul(p.X)).Add(r.Y.Mul(p.Y))
}
func inv(c curve.Curve, lo, hi, phi float64) float64 {
	if v := c.At(lo).Phi; phi >= v {
		return lo
	}
	if v := c.At(hi).Phi; phi <= v {
		return hi
	}
	s, _ := solve.Root(func(s float64) float64 { return c.At(s).Phi - phi }, lo, hi, 1e-13)
	return s
}
func (s *Skin) At(x float64) Ruling {
	p := s.piece(x)
	f := (x - p.From) / (p.To - p.From)
	var r Ruling
	if p.Turn == 0 {
		r.A, r.B = p.a[0]+(p.a[1]-p.a[0])*f, p.b[0]+(p.b[1]-p.b[0])*f
	} else {
		phi := s.a.Curve.At(p.a[0]).Phi - p.Turn*f
		r.A, r.B = inv(s.a.Curve, p.a[0], p.a[1], phi), inv(s.b.Curve, p.b[0], p.b[1], phi)
	}
	e := s.b.at(r.B).Sub(s.a.at(r.A)).Unit()
	t := s.a.Curve.At(r.A).Tangent()
	tv := s.a.X.Mul(t.X).Add(s.a.Y.Mul(t.Y))
	n := tv.Cross(e).Unit()
	l := s.a.Curve.At(r.A).Tangent().Left()
	if n.Dot(s.a.X.Mul(l.X).Add(s.a.Y.Mul(l.Y))) < 0 {
		n = n.Mul(-1)
	}
	r.N = n
	return r
}
func (s *Skin) Turning(x float64) float64 {
	p := s.piece(x)
	n0, n1 := s.At(p.From+1e-9).N, s.At(x).N
	if p.Turn == 0 {
		return p.t0
	}
	// sum in steps
	sum := p.t0
	const m = 40
	last := n0
	for i := 1; i <= m; i++ {
		n := s.At(p.From + (x-p.From)*float64(i)/m).N
		sum += math.Atan2(last.Cross(n).Len(), last.Dot(n))
		last = n
	}
	_ = n1
	return sum
}
func (s *Skin) Touch(x float64) surface.Touch {
	r := s.At(x)
	return surface.Touch{A: s.a.at(r.A), B: s.b.at(r.B), N: r.N}
}
func Parallel(a, b Rail, left bool) (Skin, *Refusal) {
	s := Skin{a: a, b: b, left: left}
	ta, tb := a.Curve.At(a.Curve.Length()).Phi-a.Curve.At(0).Phi, b.Curve.At(b.Curve.Length()).Phi-b.Curve.At(0).Phi
	if math.Abs(ta-tb) > 1e-5 {
		return s, &Refusal{[2]float64{ta, tb}}
	}
	i, j, sa, sb, x := 0, 0, 0.0, 0.0, 0.0
	A, B := a.Curve.Stretches(), b.Curve.Stretches()
	add := func(na, nb, turn float64) {
		p := Piece{From: x, To: x + 1, Turn: turn, a: [2]float64{sa, na}, b: [2]float64{sb, nb}}
		s.Pieces = append(s.Pieces, p)
		x++
		sa, sb = na, nb
	}
	for i < len(A) || j < len(B) {
		switch {
		case i < len(A) && A[i].Sign == 0 && j < len(B) && B[j].Sign == 0:
			add(A[i].End, B[j].End, 0)
			i++
			j++
		case i < len(A) && A[i].Sign == 0:
			add(A[i].End, sb, 0)
			i++
		case j < len(B) && B[j].Sign == 0:
			add(sa, B[j].End, 0)
			j++
		case i < len(A) && j < len(B):
			pa, pb := a.Curve.At(A[i].End).Phi, b.Curve.At(B[j].End).Phi
			phi := math.Max(pa, pb)
			na, nb := A[i].End, B[j].End
			if pa < phi-2e-5 {
				na = inv(a.Curve, sa, na, phi)
			} else {
				i++
			}
			if pb < phi-2e-5 {
				nb = inv(b.Curve, sb, nb, phi)
			} else {
				j++
			}
			add(na, nb, a.Curve.At(sa).Phi-phi)
		default:
			panic("left over")
		}
	}
	for k := range s.Pieces {
		p := &s.Pieces[k]
		if k > 0 {
			p.t0 = s.Turning(s.Pieces[k-1].To)
		}
	}
	return s, nil
}
