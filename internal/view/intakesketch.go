package view

import (
	"math"
	"slices"

	"springrib/internal/design"
	"springrib/internal/intake"
	"springrib/internal/outline"
	"springrib/internal/plane"
	"springrib/internal/section"
	"springrib/internal/unit"
	"springrib/internal/wire"
)

// maxChanges is the number of changes told one by one.
const maxChanges = 80

// changeViews tells what mending does; m maps places of the file to the drawing.
func (b *brought) changeViews(m plane.Affine) (out []wire.IntakeChange, more int) {
	closing := b.closing()
	for _, c := range b.changes {
		if c.Kind == intake.Turned || c.Kind == intake.Speck {
			continue // which way a line runs and dots are no concern of a person's
		}
		if len(out) >= maxChanges {
			more++
			continue
		}
		at := m.Apply(c.At)
		v := wire.IntakeChange{Text: b.changeText(c), Done: c.Done(), X: at.X, Y: -at.Y}
		v.Gap = closing[c.Key()]
		if c.Optional() {
			v.Key = c.Key()
		}
		for _, k := range c.Items[:min(len(c.Items), maxPaths)] {
			if i, ok := b.of[k]; ok && !slices.Contains(v.Refs, pathID(i)) {
				v.Refs = append(v.Refs, pathID(i))
			}
		}
		out = append(out, v)
	}
	return out, more
}

// changeText tells of ends that were left apart in the person's units.
func (b *brought) changeText(c intake.Change) string {
	d := unit.LengthFine(c.Gap, b.units)
	switch c.Kind {
	case intake.StillOpen:
		return "Open by " + d + ". Gaps up to " + unit.LengthFine(b.drawnGap, b.units) + " are closed."
	case intake.NearMiss:
		return "Ends " + d + " apart stay open. Gaps up to " + unit.LengthFine(b.drawnGap, b.units) + " are closed."
	case intake.Apart:
		return "Ends " + d + " apart are on two layers or in two colours, so they are not joined. Draw them alike to have them joined."
	}
	return c.Text
}

// maxTried is the number of lines and curves up to which it is tried which gap would close what is open.
const maxTried = 20_000

// closing returns, for each change that a wider gap was found to mend, that gap as one would
// type it. One gap is tried for all that are open.
func (b *brought) closing() map[string]string {
	widest := 0.0
	for _, c := range b.changes {
		if c.Kind == intake.StillOpen || c.Kind == intake.NearMiss {
			widest = math.Max(widest, c.Gap)
		}
	}
	step := 0.1 // mm
	if b.units == unit.Inch {
		step = 0.005 * 25.4
	}
	gap := math.Ceil(widest/step+1e-6) * step
	segments := 0
	for _, it := range b.drawing.Items {
		segments += len(it.Path.Segs)
	}
	if widest == 0 || gap > maxGap || segments > maxTried {
		return nil
	}
	_, then := intake.Mend(b.drawing.Items, gap, b.in.Leave...)
	open := map[string]bool{}
	for _, c := range then {
		if c.Kind == intake.StillOpen || c.Kind == intake.NearMiss {
			open[c.Key()] = true
		}
	}
	out := map[string]string{}
	for _, c := range b.changes {
		if (c.Kind == intake.StillOpen || c.Kind == intake.NearMiss) && !open[c.Key()] {
			out[c.Key()] = unit.LengthFine(gap, b.units)
		}
	}
	return out
}

