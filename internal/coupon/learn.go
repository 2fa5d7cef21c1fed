package coupon

import (
	"math"

	"springrib/internal/finding"
)

// Owner is the stock, the machine setting and the batch in hand. An empty Stock or
// Setting takes readings of any.
type Owner struct{ Stock, Setting, Batch string }

// Learn returns what to believe of a sheet after the readings that belong to it, in
// any order. It starts each time from was, which should be the handbook and what the
// person typed: readings are not counted twice. Readings of another stock or setting
// are passed over in silence, those of another batch are used and pointed out. It
// panics if was has no positive modulus, thickness or score width, or spreads below 0.
func Learn(was Belief, readings []Reading, of Owner) Learned {
	was.mustBeSound()
	l := Learned{Belief: was.copy()}
	if l.SpreadE == 0 {
		l.SpreadE = 1e-6
	}
	if l.SpreadZ == 0 {
		l.SpreadZ = 1e-6
	}
	var by sorted
	for i, r := range readings {
		if !by.owned(r, i, of, &l) {
			continue
		}
		if f := r.check(i, was.Thickness.Value, was.Units); f != nil {
			l.Findings = append(l.Findings, *f)
			continue
		}
		by.add(r, i)
	}
	thick := series{}
	for k, r := range by.of(KindThickness) {
		thick.add(r.Value, by.at(KindThickness)[k])
	}
	l.learnThickness(thick)
	if closing := by.of(KindClosing); len(closing) > 0 {
		// The skins need the width a little and the width the skins: once round first.
		draft := Learned{Belief: l.Belief.copy()}
		draft.learnDepth(by.of(KindSag), by.at(KindSag), by.of(KindSkin), by.at(KindSkin))
		draft.learnWidth(closing, by.at(KindClosing))
		l.Width = draft.Width
	}
	l.learnDepth(by.of(KindSag), by.at(KindSag), by.of(KindSkin), by.at(KindSkin))
	l.learnApart(by.of(KindSkin))
	l.learnWidth(by.of(KindClosing), by.at(KindClosing))
	l.learnBend(by.of(KindBend), by.at(KindBend))
	kerf := series{}
	for k, r := range by.of(KindKerf) {
		kerf.add(r.Value, by.at(KindKerf)[k])
	}
	l.settle(kerf, .02, "kerf", &l.Kerf)
	l.learnFit(by.of(KindFit), by.at(KindFit))
	return l
}

// sorted keeps readings by kind in the order they came.
type sorted struct {
	readings []Reading
	index    []int
	said     map[string]bool // by id: what was said of whose readings they are
}

// owned tells whether a reading is of the sheet and setting in hand, and says once of each
// kind where it is not, or may not be.
func (s *sorted) owned(r Reading, i int, of Owner, l *Learned) bool {
	once := func(id string, severity finding.Severity, format string, args ...any) {
		if s.said == nil {
			s.said = map[string]bool{}
		}
		if !s.said[id] {
			s.said[id] = true
			l.Findings = append(l.Findings, say(id, severity, i, nil, format, args...))
		}
	}
	switch {
	case r.Stock != of.Stock && of.Stock != "":
		once(IDOtherStock, finding.Note, "This reading is of another sheet, %q. Such readings are kept and not used.", r.Stock)
		return false
	case r.Setting != of.Setting && of.Setting != "":
		once(IDOtherSetting, finding.Note, "This reading is of the setting %q, not of %q. Such readings are kept and not used.", r.Setting, of.Setting)
		return false
	case r.Setting != of.Setting:
		once(IDOtherSetting, finding.Warn, "This reading is of the setting %q, and no setting is named in hand. It is used; name the setting to be sure.", r.Setting)
	}
	switch {
	case r.Batch != of.Batch && of.Batch != "":
		once(IDOtherBatch, finding.Note, "Some readings are of batch %q, not of %q. They are used until there are new ones; a new batch asks for a new strip.", r.Batch, of.Batch)
	case r.Batch != of.Batch:
		once(IDOtherBatch, finding.Note, "Some readings are of batch %q, and no batch is named in hand. They are used; name the batch to be sure.", r.Batch)
	}
	return true
}

func (s *sorted) add(r Reading, i int) {
	s.readings, s.index = append(s.readings, r), append(s.index, i)
}

func (s *sorted) of(k Kind) (out []Reading) {
	for _, r := range s.readings {
		if r.Kind == k {
			out = append(out, r)
		}
	}
	return out
}

func (s *sorted) at(k Kind) (out []int) {
	for i, r := range s.readings {
		if r.Kind == k {
			out = append(out, s.index[i])
		}
	}
	return out
}

func (b Belief) mustBeSound() {
	switch {
	case !(b.Material.E > 0), !(b.Thickness.Value > 0), !(b.Width.Value > 0), !(b.Density >= 0):
		panic("coupon: a belief needs a modulus, a thickness, a score width and no negative density")
	case !(b.SpreadE >= 0), !(b.SpreadZ >= 0), !(b.SpreadFace >= 0), math.IsInf(b.SpreadE, 0), math.IsInf(b.SpreadZ, 0):
		panic("coupon: the spreads of a belief must be numbers from 0 up")
	}
}
