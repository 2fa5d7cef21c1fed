package trial_test

import (
	"fmt"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/trial"
)

// shade is a cone with a ring between its rims, so that its panel has a mark.
func shade(edit func(*design.Document)) design.Document {
	d := design.Empty()
	d.Curve.Kind, d.Curve.Small, d.Curve.Large, d.Curve.RimHeight = design.Cone, "180", "200", "110"
	d.Curve.Seam, d.Curve.Lap = design.Lap, "20"
	d.Rib.Places = []design.RibPlace{{Across: "-50"}, {Across: "4"}, {Across: "50"}}
	d.Machine.BedWidth, d.Machine.BedHeight = "1500", "1200"
	if edit != nil {
		edit(&d)
	}
	return d
}

// Each harm done to the file of a cone is found, and so are sizes that it does not have.
func TestTheJudgeSeesHarmToACone(t *testing.T) {
	j := judged(shade(nil))
	require.Empty(t, j.faults)
	require.Positive(t, j.seen["refold"])
	svg := string(j.file(j.cutFiles()[0]))
	path := regexp.MustCompile(`<path [^>]*/>\n`)
	change := func(id string, n int, with func(string) string) string {
		from, to := group(svg, id)
		all := path.FindAllStringIndex(svg[from:to], -1)
		at := all[min(n, len(all)-2)]
		return svg[:from+at[0]] + with(svg[from+at[0]:from+at[1]]) + svg[from+at[1]:]
	}
	moved := func(dx, dy, ex, ey float64) func(string) string {
		return func(p string) string {
			var a, b, c, e float64
			_, err := fmt.Sscanf(p, `<path d="M %f %f L %f %f"/>`, &a, &b, &c, &e)
			require.NoError(t, err, p)
			return fmt.Sprintf(`<path d="M %v %v L %v %v"/>`+"\n", a+dx, b+dy, c+ex, e+ey)
		}
	}
	half := func(p string) string {
		var a, b, c, e float64
		_, err := fmt.Sscanf(p, `<path d="M %f %f L %f %f"/>`, &a, &b, &c, &e)
		require.NoError(t, err, p)
		return fmt.Sprintf(`<path d="M %v %v L %v %v"/>`+"\n", a, b, (a+c)/2, (b+e)/2)
	}
	gone := func(string) string { return "" }
	arc := regexp.MustCompile(`A (\S+) (\S+)`)
	for harm, c := range map[string]struct {
		svg  string
		kind string
		edit func(*judge)
	}{
		"a score is gone":               {change("score", 5, gone), "score-missing", nil},
		"the lap is not scored":         {change("score", 480, gone), "score-missing", nil},
		"a score is cut short":          {change("score", 5, half), "score-missing", nil},
		"a score is there twice":        {change("score", 5, func(p string) string { return p + p }), "score-missing", nil},
		"a score lies beside its place": {change("score", 5, moved(0.08, 0.02, 0.08, 0.02)), "cone-uneven", nil},
		"a score leans":                 {change("score", 5, moved(0.06, 0.06, -0.06, -0.06)), "cone-apex", nil},
		"scores come together":          {change("score", 5, moved(1.2, 1.2, 0, 0)), "scores-meet", nil},
		"a ring's line is gone":         {change("mark", 0, gone), "mark-missing", nil},
		"a ring's line bends more":      {change("mark", 0, func(p string) string { return arc.ReplaceAllString(p, "A 1$1 1$2") }), "mark-missing", nil},
		"the outline is gone":           {change("outer-cuts", 0, gone), "part-missing", nil},
		"the cone is wider":             {svg, "cone-off-rim", func(h *judge) { h.v.Curve.Large += 0.2 }},
		"the cone is higher":            {svg, "cone-edge", func(h *judge) { h.v.Curve.RimHeight += 0.1 }},
		"the lap is longer":             {svg, "cone-edge", func(h *judge) { h.v.Curve.Lap += 0.1 }},
		"the sheet is thicker":          {svg, "cone-off-rim", func(h *judge) { h.v.Sheet.T += 0.05 }},
	} {
		f, err := readDrawing([]byte(c.svg))
		require.NoError(t, err, harm)
		h := &judge{doc: j.doc, raw: j.raw, core: j.core, view: j.view, v: j.v, p: j.p, seen: map[string]int{}}
		if c.edit != nil {
			c.edit(h)
		}
		h.sheet(&f, h.laid()[0], 0)
		assert.NotEmpty(t, textOf(h, c.kind), "%s: %v", harm, h.faults)
	}
}