// sketchTaken draws what would be taken as m lays it, and lights what the file does not hold:
// the lines that bridge its gaps.
func (b *brought) sketchTaken(s *sketch, m plane.Affine) {
	for _, k := range []struct {
		ink   string
		paths []plane.Path
	}{{"panel", b.taken.outlines}, {"inner", b.taken.holes}, {"mark", b.taken.marks}, {"neutral", b.taken.curves}} {
		for _, p := range k.paths {
			s.path(k.ink, "", p.Apply(m))
		}
	}
	var bridges []plane.Path
	for _, c := range b.changes {
		if c.Done() && (c.Kind == intake.Joined || c.Kind == intake.Closed || c.Kind == intake.Filled) && c.Gap > 0 && len(bridges) < maxChanges {
			if i, ok := b.of[c.Items[0]]; ok && b.roles[i] != intake.Unused {
				bridges = append(bridges, plane.CirclePath(c.At, math.Max(c.Gap, 0.004*math.Max(s.box.W(), s.box.H()))).Apply(m))
			}
		}
	}
	s.path("lit", "", bridges...)
}

// inks are the drawing's roles of the paths' roles.
var inks = [...]struct {
	role intake.Role
	ink  string
}{{intake.Outline, "panel"}, {intake.Unused, "ghost"}, {intake.Hole, "inner"}, {intake.Mark, "mark"}, {intake.Curve, "neutral"}}

// maxDrawnPaths is how many paths are drawn one by one; of more, each row is one item.
const maxDrawnPaths = 1500

// sketch draws every path as it would lie, and returns how they were laid.
func (b *brought) sketch(v design.Values) (*sketch, plane.Affine) {
	s := newSketch("intake", "What the drawing holds")
	m := plane.Identity()
	outlines, curves := b.chosen(intake.Outline), b.chosen(intake.Curve)
	switch {
	case len(outlines) == 1:
		m = outline.DrawnMap(outlines[0], v.Panel.Drawn)
	case len(curves) == 1:
		m = section.LineMap(curves[0], v.Curve.Drawn)
	}
	var outline plane.Box // of the one outline, as laid
	rowOf := make([]int, len(b.items))
	for i, g := range b.rows {
		for _, k := range g.paths {
			rowOf[k] = i
		}
	}
	for _, ink := range inks {
		byRow := map[int][]plane.Path{}
		for i, it := range b.items {
			if b.roles[i] != ink.role {
				continue
			}
			p := coarse(it.Path).Apply(m)
			if len(b.items) > maxDrawnPaths {
				byRow[rowOf[i]] = append(byRow[rowOf[i]], p)
			} else {
				s.path(ink.ink, pathID(i), p)
			}
			if ink.role == intake.Outline {
				outline = p.Box()
			}
		}
		for i := range b.rows {
			if ps := byRow[i]; len(ps) > 0 {
				s.path(ink.ink, rowID(i), ps...)
			}
		}
	}
	switch {
	case len(outlines) == 1:
		b.sizes(s, outline)
	case len(curves) == 1:
		p := curves[0].Apply(m)
		a, z := p.Start(), p.End()
		if v.Curve.Drawn.Back {
			a, z = z, a
		}
		s.label(a, "middle", "foot", 0)
		s.label(z, "middle", "tip", 0)
	}
	if s.box.Empty() {
		s.box = plane.Box{Max: plane.Pt(100, 60)}
	}
	return s, m
}

// maxSeen is the number of pieces of a path past which no screen shows how they bend.
const maxSeen = 20_000

// coarse returns p, or of one in very many pieces the line through their ends.
func coarse(p plane.Path) plane.Path {
	if len(p.Segs) <= maxSeen {
		return p
	}
	out := plane.Path{Closed: p.Closed, Segs: make([]plane.Segment, len(p.Segs))}
	for i := range p.Segs {
		out.Segs[i] = plane.LineSeg(p.Segs[i].A, p.Segs[i].B)
	}
	return out
}

// sizes draws how long and wide the outline is, and which end is the foot.
func (b *brought) sizes(s *sketch, box plane.Box) {
	off := 0.04 * math.Max(box.W(), box.H())
	a := plane.Pt(box.Min.X, box.Min.Y)
	s.dimension(a, plane.Pt(box.Max.X, box.Min.Y), -off, unit.Length(box.W(), b.units))
	s.dimension(a, plane.Pt(box.Min.X, box.Max.Y), off, "foot, "+unit.Length(box.H(), b.units))
}
