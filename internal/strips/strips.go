// Package strips lays the test strips of a design on sheets, as its parts are laid.
//
// New takes the values that were typed, and of the scores only how many passes they get and how
// far apart they lie. It returns the pieces that are wanted in their places, at the bed's corners
// where a depth strip is to tell how the depth varies over the bed. Sheet is what is cut of them,
// Weights what is hung on a tongue. What they teach is read by package learn.
package strips

import (
	"math"
	"strconv"

	"springrib/internal/coupon"
	"springrib/internal/cut"
	"springrib/internal/design"
	"springrib/internal/lay"
	"springrib/internal/sheet"
	"springrib/internal/state"
)

// Set are the test pieces of a design, laid on sheets like its parts.
type Set struct {
	Pieces []coupon.Strip
	Group  lay.Group // Parts are those of Pieces, index by index
	// Spread tells that the depth strips lie at the bed's corners and its centre; Cramped
	// that they should, but that the bed has no room for it.
	Spread, Cramped bool
	// Missing are the names of pieces that fit on no bed.
	Missing []string

	task Task
}

// Task is what strips are asked for.
type Task struct {
	Values  *design.Values
	Passes  int     // of the design's scores
	Spacing float64 // the greatest between its scores, mm
	Overrun float64 // of its scores past the edge, mm
}

func (t *Task) scoring() state.Scoring {
	return state.Scoring{Sheet: &t.Values.Sheet, Machine: &t.Values.Machine}
}

// Sheets returns how many sheets they take.
func (s *Set) Sheets() int { return len(s.Group.Layout.Sheets) }

// New returns the strips that the person wants: of the design's sheet, with its setting, for
// its spacing. They take the road that the parts take.
func New(t Task) Set {
	v := *t.Values // its own copy: strips outlive the values that they were made of
	t.Values = &v
	o := t.order()
	var all []coupon.Strip
	var spread spreading
	want := func(which string) bool {
		return t.Values.Strips.Which == which || t.Values.Strips.Which == design.AllStrips
	}
	if want(design.DepthStrip) {
		var pieces []coupon.Strip
		pieces, spread = t.depthStrips(o)
		all = append(all, pieces...)
	}
	if want(design.WidthStrip) {
		all = append(all, o.Close()...)
	}
	if want(design.BendStrip) {
		all = append(all, o.Bend()...)
	}
	if want(design.FitStrip) {
		all = append(all, o.Fit()...)
	}
	out := Set{task: t, Pieces: all, Spread: spread.pins != nil, Cramped: spread.cramped}
	if len(all) == 0 {
		return out
	}
	m := t.Values.Machine
	g := lay.Group{From: o.From, Job: sheet.Job{
		Beds: []sheet.Bed{{W: m.BedWidth, H: m.BedHeight, Margin: t.Values.Cut.Margin}}, Gap: t.Values.Cut.Gap,
	}}
	for _, s := range all {
		g.Parts = append(g.Parts, s.Part)
		piece := stripPiece(s)
		if at, ok := spread.pins[s.ID]; ok {
			piece.Pins = []sheet.Place{at}
		}
		g.Job.Pieces = append(g.Job.Pieces, piece)
	}
	g.Layout = sheet.Rows(g.Job)
	for _, m := range g.Layout.Missing {
		out.Missing = append(out.Missing, g.Parts[m.Piece].Name)
	}
	out.Group = g
	return out
}

// stripPiece is a strip as package sheet lays it.
func stripPiece(s coupon.Strip) sheet.Piece {
	piece := sheet.Piece{ID: s.ID, Outline: s.Free(), Quantity: s.Quantity}
	for _, w := range s.Work {
		if w.Kind == cut.Score || w.Kind == cut.Mark {
			piece.Reach = append(piece.Reach, w.Path)
		}
	}
	return piece
}

// Weights returns the two weights, N, to hang on a tongue: the heavier takes it down by
// about 0.4 of its length, or strains it to 0.4 of what it bears where that comes first,
// the lighter is a third of it. None for another piece, nor for a tongue that hangs so low
// by itself.
func (s *Set) Weights(piece coupon.Strip) []float64 {
	if piece.Kind != coupon.TonguePiece {
		return nil
	}
	v := s.task.Values.Sheet
	width := design.TongueWidth()
	ei, strained := width*v.E.Value*v.T*v.T*v.T/12, v.T/2 // strain over curvature
	if piece.Passes > 0 {
		law := s.task.scoring().Narrow(piece.Passes)
		ei, strained = width*law.Stiffness(piece.Spacing), law.Strain(piece.Spacing, 1)
	}
	t := coupon.Tongue{Length: design.TongueLength(), Weight: v.Density.Value * 1e-9 * gravity * v.T * width}
	load, ok := t.Load(ei, 0.4*t.Length)
	load = math.Min(load, 0.4*v.Rupture.Value/strained*ei/t.Length-t.Weight*t.Length/2)
	if !ok || load <= 0 {
		return nil
	}
	return []float64{load / 3, load}
}

