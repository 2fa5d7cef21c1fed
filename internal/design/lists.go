package design

import (
	"cmp"
	"math"
	"reflect"
	"slices"
	"strings"

	"springrib/internal/finding"
	"springrib/internal/machine"
	"springrib/internal/stock"
	"springrib/internal/unit"
)

// bounded returns how many of n entries of a list are read; what they are says what there
// are too many of.
func (r *reader) bounded(f *Field, n int, what string) int {
	most := cmp.Or(f.most, maxList)
	if n > most {
		r.stop("field-range", f.Path, f.Label+": "+unit.Decimal(float64(n), 0)+what+" are too many. "+unit.Decimal(float64(most), 0)+" are read.")
	}
	return min(n, most)
}

// rows reads a list of like things. A row in which nothing is typed is none yet.
func (r *reader) rows(f *Field, list reflect.Value) {
	head := len(r.states)
	r.states = append(r.states, State{Path: f.Path, Shown: f.When.holds(r.lookup)})
	if !r.states[head].Shown {
		return
	}
	for i := range r.bounded(f, memberAt(&r.doc, f.Path).Len(), "") {
		row := index(f.Path, i) + "."
		if !f.every && !r.typedIn(f, row) {
			continue
		}
		list.Set(reflect.Append(list, reflect.Zero(list.Type().Elem())))
		into := list.Index(list.Len() - 1)
		if into.Kind() == reflect.Struct {
			if m := into.FieldByName("Row"); m.IsValid() {
				m.SetInt(int64(i))
			}
		}
		r.row = i
		for c := range f.Columns {
			r.field(&f.Columns[c], row, into)
		}
	}
	if f.whole != nil {
		st := r.states[head]
		f.whole(r, &st)
		r.states[head] = st
	}
}

// typedIn tells whether a row holds anything but choices.
func (r *reader) typedIn(f *Field, row string) bool {
	for i := range f.Columns {
		if c := &f.Columns[i]; c.Kind != Choose && strings.TrimSpace(r.texts[row+c.Path]) != "" {
			return true
		}
	}
	return false
}

// last returns the row that is being read.
func last[T any](rows []T) *T { return &rows[len(rows)-1] }

// lengths reads the entries of a list of lengths that are not empty; one entry may hold
// several. bad tells that at least one could not be used; places[i] is the place of
// values[i] in the document.
func (r *reader) lengths(f *Field, texts []string) (values []float64, places []int, bad bool) {
	n := r.bounded(f, len(texts), " entries")
	bad = n < len(texts)
	one := *f
	one.Label, _, _ = strings.Cut(f.Label, ",")
	for i, text := range texts[:n] {
		text = strings.TrimSpace(text)
		if text == "" {
			continue
		}
		parts := unit.Several(text, r.v.Units)
		for _, part := range parts {
			st := State{Path: index(f.Path, i), Shown: true}
			got := r.figure(&one, part, &st)
			if st.Problem != "" || st.Means != "" && len(parts) == 1 {
				r.states = append(r.states, st)
			}
			if !got.typed {
				bad = true
				continue
			}
			values, places = append(values, got.num), append(places, i)
		}
	}
	n = r.bounded(f, len(values), " figures")
	return values[:n], places[:n], bad || n < len(values)
}

// thinnest and thickest bound the sheets of which the handbook speaks, mm.
const thinnest, thickest = 0.5, 25

// readings reads the thickness.
func (r *reader) readings(f *Field) {
	s, sys := &r.v.Sheet, r.v.Units
	at := len(r.states)
	r.states = append(r.states, State{Path: f.Path, Shown: true})
	values, _, bad := r.lengths(f, r.doc.Sheet.Readings)
	nominal := s.Stock.Thickness
	unsized := s.Own || s.Stock.Unsized
	if s.Own {
		nominal = stock.Figure{Value: 3, Low: 2.8, High: 3.2}
	} else if !unsized {
		r.states[at].Default = unit.Length(nominal.Value, sys) + " by name, not measured"
	}
	s.T, s.TSpread = nominal.Value, math.Max(nominal.High-nominal.Value, nominal.Value-nominal.Low)
	if len(values) == 0 {
		if unsized && !bad {
			r.missing(&r.states[at], "Say how thick the sheet is.", "Say how thick the sheet is.")
		}
		return
	}
	m := stock.Measure(values)
	s.Readings, s.Measured = values, true
	// Within one panel ANSI A208.2-2009 allows MDF +-0.125 mm; a single reading is good to that.
	s.T, s.TSpread = m.Mean, m.Spread(math.Min(s.TSpread, 0.125))
	r.states[at].Means = unit.LengthFine(sized(m.Mean), sys) + " on average"
	if !s.Own {
		s.Stock = s.Stock.Of(m.Mean)
	}
	if m.Mean < thinnest || m.Mean > thickest {
		r.say(finding.Warn, "thickness-odd", f.Path, "The readings come to "+unit.Length(m.Mean, sys)+"; figures are known from "+unit.Length(thinnest, sys)+" to "+unit.Length(thickest, sys)+". Check the unit.",
			map[string]float64{"mean": m.Mean, "least": thinnest, "most": thickest})
	}
	// A tenth of the mean between readings is three to five times what sheets vary by: one was misread.
	if m.Max-m.Min > 0.1*m.Mean {
		r.say(finding.Warn, "readings-scatter", f.Path, "The readings lie "+unit.Length(m.Max-m.Min, sys)+" apart, more than one sheet varies. Measure again the one that stands out.",
			map[string]float64{"min": m.Min, "max": m.Max, "mean": m.Mean})
	}
}

