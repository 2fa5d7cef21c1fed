package plan

import (
	"springrib/internal/cut"
	"springrib/internal/part"
	"springrib/internal/sheet"
)

// lay puts the parts on sheets, those of one stock together, and lists what is cut.
func lay(p *Plan) bool {
	p.group(p.V.Sheet.Stock.ID, p.Panel.Part)
	for _, r := range p.Ribs {
		stock := r.Stock
		if r.Same {
			stock = p.V.Sheet.Stock.ID
		}
		p.group(stock, r.Part)
	}
	for i := range p.Sheets {
		g := &p.Sheets[i]
		g.Layout = sheet.Rows(g.Job)
		for _, f := range g.Layout.Findings(&g.Job) {
			p.Findings = append(p.Findings, f)
		}
	}
	p.jobs()
	return true
}

// group adds a part to the group of its stock.
func (p *Plan) group(stock string, pt part.Part) {
	i := 0
	for i < len(p.Sheets) && p.Sheets[i].Stock != stock {
		i++
	}
	if i == len(p.Sheets) {
		m := p.V.Machine
		p.Sheets = append(p.Sheets, Group{Stock: stock, Job: sheet.Job{
			Beds: []sheet.Bed{{W: m.BedWidth, H: m.BedHeight, Margin: p.V.Cut.Margin}},
			Gap:  p.V.Cut.Gap,
		}})
	}
	g := &p.Sheets[i]
	g.Parts = append(g.Parts, pt)
	piece := sheet.Piece{ID: pt.ID, Outline: pt.Free(), Quantity: pt.Quantity}
	for _, w := range pt.Work {
		if w.Kind == cut.Score || w.Kind == cut.Mark {
			piece.Reach = append(piece.Reach, w.Path)
		}
	}
	g.Job.Pieces = append(g.Job.Pieces, piece)
}

// jobs writes down every sheet's operations in cutting order: all scores, all marks,
// inner cuts before outer cuts.
func (p *Plan) jobs() {
	total := 0
	for _, g := range p.Sheets {
		total += len(g.Layout.Sheets)
	}
	n := 0
	for _, g := range p.Sheets {
		for s := range g.Layout.Sheets {
			n++
			p.Jobs = append(p.Jobs, p.job(g, s, n, total))
		}
	}
}

func (p *Plan) job(g Group, s, n, total int) cut.Job {
	m := p.V.Machine
	j := cut.Job{
		Title: p.V.Name, Sheet: n, Sheets: total, Width: m.BedWidth, Height: m.BedHeight,
	}
	for i, k := range []cut.Kind{cut.Score, cut.Mark, cut.Inner, cut.Outer} {
		o := p.V.Cut.Operations[i]
		op := cut.Operation{Kind: k, Name: o.Name, Colour: o.Colour, Passes: o.Passes, Speed: o.Speed}
		if op.Passes == 0 {
			op.Passes = 1
			if k == cut.Score {
				op.Passes = p.Try().Passes
			}
		}
		if k == cut.Score && op.Speed == 0 {
			op.Speed = m.Speed
		}
		for _, placed := range g.Layout.Placed {
			if placed.Sheet != s {
				continue
			}
			move := placed.Move()
			for _, w := range g.Parts[placed.Piece].Work {
				if w.Kind == k {
					op.Strokes = append(op.Strokes, cut.Stroke{Part: g.Parts[placed.Piece].ID, Path: w.Path.Apply(move)})
				}
			}
		}
		if len(op.Strokes) > 0 {
			j.Operations = append(j.Operations, op)
		}
	}
	return j
}
