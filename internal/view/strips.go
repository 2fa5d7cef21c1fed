package view

import (
	"encoding/json"
	"math"
	"strconv"
	"strings"

	"springrib/internal/coupon"
	"springrib/internal/cut"
	"springrib/internal/design"
	"springrib/internal/export"
	"springrib/internal/finding"
	"springrib/internal/plane"
	"springrib/internal/unit"
	"springrib/internal/wire"
)

// basis says what the numbers rest on, strip by strip.
func (w *worked) basis() string {
	v := w.plan.V
	var tested, guessed []string
	sort := func(on bool, what string) {
		if on {
			tested = append(tested, what)
		} else {
			guessed = append(guessed, what)
		}
	}
	sort(v.Machine.Tested, "depth")
	sort(v.Machine.WidthTested, "width of the score")
	sort(v.Sheet.StrainTested, "the strain that cracks it")
	l := w.plan.Readings.Learned
	sort(l != nil && len(l.Tongues) > 0, "stiffness")
	if len(tested) == 0 {
		return "handbook values, nothing tested yet"
	}
	s := "test strips for " + unit.List(tested)
	if len(guessed) > 0 {
		s += "; handbook values for " + unit.List(guessed)
	}
	return s
}

// stripsSentence sums up the card of the test strips.
func (w *worked) stripsSentence() string {
	l := w.plan.Readings.Learned
	n := len(w.plan.V.Strips.Readings)
	switch {
	case n == 0:
		return "No readings yet: the depth of a score and the sheet's strength are guesses"
	case l == nil:
		return plural(n, "reading") + ", none that can be used"
	}
	s := plural(n, "reading")
	var told []string
	for i, h := range l.Skins {
		if h.N > 0 {
			told = append(told, w.give(h.Value, h.Sigma)+" of skin after "+passes(i+1))
		}
	}
	if l.OverBed.N > 0 && w.plan.V.Machine.Tested {
		told = append(told, "±"+unit.LengthFine(w.plan.V.Machine.DepthSpread, w.plan.V.Units)+" over the bed")
	}
	if l.Width.N > 0 {
		told = append(told, "a score "+w.give(l.Width.Value, l.Width.Sigma)+" wide")
	}
	if l.Rupture.N > 0 {
		told = append(told, "cracks at "+unit.Percent(l.Rupture.Value))
	}
	if l.Kerf.N > 0 {
		told = append(told, "a cut "+unit.LengthFine(l.Kerf.Value, w.plan.V.Units)+" wide")
	}
	if l.Clearance.N > 0 {
		told = append(told, "slots fit "+unit.LengthFine(l.Clearance.Value, w.plan.V.Units)+" over")
	}
	if len(told) == 0 {
		return s
	}
	return s + ": " + strings.Join(told, ", ")
}

// give writes a length give or take what nine in ten lie within.
func (w *worked) give(v, sigma float64) string {
	sys := w.plan.V.Units
	return strings.TrimSuffix(unit.LengthFine(v, sys), " "+sys.String()) + " ±" + unit.LengthFine(1.645*sigma, sys)
}

// told says at the fields that strips speak of what is used instead of what is typed.
func (w *worked) told(fields map[string]wire.Field) {
	l := w.plan.Readings.Learned
	if l == nil {
		return
	}
	sys := w.plan.V.Units
	say := func(path, text string) {
		f := fields[path]
		f.Means = "strips say " + text + ", which is used"
		fields[path] = f
	}
	known := false
	for _, h := range l.Skins {
		known = known || h.N > 0
	}
	if known {
		var depths []string
		for _, d := range w.plan.V.Machine.Depths {
			depths = append(depths, strings.TrimSuffix(unit.LengthFine(d, sys), " "+sys.String()))
		}
		say("machine.depths", strings.Join(depths, ", ")+" "+sys.String())
	}
	if l.Width.N > 0 {
		say("machine.scoreWidth", unit.LengthFine(l.Width.Value, sys))
	}
	if l.OverBed.N > 0 && w.plan.V.Machine.Tested {
		say("machine.depthSpread", unit.LengthFine(w.plan.V.Machine.DepthSpread, sys)+" over the bed")
	}
	if l.Apart.N > 0 {
		say("machine.apart", unit.LengthFine(w.plan.V.Machine.Apart, sys))
	}
	if l.Kerf.N > 0 {
		say("machine.kerf", unit.LengthFine(l.Kerf.Value, sys))
	}
	if l.Clearance.N > 0 {
		w.toldFit(fields)
	}
	if l.Rupture.N > 0 {
		say("sheet.strainLimit", unit.Percent(l.Rupture.Value))
	}
	if len(l.Tongues) > 0 {
		say("sheet.e", unit.Stress(l.Material.E))
	}
}