// gravity is standard gravity, m/s^2 (3rd General Conference on Weights and Measures, 1901).
const gravity = 9.80665

// order is what the design asks of its strips.
func (t *Task) order() coupon.Order {
	v := t.Values
	o := coupon.Order{
		From: v.Own(), Kerf: v.Machine.Kerf, Width: v.Machine.ScoreWidth,
		Passes: len(v.Machine.Depths), Chosen: t.Passes, Spacing: t.Spacing, Overrun: t.Overrun,
		Length: design.TongueLength(), Tongue: design.TongueWidth(), Closing: math.Inf(1),
	}
	if o.Spacing > 0 {
		law := t.scoring().Law(t.Passes)
		o.Closing = law.ClosingAngle(o.Spacing)
		o.Cracking = law.CrackingRadius(o.Spacing, v.Sheet.Rupture.Value) - v.Sheet.T + law.Neutral(o.Spacing)
		// A gauge on which the mouths shut first says nothing of cracking.
		o.Cracking = math.Max(o.Cracking, law.ClosingRadius(o.Spacing)-v.Sheet.T+law.Neutral(o.Spacing))
	}
	return o
}

// Sheet writes down sheet n of the strips, from 0: the scores pass by pass as whole
// layers, as they are run in real work, each in a colour of its own, then marks and cuts.
func (s *Set) Sheet(n int) cut.Job {
	v := s.task.Values
	parts, passes, most := s.on(n)
	set := lay.Settings(v, s.task.Passes)
	set.RepeatLayers = false
	set.Kinds[cut.Score].Passes = 1
	name, colours := set.Kinds[cut.Score].Name, layerColours(&v.Cut)
	var ops []cut.Operation
	for k := 1; k <= most; k++ {
		var deep []cut.Part
		for i, cp := range parts {
			if passes[i] >= k {
				only := cut.Part{ID: cp.ID}
				only.Strokes[cut.Score] = cp.Strokes[cut.Score]
				deep = append(deep, only)
			}
		}
		set.Kinds[cut.Score].Name, set.Kinds[cut.Score].Colour = name+" pass "+strconv.Itoa(k), colours[(k-1)%len(colours)]
		ops = append(ops, cut.Order(deep, set)...)
	}
	for i := range parts {
		parts[i].Strokes[cut.Score] = nil
	}
	ops = append(ops, cut.Order(parts, set)...)
	title := "Test strips"
	if v.Name != "" {
		title += " for " + v.Name
	}
	return cut.Job{
		Title: title, Revision: v.Revision, Note: lay.KerfNote(v), Sheet: n + 1, Sheets: s.Sheets(),
		Width: v.Machine.BedWidth, Height: v.Machine.BedHeight, Operations: ops,
	}
}

// on returns the pieces on a sheet in their places, how many passes each gets, and the
// most of those.
func (s *Set) on(n int) (parts []cut.Part, passes []int, most int) {
	for _, placed := range s.Group.Layout.Placed {
		if placed.Sheet != n {
			continue
		}
		src := s.Pieces[placed.Piece]
		cp := cut.Part{ID: src.ID}
		if src.Quantity > 1 {
			cp.ID += " " + strconv.Itoa(placed.Copy+1)
		}
		move := placed.Move()
		for _, w := range src.Work {
			cp.Strokes[w.Kind] = append(cp.Strokes[w.Kind], w.Path.Apply(move))
		}
		parts, passes, most = append(parts, cp), append(passes, src.Passes), max(most, src.Passes)
	}
	return parts, passes, most
}

// Cuts returns what is cut on a sheet of strips, part by part, in no order.
func (s *Set) Cuts(n int) []cut.Part {
	parts, _, _ := s.on(n)
	return parts
}

// layerColours are the colours of the passes: that of scores first, then those of M.
// Okabe and K. Ito, Color universal design (2008), that no other operation has, less the
// yellow, which can't be seen on white.
func layerColours(c *design.CutValues) []string {
	taken := map[string]bool{}
	for _, o := range c.Operations {
		taken[o.Colour] = true
	}
	out := []string{c.Operations[cut.Score].Colour}
	for _, c := range []string{"#D55E00", "#0072B2", "#000000", "#E69F00", "#56B4E9", "#009E73", "#CC79A7"} {
		if !taken[c] {
			out = append(out, c)
		}
	}
	return out
}
