package trial_test

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/wire"
)

// everything is a design of which every kind of feature is cut: two panels with a hole and a
// slot, ribs with tenons, a base, a caul.
func everything() design.Document {
	d := design.Examples()[0].Design
	d.Panel.Quantity, d.Panel.Width, d.Rib.Quantity, d.Curve.Foot, d.Curve.Tip = "2", "100", "2", "30", "30"
	d.Panel.Holes = []design.Hole{{Kind: "round", Along: "100", Across: "0", Width: "12"}, {Kind: "slot", Along: "150", Across: "0", Width: "8", Length: "20"}}
	d.Rib.Foot, d.Base.Kind, d.Rib.Caul = "tenon", "row", "yes"
	d.Machine.BedWidth, d.Machine.BedHeight = "900", "700"
	return d
}

// group returns where a group of an SVG stands, by its id.
func group(svg, id string) (from, to int) {
	from = strings.Index(svg, `<g id="`+id+`"`)
	return from, from + strings.Index(svg[from:], "</g>")
}

// The judge itself must see what it is there to see: each harm done to a file is found.
func TestTheJudgeSeesHarm(t *testing.T) {
	j := judged(everything())
	require.Empty(t, j.faults)
	name := j.cutFiles()[0]
	svg := string(j.file(name))
	path := regexp.MustCompile(`<path [^>]*/>\n`)
	number := regexp.MustCompile(`M ([\d.]+)`)
	// first changes the first path of a group.
	first := func(id string, change func(path string) string) string {
		from, to := group(svg, id)
		at := path.FindStringIndex(svg[from:to])
		return svg[:from+at[0]] + change(svg[from+at[0]:from+at[1]]) + svg[from+at[1]:]
	}
	gone := func(string) string { return "" }
	half := func(p string) string { // of a score
		var a, b, c, e float64
		_, err := fmt.Sscanf(p, `<path d="M %f %f L %f %f"/>`, &a, &b, &c, &e)
		require.NoError(t, err, p)
		return fmt.Sprintf(`<path d="M %v %v L %v %v"/>`+"\n", a, b, (a+c)/2, (b+e)/2)
	}
	out := func(p string) string { // the first corner
		var a float64
		_, err := fmt.Sscanf(p, `<path d="M %f`, &a)
		require.NoError(t, err, p)
		return number.ReplaceAllString(p, fmt.Sprintf("M %.3f", a+0.06))
	}
	for harm, c := range map[string]struct{ svg, kind string }{
		"a score is gone":          {first("score", gone), "score-missing"},
		"a score is cut short":     {first("score", half), "score-missing"},
		"a score is there twice":   {first("score", func(p string) string { return p + strings.Replace(p, "M ", "M 1", 1) }), "stray-score"},
		"a mark is gone":           {first("mark", gone), "mark-missing"},
		"a hole is gone":           {first("inner-cuts", gone), "hole-missing"},
		"a hole is open":           {first("inner-cuts", func(p string) string { return strings.Replace(p, " Z", "", 1) }), "open-outline"},
		"a part is gone":           {first("outer-cuts", gone), "part-missing"},
		"an outline is open":       {first("outer-cuts", func(p string) string { return strings.Replace(p, " Z", "", 1) }), "open-outline"},
		"a cut is no part's":       {first("outer-cuts", func(p string) string { return p + `<path d="M 20 690 L 40 690 L 40 670 Z"/>` + "\n" }), "stray-cut"},
		"a step of a hair":         {first("outer-cuts", func(p string) string { return number.ReplaceAllString(p, "M $1 0 L $1 0.004 L $1") }), "short-segment"},
		"an outline runs far away": {first("outer-cuts", func(p string) string { return number.ReplaceAllString(p, "M -9") }), "off-bed"},
		"a corner is moved out":    {first("outer-cuts", out), "outline-off"},
	} {
		f, err := readDrawing([]byte(c.svg))
		require.NoError(t, err, harm)
		h := &judge{doc: j.doc, raw: j.raw, core: j.core, view: j.view, v: j.v, p: j.p, seen: map[string]int{}}
		h.sheet(&f, h.laid()[0], 0)
		assert.NotEmpty(t, textOf(h, c.kind), "%s: %v", harm, h.faults)
	}
	for _, bad := range []string{strings.Replace(svg, "M ", "M NaN ", 1), strings.Replace(svg, "L ", "L 1e5 ", 1), svg[:len(svg)-8]} {
		_, err := readDrawing([]byte(bad))
		assert.Error(t, err)
	}
}

