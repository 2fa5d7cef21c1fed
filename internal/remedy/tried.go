package remedy

import (
	"maps"
	"strings"
	"unicode"
	"unicode/utf8"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/plan"
)

const (
	// mostSteps bounds how many remedies one press takes together.
	mostSteps = 4
	// mostPlans bounds how often a design is planned anew to try what would mend it; what
	// is left untried is not offered.
	mostPlans = 60
)

// Tried returns findings with the remedies that mend alone. With each the design is read,
// planned and judged anew. Where the finding is left, or a stop or a warning is new, the remedy
// of that is taken along, until nothing is: one press makes all of it. A remedy that leaves its
// finding, or brings a stop, goes; the warning that one brings stands with it, in Then. judge
// returns the findings of a plan.
func Tried(doc design.Document, fs []finding.Finding, judge func(*plan.Plan) []finding.Finding) []finding.Finding {
	t := trier{doc: doc, judge: judge, had: map[string]bool{}, left: mostPlans}
	for _, f := range fs {
		t.had[nameOf(f)] = true
	}
	for i, f := range fs {
		fs[i].Remedies = nil
		for _, r := range f.Remedies {
			if len(r.Set) > 0 {
				var ok bool
				if r, ok = t.settled(f, r); !ok || has(fs[i].Remedies, r) {
					continue
				}
			}
			fs[i].Remedies = append(fs[i].Remedies, r)
		}
	}
	return fs
}

type trier struct {
	doc    design.Document
	judge  func(*plan.Plan) []finding.Finding
	had    map[string]bool // what is found without any remedy
	left   int             // of mostPlans; one of many scores or sheets counts as several
	memory plan.Memory
}

// nameOf tells findings apart from one design to the next, in which parts and scores have
// other numbers.
func nameOf(f finding.Finding) string { return string(f.Severity) + " " + f.ID + " " + f.Place.Field }

func has(rs []finding.Remedy, r finding.Remedy) bool {
	for _, o := range rs {
		if maps.Equal(o.Set, r.Set) {
			return true
		}
	}
	return false
}

// settled follows a remedy of f until it mends and brings nothing new; ok is false where it
// comes to no such end.
func (t *trier) settled(f finding.Finding, r finding.Remedy) (_ finding.Remedy, ok bool) {
	at := finding.Remedy{Text: r.Text, Set: maps.Clone(r.Set)}
	for range mostSteps {
		p, found, readable := t.with(at.Set, t.memory.Draft)
		if !readable {
			break
		}
		next, stops := t.against(f, found)
		if !stops { // as it is cut: a draft's edges are fitted otherwise
			if p, found, readable = t.with(at.Set, t.memory.Make); !readable {
				break
			}
			next, stops = t.against(f, found)
		}
		if next == nil {
			return at, p.Drawn
		}
		if p.Drawn && !stops && !ok { // it would do, with what it brings
			r, ok = at, true
			r.Then = t.brings(found)
		}
		mend := []finding.Finding{*next}
		Mend(&p, mend)
		more, any := another(mend[0].Remedies, at.Set)
		if !any {
			break
		}
		at = together(at, more)
	}
	return r, ok
}

// with plans and judges the design with fields changed, unless enough was tried.
func (t *trier) with(set map[string]string, work func(design.Values) plan.Plan) (p plan.Plan, found []finding.Finding, readable bool) {
	v, ok := applied(t.doc, set)
	if !ok || t.left <= 0 {
		return p, nil, false
	}
	p = work(v)
	t.left -= 1 + len(p.Scores.Layout.Folds)/200 + len(p.Lay.Jobs)
	return p, t.judge(&p), true
}

// against returns what speaks against a changed design: f itself, a new stop, or a new
// warning; nil for nothing. stops tells that the change can't be offered for it.
func (t *trier) against(f finding.Finding, found []finding.Finding) (_ *finding.Finding, stops bool) {
	var warns *finding.Finding
	for i := range found {
		g := &found[i]
		same := g.ID == f.ID && g.Place.Field == f.Place.Field && (g.Place.Part == f.Place.Part || f.Place.Field != "machine.kerf") // which all parts share
		switch {
		case same, g.Severity == finding.Stop && !t.had[nameOf(*g)]:
			return g, true
		case g.Severity == finding.Warn && !t.had[nameOf(*g)] && warns == nil:
			warns = g
		}
	}
	return warns, false
}

// brings says what a change newly warns of.
func (t *trier) brings(found []finding.Finding) string {
	var out []string
	for _, g := range found {
		if g.Severity == finding.Warn && !t.had[nameOf(g)] {
			out = append(out, firstSentence(g.Text))
		}
	}
	return strings.Join(out, " ")
}

// another returns the first remedy that changes something that is not so already.
func another(rs []finding.Remedy, set map[string]string) (finding.Remedy, bool) {
	for _, r := range rs {
		for path, text := range r.Set {
			if was, ok := set[path]; !ok || was != text {
				return r, true
			}
		}
	}
	return finding.Remedy{}, false
}

// together makes one remedy of two, the later figure of a field holding. Where the second
// changes all that the first did, its words alone are left.
func together(a, b finding.Remedy) finding.Remedy {
	out := finding.Remedy{Text: b.Text, Set: maps.Clone(a.Set)}
	for path := range a.Set {
		if _, again := b.Set[path]; !again {
			out.Text = a.Text + lowered(", and ", b.Text)
			break
		}
	}
	const more = ", and others like it"
	switch {
	case strings.HasPrefix(a.Text, b.Text+more):
		out.Text = a.Text
	case a.Text == b.Text && out.Text != b.Text:
		out.Text = a.Text + more
	}
	maps.Copy(out.Set, b.Set)
	return out
}

func lowered(before, text string) string {
	first, n := utf8.DecodeRuneInString(text)
	return before + string(unicode.ToLower(first)) + text[n:]
}

func firstSentence(text string) string {
	if head, _, more := strings.Cut(text, ". "); more {
		return head + "."
	}
	return text
}

// applied reads a design with a change made; ok is false where a field refuses it or stops.
func applied(doc design.Document, set map[string]string) (v design.Values, ok bool) {
	for _, path := range design.Paths(set) {
		if doc, ok = design.Set(doc, path, set[path]); !ok {
			return v, false
		}
	}
	v, found := design.Read(doc)
	return v, finding.Worst(found) != finding.Stop
}
