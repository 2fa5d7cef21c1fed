package trial_test

import (
	"fmt"
	"regexp"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
)

// Each harm done to the file of a panel between two sections is found, and so are sections, sheets and
// ribs that it does not have.
func TestTheJudgeSeesHarmToASkin(t *testing.T) {
	d := design.Empty()
	d.Curve = design.Curve{Kind: design.Chain, Line: design.Contact, Far: design.Chain, Apart: "160", Foot: "20", Tip: "20",
		Pieces:    []design.Piece{{Turn: "over", Length: "120", Radius: "140"}, {Turn: "straight", Length: "30"}, {Turn: "over", Length: "90", Radius: "100"}},
		FarPieces: []design.Piece{{Turn: "over", Length: "105", Radius: "98.592"}, {Turn: "over", Length: "99", Radius: "143.03"}}}
	d.Rib.Quantity = "3"
	d.Machine.BedWidth, d.Machine.BedHeight = "900", "900"
	j := judged(d)
	require.Empty(t, j.faults)
	require.Positive(t, j.seen["refold"])
	require.Positive(t, j.seen["mark"])
	svg := string(j.file(j.cutFiles()[0]))
	path := regexp.MustCompile(`<path [^>]*/>\n`)
	change := func(id string, n int, with func(string) string) string {
		from, to := group(svg, id)
		at := path.FindAllStringIndex(svg[from:to], -1)[n]
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
	gone := func(string) string { return "" }
	for harm, c := range map[string]struct {
		svg  string
		kind string
		edit func(*judge)
	}{
		"a score is gone":               {change("score", 5, gone), "score-missing", nil},
		"a score lies beside its place": {change("score", 5, moved(0.08, 0.02, 0.08, 0.02)), "score-missing", nil},
		"a score leans":                 {change("score", 5, moved(0.06, 0.06, -0.06, -0.06)), "score-missing", nil},
		"a rib's line is gone":          {change("mark", 0, gone), "mark-missing", nil},
		"the outline is gone":           {change("outer-cuts", 0, gone), "part-missing", nil},
		"the near bend is wider": {svg, "skin-off-edge", func(h *judge) {
			h.v.Curve.Pieces = append([]design.PieceValues{}, h.v.Curve.Pieces...)
			h.v.Curve.Pieces[0].Length++
			h.v.Curve.Pieces[0].Radius *= 121.0 / 120
		}},
		"the far rib is further off": {svg, "skin-off-edge", func(h *judge) { h.v.Curve.Apart++ }},
		"the far section is moved":   {svg, "skin-edge", func(h *judge) { h.v.Curve.FarUp++ }},
		"the sheet is thicker":       {svg, "skin-off-edge", func(h *judge) { h.v.Sheet.T += 0.1 }},
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
	other := &judge{doc: j.doc, v: j.v, p: j.p, seen: map[string]int{}}
	other.v.Curve.FarUp++
	other.skinRibs()
	assert.NotEmpty(t, textOf(other, "rib-edge"), "ribs of another section")
}
