package plan

import (
	"springrib/internal/design"
	"springrib/internal/finding"
)

// StopOfDrawing returns what keeps the drawing of a design from being worked with, so that it
// is known before the drawing is taken; ok is false when nothing does. Whether the panel lies
// on the curve, and can be bent and cut, is the plan's to say.
func StopOfDrawing(v design.Values, outline, line bool) (why finding.Finding, ok bool) {
	p := Plan{V: v}
	if outline && p.readDrawing() {
		// Where it lies along the curve doesn't matter to its own soundness.
		p.V.Panel.Along, p.V.Panel.Across = 0, 0
		p.whole(p.Drawing.region)
	}
	if line && !p.stopped() {
		if v.Curve.Kind == design.DrawnRound {
			p.drawnRound()
		} else {
			p.drawnLine()
		}
	}
	for _, f := range p.Findings {
		if f.Severity == finding.Stop {
			return f, true
		}
	}
	return finding.Finding{}, false
}

func (p *Plan) stopped() bool {
	for _, f := range p.Findings {
		if f.Severity == finding.Stop {
			return true
		}
	}
	return false
}
