// Package learn is what test strips teach.
//
// From takes the values that a person typed, with the readings among them, and writes into
// them what the strips said in the place of handbook and guess: skins, widths, stiffness,
// the strain that cracks, and by how much each may still be off. What was believed before and
// what was learned come back, with a finding for every reading that is in doubt.
package learn

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"springrib/internal/coupon"
	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/machine"
	"springrib/internal/solve"
	"springrib/internal/state"
	"springrib/internal/stock"
)

// bedSpread is what a depth that a strip told still varies by over the bed and along a
// line, where the person gave no figure, mm. Common practice, no source.
const bedSpread = 0.05

// lineSpread is what a depth varies by along a line and from one to the next at one spot,
// mm. Common practice, no source.
const lineSpread = 0.02

// From puts what the test strips of values said in the place of handbook and guess, and
// returns it with what there is to say of the readings. Lists of the values that are shared
// with others are left alone. Values without readings cost nothing here.
func From(v *design.Values) (Readings, []finding.Finding) {
	l := lesson{v: v}
	if l.v.Strips.Taken {
		return l.Readings, nil
	}
	readings, rows := l.readings()
	if len(readings) == 0 {
		if l.v.Strips.Damp {
			return l.Readings, []finding.Finding{{ID: "strips-none", Severity: finding.Note, Place: finding.Place{Field: "strips.damp"},
				Text: "No strip is written down yet, so a change of air changes nothing here."}}
		}
		return l.Readings, nil
	}
	l.v.Strips.Taken = true
	was := l.belief()
	got := coupon.Learn(was, readings, coupon.Owner{Stock: l.v.Sheet.Stock.ID, Setting: l.v.Machine.Setting, Batch: l.v.Sheet.Batch})
	l.Believed, l.Learned = &was, &got
	var said []finding.Finding
	for _, f := range got.Findings {
		said = append(said, placed(f, rows))
	}
	l.takeSheet(got)
	l.takeDepths(got)
	l.takeRest(got)
	if l.v.Strips.Damp {
		l.damp()
		said = append(said, finding.Finding{ID: "strips-stale", Severity: finding.Warn, Place: finding.Place{Field: "strips.damp"},
			Text: "The air has turned since these strips were read. Board swells, softens and takes a beam differently: cut a new depth strip. Until then the ranges are wider."})
	}
	return l.Readings, said
}

// lesson is values that strips are about to change, and what they said.
type lesson struct {
	v *design.Values
	Readings
}

// readings returns the readings as package coupon takes them, and the row of each.
func (l *lesson) readings() (out []coupon.Reading, rows []int) {
	v := l.v
	own := func(text, here string) string {
		if text == "" {
			return here
		}
		return text
	}
	for _, x := range v.Strips.Readings {
		if x.Bad {
			continue
		}
		st := own(x.Stock, v.Sheet.Stock.ID)
		sold, _ := stock.Lookup(v.Sheet.Stock.ID) // by the name that it has before it is measured
		if strings.EqualFold(st, v.Sheet.Stock.Name) || strings.EqualFold(st, v.Sheet.Stock.ID) || st != "" && strings.EqualFold(st, sold.Name) {
			st = v.Sheet.Stock.ID
		}
		r := coupon.Reading{
			Kind: coupon.Kind(x.Kind), Date: x.Date, Stock: st, Setting: own(x.Setting, v.Machine.Setting), Batch: own(x.Batch, v.Sheet.Batch),
			Spot: spot(x.Spot), Passes: x.Passes, Spacing: x.Spacing, Length: x.Length, Width: x.Width, Load: x.Load, Count: x.Count,
			Value: x.Value, RoundSide: x.RoundSide,
		}
		switch r.Kind {
		case coupon.KindClosing:
			r.Value = x.Turn
		case coupon.KindBend, coupon.KindFit:
			r.Verdict = coupon.Verdict(x.Verdict)
		}
		out, rows = append(out, r), append(rows, x.Row)
	}
	return out, rows
}

// placed puts a finding about reading i at the row that it came from.
func placed(f finding.Finding, rows []int) finding.Finding {
	i, err := strconv.Atoi(strings.TrimPrefix(f.Place.Field, "readings."))
	if err != nil || i < 0 || i >= len(rows) {
		f.Place.Field = "strips.readings"
		return f
	}
	f.Place.Field = "strips.readings." + strconv.Itoa(rows[i]) + ".value"
	return f
}

// What another climate does to a sheet whose strips were read before: half ranges as
// shares of the figure, and of the depth in shares of the sheet's thickness. Board
// swells by a few per cent and loses as much as a fifth of its stiffness between dry and
// damp rooms. Common practice, no source.
const (
	dampStiff  = 0.15
	dampThick  = 0.01
	dampDepth  = 0.02
	dampBreaks = 0.15
)

