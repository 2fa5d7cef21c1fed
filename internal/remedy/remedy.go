// Package remedy knows the changes that mend what a plan is told of. Stages and rules only
// say what is wrong; what would do is looked up here by the id of the finding, tried, and
// offered where it does. A try is a new plan of other values, which takes over what is the
// same and makes the stages that differ.
package remedy

import (
	"math"
	"strconv"

	"springrib/internal/coupon"
	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/plan"
	"springrib/internal/unit"
)

// proposal returns the changes that mend a finding of a plan. It may add numbers that it
// found to the finding.
type proposal func(p *plan.Plan, f *finding.Finding) []finding.Remedy

// proposals are by the ids of findings. Where there is no row nothing is known that mends.
var proposals = [...]struct {
	id      string
	propose proposal
}{
	// The curve.
	{"curve-points", withoutPoint},
	{"curve-kinked", seamElsewhere},
	{"curve-tight", wider},
	{"far-turns", turnAlike},
	{"far-leans", further},
	{"far-slants", further},

	// The scores.
	{"cuts-through", fewerPasses},
	{"kerf-pinches", uses},
	{"strain-over", uses},
	{"held-strain", heldLess},
	{"rim-too-narrow", uses},
	{"may-fail", surer},
	{"often-fails", surer},
	{"land-narrow", apart},
	{"flats-visible", flatter},
	{"folds-visible", following},
	{"count-missed", count},
	{"passes-missing", knownPasses},
	{"short-hot-line", runOut},
	{"wrong-face", otherFace},
	{coupon.IDOutlier, withoutReading},
	{coupon.IDContradicts, withoutReading},
	{coupon.IDStiffFaces, withoutReading},

	// The outline.
	{"outline-off-curve", startAtFoot},
	{"outline-crosses", inOrder},
	{"radius-no-room", smallerRadius},
	{"hole-outside", withoutHole},
	{"hole-at-edge", smallerHole},
	{"holes-meet", smallerHole},
	{"seam", trim},
	{"panel-longer", shorter},
	{"panel-shorter", covering},

	// The ribs.
	{"rib-off-panel", onto},
	{"rib-wide", onto},
	{"rib-too-deep", shallower},
	{"hub-no-room", smallerHub},
	{"ring-wedge", bevelled},
	{"rib-leans-both", bevelled},
	{"rib-weak", softer},
	{"rib-weak", stronger},
	{"rib-soft", softer},
	{"rib-soft", stiffer},
	{"glue-peels", softer},
	{"glue-peels", longerStraight},
	{"glue-peels", lapped},
	{"glue-pulls", softer},
	{"end-gap", holdEnds},
	{"tenon-wide", narrowerTenon},
	{"corner-round", clearCorners},
	{"base-no-tenon", giveTenons},
	{"feet-apart", feetTogether},
	{"panels-meet", roomier},

	// What is cut.
	{"must-not-laser", elsewhere},
	{"sheet-beside", sameThickness},
	{"part-crosses", shallower},
	{"part-crosses", reach},
	{"kerf-not-allowed", reach},
	{"kerf-hole-lost", reach},
	{"kerf-no-reach", reach},
	{"cuts-shared", gap},
	{"off-bed", onBed},
	{"parts-overlap", unpin},
	{"parts-near", unpin},
	{"bridges-few", narrowerBridges},
	{"small-part", bridgeSmall},
}

// changes mend by what they are, and are the same for every design.
var changes = [...]struct{ id, text, field, to string }{
	{"rib-outside", "Put the rib on the hollow side", "rib.side", design.Hollow},
	{"curve-closed", "Wrap it all round", "curve.kind", design.DrawnRound},
	{"curve-open", "Follow it from end to end", "curve.kind", design.Drawn},
	{"along-grain", "Lay the grain across the scores", "sheet.grain", "across"},
	{"caul-left-out", "Leave the caul out", "rib.caul", "no"},
	{"outline-unseen", "Take these sizes as flat", "panel.view", design.FlatView},
	{"slot-tight", "Leave no press", "rib.fit", "0"},
}

// Mend gives findings of a plan the changes that mend them, before those that they have.
func Mend(p *plan.Plan, fs []finding.Finding) {
	for i := range fs {
		f := &fs[i]
		for k := range proposals {
			if r := &proposals[k]; r.id == f.ID {
				f.Remedies = append(r.propose(p, f), f.Remedies...)
			}
		}
		for k := range changes {
			if c := &changes[k]; c.id == f.ID {
				f.Remedies = append(one(c.text, c.field, c.to), f.Remedies...)
			}
		}
	}
}

// set is a change of fields to texts.
func set(text string, kv ...string) finding.Remedy {
	r := finding.Remedy{Text: text, Set: map[string]string{}}
	for i := 0; i+1 < len(kv); i += 2 {
		r.Set[kv[i]] = kv[i+1]
	}
	return r
}

func one(text string, kv ...string) []finding.Remedy {
	return []finding.Remedy{set(text, kv...)}
}

func mm(p *plan.Plan, mm float64) string { return unit.Length(mm, p.V.Units) }

// bare is a length as it is typed.
func bare(p *plan.Plan, mm float64) string { return unit.Bare(mm, p.V.Units) }

// inMM is a length as it is typed whatever the design's unit.
func inMM(mm float64) string { return unit.Bare(mm, unit.MM) + " mm" }

func num(n int) string { return strconv.Itoa(n) }

// ceil and floor round to a share of a millimetre that can be typed.
func ceil(x, parts float64) float64  { return math.Ceil(x*parts) / parts }
func floor(x, parts float64) float64 { return math.Floor(x*parts) / parts }
