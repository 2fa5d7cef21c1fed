package intake

import (
	"math"

	"springrib/internal/plane"
)

// expander draws entities, and the blocks that they insert, as items.
type expander struct {
	layers map[string]layer
	blocks map[string]*block
	notes  *notes
	pen    pen
	keeper
	using []string // blocks being drawn, outermost first

	elements, work int // what may still be done
}

// placed is what a block takes over from the place where it is inserted.
type placed struct {
	m      plane.Affine // to mm
	layer  string       // for entities on layer 0, in a block
	colour colour       // for entities coloured by block
}

func (x *expander) all(list []entity, at placed) error {
	for i := range list {
		if err := x.one(&list[i], at); err != nil {
			return err
		}
	}
	return nil
}

func (x *expander) one(e *entity, at placed) error {
	if x.elements--; x.elements < 0 {
		return refuse(TooMany, "With its repeated blocks the drawing has more than %d elements.", MaxElements)
	}
	if len(x.using) == 0 || e.layer != "0" {
		at.layer = e.layer
	}
	on := x.layers[key(at.layer)]
	if e.hidden || on.frozen || on.off && e.insert == nil {
		x.notes.add(noteHidden, 1)
		return nil
	}
	c := e.colour
	switch {
	case !c.exact && c.index == byLayer:
		c = on.colour
	case !c.exact && c.index == byBlock:
		c = at.colour
	}
	at.colour = c
	at.m = at.m.Mul(seen(e.normal, e.height))
	if e.insert != nil {
		return x.insert(e.insert, at)
	}
	return x.draw(e, at)
}

func (x *expander) draw(e *entity, at placed) error {
	if x.work -= 20 * e.shape.cost(); x.work < 0 {
		return refuse(TooMany, "The file repeats so much that it can't be read in a sensible time.")
	}
	p := &x.pen
	p.m, p.paths, p.segs, p.bad = at.m, nil, nil, false
	e.shape.draw(p)
	p.lift()
	number := MaxElements - x.elements
	if p.full() {
		return tooManySegments()
	}
	if p.bad {
		x.notes.add(noteFar, 1)
		return nil
	}
	for _, path := range p.paths {
		x.add(Item{Layer: plainName(at.layer), Stroke: at.colour.hex(), Source: e.kind, Element: number, Path: path})
	}
	return nil
}

// insert draws a block in its rows and columns, which are turned with the block but
// not scaled.
func (x *expander) insert(in *insert, at placed) error {
	b := x.blocks[in.block]
	if b == nil {
		x.notes.add(noteMissing, 1)
		return nil
	}
	for _, name := range x.using {
		if name == in.block {
			return refuse(Circular, "The block %q of the drawing contains itself.", plainName(dxfName(name)))
		}
	}
	if len(x.using) >= MaxDepth {
		return refuse(TooDeep, "Blocks are nested more than %d deep.", MaxDepth)
	}
	if len(b.entities) == 0 {
		return nil
	}
	x.using = append(x.using, in.block)
	defer func() { x.using = x.using[:len(x.using)-1] }()
	m := at.m.Mul(plane.Translate(in.at.X, in.at.Y)).Mul(plane.Rotate(in.turn))
	inner := plane.Scale(in.sx, in.sy).Mul(plane.Translate(-b.base.X, -b.base.Y))
	for row := range in.rows {
		for col := range in.cols {
			at.m = m.Mul(plane.Translate(float64(col)*in.dx, float64(row)*in.dy)).Mul(inner)
			if err := x.all(b.entities, at); err != nil {
				return err
			}
		}
	}
	return nil
}

func radians(deg float64) float64 { return math.Mod(deg, 360) * math.Pi / 180 }
