package form

import (
	"springrib/internal/plane"
	"springrib/internal/surface"
)

// Prism is a flat part as a body in space: triangles of three places and lines of two,
// three numbers each.
type Prism struct{ Faces, Edges []float32 }

// NewPrism returns the body of an outline that lies as the frame says, from h0 to h1
// along its normal.
func NewPrism(r plane.Region, f surface.Frame, h0, h1 float64) Prism {
	p := raiser{frame: f}
	outlines := loops(r)
	for _, s := range slabs(outlines, nil) {
		for _, h := range []float64{h0, h1} {
			p.face(solid{s.u0, s.lo0, h}, solid{s.u1, s.lo1, h}, solid{s.u1, s.hi1, h}, solid{s.u0, s.hi0, h})
		}
	}
	each(outlines, func(_, _ int, a, b plane.Point) {
		p.face(solid{a.X, a.Y, h0}, solid{b.X, b.Y, h0}, solid{b.X, b.Y, h1}, solid{a.X, a.Y, h1})
		p.line(solid{a.X, a.Y, h0}, solid{b.X, b.Y, h0})
		p.line(solid{a.X, a.Y, h1}, solid{b.X, b.Y, h1})
	})
	for _, c := range cornersOf(outlines) {
		p.line(solid{c.X, c.Y, h0}, solid{c.X, c.Y, h1})
	}
	return p.Prism
}

// Section is the frame of what is drawn in the section: X and Y as they are, the normal
// along Z.
func Section() surface.Frame {
	return surface.Frame{U: surface.Vec{X: 1}, V: surface.Vec{Y: 1}, N: surface.Vec{Z: 1}}
}

// solid is a place of the outline at a height.
type solid struct{ x, y, h float64 }

// raiser builds a Prism.
type raiser struct {
	Prism
	frame surface.Frame
}

func (p *raiser) put(to *[]float32, s solid) {
	v := p.frame.At(s.x, s.y, s.h)
	*to = append(*to, float32(v.X), float32(v.Y), float32(v.Z))
}

func (p *raiser) face(q ...solid) {
	for _, i := range [6]int{0, 1, 2, 0, 2, 3} {
		p.put(&p.Faces, q[i])
	}
}

func (p *raiser) line(a, b solid) {
	p.put(&p.Edges, a)
	p.put(&p.Edges, b)
}
