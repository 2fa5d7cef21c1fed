package view

import (
	"bytes"
	"encoding/json"
	"errors"
	"math"

	"springrib/internal/design"
	"springrib/internal/plan"
	"springrib/internal/plane"
	"springrib/internal/wire"
)

// handles puts what can be held into the bent and the flat drawing.
func (w *worked) handles(drawings []wire.Drawing) {
	for _, g := range append(curveGrips(&w.plan.V), panelGrips(&w.plan)...) {
		for i := range drawings {
			if drawings[i].ID == g.drawing {
				drawings[i].Handles = append(drawings[i].Handles, g.handle(w.plan.V.Units))
			}
		}
	}
}

// Drag works out what the fields must say for a handle to lie where it was moved to, or
// as near as it comes, rounded as a person would write it.
func (c Core) Drag(raw []byte, drag wire.Drag) (map[string]string, []byte, error) {
	if !(math.Abs(drag.X) < 1e6 && math.Abs(drag.Y) < 1e6) {
		return nil, nil, errors.New("the page moved a handle out of the drawing; let go and take hold again")
	}
	base, err := c.hold(raw)
	if err != nil {
		return nil, nil, err
	}
	g, ok := base.grip(drag.Handle)
	if !ok {
		return nil, nil, errors.New("what you held is no longer there; let go and take hold again")
	}
	figures, rate := g.pull(plane.Pt(drag.X, -drag.Y))
	set := map[string]string{}
	for path, text := range g.rest {
		set[path] = text
	}
	for i, k := range g.knobs {
		former, _ := design.Get(base.doc, k.path)
		set[k.path] = k.write(k.clamp(figures[i]), rate, former, base.v.Units, drag.Fine)
	}
	changed, err := json.Marshal(with(base.doc, set))
	return set, changed, err
}

// grips are the handles of one design, found as they are asked for.
type grips struct {
	raw     []byte
	doc     design.Document
	v       design.Values
	found   []grip
	planned bool // those of the panel are among them
}

// hold returns the handles of a design: those it gave last when it is the same, for while
// a hand moves they are asked for sixty times a second.
func (c Core) hold(raw []byte) (*grips, error) {
	if c.last != nil && bytes.Equal(c.last.raw, raw) {
		return c.last, nil
	}
	doc, err := document(raw)
	if err != nil {
		return nil, err
	}
	h := grips{raw: bytes.Clone(raw), doc: doc}
	h.v, _ = design.Read(doc)
	h.found = curveGrips(&h.v)
	if c.last == nil {
		return &h, nil
	}
	*c.last = h
	return c.last, nil
}

// grip returns the handle of that ID. The curve's need no plan.
func (h *grips) grip(id string) (grip, bool) {
	for {
		for _, g := range h.found {
			if g.id == id {
				return g, true
			}
		}
		if h.planned {
			return grip{}, false
		}
		h.planned = true
		if p := plan.Make(h.v); p.Drawn {
			h.found = append(h.found, panelGrips(&p)...)
		}
	}
}

// with returns the document with the texts put in.
func with(doc design.Document, set map[string]string) design.Document {
	out := doc
	for _, path := range design.Paths(set) {
		changed, ok := design.Set(out, path, set[path])
		if !ok {
			panic("view: no field " + path)
		}
		out = changed
	}
	return out
}

func fieldAt(path string) design.Field {
	field, ok := design.At(path)
	if !ok {
		panic("view: no field " + path)
	}
	return field
}

// labelOf is what the form calls a field.
func labelOf(path string) string { return fieldAt(path).Label }

// boundsOf returns what the form allows a figure to be.
func boundsOf(path string) (low, high float64) {
	field := fieldAt(path)
	return field.Min, field.Max
}
