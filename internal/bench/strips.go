package bench

import (
	"math"
	"strconv"
	"strings"

	"springrib/internal/coupon"
	"springrib/internal/cut"
	"springrib/internal/machine"
	"springrib/internal/plane"
	"springrib/internal/unit"
)

const stripsTitle = "Test strips: cut, read, enter"

// testStrips is the page that explains the test strips: each kind drawn, how to read it,
// where to write what was read and how the page takes it. None where none are cut.
func (w writer) testStrips() []Section {
	if w.strips.Sheets() == 0 {
		return nil
	}
	first := Section{ID: "strips", Title: stripsTitle, NewPage: true, Lines: []string{
		"Cut them from this sheet, with the setting that you will score with.",
		"Each strip carries its passes and its spacing in mm: 2-0.90 means two passes, scores 0.9 mm apart.",
		"Enter what you read on the page: card “Test strips”, “Add a reading”. Each reading counts at once.",
	}}
	if w.tool() == machine.Saw {
		first.Lines[0] = "Score and cut them from this sheet by their template, with the setting that you will score with."
	}
	if w.strips.Spread {
		first.Lines = append(first.Lines, "The last figure is the place on the bed: 1 lower left, 2 lower right, 3 upper left, 4 upper right, 5 the centre. Enter it under “Cut at”.")
	}
	if len(w.strips.Missing) > 0 {
		first.Lines = append(first.Lines, "No sheet has room for "+listed(w.strips.Missing)+".")
	}
	out := []Section{first}
	for _, make := range []func([]coupon.Strip) Section{w.tongues, w.closing, w.bending, w.kerf, w.fitting} {
		if s := make(w.strips.Pieces); s.ID != "" {
			out = append(out, s)
		}
	}
	return out
}

// of picks the strips of some kinds.
func of(all []coupon.Strip, kinds ...coupon.Piece) []coupon.Strip {
	var out []coupon.Strip
	for _, s := range all {
		for _, k := range kinds {
			if s.Kind == k {
				out = append(out, s)
			}
		}
	}
	return out
}

// blank is a cell to write in.
const blank = ""

// tongues are hung over a table's edge.
func (w writer) tongues(all []coupon.Strip) Section {
	some := of(all, coupon.TonguePiece)
	if len(some) == 0 {
		return Section{}
	}
	length := some[0].Outline.Box().W()
	for _, wk := range some[0].Work { // the hole, or the line in its place, is furthest out
		if wk.Kind == cut.Inner {
			length = wk.Path.Box().Centre().X
		}
	}
	s := Section{ID: "tongues", Title: "Tongues: how deep a score is", Steps: []Step{
		{"clamp", "Clamp it", "Hold the tongue down on a table up to its line, scores up, the rest over the edge. Check that " + w.mm(length-coupon.TableEdge) + " hang free up to the hole."},
		{"hang", "Hang the first weight", "Hang it from the hole and measure how far the hole lies below the table top. Write it in the first “Drop”."},
		{"heavier", "Hang the second weight", "Measure again and write it in the second “Drop”. Other weights do too: write down what you hung."},
		{"snap", "Snap one of each", "Break it along a score and measure the skin that was left with a caliper."},
		{"enter", "Enter it", "For each drop add a reading “Drop of a tongue under a weight”, with passes, spacing and weight of its row. For each skin add “Skin of a snapped tongue”."},
	}}
	s.Table = &Table{Ruled: true, Head: []string{"Strip", "First weight", "Drop", "Second weight", "Drop", "Skin"}}
	for _, p := range some {
		row := []string{label(p), blank, blank, blank, blank, blank}
		if weights := w.Weights(p); len(weights) == 2 {
			row[1], row[3] = unit.Mass(weights[0], w.V.Units), unit.Mass(weights[1], w.V.Units)
		} else {
			row[1] = "none: it sags"
		}
		if p.Passes == 0 {
			row[5] = "no scores"
		}
		s.Table.Rows = append(s.Table.Rows, row)
	}
	f := drawn("tongues", "The tongues", some)
	top := topOf(some)
	f.say(plane.Pt(coupon.TableEdge/2, top), plane.Pt(0, 1), "held down")
	f.say(plane.Pt(coupon.TableEdge, 0), plane.Pt(0, -1), "table's edge")
	f.say(plane.Pt(length, top), plane.Pt(0, 1), "weight")
	s.Figures = []Figure{f}
	return s
}

// label is what a strip carries in figures.
func label(s coupon.Strip) string {
	_, name, ok := strings.Cut(s.Name, " ")
	if !ok {
		return s.Name
	}
	return name
}

// closing is folded up until it pinches.
func (w writer) closing(all []coupon.Strip) Section {
	some := of(all, coupon.ClosePiece)
	if len(some) == 0 {
		return Section{}
	}
	s := Section{ID: "closing", Title: "Width strip: when a score shuts", Steps: []Step{
		{"fold", "Fold it up", "Bend the strip with its scores inside until every mouth touches, and hold it there."},
		{"turn", "Measure the turn", "Lay its plain ends along a protractor and read the angle between them, counted from flat."},
		{"enter", "Enter it", "Add a reading “Turn that shuts a strip”, with passes, spacing and the number of scores of its row."},
	}}
	s.Table = &Table{Ruled: true, Head: []string{"Strip", "Passes", "Spacing", "Scores", "Turn"}}
	for _, p := range some {
		s.Table.Rows = append(s.Table.Rows, []string{label(p), strconv.Itoa(p.Passes), w.fit(p.Spacing), strconv.Itoa(p.Count), blank})
	}
	s.Figures = []Figure{drawn("closing", "The width strip", some)}
	return s
}