// stripSketches draws what strips said, and the test strips on their sheets.
func (w *worked) stripSketches() []*sketch {
	p := &w.plan
	var out []*sketch
	if s, ok := w.readings(); ok {
		out = append(out, s)
	}
	for n := range w.strips.Sheets() {
		s := newSketch("strips"+strconv.Itoa(n+1), "Test strips, sheet "+strconv.Itoa(n+1)+" of "+strconv.Itoa(w.strips.Sheets()))
		s.path("bed", "", plane.RectPath(plane.Box{Max: plane.Pt(p.V.Machine.BedWidth, p.V.Machine.BedHeight)}))
		for _, part := range w.strips.Cuts(n) {
			for i, role := range []string{"score", "mark", "inner", "outer"} {
				s.path(role, part.ID, part.Strokes[i]...)
			}
			w.sayTongue(s, part)
		}
		out = append(out, s)
	}
	return out
}

// toldFit says where the clearance of slots comes from: one that a person typed stands
// against the strip's, as wanting a slot tighter or looser is a choice.
func (w *worked) toldFit(fields map[string]wire.Field) {
	told := "from your fit strip"
	if v := w.plan.V; v.Rib.FitTyped {
		told = "as you wrote; your fit strip says " + unit.LengthFine(w.plan.Readings.Learned.Clearance.Value, v.Units)
	} else {
		told = unit.LengthFine(v.Rib.Fit, v.Units) + ", " + told
	}
	f := fields["rib.fit"]
	f.Means = told
	fields["rib.fit"] = f
}

// toldWhere says when the bed is too small for strips at its corners and its centre.
func (w *worked) toldWhere(fields map[string]wire.Field) {
	if w.strips.Cramped {
		f := fields["strips.where"]
		f.Means = "the bed has no room for that, so they lie together"
		fields["strips.where"] = f
	}
}

// sayTongue writes over a tongue where on the bed it lies, and the weights to hang on it;
// weights alone stand at its hole. One line has room for both, two would meet.
func (w *worked) sayTongue(s *sketch, part cut.Part) {
	for _, piece := range w.strips.Pieces {
		if piece.ID != part.ID || len(part.Strokes[cut.Outer]) == 0 {
			continue
		}
		b := part.Strokes[cut.Outer][0].Box()
		var texts []string
		for _, n := range w.strips.Weights(piece) {
			texts = append(texts, unit.Mass(n, w.plan.V.Units))
		}
		switch weights := strings.Join(texts, ", "); {
		case piece.Spot != "":
			at, anchor := plane.Pt(b.Min.X+2, b.Max.Y+1), "start"
			if b.Centre().X > 0.6*w.plan.V.Machine.BedWidth { // the words may be longer than the tongue
				at.X, anchor = b.Max.X-2, "end"
			}
			s.label(at, anchor, strings.TrimSuffix("cut at "+piece.Spot+": "+coupon.SpotWords(piece.Spot)+", "+weights, ", "), 0)
		case weights != "":
			s.label(plane.Pt(b.Max.X-2, b.Max.Y+1), "end", weights, 0)
		}
	}
}

// stripFiles lists the files of the test strips, which are cut before anything else.
func (w *worked) stripFiles() []file {
	s := w.strips
	var out []file
	for n := range s.Sheets() {
		what, label, of := "test strips", "Test strips, to cut first", ""
		if s.Sheets() > 1 {
			what += " " + strconv.Itoa(n+1)
			of = ", sheet " + strconv.Itoa(n+1) + " of " + strconv.Itoa(s.Sheets())
			label = "Test strips" + of
		}
		job := func() cut.Job { return s.Sheet(n) }
		if !w.readsFiles() {
			about, o := "PDF at 1:1 on one page as large as the sheet, to lay on", export.PDFOptions{Faces: w.faces}
			if m := w.plan.V.Machine; math.Max(m.BedWidth, m.BedHeight) > export.MaxPage {
				about, o = "PDF at 1:1 in tiles to tape together, to lay on", export.PDFOptions{Paper: w.paper(), Faces: w.faces}
			}
			out = append(out, file{plainName(w.doc, what, "pdf"), "application/pdf", label, about,
				func() []byte { return export.PDF(job(), o) }})
			continue
		}
		out = append(out,
			file{plainName(w.doc, what, "svg"), "image/svg+xml", label, "SVG in true size; passes and spacing stand on every strip",
				func() []byte { return export.SVG(job(), export.SVGOptions{}) }},
			file{plainName(w.doc, what, "dxf"), "image/vnd.dxf", "Test strips, DXF" + of, "R2000, millimetres, a layer for each pass",
				func() []byte { return export.DXF(job(), export.DXFOptions{Splines: w.plan.V.Cut.Splines}) }},
			file{plainName(w.doc, what+" R12", "dxf"), "image/vnd.dxf", "Test strips, DXF R12" + of, "For old readers, millimetres, a layer for each pass",
				func() []byte { return export.DXF(job(), export.DXFOptions{R12: true}) }})
	}
	return out
}

// Stock returns the design with the sheet of a file and its readings.
func (Core) Stock(raw []byte, text string) ([]byte, []finding.Finding, error) {
	doc, err := document(raw)
	if err != nil {
		return nil, nil, err
	}
	changed, found, err := design.OpenStock(doc, []byte(text))
	if err != nil {
		return nil, nil, err
	}
	out, err := json.Marshal(changed)
	return out, found, err
}
