// Package part makes the flat outlines that are cut: the panel with its scores, the
// rib that holds it. It works on rulings and contact edges and does not ask what kind
// of surface they came from.
package part

import (
	"springrib/internal/cut"
	"springrib/internal/plane"
	"springrib/internal/stock"
)

// Work is one path of a part and what is done along it, in the part's own
// coordinates (mm, Y up), seen from the machine's side.
type Work struct {
	Kind cut.Kind
	Path plane.Path
	// Score is the number of the score from the foot, from 1; 0 for other work.
	Score int
}

// Part is one flat piece to be cut.
type Part struct {
	ID, Name string
	From     stock.Sheet  // what it is cut from
	Outline  plane.Region // the finished piece, before any allowance for the kerf
	Work     []Work       // in cutting order within the part
	Quantity int
	// Allowance tells what became of the kerf allowance; its outline is in Work.
	Allowance Allowed
}

// free adds the cuts that free the part.
func (p *Part) free(kerf float64) {
	p.Outline = plane.TidyRegion(p.Outline)
	p.Allowance = Allow(p.Outline, kerf)
	p.Work = append(p.Work, p.Allowance.cuts()...)
}

// Reach returns the box of all that the tool touches.
func (p Part) Reach() plane.Box {
	b := p.Outline.Outer.Box()
	for _, w := range p.Work {
		b = b.Union(w.Path.Box())
	}
	return b
}

// Free returns the area that the outer cuts enclose, tool path included: what must
// not be touched by another part.
func (p Part) Free() plane.Region {
	r := plane.Region{}
	for _, w := range p.Work {
		switch w.Kind {
		case cut.Inner:
			r.Holes = append(r.Holes, w.Path)
		case cut.Outer:
			r.Outer = w.Path
		}
	}
	return r
}
