package bench

import (
	"math"
	"strconv"
	"strings"

	"springrib/internal/chance"
	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/unit"
)

// lead says what this is.
func (w *writer) lead() string {
	what, how := "A panel of ", ", bent on its rib"
	if w.p.Section.Closed {
		what, how = "A band of ", ", bent all round its rib"
	}
	if len(w.p.Supports.All) > 1 {
		how += "s"
	}
	if k := w.p.Section.Cone; k != nil {
		if !w.p.Section.Closed {
			return "Part of a cone of " + w.v.Sheet.Stock.Name + " with " + unit.Plural(w.p.ScoresCut(), "score") + ", bent over its ribs: " + unit.Angle(w.p.Section.Sweep) +
				" round, radii of " + w.mm(k.Narrow) + " and " + w.mm(k.Wide) + " inside, " + w.mm(k.Height) + " high."
		}
		return "A cone of " + w.v.Sheet.Stock.Name + " with " + unit.Plural(w.p.ScoresCut()*w.p.Gores(), "score") + ", bent all round its rings: " +
			w.mm(2*k.Narrow) + " and " + w.mm(2*k.Wide) + " inside, " + w.mm(k.Height) + " high."
	}
	if w.is("skin") {
		how = ", bent over ribs of different shape"
		if w.p.Section.Closed {
			how = ", bent all round ribs of different shape"
		}
	}
	s := what + w.v.Sheet.Stock.Name
	if w.p.ScoresCut() == 0 {
		return s + " without scores: it stays flat."
	}
	s += " with " + unit.Plural(w.p.ScoresCut(), "score") + how
	if k, _ := w.p.Section.Edge.Tightest(); k > 1e-9 {
		s += " to a radius of " + w.mm(1/k) + " at its tightest"
	}
	return s + "."
}

// watch says what may go wrong: how near the design comes to its limits, and stops and
// warnings with what would mend them.
func (w *writer) watch(found []finding.Finding) Section {
	s := Section{ID: "watch", Title: "What may go wrong", Loose: true}
	for i := range found {
		f := &found[i]
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
			how += " The page offers: " + unit.List(mend) + "."
		}
		s.Steps = append(s.Steps, Step{f.ID, word, how})
	}
	if len(s.Steps) == 0 {
		s.Lines = append(s.Lines, "No warning stands against this design.")
	}
	if w.p.ScoresCut() == 0 {
		return s
	}
	near := func(what string, value, bad, allowed float64) string {
		return what + unit.Ratio(value) + " of the limit, sound up to " + unit.Ratio(allowed) + "; in the worst case " + unit.Ratio(bad) + ", sound up to 1.00."
	}
	if w.p.Few() < 1 {
		one := chance.OneIn(w.p.Proof.Chance.Fail)
		s.Lines = append(s.Lines, strings.ToUpper(one[:1])+one[1:]+" would fail on its way to the rib, or on it.")
	}
	c, k := &w.p.Scores.Cracking, &w.p.Scores.Pinching
	pinching := "Pinching: the scores open as they bend and can't pinch."
	if k.Score > 0 {
		pinching = near("Pinching: ", k.Value, k.Bad, k.Allowed)
	}
	s.Lines = append(s.Lines, near("Cracking: ", c.Value, c.Bad, c.Allowed), pinching)
	return s
}

func (s *Section) head(ruled bool, head ...string) { s.Table = &Table{Head: head, Ruled: ruled} }

func (s *Section) row(cells ...string) { s.Table.Rows = append(s.Table.Rows, cells) }

// lines is the table of rib lines, for ribs that do not stand on the middle alone.
func (w *writer) lines(s *Section) bool {
	if w.is("ruled") {
		return w.arcs(s)
	}
	s.head(false, "Part", "From the middle", "Glue it to, from the foot edge")
	if w.p.Section.Closed {
		s.Table.Head = s.Table.Head[:2]
	}
	for i := range w.p.Supports.All {
		sup := &w.p.Supports.All[i]
		row := []string{w.p.Ribs.Kinds[sup.Kind].Name, w.side(sup.Across), w.mm(sup.Mark.To - w.p.Outline.From)}
		s.row(row[:len(s.Table.Head)]...)
	}
	return true
}

// side writes a place across the panel as it looks on the face that meets the rib. The
// outline is seen from the show face, where across grows to the left of the bend; the rib
// meets that face where it meets the scored one and that shows, or where neither is so.
func (w *writer) side(across float64) string {
	at := w.mm(math.Abs(across))
	switch {
	case math.Abs(across) < 0.005:
		return "in the middle"
	case (across > 0) == (w.p.Section.Towards != w.p.Panel.Mirror):
		return at + " to the left"
	}
	return at + " to the right"
}