// Pieces that are moved onto each other, into the margin, or onto a score are found.
func TestTheJudgeSeesPlaces(t *testing.T) {
	d := everything()
	d.Cut.Bridges = "all"
	j := judged(d)
	require.Empty(t, j.faults)
	f, err := readDrawing(j.file(j.cutFiles()[0]))
	require.NoError(t, err)
	again := func() *judge {
		return &judge{doc: j.doc, raw: j.raw, core: j.core, view: j.view, v: j.v, p: j.p, seen: map[string]int{}}
	}
	h, laid := again(), j.laid()[0]
	h.sheet(&f, laid, 0)
	require.Empty(t, h.faults)
	// The panel's first bridge under its first score.
	panel := laid[0]
	require.NotEmpty(t, panel.gaps)
	score := f.kind("score")[0].paths[0]
	at := score.start().along(score.end(), 0.5)
	panel.gaps[0] = [2]xy{at.sub(xy{0.3, 0}), at.add(xy{0.3, 0})}
	h.onBridge(panel, score, 1)
	assert.NotEmpty(t, textOf(h, "score-on-bridge"))
	// A piece on its neighbour.
	h = again()
	moved := panel.path.pts
	for i := range moved {
		moved[i] = moved[i].add(laid[1].path.pts[0].sub(moved[0]))
	}
	panel.path = newChain(moved, true)
	h.apart(&f, laid)
	assert.NotEmpty(t, textOf(h, "parts-overlap"))
	// A wider margin than the files keep.
	h = again()
	h.v.Cut.Margin += 3
	h.onBed(&f, 0)
	assert.NotEmpty(t, textOf(h, "in-margin"))
}

// A green word over a design that does not deserve it is found.
func TestTheJudgeSeesAFalseSound(t *testing.T) {
	trapezoid := design.Empty()
	trapezoid.Curve.Radius, trapezoid.Curve.Angle, trapezoid.Curve.Foot, trapezoid.Curve.Tip = "150", "70", "20", "20"
	trapezoid.Panel.Shape, trapezoid.Panel.Corners = "polygon", []design.Corner{{Along: "0", Across: "-50"}, {Along: "220", Across: "-50"}, {Along: "120", Across: "50"}, {Along: "0", Across: "50"}}
	trapezoid.Rib.Places = []design.RibPlace{{Across: "40"}}
	short := design.Examples()[0].Design
	short.Curve.Foot = "3"
	cut := design.Examples()[0].Design
	cut.Panel.Length = "150"
	long := design.Examples()[0].Design
	long.Panel.Length = "300"
	thin := design.Examples()[0].Design
	thin.Rib.FootDepth, thin.Rib.TipDepth = "3", "3"
	band := design.Examples()[4].Design
	band.Curve.Seam, band.Curve.Trim = "butt", "0"
	tight := design.Examples()[0].Design
	tight.Curve.Radius, tight.Panel.Passes = "40", "1"
	for name, c := range map[string]struct {
		d     design.Document
		kinds []string
	}{
		"the end misses its curve":       {trapezoid, []string{"sound-end-gap", "sound-findings"}},
		"the glue has no straight":       {short, []string{"sound-glue"}},
		"the panel is too short":         {cut, []string{"sound-length"}},
		"the panel is too long":          {long, []string{"sound-length"}},
		"the rib is thin":                {thin, []string{"sound-rib"}},
		"the ends don't meet":            {band, []string{"sound-length"}},
		"the skin cracks":                {tight, []string{"sound-cracking"}},
		"and what is sound is not found": {design.Examples()[0].Design, nil},
	} {
		j := judged(c.d)
		require.True(t, j.view.Drawn, name)
		h := &judge{doc: j.doc, raw: j.raw, core: j.core, view: j.view, v: j.v, p: j.p, seen: map[string]int{}}
		h.view.Verdict.Word, h.view.Verdict.Severity = "Sound", "sound"
		h.sound()
		for _, kind := range c.kinds {
			assert.NotEmpty(t, textOf(h, kind), "%s: %v", name, h.faults)
		}
		if c.kinds == nil {
			assert.Empty(t, h.faults, name)
		}
	}
}

// Files of a forbidden stock, and unmarked ones of a stopped design, are found.
func TestTheJudgeSeesFilesThatMustNotLeave(t *testing.T) {
	d := everything()
	d.Rib.Places = []design.RibPlace{{Across: "-30"}, {Across: "30", Stock: "pvc-3"}}
	j := judged(d)
	require.Empty(t, j.faults)
	require.True(t, j.has("must-not-laser"))
	for _, kind := range []string{"forbidden-stock", "stop-leaves"} {
		h := &judge{doc: j.doc, raw: j.raw, core: j.core, view: j.view, v: j.v, p: j.p, seen: map[string]int{}}
		h.view.Files = append([]wire.FileView{{Name: "sheet-1.dxf"}}, h.view.Files...)
		names := h.cutFiles()
		require.Len(t, names, 1)
		h.forbidden(names)
		h.stopped(names)
		assert.NotEmpty(t, textOf(h, kind))
	}
	pinched := everything()
	pinched.Panel.Spacing, pinched.Panel.Count = "count", "8"
	j = judged(pinched)
	require.Empty(t, j.faults, "what leaves is marked")
	require.True(t, j.has("kerf-pinches"))
	h := &judge{doc: j.doc, raw: j.raw, core: j.core, view: j.view, v: j.v, p: j.p, seen: map[string]int{}}
	h.stopped([]string{"sheet-1.dxf"})
	assert.NotEmpty(t, textOf(h, "stop-unmarked"))
}
