package bench

import (
	"math"
	"strconv"
	"strings"

	"springrib/internal/coupon"
	"springrib/internal/cut"
	"springrib/internal/design"
	"springrib/internal/plane"
	"springrib/internal/unit"
)

// of picks the strips of a kind.
func (w *writer) of(kind coupon.Piece) []*coupon.Strip {
	var out []*coupon.Strip
	for i := range w.strips.Pieces {
		if s := &w.strips.Pieces[i]; s.Kind == kind {
			out = append(out, s)
		}
	}
	return out
}

// strip gives a section of the test strips its drawing and the table to write in; it
// passes over other sections, and is false where no strip of the kind is cut.
func (w *writer) strip(s *Section) bool {
	kinds := map[string]coupon.Piece{
		"tongues": coupon.TonguePiece, "closing": coupon.ClosePiece, "bending": coupon.BendPiece, "kerf": coupon.KerfPiece, "fitting": coupon.FitPiece,
	}
	kind, ok := kinds[s.ID]
	if !ok {
		return true
	}
	some := w.of(kind)
	if len(some) == 0 {
		return false
	}
	name, _, _ := strings.Cut(s.Title, ":")
	s.Figures = []Figure{drawn(s.ID, name, some)}
	switch kind {
	case coupon.TonguePiece:
		w.tongues(s, some)
	case coupon.ClosePiece:
		s.head(true, "Strip", "Passes", "Spacing", "Scores", "Turn")
		for _, p := range some {
			s.row(label(p), strconv.Itoa(p.Passes), w.fit(p.Spacing), strconv.Itoa(p.Count), "")
		}
	case coupon.BendPiece:
		s.head(true, "Strip", "Spacing", "Held on gauge", "Broke on gauge")
		for _, p := range some {
			for range max(1, p.Quantity) {
				s.row(label(p), w.fit(p.Spacing), "", "")
			}
		}
		s.Figures = append(s.Figures, drawn("gauges", "Gauges", w.of(coupon.GaugePiece)))
	case coupon.KerfPiece:
		s.head(true, "Direction", "Window", "Block", "Half the difference")
		s.row("long side", "", "", "")
		s.row("short side", "", "", "")
	default:
		s.head(true, "Slot's figure", "Slot less tenon", "Loose, fitted or tight")
		for _, c := range some[0].Spare {
			s.row(strconv.Itoa(int(math.Round(100*c))), w.fit(c), "")
		}
	}
	return true
}

// tongues are hung over a table's edge with two weights.
func (w *writer) tongues(s *Section, some []*coupon.Strip) {
	s.head(true, "Strip", "First weight", "Drop", "Second weight", "Drop", "Skin")
	for _, p := range some {
		row := []string{label(p), "none: it sags", "", "", "", ""}
		if weights := w.strips.Weights(*p); len(weights) == 2 {
			row[1], row[3] = unit.Mass(weights[0], w.v.Units), unit.Mass(weights[1], w.v.Units)
		}
		if p.Passes == 0 {
			row[5] = "no scores"
		}
		s.row(row...)
	}
	f, top := &s.Figures[0], topOf(some)
	f.say(plane.Pt(coupon.TableEdge/2, top), plane.Pt(0, 1), "held down")
	f.say(plane.Pt(coupon.TableEdge, 0), plane.Pt(0, -1), "table's edge")
	f.say(plane.Pt(coupon.TableEdge+design.TongueLength(), top), plane.Pt(0, 1), "weight")
}

// label is what a strip carries in figures.
func label(s *coupon.Strip) string {
	if _, name, ok := strings.Cut(s.Name, " "); ok {
		return name
	}
	return s.Name
}

// stripGap is what strips keep between them in a figure, mm, overruns of scores included.
const stripGap = 3

// drawn draws strips one above the other, the first on top, each with its figures; gauges
// side by side, as they are broad.
func drawn(id, caption string, some []*coupon.Strip) Figure {
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
func topOf(some []*coupon.Strip) float64 {
	top := -float64(stripGap)
	for _, s := range some {
		top += s.Reach().H() + stripGap
	}
	return top
}
