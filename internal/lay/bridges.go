package lay

import (
	"math"
	"strconv"

	"springrib/internal/cut"
	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/machine"
	"springrib/internal/part"
	"springrib/internal/unit"
)

// bridgeEvery is how far apart bridges stand round a part at most, mm. Common practice,
// no source.
const bridgeEvery = 150

// work returns the work of a part as it is cut with settings: corners of joints cleared for a round
// cutter, and gaps in the outer cut where bridges hold it.
func (l *Lay) work(it *Item, c *design.CutValues) []part.Work {
	pt := it.Part
	wanted := wantedBridges(&pt)
	if c.Relief && it.Joint {
		pt.Work = append([]part.Work{}, pt.Work...)
		pt.Relieve(l.task.Values.Machine.Kerf / 2)
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
		for _, piece := range part.Bridged(w.Path, l.spared(it, c), c.BridgeWidth, l.task.Values.Machine.Kerf, wanted) {
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

// item returns that of a part.
func (l *Lay) item(id string) *Item {
	for i := range l.task.Parts {
		if it := &l.task.Parts[i]; it.ID == id {
			return it
		}
	}
	panic("lay: a part that was not laid")
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
func (l *Lay) BridgesWith(pt *part.Part, c *design.CutValues) int {
	return bridgesOf(l.work(l.item(pt.ID), c))
}

// small tells whether a part is narrower than what the person calls small.
func small(pt *part.Part, c *design.CutValues) bool {
	b := pt.Outline.Box()
	return math.Min(b.W(), b.H()) < c.BridgeBelow
}

// spared returns what bridges of a part keep clear of: edges that are glued, go into a slot
// or stand on its rim; scores, which a bridge would cross, and marks; the glue lines of the
// panel; and holes, beside which little is left to hold it.
func (l *Lay) spared(it *Item, c *design.CutValues) []part.Spare {
	m := &l.task.Values.Machine
	glued, strokes := part.Spare{Paths: it.Glued, Beside: true}, part.Spare{Clear: math.Max(m.ScoreWidth, m.Kerf) / 2}
	for i := range it.Work {
		if w := &it.Work[i]; w.Kind == cut.Score || w.Kind == cut.Mark {
			strokes.Paths = append(strokes.Paths, w.Path)
		}
	}
	return append([]part.Spare{glued, strokes, {Paths: it.Outline.Holes, Clear: c.BridgeWidth}}, it.Lines...)
}

// holding says which parts are held by bridges, by how many of those they should have, and
// which small ones are not held.
func (l *laid) holding() {
	for _, g := range l.Sheets {
		for i := range g.Parts {
			pt := &g.Parts[i]
			held, wanted := bridgesOf(l.Works[pt.ID]), wantedBridges(pt)
			asked := bridged(pt, &l.task.Values.Cut)
			if held > 0 {
				l.All = append(l.All, l.heldNote(pt, held))
			}
			switch {
			case asked && held < wanted:
				l.All = append(l.All, l.fewBridges(pt, held, wanted))
			case !asked && small(pt, &l.task.Values.Cut):
				l.loose(pt)
			}
		}
	}
}

// heldNote says how a part is held.
func (l *laid) heldNote(pt *part.Part, held int) finding.Finding {
	text := unit.Upper(unit.The(pt.Name)) + " is held by " + unit.Plural(held, "bridge") + " of " + l.Len(l.task.Values.Cut.BridgeWidth) + ": cut them with a knife and pare the stubs."
	if l.task.Values.Machine.Tool == machine.Router {
		text += " They stand as high as the sheet is thick; where your machine can leave tabs, 1 mm high is enough." // common practice, no source
	}
	return finding.Finding{ID: "bridges", Severity: finding.Note, Place: finding.Place{Part: pt.ID, Field: "cut.bridges"}, Text: text,
		Numbers: map[string]float64{"bridges": float64(held), "width": l.task.Values.Cut.BridgeWidth}}
}

// fewBridges says that bridges found no place.
func (l *laid) fewBridges(pt *part.Part, held, wanted int) finding.Finding {
	f := finding.Finding{ID: "bridges-few", Severity: finding.Note, Place: finding.Place{Part: pt.ID, Field: "cut.bridgeWidth"},
		Numbers: map[string]float64{"bridges": float64(held), "wanted": float64(wanted), "width": l.task.Values.Cut.BridgeWidth}}
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
func (l *laid) loose(pt *part.Part) {
	b := pt.Outline.Box()
	width := math.Min(b.W(), b.H())
	f := finding.Finding{ID: "small-part", Severity: finding.Note, Place: finding.Place{Part: pt.ID, Field: "cut.bridges"},
		Numbers: map[string]float64{"width": width, "below": l.task.Values.Cut.BridgeBelow}}
	switch l.task.Values.Machine.Tool {
	case machine.Router:
		f.Severity = finding.Warn
		f.Text = unit.Upper(unit.The(pt.Name)) + " is only " + l.Len(width) + " wide and nothing holds it once it is cut free: a cutter throws it. Hold it by bridges, or fix it down."
	case machine.Laser:
		f.Text = unit.Upper(unit.The(pt.Name)) + " is only " + l.Len(width) + " wide and nothing holds it: it may tip into the beam or fall through the bed."
	default:
		return
	}
	l.All = append(l.All, f)
}
