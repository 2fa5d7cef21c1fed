package bench

import (
	"springrib/internal/finding"
	"springrib/internal/unit"
)

// lead says what this is.
func (w writer) lead() string {
	what, how := "A panel of ", ", bent on its rib"
	if w.Closed {
		what, how = "A band of ", ", bent all round its rib"
	}
	s := what + w.V.Sheet.Stock.Name
	if w.Scores() == 0 {
		return s + " without scores: it stays flat."
	}
	s += " with " + unit.Plural(w.Scores(), "score") + how
	if r := w.tightest(); r != "" {
		s += " to a radius of " + r + " at its tightest"
	}
	return s + "."
}

// watch says what may go wrong: stops and warnings with what would mend them, and how
// near the design comes to its limits.
func (w writer) watch(found []finding.Finding) Section {
	s := Section{ID: "watch", Title: "What may go wrong", Loose: true}
	for _, f := range found {
		word := "Warning"
		switch f.Severity {
		case finding.Stop:
			word = "Stop"
		case finding.Note:
			continue
		}
		how := f.Text
		var mend []string
		for _, r := range f.Remedies {
			if len(r.Set) > 0 {
				mend = append(mend, "“"+r.Text+"”")
			} else {
				how += " " + r.Text
			}
		}
		if len(mend) > 0 {
			how += " The page offers: " + listed(mend) + "."
		}
		s.Steps = append(s.Steps, Step{f.ID, word, how})
	}
	if len(s.Steps) == 0 {
		s.Lines = append(s.Lines, "No warning stands against this design.")
	}
	if w.Scores() == 0 {
		return s
	}
	s.Lines = append(s.Lines, "Cracking: "+near(w.Cracking.Value, w.Cracking.Bad, w.Cracking.Allowed))
	if w.closes() {
		s.Lines = append(s.Lines, "Pinching: "+near(w.Pinching.Value, w.Pinching.Bad, w.Pinching.Allowed))
	} else {
		s.Lines = append(s.Lines, "Pinching: the scores open as they bend and can't pinch.")
	}
	return s
}

func near(value, bad, allowed float64) string {
	return unit.Ratio(value) + " of the limit, where " + unit.Ratio(allowed) + " is allowed; " + unit.Ratio(bad) + " at the bad end of what is known, where 1.00 is allowed."
}

// basis says what the numbers rest on.
func (w writer) basis() Section {
	v := w.V
	s := Section{ID: "basis", Title: "What these numbers rest on"}
	say := func(ok bool, tested, not string) {
		if !ok {
			tested = not
		}
		s.Lines = append(s.Lines, tested)
	}
	say(v.Sheet.Measured, "Thickness: "+unit.Plural(len(v.Sheet.Readings), "reading")+", "+w.fit(v.Sheet.T)+".", "Thickness: not measured. Measure five places before you cut.")
	say(v.Machine.Tested, "Depth and width of the score: from test strips.", "Depth and width of the score: not from test strips. Cut a depth strip of this sheet first.")
	if l := w.Learned; l != nil && l.OverBed.N > 0 {
		s.Lines = append(s.Lines, "Depth over the bed: within "+unit.LengthFine(v.Machine.DepthSpread, v.Units)+" of the mean, from strips cut at "+unit.Plural(l.OverBed.N, "place")+".")
	}
	say(v.Sheet.StrainTested, "Strain at which the skin breaks: from a bend strip.", "Strain at which the skin breaks: a handbook figure. Bend a test strip to the radius you want before the real panel.")
	if l := w.Learned; w.Base != nil && l != nil && l.Clearance.N > 0 && !v.Rib.FitTyped {
		s.Lines = append(s.Lines, "Slots of the base: "+w.fit(v.Rib.Fit)+" wider than the rib, from your fit strip.")
	}
	return s
}
