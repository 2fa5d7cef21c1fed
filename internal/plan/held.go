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
	"springrib/internal/unit"
)

// bridgeEvery is how far apart bridges stand round a part at most, mm. Common practice,
// no source.
const bridgeEvery = 150

// work returns the work of a part as it is cut with settings: corners of joints cleared for a round
// cutter, and gaps in the outer cut where bridges hold it.
func (p *Plan) work(pt part.Part, c *design.CutValues) []part.Work {
	wanted := wantedBridges(&pt)
	if c.Relief && p.jointed(pt.ID) {
		pt.Work = append([]part.Work{}, pt.Work...)
		pt.Relieve(p.V.Machine.Kerf / 2)
	}
	if !bridged(&pt, c) {
		return pt.Work
	}
	var out []part.Work
	for _, w := range pt.Work {
		if w.Kind != cut.Outer || !w.Path.Closed {
			out = append(out, w)
			continue
		}
		for _, piece := range part.Bridged(w.Path, p.spared(&pt, c), c.BridgeWidth, p.V.Machine.Kerf, wanted) {
			out = append(out, part.Work{Kind: cut.Outer, Path: piece})
		}
	}
	return out
}

// wantedBridges is how many bridges should hold a part.
func wantedBridges(pt *part.Part) int {
	for _, w := range pt.Work {
		if w.Kind == cut.Outer {
			return max(2, int(math.Ceil(w.Path.Length()/bridgeEvery-1e-9)))
		}
	}
	return 0
}

// bridgesOf counts the bridges that hold a part.
func bridgesOf(work []part.Work) (held int) {
	for _, w := range work {
		if w.Kind == cut.Outer && !w.Path.Closed {
			held++
		}
	}
	return held
}

// jointed tells whether a part has slots, a tenon or a stub.
func (p *Plan) jointed(id string) bool {
	if id == "base" {
		return p.Base != nil
	}
	for _, r := range p.Ribs.Kinds {
		if r.ID == id && r.Task.Stub != nil {
			return true
		}
	}
	return false
}

// bridged tells whether a part is held by bridges.
func bridged(pt *part.Part, c *design.CutValues) bool {
	switch c.Bridges {
	case design.BridgeAll:
		return true
	case design.BridgeSmall:
		return small(pt, c)
	}
	return false
}

// BridgesWith tells how many bridges would hold a part with other settings.
func (p *Plan) BridgesWith(pt *part.Part, c *design.CutValues) int { return bridgesOf(p.work(*pt, c)) }

// small tells whether a part is narrower than what the person calls small.
func small(pt *part.Part, c *design.CutValues) bool {
	b := pt.Outline.Box()
	return math.Min(b.W(), b.H()) < c.BridgeBelow
}

// spared returns what bridges of a part keep clear of: edges that are glued, go into a slot
// or stand on its rim; scores, which a bridge would cross, and marks; the glue lines of the
// panel; and holes, beside which little is left to hold it.
func (p *Plan) spared(pt *part.Part, c *design.CutValues) []part.Spare {
	glued, strokes := part.Spare{Beside: true}, part.Spare{Clear: math.Max(p.V.Machine.ScoreWidth, p.V.Machine.Kerf) / 2}
	for i := range p.Ribs.Kinds {
		if r := &p.Ribs.Kinds[i]; r.ID == pt.ID {
			glued.Paths = append(glued.Paths, r.Contact, r.Seat)
		}
	}
	if p.Caul != nil && p.Caul.ID == pt.ID {
		glued.Paths = append(glued.Paths, p.Caul.Contact)
	}
	for i := range pt.Work {
		if w := &pt.Work[i]; w.Kind == cut.Score || w.Kind == cut.Mark {
			strokes.Paths = append(strokes.Paths, w.Path)
		}
	}
	out := []part.Spare{glued, strokes, {Paths: pt.Outline.Holes, Clear: c.BridgeWidth}}
	for i := range p.Supports.All {
		s := &p.Supports.All[i]
		v := s.Across
		if p.Panel.Mirror {
			v = -v
		}
		if pt.ID == "panel" {
			out = append(out, part.Spare{Paths: []plane.Path{plane.Open(plane.Pt(s.Mark.From, v), plane.Pt(s.Mark.To, v))}, Clear: s.Thickness / 2})
		}
	}
	return out
}

// holding says which parts are held by bridges, by how many of those they should have, and
// which small ones are not held.
func (p *Plan) holding() {
	for _, g := range p.Lay.Sheets {
		for i := range g.Parts {
			pt := &g.Parts[i]
			held, wanted := bridgesOf(p.Lay.works[pt.ID]), wantedBridges(pt)
			asked := bridged(pt, &p.V.Cut)
			if held > 0 {
				p.Findings = append(p.Findings, p.heldNote(pt, held))
			}
			switch {
			case asked && held < wanted:
				p.Findings = append(p.Findings, p.fewBridges(pt, held, wanted))
			case !asked && small(pt, &p.V.Cut):
				p.loose(pt)
			}
		}
	}
}

// heldNote says how a part is held.
func (p *Plan) heldNote(pt *part.Part, held int) finding.Finding {
	text := unit.Upper(unit.The(pt.Name)) + " is held by " + unit.Plural(held, "bridge") + " of " + p.len(p.V.Cut.BridgeWidth) + ": cut them with a knife and pare the stubs."
	if p.V.Machine.Tool == machine.Router {
		text += " They stand as high as the sheet is thick; where your machine can leave tabs, 1 mm high is enough." // common practice, no source
	}
	return finding.Finding{ID: "bridges", Severity: finding.Note, Place: finding.Place{Part: pt.ID, Field: "cut.bridges"}, Text: text,
		Numbers: map[string]float64{"bridges": float64(held), "width": p.V.Cut.BridgeWidth}}
}

// fewBridges says that bridges found no place.
func (p *Plan) fewBridges(pt *part.Part, held, wanted int) finding.Finding {
	f := finding.Finding{ID: "bridges-few", Severity: finding.Note, Place: finding.Place{Part: pt.ID, Field: "cut.bridgeWidth"},
		Numbers: map[string]float64{"bridges": float64(held), "wanted": float64(wanted), "width": p.V.Cut.BridgeWidth}}
	const why = "Scores, marks, glued edges, holes and corners leave no room."
	if held == 0 {
		f.Severity = finding.Warn
		f.Text = "No bridge holds the " + pt.Name + ", though " + strconv.Itoa(wanted) + " should. " + why + " Fix the part down before it is cut free."
	} else {
		f.Text = "Of " + strconv.Itoa(wanted) + " bridges for the " + pt.Name + ", " + strconv.Itoa(held) + " found a place. " + why
	}
	return f
}

// loose says of a small part that nothing holds it.
func (p *Plan) loose(pt *part.Part) {
	b := pt.Outline.Box()
	width := math.Min(b.W(), b.H())
	f := finding.Finding{ID: "small-part", Severity: finding.Note, Place: finding.Place{Part: pt.ID, Field: "cut.bridges"},
		Numbers: map[string]float64{"width": width, "below": p.V.Cut.BridgeBelow}}
	switch p.V.Machine.Tool {
	case machine.Router:
		f.Severity = finding.Warn
		f.Text = unit.Upper(unit.The(pt.Name)) + " is only " + p.len(width) + " wide and nothing holds it once it is cut free: a cutter throws it. Hold it by bridges, or fix it down."
	case machine.Laser:
		f.Text = unit.Upper(unit.The(pt.Name)) + " is only " + p.len(width) + " wide and nothing holds it: it may tip into the beam or fall through the bed."
	default:
		return
	}
	p.Findings = append(p.Findings, f)
}
