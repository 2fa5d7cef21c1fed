package design

import (
	"math"
	"strings"

	"springrib/internal/finding"
	"springrib/internal/machine"
	"springrib/internal/stock"
	"springrib/internal/unit"
)

// list reads the entries of a list of lengths that are not empty. bad tells that at
// least one could not be used; index[i] is the place of values[i] in the document.
func (r *reader) list(f Field, texts []string) (values []float64, places []int, bad bool) {
	if len(texts) > maxList {
		r.stop("field-range", f.Path, f.Label+": "+unit.Decimal(float64(len(texts)), 0)+" entries are too many. "+unit.Decimal(maxList, 0)+" are read.")
		texts, bad = texts[:maxList], true
	}
	one := f
	one.Label = strings.SplitN(f.Label, ",", 2)[0]
	for i, text := range texts {
		text = strings.TrimSpace(text)
		if text == "" {
			continue
		}
		parts := unit.Several(text, r.v.Units)
		for _, part := range parts {
			st := State{Path: index(f.Path, i), Shown: true}
			got := r.figure(one, st.Path, part, &st)
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
	if len(values) > maxList {
		r.stop("field-range", f.Path, f.Label+": "+unit.Decimal(float64(len(values)), 0)+" figures are too many. "+unit.Decimal(maxList, 0)+" are read.")
		values, places, bad = values[:maxList], places[:maxList], true
	}
	return values, places, bad
}

// readings reads the thickness.
func (r *reader) readings(f Field) {
	s, sys := &r.v.Sheet, r.v.Units
	at := len(r.states)
	r.states = append(r.states, State{Path: f.Path, Shown: true})
	values, _, bad := r.list(f, r.doc.Sheet.Readings)
	nominal := s.Stock.Thickness
	if s.Own {
		nominal = stock.Figure{Value: 3, Low: 2.8, High: 3.2}
	} else {
		r.states[at].Default = unit.Length(nominal.Value, sys) + " by name, not measured"
	}
	s.T, s.TSpread = nominal.Value, math.Max(nominal.High-nominal.Value, nominal.Value-nominal.Low)
	if len(values) == 0 {
		if s.Own && !bad {
			r.states[at].Problem = "Say how thick the sheet is."
			r.stop("field-missing", f.Path, "Say how thick the sheet is.")
		}
		return
	}
	m := stock.Measure(values)
	s.Readings, s.Measured = values, true
	// Within one panel ANSI A208.2-2009 allows MDF +-0.125 mm; a single reading is good to that.
	s.T, s.TSpread = m.Mean, m.Spread(math.Min(s.TSpread, 0.125))
	r.states[at].Means = unit.LengthFine(sized(m.Mean), sys) + " on average"
	if !s.Own && (m.Mean < 0.6*nominal.Value || m.Mean > 1.6*nominal.Value) {
		r.say(finding.Warn, "thickness-odd", f.Path, "The readings come to "+unit.Length(m.Mean, sys)+", and "+s.Stock.Name+" is sold as "+unit.Length(nominal.Value, sys)+". Check the unit and the kind of sheet.",
			map[string]float64{"mean": m.Mean, "nominal": nominal.Value})
	}
	// A tenth of the mean between readings is three to five times what sheets vary by: one was misread.
	if m.Max-m.Min > 0.1*m.Mean {
		r.say(finding.Warn, "readings-scatter", f.Path, "The readings lie "+unit.Length(m.Max-m.Min, sys)+" apart, more than one sheet varies. Measure again the one that stands out.",
			map[string]float64{"min": m.Min, "max": m.Max, "mean": m.Mean})
	}
}

// depths reads the depth after each pass. One that can't be used puts the whole list
// back to the defaults, since the others would count as other passes.
func (r *reader) depths(f Field) {
	m, t := &r.v.Machine, r.v.Sheet.T
	at := len(r.states)
	r.states = append(r.states, State{Path: f.Path, Shown: true})
	// Between a scratch and all but a tissue: beyond either there is no score.
	f.Min, f.Max = 0.03, sized(t-0.05)
	m.Depths = defaultDepths(m.Setup, t)
	texts := make([]string, len(m.Depths))
	for i, d := range m.Depths {
		texts[i] = strings.TrimSuffix(unit.LengthFine(d, r.v.Units), " "+r.v.Units.String())
	}
	r.states[at].Default = strings.Join(texts, ", ") + " " + r.v.Units.String() + ", a guess until a depth strip is cut"
	values, places, bad := r.list(f, r.doc.Machine.Depths)
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
		text := "After pass " + unit.Decimal(float64(i+1), 0) + " stands " + unit.LengthFine(values[i], r.v.Units) + ", after pass " + unit.Decimal(float64(i), 0) + " " + unit.LengthFine(values[i-1], r.v.Units) + ". Each pass leaves the score " + word + ": type the depth in all, not of each pass."
		if m.Reference == machine.Table {
			text = strings.Replace(text, "leaves the score less skin", "leaves less skin", 1)
			text = strings.Replace(text, "type the depth in all, not of each pass", "type the skin that is left", 1)
		}
		r.stopNumbers("field-order", index(f.Path, places[i]), text, map[string]float64{"this": values[i], "before": values[i-1]})
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

// pieces reads a chain.
func (r *reader) pieces(f Field) {
	shown := f.When.holds(r.lookup)
	at := len(r.states)
	r.states = append(r.states, State{Path: f.Path, Shown: shown})
	if !shown {
		return
	}
	pieces := r.doc.Curve.Pieces
	if len(pieces) > maxList {
		r.stop("field-range", f.Path, "A row of "+unit.Decimal(float64(len(pieces)), 0)+" pieces is too long. "+unit.Decimal(maxList, 0)+" are read.")
		pieces = pieces[:maxList]
	}
	for i := range pieces {
		r.v.Curve.Pieces = append(r.v.Curve.Pieces, r.piece(index(f.Path, i)))
	}
	bends := false
	for _, p := range r.v.Curve.Pieces {
		bends = bends || p.Turn != Straight
	}
	if !bends {
		r.states[at].Problem = "Add at least one bend."
		r.stop("field-missing", f.Path, "The row of arcs and straights has no bend yet. Add at least one.")
		r.v.Curve.Pieces = append(r.v.Curve.Pieces, PieceValues{Turn: Over, Length: 100, Radius: 200})
	}
	r.nameByFirstBend(f.Path)
}

func (r *reader) piece(path string) PieceValues {
	p := PieceValues{}
	inside := map[string]string{}
	for _, f := range PieceFields() {
		st := State{Path: path + "." + f.Path}
		st.Shown = f.When.holds(func(p string) string { return inside[p] })
		text := r.texts[st.Path]
		text = strings.TrimSpace(text)
		if !st.Shown {
			continue
		}
		switch f.Path {
		case "turn":
			f.Path = st.Path
			p.Turn = r.choice(f, text, &st).text
			inside["turn"] = p.Turn
		case "length":
			p.Length = r.figure(f, st.Path, text, &st).num
		case "radius":
			p.Radius = r.figure(f, st.Path, text, &st).num
		}
		r.states = append(r.states, st)
	}
	return p
}

// points reads the places that a smooth curve goes through. A row with nothing in it is
// no point yet.
func (r *reader) points(f Field) {
	shown := f.When.holds(r.lookup)
	at := len(r.states)
	r.states = append(r.states, State{Path: f.Path, Shown: shown})
	if !shown {
		return
	}
	rows := r.doc.Curve.Points
	if len(rows) > maxPoints {
		r.stop("field-range", f.Path, unit.Decimal(float64(len(rows)), 0)+" points are too many. "+unit.Decimal(maxPoints, 0)+" are read.")
		rows = rows[:maxPoints]
	}
	for i, row := range rows {
		if strings.TrimSpace(row.X) == "" && strings.TrimSpace(row.Y) == "" {
			continue
		}
		var xy [2]float64
		for j, c := range f.Columns {
			st := State{Path: index(f.Path, i) + "." + c.Path, Shown: true}
			text := row.X
			if j == 1 {
				text = row.Y
			}
			xy[j] = r.figure(c, st.Path, strings.TrimSpace(text), &st).num
			r.states = append(r.states, st)
		}
		r.v.Curve.Points = append(r.v.Curve.Points, xy)
		r.v.Curve.PointRows = append(r.v.Curve.PointRows, i)
	}
	if len(r.v.Curve.Points) < 3 {
		r.states[at].Problem = "Add at least three points."
		r.stop("field-missing", f.Path, "A smooth curve needs at least three points.")
	}
}

// maxPoints is the longest list of points that is read.
const maxPoints = 500

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
