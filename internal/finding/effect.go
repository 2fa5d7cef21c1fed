package finding

import "strings"

// Effect says what a finding does to the files that a machine or a saw is fed with.
type Effect uint8

// The effects, each graver than the one before.
const (
	Free     Effect = iota // nothing: files leave as they are
	Marked                 // files leave, and say what is wrong in their names and in themselves
	Withheld               // no file of the parts leaves; test strips do
	Barred                 // test strips neither: the sheet must not meet this tool
)

// String returns the word that report.json has for e.
func (e Effect) String() string { return [...]string{"free", "marked", "withheld", "barred"}[e] }

// policy is what a stop does to the files, by its id; the reason stands beside each. A stop
// that is not here withholds them. Of those that mark, Mark is what a file says is wrong with
// it.
type policy struct {
	IDs    string // separated by spaces
	Effect Effect
	Mark   string
}

func policies() []policy {
	return []policy{
		{"must-not-laser", Barred, ""}, // a strip of it poisons as a panel does

		{"parts-overlap part-crosses slots-meet slot-off-base land-narrow", Withheld, ""}, // cut as drawn, a part is ruined
		{"kerf-not-allowed kerf-hole-lost kerf-no-reach corner-round", Withheld, ""},      // a part comes out other than the bench sheet says
		{"off-bed sheets-used-up pin-off-sheet too-many-parts no-outline", Withheld, ""},  // the files lack a part, or the head runs off the bed
		{"cone-by-saw", Withheld, ""},  // the tool can't make them
		{"job-left-out", Withheld, ""}, // of designs that are cut together: this one is not
		{"does-not-fit", Withheld, ""}, // our own figures disagree, and nobody knows which is right

		{"kerf-pinches", Marked, "the scores may pinch shut"},        // you may have bent this sheet so before
		{"strain-over rim-too-narrow", Marked, "the skin may crack"}, // you may have bent this sheet so before
		{"cuts-through", Marked, "a score may cut through"},          // your machine may keep its depth better
		{"rib-wide", Marked, "a rib sticks out of the panel"},        // it may be meant to
		{"parts-near", Marked, "parts lie nearer than your gap"},     // no cut meets another; the gap is yours

		{"field-missing field-unreadable field-range field-order scrap-nothing corners-coincide corners-in-line drawn-unreadable drawn-size ribs-overlap" +
			" curve-empty curve-points curve-closed curve-open curve-straight curve-crosses curve-kinked curve-tight" +
			" outline-off-curve outline-unseen outline-crosses outline-splits outline-empty radius-no-room hole-outside hole-at-edge holes-meet" +
			" rib-off-panel rib-outside rib-too-deep cone-turned cone-straight cone-past-point cone-no-room cone-few-scores hub-no-room cone-overlaps far-closed far-dips far-swings far-turns far-leans far-slants far-no-skin", Withheld, ""}, // there is no plan
	}
}

// policyOf returns the row of a stop's id, or one that withholds.
func policyOf(id string) policy {
	for _, p := range policies() {
		for _, known := range strings.Fields(p.IDs) {
			if known == id {
				return p
			}
		}
	}
	return policy{Effect: Withheld}
}

// Effect returns what f does to the files.
func (f Finding) Effect() Effect {
	if f.Severity != Stop {
		return Free
	}
	return policyOf(f.ID).Effect
}

// Gravest returns the gravest effect among fs and the findings that have it.
func Gravest(fs []Finding) (worst Effect, because []Finding) {
	for _, f := range fs {
		e := f.Effect()
		if e > worst {
			worst, because = e, nil
		}
		if e == worst && e != Free {
			because = append(because, f)
		}
	}
	return worst, because
}

// Marks says in a few words, each once, what the files of a design with fs say of
// themselves; nothing where they say nothing.
func Marks(fs []Finding) string {
	var out []string
next:
	for _, f := range fs {
		mark := policyOf(f.ID).Mark
		if f.Severity != Stop || mark == "" {
			continue
		}
		for _, have := range out {
			if have == mark {
				continue next
			}
		}
		out = append(out, mark)
	}
	return strings.Join(out, ", ")
}
