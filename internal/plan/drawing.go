package plan

import (
	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/outline"
)

// StopOfDrawing returns what keeps the drawing of a design from being worked with, so that it
// is known before the drawing is taken; ok is false when nothing does. Whether the panel lies
// on the curve, and can be bent and cut, is the plan's to say.
func StopOfDrawing(v design.Values, panel, line bool) (why finding.Finding, ok bool) {
	var said []finding.Finding
	if panel {
		said = outline.StopsOfDrawing(v)
	}
	l := lining{finding.Notes{Units: v.Units}, &v.Curve}
	if line && v.Curve.Kind == design.DrawnRound {
		l.drawnRound()
	} else if line {
		l.drawnLine()
	}
	for _, f := range append(said, l.All...) {
		if f.Severity == finding.Stop {
			return f, true
		}
	}
	return finding.Finding{}, false
}