// damp widens what a sheet is known by that has lain in another climate since.
func (l *lesson) damp() {
	s, m := &l.v.Sheet, &l.v.Machine
	for _, f := range []*stock.Figure{&s.E, &s.EZ, &s.GXZ, &s.MOR} {
		*f = widened(*f, dampStiff)
	}
	s.Rupture = widened(s.Rupture, dampBreaks)
	s.TSpread = math.Hypot(s.TSpread, dampThick*s.T)
	m.DepthSpread = math.Hypot(m.DepthSpread, dampDepth*s.T)
	m.Spreads = slices.Clone(m.Spreads) // the person's are left alone
	for i, d := range m.Spreads {
		if d > 0 {
			m.Spreads[i] = math.Hypot(d, dampDepth*s.T)
		}
	}
}

// widened returns a figure with a range wider by a share of it, each side in quadrature.
func widened(f stock.Figure, share float64) stock.Figure {
	if !(f.Value > 0) {
		return f
	}
	f.Low = f.Value * math.Max(0.05, 1-math.Hypot(1-f.Low/f.Value, share))
	f.High = f.Value * (1 + math.Hypot(f.High/f.Value-1, share))
	return f
}

// belief is what handbook and person say before any strip.
func (l *lesson) belief() coupon.Belief {
	s, m := l.v.Sheet, l.v.Machine
	b := coupon.Belief{
		Material: state.Nominal(&s),
		SpreadE:  sigmaLn(s.E), SpreadZ: (sigmaLn(s.EZ) + sigmaLn(s.GXZ)) / 2,
		SpreadFace: (s.Face.High - s.Face.Low) / (2 * state.NineInTen),
		Thickness:  coupon.Measured{Value: s.T, Sigma: s.TSpread / state.NineInTen, N: len(s.Readings)},
		Density:    s.Density.Value,
		Bottom:     state.BottomOf(m.Bottom),
		Apart:      coupon.Measured{Value: l.between() / state.NineInTen},
		Width:      coupon.Measured{Value: m.ScoreWidth, Sigma: m.WidthSpread / state.NineInTen},
		Rupture:    coupon.Measured{Value: s.Rupture.Value, Sigma: sigmaLn(s.Rupture)},
		Kerf:       coupon.Measured{Value: m.Kerf},
		Units:      l.v.Units,
	}
	for n := range m.Depths {
		b.Skins = append(b.Skins, coupon.Measured{Value: m.Skin(n+1, s.T, 0).Value, Sigma: m.Spread(n+1) / state.NineInTen})
	}
	return b
}

// sigmaLn is the standard deviation of the logarithm of a figure whose ends hold nine
// in ten.
func sigmaLn(f stock.Figure) float64 {
	if !(f.Low > 0 && f.High > f.Low) {
		return 0
	}
	return math.Log(f.High/f.Low) / (2 * state.NineInTen)
}

// fromStrips is a figure with the spread of its logarithm.
func fromStrips(v, sigmaLn float64) stock.Figure {
	k := solve.Exp(state.NineInTen * sigmaLn)
	return stock.Figure{Value: v, Low: v / k, High: v * k, Source: "test strips", Grade: stock.Tested}
}

// takeSheet takes what tongues said of the sheet itself.
func (l *lesson) takeSheet(got coupon.Learned) {
	s := &l.v.Sheet
	if len(got.Tongues) > 0 {
		m := got.Material
		s.E = fromStrips(m.E, got.SpreadE)
		s.EZ, s.GXZ = fromStrips(m.EZ, got.SpreadZ), fromStrips(m.GXZ, got.SpreadZ)
		if s.Face.Given() {
			s.Face = stock.Figure{Value: m.Face, Low: m.Face - state.NineInTen*got.SpreadFace, High: m.Face + state.NineInTen*got.SpreadFace, Source: "test strips", Grade: stock.Tested}
		}
	}
	if t := got.Thickness; len(got.Tongues) > 0 || t.N > 0 && t.Value != s.T {
		s.T, s.TSpread = t.Value, state.NineInTen*t.Sigma
	}
	if got.Rupture.N > 0 {
		s.Rupture = fromStrips(got.Rupture.Value, got.Rupture.Sigma)
		s.StrainTested = s.StrainTested || got.RuptureKnown
	}
}