// depths reads the depth after each pass. One that can't be used puts the whole list
// back to the defaults, since the others would count as other passes.
func (r *reader) depths(f *Field) {
	m, t := &r.v.Machine, r.v.Sheet.T
	at := len(r.states)
	r.states = append(r.states, State{Path: f.Path, Shown: true})
	// Between a scratch and all but a tissue: beyond either there is no score.
	one := *f
	one.Min, one.Max = 0.03, sized(t-0.05)
	m.Depths = defaultDepths(m.Setup, t)
	texts := make([]string, len(m.Depths))
	for i, d := range m.Depths {
		texts[i] = strings.TrimSuffix(unit.LengthFine(d, r.v.Units), " "+r.v.Units.String())
	}
	r.states[at].Default = strings.Join(texts, ", ") + " " + r.v.Units.String()
	if m.Reference == machine.Table {
		r.states[at].Label = "Skin left after each pass"
	}
	r.states[at].Default += ", a guess until a depth strip is cut"
	values, places, bad := r.lengths(&one, r.doc.Machine.Depths)
	if bad || len(values) == 0 {
		return
	}
	trial := m.Setup
	trial.Depths = values
	if !trial.Growing() {
		i := firstOutOfOrder(trial)
		word := "deeper"
		if m.Reference == machine.Table {
			word = "less skin"
		}
		text := "Pass " + unit.Decimal(float64(i+1), 0) + " says " + unit.LengthFine(values[i], r.v.Units) + ", pass " + unit.Decimal(float64(i), 0) + " " + unit.LengthFine(values[i-1], r.v.Units) + ". Each pass leaves the score " + word + ": type the total depth after each pass."
		if m.Reference == machine.Table {
			text = strings.Replace(text, "leaves the score less skin", "leaves less skin", 1)
			text = strings.Replace(text, "type the total depth after each pass", "type the skin that is left", 1)
		}
		r.say(finding.Stop, "field-order", index(f.Path, places[i]), text, map[string]float64{"this": values[i], "before": values[i-1]})
		r.states = append(r.states, State{Path: index(f.Path, places[i]), Shown: true, Problem: text})
		return
	}
	m.Depths, m.Typed = values, true
}

// defaultDepths returns the tool's usual depths for the reference that is set now.
func defaultDepths(now machine.Setup, t float64) []float64 {
	usual := machine.Defaults(now.Tool, t)
	if usual.Reference == now.Reference {
		return usual.Depths
	}
	for i, d := range usual.Depths {
		usual.Depths[i] = sized(t - d)
	}
	return usual.Depths
}

func firstOutOfOrder(s machine.Setup) int {
	for i := 1; i < len(s.Depths); i++ {
		first := s
		first.Depths = s.Depths[i-1 : i+1]
		if !first.Growing() {
			return i
		}
	}
	return len(s.Depths) - 1
}

// chainBends asks for a bend in a chain.
func (r *reader) chainBends(st *State) {
	if !slices.ContainsFunc(r.v.Curve.Pieces, func(p PieceValues) bool { return p.Turn != Straight }) {
		r.missing(st, "Add at least one bend.", "The row of arcs and straights has no bend yet. Add at least one.")
		r.v.Curve.Pieces = append(r.v.Curve.Pieces, PieceValues{Turn: Over, Length: 100, Radius: 200})
	}
	r.nameByFirstBend(st.Path)
}

// farBends asks for a bend in the far section.
func (r *reader) farBends(st *State) {
	if !slices.ContainsFunc(r.v.Curve.FarPieces, func(p PieceValues) bool { return p.Turn != Straight }) {
		r.missing(st, "Add at least one bend.", "The far section has no bend yet. Add at least one.")
		r.v.Curve.FarPieces = append(r.v.Curve.FarPieces, PieceValues{Turn: Over, Length: 100, Radius: 150})
	}
}

// enoughPoints asks for three points.
func (r *reader) enoughPoints(st *State) {
	if len(r.v.Curve.Points) < 3 {
		r.missing(st, "Add at least three points.", "A smooth curve needs at least three points.")
	}
}

// nameByFirstBend turns a chain over that begins against its own first bend: hollow
// and round are named by that bend, so that it is "over" by definition.
func (r *reader) nameByFirstBend(path string) {
	ps := r.v.Curve.Pieces
	for _, p := range ps {
		if p.Turn == Over {
			return
		}
		if p.Turn == Back {
			break
		}
	}
	set := map[string]string{}
	for i, p := range ps {
		switch p.Turn {
		case Over:
			ps[i].Turn = Back
		case Back:
			ps[i].Turn = Over
		default:
			continue
		}
		set[index(path, i)+".turn"] = ps[i].Turn
	}
	r.say(finding.Note, "first-bend", path, "Hollow and round side are named by the first bend, so that it is read as going round, and the others the other way.", nil,
		finding.Remedy{Text: "Write it that way", Set: set})
}
