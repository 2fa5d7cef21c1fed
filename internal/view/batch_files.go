package view

import (
	"slices"
	"strconv"
	"strings"

	"springrib/internal/bench"
	"springrib/internal/cut"
	"springrib/internal/design"
	"springrib/internal/export"
	"springrib/internal/finding"
	"springrib/internal/plane"
	"springrib/internal/unit"
)

// files lists what leaves of a batch: cut files of its sheets, test strips, one bench sheet, the batch
// itself, and all of it in one file.
func (b *batch) files(doc design.Batch) []file {
	var out []file
	if b.whole != nil && len(b.missing()) == 0 {
		for _, j := range b.whole.plan.Lay.Jobs {
			out = append(out, b.whole.cutting(j)...)
		}
	}
	out = append(out, b.strips()...)
	if b.whole != nil {
		out = append(out, file{b.whole.name("bench sheet", "pdf"), "application/pdf", "Bench sheet", "Parts list, maps of the sheets, then each design's order of work",
			func() []byte { return b.benchPDF().Bytes() }})
	}
	name := b.title()
	out = append(out, file{export.FileName(export.Name{Design: name, What: "job", Ext: "json"}), "application/json", "The job", "All its designs, to open again",
		func() []byte { return design.SaveBatch(doc) }})
	parts := slices.Clone(out)
	return append(out, file{export.FileName(export.Name{Design: name, What: "job", Ext: "zip"}), "application/zip", "Everything in one file", "All of the above",
		func() []byte {
			var all []export.File
			for _, f := range parts {
				all = append(all, export.File{Name: f.name, Data: f.body()})
			}
			return export.Zip(all)
		}})
}

// strips are the test strips of every sheet that the members are cut from, once each.
func (b *batch) strips() []file {
	var out []file
	var had []*member
	for _, m := range b.members {
		if m.out != "" || m.release().effect >= finding.Barred ||
			slices.ContainsFunc(had, func(o *member) bool { return o.plan.Panel.Flat.From.Same(m.plan.Panel.Flat.From) }) {
			continue
		}
		had = append(had, m)
		for _, f := range m.stripFiles() {
			if len(b.members) > 1 {
				f.name = m.letter + "-" + f.name
			}
			out = append(out, f)
		}
	}
	return out
}

// benchPDF prints the bench sheet of a batch: what is cut, on which sheet and which part is which,
// then the sheet of each member.
func (b *batch) benchPDF() *export.Document {
	w := b.whole
	p := printer{doc: export.NewDocument(b.title(), w.faces), paper: w.paper(), title: b.title()}
	p.page()
	p.paragraph(b.title(), export.Type{Size: 18, Bold: true}, 2)
	p.paragraph("A job of "+unit.Plural(len(b.members), "design")+", cut together on "+unit.Plural(len(w.plan.Lay.Jobs), "sheet")+".", export.Type{Size: 10.5}, 3)
	for _, s := range []bench.Section{b.leftOut(), b.order(), b.list(), b.maps()} {
		if len(s.Lines)+len(s.Steps)+len(s.Figures) > 0 || s.Table != nil {
			p.section(s)
		}
	}
	for _, m := range b.members {
		if m.out != "" {
			continue
		}
		s := m.bench()
		p.page()
		if s.Warning != "" {
			p.boxed(s.Warning)
		}
		p.paragraph(m.letter+": "+s.Title+", "+strconv.Itoa(m.quantity)+" times", export.Type{Size: 16, Bold: true}, 2)
		p.paragraph(s.Lead, export.Type{Size: 10.5}, 3)
		for _, sec := range s.Sections {
			if sec.ID == "parts" { // it tells of sheets of its own; the figures stay
				sec = bench.Section{ID: sec.ID, Title: "Its parts", Figures: sec.Figures}
			}
			p.section(sec)
		}
	}
	return p.doc
}

// leftOut tells of members that are not cut, and of what holds for one among the others.
func (b *batch) leftOut() bench.Section {
	s := bench.Section{Title: "Know before you cut"}
	for _, m := range b.members {
		if m.out != "" {
			s.Lines = append(s.Lines, m.title()+" is left out: "+m.out)
		}
		for _, n := range m.notes {
			s.Lines = append(s.Lines, m.title()+": "+n)
		}
	}
	return s
}

