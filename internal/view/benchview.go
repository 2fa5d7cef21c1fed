package view

import (
	"errors"

	"springrib/internal/bench"
	"springrib/internal/plane"
	"springrib/internal/wire"
)

// Bench is the bench sheet for the page.
func (c Core) Bench(raw []byte) (wire.BenchSheet, [][]float32, error) {
	w, err := c.kept(raw)
	if err != nil {
		return wire.BenchSheet{}, nil, err
	}
	if !w.plan.Drawn {
		return wire.BenchSheet{}, nil, errors.New("there is no bench sheet yet; see what stops the design first")
	}
	s := w.bench()
	out := wire.BenchSheet{Warning: s.Warning, Title: s.Title, Lead: s.Lead}
	var arrays [][]float32
	for _, sec := range s.Sections {
		b := wire.BenchSection{ID: sec.ID, Title: sec.Title, NewPage: sec.NewPage, Lines: sec.Lines, Loose: sec.Loose}
		if sec.Table != nil {
			b.Head, b.Ruled = sec.Table.Head, sec.Table.Ruled
			for _, r := range sec.Table.Rows {
				b.Rows = append(b.Rows, wire.BenchRow{Cells: r})
			}
		}
		for _, st := range sec.Steps {
			b.Steps = append(b.Steps, wire.BenchStep{ID: st.ID, What: st.What, How: st.How})
		}
		for _, f := range sec.Figures {
			figure, numbers := benchFigure(f)
			b.Figures, arrays = append(b.Figures, figure), append(arrays, numbers)
		}
		out.Sections = append(out.Sections, b)
	}
	return out, arrays, nil
}

// The room that a figure has on the page, px, and how high its letters are there.
const (
	columnRoom, columnHeight = 300.0, 180.0
	wholeRoom, wholeHeight   = 700.0, 340.0
	pageLetters              = 12.0
)

// benchFigure draws a figure. One at a stated scale has letters as high as on paper.
func benchFigure(f bench.Figure) (wire.BenchFigure, []float32) {
	s := newSketch(f.ID, f.Caption)
	out := wire.BenchFigure{Scale: f.Scale, Wide: f.Wide}
	switch {
	case f.Scale > 0:
		out.Text = figureLetters * f.Scale
		s.d.Title = atScale(f)
	case f.Wide:
		_, out.Text = f.Fitted(wholeRoom, wholeHeight, pageLetters)
	default:
		_, out.Text = f.Fitted(columnRoom, columnHeight, pageLetters)
	}
	by := map[string][]plane.Path{}
	var order []string
	for _, st := range f.Strokes {
		if by[st.Role] == nil {
			order = append(order, st.Role)
		}
		by[st.Role] = append(by[st.Role], st.Path)
	}
	for _, role := range order {
		s.path(role, "", by[role]...)
	}
	for _, l := range f.Labels {
		s.label(l.Place(out.Text).Centre(), "middle", l.Text, 0)
	}
	s.box = f.Box(out.Text)
	var numbers []float32
	out.Drawing, numbers = s.done(1)
	return out, numbers
}

// bench is the bench sheet of the plan and what was found about it.
func (w *worked) bench() bench.Sheet {
	w.mend()
	s := bench.Make(&w.plan, w.findings)
	s.Warning = w.release().warning()
	return s
}