// parts says what is cut from what, with a picture of each.
func (w *writer) parts(s *Section) {
	s.head(false, "Part", "How many", "From", "Thickness", "Size, laid flat")
	for i := range w.p.Lay.Sheets {
		g := &w.p.Lay.Sheets[i]
		for k := range g.Parts {
			pt := &g.Parts[k]
			b := pt.Outline.Box()
			s.row(pt.Name, strconv.Itoa(max(1, pt.Quantity)), g.From.Stock.Name, w.fit(g.From.Thickness), w.mm(b.W())+" by "+w.mm(b.H()))
			s.Figures = append(s.Figures, w.partFigure(pt))
		}
	}
	if len(w.p.Lay.Sheets) > 1 {
		for i := range w.p.Lay.Froms {
			s.Lines = append(s.Lines, "Sheet "+strconv.Itoa(i+1)+" is "+w.p.Lay.Froms[i].Stock.Name+", "+w.fit(w.p.Lay.Froms[i].Thickness)+" thick.")
		}
	}
	if w.is("hand") {
		return
	}
	for _, from := range w.p.Stocks()[1:] { // as their parts are drawn, which a half turn leaves
		if from.Grained && w.v.Cut.Turns != design.TurnQuarter {
			s.Lines = append(s.Lines, "Lay the sheet of "+from.Stock.Name+" with its face grain from left to right.")
		}
	}
	for i := range w.p.Lay.Beds {
		if b := &w.p.Lay.Beds[i]; len(b.Outer.Segs) > 0 {
			box := b.Outer.Box()
			s.Lines = append(s.Lines, "Sheet "+strconv.Itoa(i+1)+" is the scrap: its corner lies "+w.mm(box.Min.X)+" from the left and "+w.mm(box.Min.Y)+" from the front of the bed.")
		}
	}
}

// operations is the table that is set at a laser or a router.
func (w *writer) operations(s *Section) {
	if w.is("hand") {
		s.Title = "The tool"
		return
	}
	speed := "Speed"
	if w.is("router") {
		speed = "Feed"
	}
	s.head(false, "Name in the file", "Passes", speed, "Colour")
	for _, o := range w.p.Lay.Operations() {
		value := "as you cut this sheet"
		if o.Speed > 0 {
			value = unit.Speed(o.Speed, w.v.Units)
		}
		s.row(o.Name, strconv.Itoa(max(1, o.Passes)), value, colour(o.Colour))
	}
}

// colour says a colour of the palette of files in a word, beside what a program shows of it
// (Okabe and Ito, "Color Universal Design", 2008).
func colour(code string) string {
	words := map[string]string{"#E69F00": "orange", "#56B4E9": "sky blue", "#009E73": "green", "#CC79A7": "pink", "#0072B2": "blue", "#D55E00": "vermilion", "#F0E442": "yellow", "#000000": "black"}
	if word := words[strings.ToUpper(code)]; word != "" {
		return word + ", " + code
	}
	return code
}

// place is a score as measured from the foot edge of the panel, mm.
type place struct {
	score int
	from  float64
}

// mirroredWithin is how far two scores that one setting of the fence cuts may lie from
// where each should be, mm: half of what a fence is set to.
const mirroredWithin = 0.05

// settings lists the places to score. For a saw, where the panel is the same from both
// ends, it lists the half nearer the foot, and mirrored tells that each is also scored
// from the other edge.
func (w *writer) settings() (out []place, mirrored bool) {
	for i := range w.p.Scores.Layout.Folds {
		if u := w.p.Scores.Layout.Folds[i].U; u > w.p.Outline.From && u < w.p.Outline.To {
			out = append(out, place{i + 1, u - w.p.Outline.From})
		}
	}
	n := len(out)
	if n < 2 || !w.is("saw") {
		return out, false
	}
	for i := range out {
		if math.Abs(out[i].from+out[n-1-i].from-w.p.Outline.Length) > mirroredWithin {
			return out, false
		}
	}
	return out[:(n+1)/2], true
}

// positions is the table of fence positions for a saw, of score positions for a knife:
// several columns side by side, read downward.
func (w *writer) positions(s *Section) bool {
	sys := w.v.Units.String()
	head := []string{"Score", "Middle, " + sys}
	if w.is("saw") {
		s.Title = "Fence positions"
		head = append(head, "Fence, "+sys)
	}
	groups := 8 / len(head)
	if len(w.at) < 8 {
		groups = 1
	}
	var all []string
	for range groups {
		all = append(all, head...)
	}
	s.head(false, all...)
	down := (len(w.at) + groups - 1) / groups
	for i := range down {
		var cells []string
		for k := i; k < len(w.at); k += down {
			a := &w.at[k]
			cells = append(cells, strconv.Itoa(a.score), w.figure(a.from))
			if w.is("saw") {
				cells = append(cells, w.figure(a.from-w.v.Machine.ScoreWidth/2))
			}
		}
		for len(cells) < len(all) {
			cells = append(cells, "")
		}
		s.row(cells...)
	}
	return true
}
