package bench

import (
	"math"
	"strconv"

	"springrib/internal/design"
	"springrib/internal/machine"
	"springrib/internal/plan"
	"springrib/internal/plane"
	"springrib/internal/stock"
)

// proof says how to know that it worked.
func (w writer) proof() Section {
	p := w.Plan
	pts, span, rise := Profile(p)
	s := Section{ID: "proof", Title: "How to know that it worked"}
	size := "Outer face after gluing: span " + w.mm(span) + ", rise " + w.mm(rise) + ", measured from edge to edge."
	if p.Closed {
		box := plane.BoxOf(pts...)
		size = "Outer face after gluing: " + w.mm(box.W()) + " by " + w.mm(box.H()) + " over all, away from the seam."
	}
	s.Lines = []string{size, "No flat may stand more than " + w.mm(p.V.Panel.StandOff) + " off the rib." + w.paper()}
	if !p.Closed { // a former is a plate: it does not bend
		s.Lines = append(s.Lines, "When you let go the rib may give by about "+w.mm(p.Hold.Rib.Movement)+" at its tip.")
	}
	f := w.profile(pts)
	if f.Scale == 1 {
		s.Lines = append(s.Lines, "Hold the piece against this profile of its outer face. Print it at 100 % and check its length first.")
	} else {
		s.Lines = append(s.Lines, "The figure is too small to hold the piece against: it is drawn at 1:"+strconv.Itoa(int(f.Scale))+". Print “"+ProfileFile+"”, tape its pages together and check its length first.")
	}
	s.Figures = []Figure{f}
	return s
}

// paperThickness is that of office paper of 80 g/m², mm. Common practice, no source.
const paperThickness = 0.1

// paper says in strips of paper what a flat may stand off by.
func (w writer) paper() string {
	switch n := int(w.V.Panel.StandOff/paperThickness + 1e-9); {
	case n == 0:
		return " Not even a strip of office paper may pass under it."
	case n == 1:
		return " A strip of office paper may pass under it, two may not."
	case n < 10:
		return " " + strconv.Itoa(n) + " strips of office paper may pass under it, " + strconv.Itoa(n+1) + " may not."
	}
	return ""
}

// ProfileFile is the label of the file that holds the profile in true size.
const ProfileFile = "Profile in true size"

// The largest figure that is printed in true size, mm: what A4 and Letter both have room
// for inside the margins of a browser, under its caption.
const trueWidth, trueHeight = 170, 215

// profile draws the bent panel's outer face, its ends level, in true size where paper has
// room for it.
func (w writer) profile(pts []plane.Point) Figure {
	f := Figure{ID: "profile", Caption: "Outer face, bent", Scale: 1}
	level := Level(pts)
	box := plane.BoxOf(level...)
	upright := box.W() > trueWidth && box.W() <= trueHeight && box.H() <= trueWidth && !w.Closed
	if upright { // there is more room along the paper than across
		for i, q := range level {
			level[i] = q.Left()
		}
	}
	line := plane.Open(level...)
	box = line.Box()
	for _, n := range []float64{1, 2, 5, 10, 20, 50, 100, 200, 500} {
		if f.Scale = n; box.W()/n <= trueWidth && box.H()/n <= trueHeight {
			break
		}
	}
	f.add("profile", line)
	first, last := level[0], level[len(level)-1]
	if w.Closed {
		f.say(first, plane.Pt(0, -1), "seam")
		first, last = plane.Pt(box.Min.X, box.Min.Y), plane.Pt(box.Max.X, box.Min.Y)
	} else {
		out := last.Sub(first).Unit()
		f.say(first, out.Mul(-1), "foot")
		f.say(last, out, "tip")
	}
	f.measure(first, last, w.mm(first.Dist(last)))
	return f
}