// takeDepths takes the skins that strips told. Numbers of passes that none was read of
// keep what was typed for them, deeper or shallower in proportion as the nearest one
// that was read came out.
func (l *lesson) takeDepths(got coupon.Learned) {
	s, m := l.v.Sheet, &l.v.Machine
	n := len(m.Depths)
	for n < len(got.Skins) && got.Skins[n].N > 0 {
		n++ // passes beyond those typed, told one after another
	}
	depth := func(skin float64) float64 {
		if m.Reference == machine.Table {
			return skin
		}
		return s.T - skin
	}
	// What one score differs by from the next, and a place with it.
	apart, place := l.between(), l.varies()
	if a := got.Apart; a.N > 0 {
		apart = state.NineInTen * a.Value
		place = math.Hypot(math.Sqrt(1-machine.ApartShare)*place, apart)
	}
	was := append([]float64{}, m.Depths...)
	told := make([]float64, n) // over what was typed; 0 where nothing was told
	any := false
	out, spreads := make([]float64, n), make([]float64, n)
	for i := range n {
		if i < len(got.Skins) && got.Skins[i].N > 0 {
			any = true
			out[i] = depth(got.Skins[i].Value)
			spreads[i] = math.Hypot(state.NineInTen*got.Skins[i].Sigma, place)
			told[i] = 1
			if i < len(was) {
				told[i] = out[i] / was[i]
			}
		}
	}
	if got.OverBed.N > 0 {
		// For the passes too that nothing was read of.
		m.DepthSpread = l.varies()
	}
	if !any {
		m.Depths = growing(was, m.Reference, s.T) // a thinner sheet than was typed takes fewer passes
		return
	}
	for i := range n {
		if out[i] == 0 {
			out[i] = was[i] * nearest(told, i)
		}
	}
	m.Apart = apart
	m.Depths, m.Spreads = growing(out, m.Reference, s.T), spreads
	m.Spreads = m.Spreads[:len(m.Depths)]
	m.Tested, m.Typed = true, true
}

// varies is what a depth differs by from place to place: as strips at several spots of
// the bed told, and never less than along one line; else as typed; else a guess.
func (l *lesson) varies() float64 {
	if l.Learned != nil && l.Learned.OverBed.N > 0 {
		return math.Max(lineSpread, state.NineInTen*l.Learned.OverBed.Value)
	}
	if l.v.Machine.SpreadTyped {
		return l.v.Machine.DepthSpread
	}
	return math.Min(bedSpread, l.v.Machine.DepthSpread)
}

// between is what one score differs by from the next, half width: as typed, else a share of
// what a place differs by.
func (l *lesson) between() float64 {
	if a := l.v.Machine.Apart; a > 0 {
		return a
	}
	return math.Sqrt(machine.ApartShare) * l.varies()
}

// nearest returns the entry nearest to i that is not zero, the earlier when two are.
func nearest(told []float64, i int) float64 {
	for d := 1; d < len(told); d++ {
		if i-d >= 0 && told[i-d] > 0 {
			return told[i-d]
		}
		if i+d < len(told) && told[i+d] > 0 {
			return told[i+d]
		}
	}
	return 1
}

// growing keeps depths that go deeper pass by pass and leave a skin; one that would not
// is held a hair past the one before it, and what would go through is left out, the
// first excepted, which is held to the thinnest skin there is a law for.
func growing(depths []float64, ref machine.Reference, t float64) []float64 {
	const hair, thin = 0.01, 0.02
	depths[0] = math.Min(math.Max(depths[0], thin*t), (1-thin)*t)
	if ref == machine.Table {
		for i := 1; i < len(depths); i++ {
			if depths[i] = math.Min(depths[i], depths[i-1]-hair); depths[i] < thin*t {
				return depths[:i]
			}
		}
		return depths
	}
	for i := 1; i < len(depths); i++ {
		if depths[i] = math.Max(depths[i], depths[i-1]+hair); depths[i] > (1-thin)*t {
			return depths[:i]
		}
	}
	return depths
}

// takeRest takes widths and fits.
func (l *lesson) takeRest(got coupon.Learned) {
	m := &l.v.Machine
	if w := got.Width; w.N > 0 {
		m.ScoreWidth, m.WidthSpread, m.WidthTested = w.Value, state.NineInTen*w.Sigma, true
	}
	if k := got.Kerf; k.N > 0 {
		m.Kerf = k.Value
	}
	if c := got.Clearance; c.N > 0 && !l.v.Rib.FitTyped {
		l.v.Rib.Fit = c.Value
	}
}

// spot is the place on the bed that a person wrote: the figure of a label, or its words.
func spot(text string) string {
	low := strings.ToLower(strings.TrimSpace(text))
	switch low {
	case "center", "centre", "the center", "middle", "the middle":
		return coupon.Centre
	}
	for _, s := range []string{coupon.LowerLeft, coupon.LowerRight, coupon.UpperLeft, coupon.UpperRight, coupon.Centre} {
		if low == s || low == coupon.SpotWords(s) || low == "the "+coupon.SpotWords(s) {
			return s
		}
	}
	return strings.TrimSpace(text)
}

// Readings is what was believed before test strips and after; nil without readings.
type Readings struct {
	Believed *coupon.Belief
	Learned  *coupon.Learned
}
