package section

import (
	"springrib/internal/curve"
	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/plane"
	"springrib/internal/unit"
)

// LineMap returns how a line drawn elsewhere is laid: mirrored, turned and scaled to the
// length asked for.
func LineMap(line plane.Path, d design.DrawnValues) plane.Affine {
	k := 1.0
	if l := line.Length(); d.Length.OK && l > 0 {
		k = d.Length.V / l
	}
	return plane.Scale(k, k).Mul(plane.Turned(d.Turn, d.Mirror))
}

// maxLine bounds the pieces of a line drawn elsewhere; a fitted one has dozens.
const maxLine = 2000

// drawnLine returns the curve along a line drawn elsewhere, laid and scaled, with its
// straight ends.
func (l *lining) drawnLine() (c curve.Curve, ok bool) {
	d := l.c.Drawn
	line, err := plane.Parse(d.Line)
	if err != nil || len(line.Segs) > maxLine || !(line.Length() > 0) {
		return c, l.Stop("drawn-unreadable", "curve.drawn", design.Unreadable, nil)
	}
	if line.Closed {
		return c, l.Stop("curve-closed", "curve.drawn", "The line is closed. Wrap it all round, or leave it open where the panel's ends are to be, and open it again.", nil)
	}
	if d.Back {
		line = line.Reverse()
	}
	c, err = curve.FromPath(line.Apply(LineMap(line, d)))
	if err != nil {
		return c, l.Stop("drawn-unreadable", "curve.drawn", design.Unreadable, nil)
	}
	if length := c.Length(); length < 5 || length > design.MostDrawn {
		return c, l.Stop("drawn-size", "curve.drawnLength", "The line is "+l.Len(length)+" long. Say how long it is to be, or open the drawing again with the right unit.",
			map[string]float64{"length": length})
	}
	if firstBend(c) == 0 && len(c.Kinks(kinkSeen)) == 0 {
		return c, l.Stop("curve-straight", "curve.drawn", "The line is straight, so that nothing bends. Choose another.", nil)
	}
	return withStraights(c, l.c.Foot, l.c.Tip), true
}

// StopsOfLine says what is wrong with a line drawn elsewhere.
func StopsOfLine(c *design.CurveValues, units unit.System) []finding.Finding {
	l := lining{finding.Notes{Units: units}, c}
	if c.Kind == design.DrawnRound {
		l.drawnRound()
	} else {
		l.drawnLine()
	}
	return l.All
}