// order is the order of work of a batch.
func (b *batch) order() bench.Section {
	steps := []bench.Step{
		{ID: "sheets", What: "Cut the sheets in their order", How: "Sheet 1 first. Each sheet has a map below: lay the right stock, the right face up, as the design's own pages say."},
		{ID: "sort", What: "Sort the parts before you lift them", How: "Write each part's letters on it in pencil, on a face that is glued, while it still lies in its place on the map."},
		{ID: "each", What: "Then make one design after the other", How: "The pages of each design follow the maps, letter by letter. Its cautions stand there too."},
	}
	return bench.Section{Title: "Order of work", Steps: steps}
}

// list is the parts list: which part, of what, how many, from which sheet.
func (b *batch) list() bench.Section {
	t := &bench.Table{Head: []string{"Part", "Of", "How many", "Cut from", "On sheet"}}
	for _, m := range b.members {
		if m.out != "" {
			continue
		}
		for i := range b.lays {
			for g := range b.lays[i].Sheets {
				group := &b.lays[i].Sheets[g]
				for k := range group.Parts {
					if pt := &group.Parts[k]; m.items[pt.ID] > 0 {
						t.Rows = append(t.Rows, []string{pt.Name, m.doc.Name, strconv.Itoa(pt.Quantity),
							group.From.Stock.Name + ", " + unit.Length(group.From.Thickness, b.whole.plan.V.Units), b.sheetsOf(i, g, k)})
					}
				}
			}
		}
	}
	return bench.Section{Title: "Parts list", Table: t}
}

// sheetsOf are the numbers of the sheets that copies of a part lie on, with how many on each where
// there are several.
func (b *batch) sheetsOf(lay, group, piece int) string {
	on := map[int]int{}
	var order []int
	for _, q := range b.lays[lay].Sheets[group].Layout.Placed {
		if q.Piece != piece {
			continue
		}
		n := b.sheetOf[lay][group][q.Sheet]
		if on[n] == 0 {
			order = append(order, n)
		}
		on[n]++
	}
	slices.Sort(order)
	var out []string
	for _, n := range order {
		text := strconv.Itoa(n)
		if len(order) > 1 {
			text += " (" + strconv.Itoa(on[n]) + ")"
		}
		out = append(out, text)
	}
	return strings.Join(out, ", ")
}

// maps draw the sheets with the name of each part on it.
func (b *batch) maps() bench.Section {
	s := bench.Section{Title: "Which part is which", NewPage: true}
	for i := range b.lays {
		for g := range b.lays[i].Sheets {
			group := &b.lays[i].Sheets[g]
			for at, n := range b.sheetOf[i][g] {
				if n > 0 {
					s.Figures = append(s.Figures, b.sheetMap(i, g, at, n, group.From.Stock.Name))
				}
			}
		}
	}
	return s
}

// sheetMap is one sheet as it lies under the tool.
func (b *batch) sheetMap(i, g, at, n int, from string) bench.Figure {
	f := bench.Figure{ID: "sheet-" + strconv.Itoa(n), Caption: "Sheet " + strconv.Itoa(n) + ", " + from, Wide: true}
	j := b.whole.plan.Lay.Jobs[n-1]
	f.Strokes = append(f.Strokes, bench.Stroke{Role: "dimension", Path: plane.RectPath(plane.Box{Max: plane.Pt(j.Width, j.Height)})})
	for _, o := range j.Operations {
		if o.Kind != cut.Outer && o.Kind != cut.Inner {
			continue
		}
		for _, st := range o.Strokes {
			f.Strokes = append(f.Strokes, bench.Stroke{Role: "cut", Path: st.Path})
		}
	}
	group := &b.lays[i].Sheets[g]
	for _, q := range group.Layout.Placed {
		if q.Sheet == at {
			pt := &group.Parts[q.Piece]
			f.Labels = append(f.Labels, bench.Label{At: q.Move().Apply(inside(pt.Outline)), Text: pt.Name})
		}
	}
	return f
}

// inside is a place of a part for its name: the middle of its box, or where that lies beside it the
// place of its outline that is nearest.
func inside(r plane.Region) plane.Point {
	mid := r.Box().Centre()
	if r.Contains(mid) {
		return mid
	}
	best := r.Outer.Start()
	for _, q := range r.Outer.Flatten(1) {
		if q.Dist(mid) < best.Dist(mid) {
			best = q
		}
	}
	return best
}
