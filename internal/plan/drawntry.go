package plan

import (
	"springrib/internal/design"
	"springrib/internal/finding"
)

// StopOfDrawing returns what keeps the drawing of a design from being worked with, so that it
// is known before the drawing is taken; ok is false when nothing does. Whether the panel lies
// on the curve, and can be bent and cut, is the plan's to say.
func StopOfDrawing(v design.Values, outline, line bool) (why finding.Finding, ok bool) {
	// Where the outline lies along the curve doesn't matter to its own soundness.
	v.Panel.Along, v.Panel.Across = 0, 0
	p := Plan{V: v}
	if outline && p.readDrawing() {
		p.whole(p.Size.region)
	}
	l := lining{p.told(), &v.Curve}
	if line && v.Curve.Kind == design.DrawnRound {
		l.drawnRound()
	} else if line {
		l.drawnLine()
	}
	p.take(l.Notes)
	for _, f := range p.Findings {
		if f.Severity == finding.Stop {
			return f, true
		}
	}
	return finding.Finding{}, false
}
