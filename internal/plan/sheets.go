package plan

import (
	"strconv"

	"springrib/internal/cut"
	"springrib/internal/design"
	"springrib/internal/part"
	"springrib/internal/plane"
	"springrib/internal/sheet"
	"springrib/internal/stock"
	"springrib/internal/unit"
)

// own returns the panel's sheet.
func (p *Plan) own() stock.Sheet {
	s, st := &p.V.Sheet, p.V.Sheet.Stock // its own copy: a part must not hold on to the plan
	return stock.Sheet{Stock: &st, Thickness: s.T, Own: true, Grained: s.Grained, Field: design.PanelStock}
}

// from returns what a part of a stock is cut from, so thick, as a field says: the panel's
// own sheet where it is of that stock and as thick, else one beside it.
func (p *Plan) from(st stock.Stock, thickness float64, field string) stock.Sheet {
	s := stock.Sheet{Stock: &st, Thickness: thickness, Grained: st.Grain, Field: field}
	if own := p.own(); s.Same(own) {
		return own
	}
	return s
}

// Stocks returns what is cut from: the panel's sheet, then that of each further group.
func (p *Plan) Stocks() []stock.Sheet {
	out := []stock.Sheet{p.own()}
	for _, g := range p.Lay.Sheets {
		if !g.From.Own {
			out = append(out, g.From)
		}
	}
	return out
}

// lay puts the parts on sheets, those of one sheet's kind together, and lists what is cut.
func lay(p *Plan) bool {
	p.scrap()
	p.group(p.Panel.Flat.Part)
	for _, r := range p.Ribs.Kinds {
		p.group(r.Part)
	}
	if p.Caul != nil {
		p.group(p.Caul.Part)
	}
	if p.Base != nil {
		p.group(p.Base.Part)
	}
	p.strayPins()
	p.place()
	p.Lay.works = map[string][]part.Work{}
	for _, g := range p.Lay.Sheets {
		for _, pt := range g.Parts {
			p.Lay.works[pt.ID] = p.work(pt, &p.V.Cut)
		}
	}
	p.holding()
	p.jobs()
	return true
}

// group adds a part to the group of its stock and thickness.
func (p *Plan) group(pt part.Part) {
	i := 0
	for i < len(p.Lay.Sheets) && !p.Lay.Sheets[i].From.Same(pt.From) {
		i++
	}
	if i == len(p.Lay.Sheets) {
		p.Lay.Sheets = append(p.Lay.Sheets, Group{From: pt.From, Job: sheet.Job{Beds: p.beds(pt.From), Gap: p.V.Cut.Gap, CutOuts: p.V.Cut.CutOuts}})
	}
	g := &p.Lay.Sheets[i]
	g.Parts = append(g.Parts, pt)
	piece := sheet.Piece{ID: pt.ID, Name: pt.Name, Outline: pt.Free(), Quantity: pt.Quantity, Turns: p.turns(g.From)}
	for _, w := range pt.Work {
		if w.Kind == cut.Score || w.Kind == cut.Mark {
			piece.Reach = append(piece.Reach, w.Path)
		}
	}
	piece.Pins = p.pins(pt, &piece)
	g.Job.Pieces = append(g.Job.Pieces, piece)
}

// jobs writes down every sheet's operations in cutting order: all scores, all marks,
// inner cuts before outer cuts.
func (p *Plan) jobs() {
	total := 0
	for _, g := range p.Lay.Sheets {
		for _, s := range g.Layout.Sheets {
			if s.Parts > 0 { // a scrap too small for anything stays empty
				total++
			}
		}
	}
	for _, g := range p.Lay.Sheets {
		for i, s := range g.Layout.Sheets {
			if s.Parts > 0 {
				p.Lay.Jobs = append(p.Lay.Jobs, p.job(g, i, len(p.Lay.Jobs)+1, total))
				p.Lay.Beds = append(p.Lay.Beds, g.Job.Beds[s.Bed].Outline)
				p.Lay.Froms = append(p.Lay.Froms, g.From)
			}
		}
	}
}

// job writes down one sheet: its parts' work, moved to their places, in the order that
// package cut finds.
func (p *Plan) job(g Group, s, n, total int) cut.Job {
	m := p.V.Machine
	out := cut.Job{
		Title: p.V.Name, Revision: p.V.Revision, Note: p.kerfNote(),
		Sheet: n, Sheets: total, Width: m.BedWidth, Height: m.BedHeight,
	}
	var parts []cut.Part
	for _, placed := range g.Layout.Placed {
		if placed.Sheet != s {
			continue
		}
		src := g.Parts[placed.Piece]
		cp := cut.Part{ID: src.ID}
		if src.Quantity > 1 {
			cp.ID += " " + strconv.Itoa(placed.Copy+1)
		}
		move := placed.Move()
		for _, w := range p.Lay.works[src.ID] {
			cp.Strokes[w.Kind] = append(cp.Strokes[w.Kind], w.Path.Apply(move))
		}
		parts = append(parts, cp)
	}
	if p.draft {
		out.Operations = cut.Unordered(parts, p.settings())
		return out
	}
	out.Operations = cut.Order(parts, p.settings())
	p.Lay.Times = append(p.Lay.Times, cut.Times(out.Operations, cut.Machine{TravelSpeed: p.V.Cut.TravelSpeed, Acceleration: m.Acceleration}, plane.Point{}))
	return out
}

// kerfNote says what was done about the kerf. Where no allowance could be made the files are
// withheld.
func (p *Plan) kerfNote() string {
	kerf := p.V.Machine.Kerf
	if kerf <= 0 {
		return "No kerf is allowed for: the lines are the finished edges."
	}
	return "The kerf of " + unit.LengthFine(kerf, p.V.Units) + " is already allowed for: cut on the line."
}

// settings are the operations as the person names them; scores run as often as planned.
func (p *Plan) settings() cut.Settings {
	c := p.V.Cut
	out := cut.Settings{EveryThird: c.EveryThird, RepeatLayers: c.RepeatLayers}
	for i, k := range cut.Kinds() {
		o := c.Operations[i]
		out.Kinds[k] = cut.Setting{Name: o.Name, Colour: o.Colour, Passes: max(1, o.Passes), Speed: o.Speed}
		if k == cut.Score {
			if o.Passes == 0 {
				out.Kinds[k].Passes = p.Try().Passes
			}
			if o.Speed == 0 {
				out.Kinds[k].Speed = p.V.Machine.Speed
			}
		}
	}
	return out
}
