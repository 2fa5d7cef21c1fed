package plan

import (
	"errors"
	"math"

	"springrib/internal/curve"
	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/plane"
	"springrib/internal/state"
	"springrib/internal/unit"
)

// section turns the wanted curve into the contact edge.
func section(p *Plan) bool {
	made, said, ok := NewSection(SectionTask{
		Line: p.Line, Curve: &p.V.Curve, ScoredFace: p.V.Panel.ScoredFace, RibSide: p.V.Rib.Side,
		Sheet: &p.V.Sheet, Machine: &p.V.Machine, Units: p.V.Units, Ring: p.V.Rib.Thickness,
	})
	p.Section = made
	p.Findings = append(p.Findings, said...)
	return ok
}

// SectionTask is what a section is made of.
type SectionTask struct {
	Line    curve.Curve         // the wanted line
	Curve   *design.CurveValues // which face or fibre of the sheet that is, and whether it goes all round
	Sheet   *design.SheetValues
	Machine *design.MachineValues // asked where the line is the neutral one
	Units   unit.System
	Ring    float64 // thickness of a cone's rings, mm
	// ScoredFace is the scored side of the panel, RibSide the one that its ribs are on:
	// design.Hollow or design.Round.
	ScoredFace, RibSide string
}

// NewSection lays the contact edge of panel and rib beside the wanted line; ok is false
// where a bend is too tight for it, or the panel's outer faces would meet.
func NewSection(t SectionTask) (out Section, said []finding.Finding, ok bool) {
	bend := firstBend(t.Line)
	out.Towards = t.ScoredFace == t.RibSide
	out.PanelLeft = (t.RibSide == design.Hollow) == (bend <= 0)
	if k := t.Curve.Kind; k == design.Box || k == design.Oval || k == design.DrawnRound {
		out.Closed, out.PanelLeft = true, true // all of them go round to the right, whichever way they bend first
	}
	say := finding.Notes{Units: t.Units}
	if out.Closed && t.RibSide != design.Hollow {
		say.Stop("rib-outside", "rib.side", "A panel that goes all round a shape needs its rib inside, on the hollow side.", nil)
		return out, say.All, false
	}
	if t.Curve.Coned() {
		ok = t.cone(&out, &say)
		return out, say.All, ok
	}
	edge, err := t.Line.Parallel(t.toContact(&out))
	var tight *curve.ErrTooTight
	if errors.As(err, &tight) {
		say.Stop("curve-tight", curveField(t.Curve, tight.At, t.Line),
			"The rib edge would lie "+say.Len(math.Abs(tight.Distance))+" inside this line, but its radius is only "+
				say.Len(tight.Radius)+" "+say.Len(tight.At)+" from the foot. Take a larger radius.",
			map[string]float64{"radius": tight.Radius, "distance": math.Abs(tight.Distance), "at": tight.At})
		return out, say.All, false
	}
	out.Edge = edge
	ok = t.Curve.Kind != design.DrawnRound || closesOutside(&say, edge, t.Sheet.T)
	return out, say.All, ok
}

// toContact returns the distance from the wanted line to the contact edge, to the left.
// The outer face is the one away from the rib. The neutral line's distance depends a
// little on the spacing; it is taken for the deepest score at a spacing of one
// thickness, within about 0.05 t of any.
func (t *SectionTask) toContact(to *Section) float64 {
	d := 0.0
	switch t.Curve.Line {
	case design.Outer:
		d = t.Sheet.T
	case design.Neutral:
		d = state.Scoring{Sheet: t.Sheet, Machine: t.Machine}.Law(len(t.Machine.Depths)).Neutral(t.Sheet.T)
		if to.Towards {
			d = t.Sheet.T - d
		}
	}
	if to.PanelLeft {
		return -d
	}
	return d
}

func (p *Plan) len(mm float64) string { return unit.Length(mm, p.V.Units) }

func pt(x, y float64) plane.Point { return plane.Pt(x, y) }
