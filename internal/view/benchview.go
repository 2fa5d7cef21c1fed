package view

import (
	"errors"
	"strconv"

	"springrib/internal/bench"
	"springrib/internal/bridge"
	"springrib/internal/plane"
)

// benchRoom is how wide a figure at a stated scale may be printed, mm: A4 and Letter less
// margins.
const benchRoom = 170.0

// Bench is the bench sheet for the page.
func (Core) Bench(raw []byte) (bridge.BenchSheet, [][]float32, error) {
	doc, err := document(raw)
	if err != nil {
		return bridge.BenchSheet{}, nil, err
	}
	w := work(doc)
	if !w.plan.Drawn {
		return bridge.BenchSheet{}, nil, errors.New("there is no bench sheet yet; see what stops the design first")
	}
	s := bench.Make(&w.plan)
	out := bridge.BenchSheet{Warning: w.release().warning(), Title: s.Title, Lead: s.Lead}
	var arrays [][]float32
	for _, sec := range s.Sections {
		b := bridge.BenchSection{ID: sec.ID, Title: sec.Title, Lines: sec.Lines}
		if sec.Table != nil {
			b.Head = sec.Table.Head
			for _, r := range sec.Table.Rows {
				b.Rows = append(b.Rows, bridge.BenchRow{Cells: r})
			}
		}
		for _, st := range sec.Steps {
			b.Steps = append(b.Steps, bridge.BenchStep{ID: st.ID, What: st.What, How: st.How})
		}
		for _, f := range sec.Figures {
			figure, numbers := benchFigure(f)
			b.Figures, arrays = append(b.Figures, figure), append(arrays, numbers)
		}
		out.Sections = append(out.Sections, b)
	}
	return out, arrays, nil
}

// benchFigure draws a figure; an exact one at the largest of the usual scales that fits.
func benchFigure(f bench.Figure) (bridge.BenchFigure, []float32) {
	s := newSketch(f.ID, f.Caption)
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
	out := bridge.BenchFigure{}
	if f.Exact {
		for _, n := range []float64{1, 2, 5, 10, 20, 50, 100, 200, 500} {
			if out.Scale = n; s.box.W()/n <= benchRoom {
				break
			}
		}
		s.d.Title += ", at 1:" + strconv.Itoa(int(out.Scale))
	}
	var numbers []float32
	out.Drawing, numbers = s.done(1)
	return out, numbers
}
