// Package section is the side view: the line that a person asks for, and the contact edge of
// panel and rib beside it.
//
// Line makes the wanted line of the figures that were typed, or of a line drawn elsewhere, and says
// why no panel could follow it. New lays the contact edge beside that line, on the side and at the
// distance that faces, fibre and sheet ask for; of a cone it is the edge at the narrow rim.
package section

import (
	"errors"
	"math"

	"springrib/internal/curve"
	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/state"
	"springrib/internal/surface"
	"springrib/internal/unit"
)

// Section is the side view.
type Section struct {
	Edge      curve.Curve // contact edge with its straight ends, foot first
	PanelLeft bool        // the panel lies to the left of the edge
	Towards   bool        // the scored face meets the rib
	Closed    bool        // the edge goes all round; the panel's ends meet or lap
	// Cone is what the contact face goes round where its scores run apart; Edge is then that of the
	// narrow rim, square to the scores. nil for a cylinder.
	Cone *surface.Cone
	// Pair is what the contact face goes over from one section to another; Edge then stands in for it.
	Pair *Pair
	// Sweep is how far round its axis the cone goes, rad.
	Sweep float64
}

// Task is what a section is made of.
type Task struct {
	Line    curve.Curve         // the wanted line
	Curve   *design.CurveValues // which face or fibre of the sheet that is, and whether it goes all round
	Sheet   *design.SheetValues
	Machine *design.MachineValues // asked where the line is the neutral one
	Units   unit.System
	Ring    float64 // thickness of a cone's rings, mm
	Show    string  // the face that shows, design.Hollow or design.Round
	// ScoredFace is the scored side of the panel, RibSide the one that its ribs are on:
	// design.Hollow or design.Round.
	ScoredFace, RibSide string
}

// New lays the contact edge of panel and rib beside the wanted line; ok is false
// where a bend is too tight for it, or the panel's outer faces would meet.
func New(t Task) (out Section, said []finding.Finding, ok bool) {
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
	if t.Curve.Skinned() {
		ok = t.pair(&out, &say)
		return out, say.All, ok
	}
	edge, err := t.Line.Parallel(t.toContact(&out))
	var tight *curve.ErrTooTight
	if errors.As(err, &tight) {
		say.Stop("curve-tight", FieldAt(t.Curve, tight.At, t.Line),
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
func (t *Task) toContact(to *Section) float64 {
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