// bending is laid on gauges until it breaks.
func (w writer) bending(all []coupon.Strip) Section {
	some := of(all, coupon.BendPiece)
	if len(some) == 0 {
		return Section{}
	}
	s := Section{ID: "bending", Title: "Bend strips: what the skin stands", Steps: []Step{
		{"lay", "Bend it round a gauge", "Start with the largest gauge. Press the strip down on it, scores on the " + w.V.Panel.ScoredFace + " side as on your panel."},
		{"next", "Go on to the next", "Take smaller gauges until it cracks. Write down the last that it held on and the first that broke it."},
		{"enter", "Enter both", "Add a reading “Bent round a gauge” for each, with passes, spacing and side, and say whether it held or broke."},
	}}
	s.Table = &Table{Ruled: true, Head: []string{"Strip", "Spacing", "Held on gauge", "Broke on gauge"}}
	for _, p := range some {
		for range max(1, p.Quantity) {
			s.Table.Rows = append(s.Table.Rows, []string{label(p), w.fit(p.Spacing), blank, blank})
		}
	}
	gauges := of(all, coupon.GaugePiece)
	var radii []string
	for _, g := range gauges {
		radii = append(radii, w.mm(g.Radius))
	}
	if len(radii) > 0 {
		s.Lines = []string{"The gauges have radii of " + listed(radii) + "; each carries its own in mm."}
	}
	s.Figures = []Figure{drawn("bending", "The bend strips", some), drawn("gauges", "The gauges", gauges)}
	return s
}

// kerf is the window whose block falls out.
func (w writer) kerf(all []coupon.Strip) Section {
	some := of(all, coupon.KerfPiece)
	if len(some) == 0 {
		return Section{}
	}
	s := Section{ID: "kerf", Title: "Window: how wide a cut is", Steps: []Step{
		{"measure", "Measure window and block", "Measure the window inside and the block that fell out of it, in the same direction. Half of what they differ by is the kerf."},
		{"enter", "Enter it", "Add a reading “Width of a through cut” with that half."},
	}}
	s.Table = &Table{Ruled: true, Head: []string{"Direction", "Window", "Block", "Half the difference"},
		Rows: [][]string{{"long side", blank, blank, blank}, {"short side", blank, blank, blank}}}
	s.Figures = []Figure{drawn("kerf", "The window", some)}
	if w.tool() == machine.Saw {
		s.Lines = []string{"A saw can't cut a closed window: saw one slot into an offcut instead, and measure how wide it is."}
	}
	return s
}

// fitting is the strip of slots.
func (w writer) fitting(all []coupon.Strip) Section {
	some := of(all, coupon.FitPiece)
	if len(some) == 0 {
		return Section{}
	}
	s := Section{ID: "fitting", Title: "Fit strip: which slot holds", Steps: []Step{
		{"try", "Try an offcut in each slot", "Take the sheet that the ribs are cut from. Say of each slot whether the offcut was loose, fitted or was tight."},
		{"enter", "Enter it", "For each slot add a reading “Slot less tenon” with the figure of its row, and say what it did."},
	}}
	s.Table = &Table{Ruled: true, Head: []string{"Slot's figure", "Slot less tenon", "Loose, fitted or tight"}}
	for _, c := range some[0].Spare {
		s.Table.Rows = append(s.Table.Rows, []string{strconv.Itoa(int(math.Round(100 * c))), w.fit(c), blank})
	}
	s.Figures = []Figure{drawn("fitting", "The fit strip", some)}
	if w.tool() == machine.Saw {
		s.Lines = []string{"A saw can't cut closed slots: saw each in from the edge, as long as the tool allows."}
	}
	return s
}

// stripGap is what strips keep between them in a figure, mm, overruns of scores included.
const stripGap = 3

// drawn draws strips one above the other, the first on top, each with its figures; gauges
// side by side, as they are broad.
func drawn(id, caption string, some []coupon.Strip) Figure {
	f := Figure{ID: "strips-" + id, Caption: caption, Wide: true}
	y, x := topOf(some), 0.0
	for _, s := range some {
		b := s.Reach()
		at := plane.Pt(-b.Min.X, y-b.Max.Y)
		if s.Kind == coupon.GaugePiece {
			at = plane.Pt(x-b.Min.X, -b.Max.Y)
			x += b.W() + stripGap
		} else {
			y -= b.H() + stripGap
		}
		m := plane.Translate(at.X, at.Y)
		for _, wk := range s.Work {
			switch wk.Kind {
			case cut.Score:
				f.add("score", wk.Path.Apply(m))
			case cut.Mark:
				f.add("mark", wk.Path.Apply(m))
			}
		}
		for _, p := range s.Outline.Paths() {
			f.add("cut", p.Apply(m))
		}
		for _, wk := range s.Work {
			if wk.Kind == cut.Inner {
				f.add("cut", wk.Path.Apply(m))
			}
		}
	}
	return f
}

// topOf is how high strips stand above each other.
func topOf(some []coupon.Strip) float64 {
	top := -float64(stripGap)
	for _, s := range some {
		top += s.Reach().H() + stripGap
	}
	return top
}
