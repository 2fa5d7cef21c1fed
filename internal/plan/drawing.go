package plan

import (
	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/outline"
	"springrib/internal/section"
)

// StopOfDrawing returns what keeps the drawing of a design from being worked with, so that it
// is known before the drawing is taken; ok is false when nothing does. Whether the panel lies
// on the curve, and can be bent and cut, is the plan's to say.
func StopOfDrawing(v design.Values, panel, line bool) (why finding.Finding, ok bool) {
	var said []finding.Finding
	if panel {
		said = outline.StopsOfDrawing(v)
	}
	if line {
		said = append(said, section.StopsOfLine(&v.Curve, v.Units)...)
	}
	for _, f := range said {
		if f.Severity == finding.Stop {
			return f, true
		}
	}
	return finding.Finding{}, false
}