// Level turns a face so that its ends lie level, the foot to the left. A face that goes
// all round is left as it is.
func Level(pts []plane.Point) []plane.Point {
	a, b := pts[0], pts[len(pts)-1]
	d := b.Sub(a)
	box := plane.BoxOf(pts...)
	if d.Len() < 0.2*math.Max(box.W(), box.H()) {
		return pts
	}
	m := plane.Rotate(-math.Atan2(d.Y, d.X)).Mul(plane.Translate(-a.X, -a.Y))
	out := make([]plane.Point, len(pts))
	for i, p := range pts {
		out[i] = m.Apply(p)
	}
	return out
}

// InTrueSize tells whether the bench sheet shows the profile in true size.
func InTrueSize(p *plan.Plan) bool {
	w := writer{Plan: p}
	pts, _, _ := Profile(p)
	return w.profile(pts).Scale == 1
}

// Profile returns the bent panel's face away from the rib, corner by corner from the
// foot, the distance between its ends and its greatest height over the line through
// them, mm.
func Profile(p *plan.Plan) (pts []plane.Point, span, rise float64) {
	pts = p.Face(p.V.Sheet.T)
	a, b := pts[0], pts[len(pts)-1]
	span = a.Dist(b)
	n := b.Sub(a).Unit().Left()
	for _, q := range pts {
		rise = math.Max(rise, math.Abs(q.Sub(a).Dot(n)))
	}
	return pts, span, rise
}

// trouble says what to do when it goes wrong.
func (w writer) trouble() Section {
	s := Section{ID: "trouble", Title: "When something goes wrong", Loose: true}
	add := func(id, what, how string) { s.Steps = append(s.Steps, Step{id, what, how}) }
	if w.Scores() > 0 {
		next := " For the next one take a larger radius, a thinner skin or more scores, and see what the page says. Enter the radius at which it broke as a bend strip."
		if w.family() == stock.Plastic {
			add("cracks", "It clicks, whitens or cracks", "Stop and let it back. A crack in plastic runs on: start a new panel."+next)
		} else {
			add("cracks", "It crackles or cracks", "Stop and let it back. Work thin glue into the crack if the piece is to be saved."+next)
		}
	}
	if w.closes() {
		add("pinches", "The scores pinch shut", "The panel goes stiff at once. Don't force it: the skin is what gives way. Clear the scores; if they are clean, make them wider or closer. Each mouth has "+w.fit(w.V.Machine.ScoreWidth)+" to close.")
	}
	char := ""
	if w.tool() == machine.Laser && w.family() != stock.Plastic {
		char = " char on the edge,"
	}
	how := "Look for glue set too soon," + char + " or a sheet thicker than " + w.fit(w.V.Sheet.T) + "."
	if so := w.V.Panel.StandOff; so > 0 && w.plasticGlued() {
		how += " Up to " + w.mm(so) + " is planned: a glue that fills gaps takes it up."
	} else if so > 0 {
		how += " Up to " + w.mm(so) + " is planned and fills with glue."
	}
	add("stands-off", "It stands off the rib", how)
	return s
}

// finish comes after bending.
func (w writer) finish() Section {
	s := Section{ID: "finish", Title: "Finish after bending"}
	switch w.family() {
	case stock.Plastic:
		s.Lines = []string{
			"Leave it bare. Paint and polish hold solvents, and plastic that is held in a bend crazes under them.",
			"Clean it with a soft cloth, water and a drop of soap. Keep spirit and glass cleaner off it.",
		}
	case stock.Paper:
		s.Lines = []string{
			"Paint or cover it only when the glue is hard: a finish in the scores keeps glue out.",
			"Water softens and warps card. Use thin coats, and leave it bound until each is dry.",
		}
	default:
		s.Lines = []string{
			"Sand and paint or oil only when the glue is hard: a finish in the scores keeps glue out, and a film on the skin cracks as it bends.",
			"Water-based finish swells the skin from one side: seal both faces.",
		}
	}
	seen := !w.Mirror // the scored face shows
	if w.family() != stock.Plastic && w.Scores() > 0 && (seen || w.V.Panel.ScoredFace == design.Round) {
		s.Lines = append(s.Lines, "Fill open scores, if they show, with what stays soft or with glue while it is held.")
	}
	return s
}
