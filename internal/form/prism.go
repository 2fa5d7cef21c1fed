package form

import "springrib/internal/plane"

// Prism is a flat part as a body in space: triangles of three places and lines of two,
// three numbers each.
type Prism struct{ Faces, Edges []float32 }

// NewPrism returns the body of an outline in the section's plane, from z0 to z1 along
// the scores.
func NewPrism(r plane.Region, z0, z1 float64) Prism {
	var p Prism
	outlines := loops(r)
	for _, s := range slabs(outlines, nil) {
		for _, z := range []float64{z0, z1} {
			p.face(solid{s.u0, s.lo0, z}, solid{s.u1, s.lo1, z}, solid{s.u1, s.hi1, z}, solid{s.u0, s.hi0, z})
		}
	}
	each(outlines, func(_, _ int, a, b plane.Point) {
		p.face(solid{a.X, a.Y, z0}, solid{b.X, b.Y, z0}, solid{b.X, b.Y, z1}, solid{a.X, a.Y, z1})
		p.line(solid{a.X, a.Y, z0}, solid{b.X, b.Y, z0})
		p.line(solid{a.X, a.Y, z1}, solid{b.X, b.Y, z1})
	})
	for _, c := range cornersOf(outlines) {
		p.line(solid{c.X, c.Y, z0}, solid{c.X, c.Y, z1})
	}
	return p
}

type solid [3]float64

func (p *Prism) face(q ...solid) {
	for _, i := range [6]int{0, 1, 2, 0, 2, 3} {
		p.Faces = append(p.Faces, float32(q[i][0]), float32(q[i][1]), float32(q[i][2]))
	}
}

func (p *Prism) line(a, b solid) {
	for _, c := range []solid{a, b} {
		p.Edges = append(p.Edges, float32(c[0]), float32(c[1]), float32(c[2]))
	}
}