// A green word over a cone that does not deserve it is found.
func TestTheJudgeSeesAFalseSoundOfACone(t *testing.T) {
	part := func(d *design.Document) {
		d.Curve.Kind, d.Curve.Sweep, d.Curve.Foot, d.Curve.Tip = design.ConePart, "120", "25", "25"
	}
	for name, c := range map[string]struct {
		edit func(*design.Document)
		kind string
	}{
		"the lap is too short":        {func(d *design.Document) { d.Curve.Lap = "1" }, "sound-glue"},
		"nothing holds the seam":      {func(d *design.Document) { d.Curve.Seam = design.Butt }, "sound-glue"},
		"the ends don't meet":         {func(d *design.Document) { d.Curve.Seam, d.Curve.Trim = design.Butt, "0" }, "sound-length"},
		"the glue has no straight":    {func(d *design.Document) { part(d); d.Curve.Foot = "2" }, "sound-glue"},
		"the rib is thin":             {func(d *design.Document) { part(d); d.Rib.FootDepth, d.Rib.TipDepth, d.Rib.TipRound = "2", "2", "0" }, "sound-rib"},
		"and what is sound is sound":  {nil, ""},
		"also of part of a cone":      {part, ""},
		"a ring is of another radius": {nil, "ring-size"},
	} {
		j := judged(shade(c.edit))
		require.True(t, j.view.Drawn, name)
		h := &judge{doc: j.doc, raw: j.raw, core: j.core, view: j.view, v: j.v, p: j.p, seen: map[string]int{}}
		h.view.Verdict.Word, h.view.Verdict.Severity = "Sound", "sound"
		if c.kind == "ring-size" {
			h.v.Curve.Small += 0.02
		}
		h.rings()
		h.sound()
		if c.kind != "" {
			assert.NotEmpty(t, textOf(h, c.kind), "%s: %v", name, h.faults)
			continue
		}
		for _, f := range h.faults { // the verdict itself may warn of the wedge
			assert.Contains(t, []string{"sound-findings"}, f.kind, "%s: %s", name, f.text)
		}
	}
}

// About an eighth of the designs are cones, and one in twelve a panel between two sections; cones are of every tool, unit, seam, way to give their sizes, and stock.
func TestRandomConesAreOfEveryKind(t *testing.T) {
	n, seen := 0, map[string]bool{}
	for s := range uint64(1000) {
		d := trial.Design(s)
		c := &d.Curve
		if !strings.HasPrefix(c.Kind, "cone") {
			continue
		}
		n++
		for what, is := range map[string]string{"kind": c.Kind, "units": d.Units, "tool": d.Machine.Tool, "seam": c.Seam, "sizes": c.Sizes, "rims": c.Rims, "gores": c.Gores, "stock": d.Sheet.Stock,
			"quantity": d.Panel.Quantity, "face": d.Panel.ScoredFace, "show": d.Panel.ShowFace, "bridges": d.Cut.Bridges, "spacing": d.Panel.Spacing} {
			seen[what+" "+is] = true
		}
	}
	assert.InDelta(t, 120, n, 25)
	for _, want := range []string{"kind cone", "kind cone-part", "units mm", "units in", "tool laser", "tool router", "tool saw", "tool knife", "seam butt", "seam lap", "sizes inside",
		"sizes outside", "sizes ring", "rims height", "rims slant", "gores ", "gores 2", "gores 4", "stock mdf-3", "stock birch-4", "stock acrylic-3", "stock pvc-3", "quantity ", "quantity 4", "face hollow", "face round",
		"show hollow", "show round", "bridges all", "bridges none", "spacing follow", "spacing count", "spacing pitch", "spacing even"} {
		assert.True(t, seen[want], want)
	}
}
