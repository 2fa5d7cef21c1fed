package view

import (
	"bytes"
	"encoding/json"
	"errors"
	"strconv"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/lay"
	"springrib/internal/plan"
	"springrib/internal/sheet"
	"springrib/internal/unit"
	"springrib/internal/wire"
)

// Bounds of the work for packing: of all, and until an answer, for the core answers nothing
// else meanwhile.
const (
	mostEffort = 200 * sheet.Good
	mostSlice  = 4 * sheet.Good
)

// packing is one under way.
type packing struct {
	key  []byte // the design without places
	work wire.Work
	plan *plan.Plan
	lay  *lay.Packing
}

// Pack lays the parts closer and puts their places into the design. It goes on with the
// packing before where that was of the same parts, effort and seed.
func (c Core) Pack(raw []byte, work wire.Work) ([]byte, wire.Packed, error) {
	doc, err := document(raw)
	if err != nil {
		return nil, wire.Packed{}, err
	}
	work.Effort = min(max(work.Effort, 1), mostEffort)
	slice := mostSlice
	if work.Slice > 0 {
		slice = min(work.Slice, mostSlice)
	}
	work.Slice = 0
	p := c.packing
	if p == nil {
		p = new(packing)
	}
	if err := p.goOn(doc, work); err != nil {
		return nil, wire.Packed{}, err
	}
	p.lay.Run(slice)
	doc = design.Clone(doc)
	doc.Cut.Places = p.places()
	out, err := json.Marshal(doc)
	return out, wire.Packed{Text: used(p.plan), Done: p.lay.Done(), Rank: rank(p.lay.Lay)}, err
}

// goOn makes p the packing of a design, with the places that it has where they are better.
func (p *packing) goOn(doc design.Document, work wire.Work) error {
	v, _ := design.Read(doc)
	doc.Cut.Places = nil
	key, err := json.Marshal(doc)
	if err != nil {
		return err
	}
	if p.lay != nil && p.work == work && bytes.Equal(p.key, key) {
		p.lay.Take(v.Cut.Places)
		return nil
	}
	*p = packing{key: key, work: work}
	p.plan, p.lay = plan.Pack(v, work.Effort, work.Seed)
	if p.lay == nil {
		return errors.New("there is nothing to pack yet; see what stops the design first")
	}
	return nil
}

// places returns the best places so far as the design keeps them.
func (p *packing) places() []design.Lay {
	var out []design.Lay
	for _, l := range p.lay.Places() {
		out = append(out, l.Lay())
	}
	return out
}

// rank tells layouts of the same parts apart: fewer parts left out come first, then fewer
// sheets, then what is used of the last ones, mm.
func rank(l *lay.Lay) float64 {
	r := 0.0
	for _, g := range l.Sheets {
		for _, m := range g.Layout.Missing {
			r += 1e9 * float64(m.Copies)
		}
		if n := len(g.Layout.Sheets); n > 0 {
			r += 1e5*float64(n) + g.Layout.Sheets[n-1].Length
		}
	}
	return r
}

// used says how much of the sheets is used, and how densely.
func used(p *plan.Plan) string {
	text := "On " + strconv.Itoa(len(p.Lay.Jobs)) + " sheets"
	if len(p.Lay.Jobs) == 1 {
		text = "On 1 sheet"
	}
	n := len(p.Lay.Sheets)
	if n == 0 || len(p.Lay.Sheets[n-1].Layout.Sheets) == 0 {
		return text + "."
	}
	for i := range p.Lay.Sheets {
		g := &p.Lay.Sheets[i]
		n := len(g.Layout.Sheets) - 1
		if i == 0 {
			text += "; of the last one "
		} else {
			text += ", of the other stock's "
		}
		text += unit.Length(g.Layout.Sheets[n].Length, p.V.Units) + " of its length is used, " +
			strconv.Itoa(int(100*g.Layout.Density(&g.Job, n)+0.5)) + " % of that by parts"
	}
	return text + "."
}

// Machine puts the settings of a machine into the design.
func (Core) Machine(raw []byte, text string) ([]byte, []finding.Finding, error) {
	doc, err := document(raw)
	if err != nil {
		return nil, nil, err
	}
	changed, found, err := design.OpenMachine(doc, []byte(text))
	if err != nil {
		return nil, nil, err
	}
	out, err := json.Marshal(changed)
	return out, found, err
}
