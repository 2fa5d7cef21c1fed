package plan

import (
	"math"
	"strconv"

	"springrib/internal/cut"
	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/machine"
	"springrib/internal/part"
	"springrib/internal/plane"
)

// bridgeEvery is how far apart bridges stand round a part at most, mm. Common practice,
// no source.
const bridgeEvery = 150

// work returns the work of a part as it is cut: corners of joints cleared for a round
// cutter, and gaps in the outer cut where bridges hold it.
func (p *Plan) work(pt part.Part) []part.Work {
	c := p.V.Cut
	if c.Relief && p.jointed(pt.ID) {
		pt.Work = append([]part.Work{}, pt.Work...)
		pt.Relieve(p.V.Machine.Kerf / 2)
	}
	if !p.bridged(pt) {
		return pt.Work
	}
	var out []part.Work
	for _, w := range pt.Work {
		if w.Kind != cut.Outer || !w.Path.Closed {
			out = append(out, w)
			continue
		}
		n := max(2, int(math.Ceil(w.Path.Length()/bridgeEvery-1e-9)))
		for _, piece := range part.Bridged(w.Path, p.glued(pt.ID), c.BridgeWidth, p.V.Machine.Kerf, n) {
			out = append(out, part.Work{Kind: cut.Outer, Path: piece})
		}
	}
	return out
}

// jointed tells whether a part has slots, a tenon or a stub.
func (p *Plan) jointed(id string) bool {
	if id == "base" {
		return p.Base != nil
	}
	for _, r := range p.Ribs {
		if r.ID == id && r.Task.Stub != nil {
			return true
		}
	}
	return false
}

// bridged tells whether a part is held by bridges.
func (p *Plan) bridged(pt part.Part) bool {
	switch p.V.Cut.Bridges {
	case design.BridgeAll:
		return true
	case design.BridgeSmall:
		return p.small(pt)
	}
	return false
}

// canBridge tells whether a small part has an edge that bridges may hold it by: one that
// is glued all round has none.
func (p *Plan) canBridge(pt part.Part) bool {
	q := *p
	q.V.Cut.Bridges = design.BridgeSmall
	for _, w := range q.work(pt) {
		if w.Kind == cut.Outer && !w.Path.Closed {
			return true
		}
	}
	return false
}

// small tells whether a part is narrower than what the person calls small.
func (p *Plan) small(pt part.Part) bool {
	b := pt.Outline.Box()
	return math.Min(b.W(), b.H()) < p.V.Cut.BridgeBelow
}

// glued returns the edges of a part that a bridge must not mar: those that are glued, and
// those that go into a slot or stand on its rim.
func (p *Plan) glued(id string) []plane.Path {
	for _, r := range p.Ribs {
		if r.ID == id && len(r.Seat.Segs) > 0 {
			return []plane.Path{r.Contact, r.Seat}
		}
		if r.ID == id {
			return []plane.Path{r.Contact}
		}
	}
	if p.Caul != nil && p.Caul.ID == id {
		return []plane.Path{p.Caul.Contact}
	}
	return nil
}

// holding says which parts are held by bridges, and which small ones are not.
func (p *Plan) holding() {
	for _, g := range p.Sheets {
		for _, pt := range g.Parts {
			b := pt.Outline.Box()
			numbers := map[string]float64{"width": math.Min(b.W(), b.H()), "below": p.V.Cut.BridgeBelow}
			f := finding.Finding{ID: "small-part", Severity: finding.Note, Numbers: numbers, Place: finding.Place{Part: pt.ID, Field: "cut.bridges"}}
			held := 0
			for _, w := range p.works[pt.ID] {
				if w.Kind == cut.Outer && !w.Path.Closed {
					held++
				}
			}
			switch {
			case held == 0 && p.small(pt) && p.V.Machine.Tool == machine.Router:
				f.Severity = finding.Warn
				f.Text = "The " + pt.Name + " is only " + p.len(numbers["width"]) + " wide and nothing holds it once it is cut free: a cutter throws it. Hold it by bridges, or fix it down."
			case held == 0 && p.small(pt) && p.V.Machine.Tool == machine.Laser:
				f.Text = "The " + pt.Name + " is only " + p.len(numbers["width"]) + " wide and nothing holds it: it may tip into the beam or fall through the bed."
			case held > 0:
				f.ID = "bridges"
				word := " bridges of "
				if held == 1 {
					word = " bridge of "
				}
				f.Text = "The " + pt.Name + " is held by " + strconv.Itoa(held) + word + p.len(p.V.Cut.BridgeWidth) + ": cut them with a knife and pare the stubs."
				if p.V.Machine.Tool == machine.Router {
					f.Text += " They stand as high as the sheet is thick; where your machine can leave tabs, 1 mm high is enough." // common practice, no source
				}
				f.Numbers = map[string]float64{"bridges": float64(held), "width": p.V.Cut.BridgeWidth}
			default:
				continue
			}
			if f.ID == "small-part" && p.V.Cut.Bridges == design.BridgeNone && p.canBridge(pt) {
				f.Remedies = []finding.Remedy{{Text: "Hold small parts by bridges", Set: map[string]string{"cut.bridges": design.BridgeSmall}}}
			}
			p.Findings = append(p.Findings, f)
		}
	}
}
