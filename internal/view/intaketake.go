package view

import (
	"encoding/json"
	"errors"

	"springrib/internal/design"
	"springrib/internal/fit"
	"springrib/internal/intake"
	"springrib/internal/plan"
	"springrib/internal/plane"
	"springrib/internal/unit"
	"springrib/internal/wire"
)

// Take returns the design with what was chosen of a file drawn elsewhere.
func (Core) Take(raw []byte, in wire.Intake) ([]byte, error) {
	doc, b, err := bringTo(raw, in)
	if err != nil {
		return nil, err
	}
	if why := b.missing(); why != "" {
		return nil, errors.New(why)
	}
	if doc, err = b.into(doc); err != nil {
		return nil, err
	}
	if why := b.stop(doc); why != "" {
		return nil, errors.New(why)
	}
	return json.Marshal(doc)
}

// bringTo reads a design and the file that is brought to it.
func bringTo(raw []byte, in wire.Intake) (design.Document, *brought, error) {
	doc, err := document(raw)
	if err != nil {
		return doc, nil, err
	}
	units, _ := unit.SystemOf(doc.Units)
	b, err := bring(in, units)
	return doc, b, err
}

// takenPaths is what is kept of the drawing, in few pieces: what is cut, and what is drawn.
type takenPaths struct {
	outlines, holes, marks, curves []plane.Path
}

// stop says what keeps a design with the drawing in it from being worked with; empty when
// nothing does.
func (b *brought) stop(doc design.Document) string {
	values, _, _ := design.ReadStates(doc)
	if f, ok := plan.StopOfDrawing(values, len(b.taken.outlines) > 0, len(b.taken.curves) > 0); ok {
		return f.Text
	}
	return ""
}

// into puts what was chosen into a design.
func (b *brought) into(doc design.Document) (design.Document, error) {
	doc = design.Clone(doc)
	var long error
	var compactor intake.Compactor
	b.taken = takenPaths{}
	into := &b.taken.outlines
	text := func(p plane.Path) string {
		if long != nil {
			return ""
		}
		short, ok := compactor.Compact(p, fit.DefaultTolerance)
		*into = append(*into, short)
		if !ok {
			long = errors.New("A line of this drawing has too many corners to work with, as traced pictures do. Simplify it in the program it was drawn with.")
			return ""
		}
		return short.String()
	}
	texts := func(kept *[]plane.Path, paths []plane.Path) []string {
		into = kept
		var out []string
		for _, p := range paths {
			if t := text(p); t != "" {
				out = append(out, t)
			}
		}
		return out
	}
	if o := b.chosen(intake.Outline); len(o) == 1 {
		doc.Panel.Shape = design.Drawn
		doc.Panel.Drawn = design.Drawing{Source: b.name, Outline: text(o[0]), Holes: texts(&b.taken.holes, b.chosen(intake.Hole)), Marks: texts(&b.taken.marks, b.chosen(intake.Mark))}
		doc.Panel.DrawnLength, doc.Panel.DrawnTurn, doc.Panel.DrawnMirror = "", "", false
	}
	if c := b.chosen(intake.Curve); len(c) == 1 {
		into = &b.taken.curves
		doc.Curve.Kind = b.curveKind()
		doc.Curve.Drawn = design.Drawing{Source: b.name, Line: text(c[0])}
		doc.Curve.DrawnLength, doc.Curve.DrawnTurn, doc.Curve.DrawnMirror, doc.Curve.DrawnBack, doc.Curve.DrawnSeam = "", "", false, false, ""
	}
	if long != nil {
		return doc, long
	}
	if n := max(doc.Panel.Drawn.Size(), doc.Curve.Drawn.Size()); n > design.MaxDrawn {
		return doc, errors.New("There is more in this drawing than a design can keep. Take fewer marks, or simplify it in the program it was drawn with.")
	}
	return b.lay(doc), nil
}

// lay puts the fields that say how the drawing is laid into a design.
func (b *brought) lay(doc design.Document) design.Document {
	for _, c := range b.controls() {
		if text, ok := b.in.Lay[c.Path]; ok {
			doc, _ = design.Set(doc, c.Path, text)
		}
	}
	return doc
}
