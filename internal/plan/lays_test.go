package plan

import (
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/sheet"
)

// fins is a design of many copies on sheets of a small laser.
func fins(n int) design.Document {
	d := design.Empty()
	d.Curve.Radius, d.Curve.Angle = "120", "70"
	d.Panel.Width, d.Panel.Quantity = "40", strconv.Itoa(n)
	return d
}

func keep(d design.Document, lays []design.LayValues) design.Document {
	d = design.Clone(d)
	d.Cut.Places = nil
	for _, l := range lays {
		d.Cut.Places = append(d.Cut.Places, l.Lay())
	}
	return d
}

func has(p Plan, id string) bool {
	for _, f := range p.Findings {
		if f.ID == id {
			return true
		}
	}
	return false
}

func verified(t *testing.T, p Plan) {
	t.Helper()
	for _, g := range p.Lay.Sheets {
		assert.Empty(t, sheet.Verify(&g.Job, &g.Layout))
	}
}

// packOf packs with all of an effort at once.
func packOf(v design.Values, effort int64) (Plan, []design.LayValues) {
	v.Cut.Places = nil
	p, packing := Pack(v, effort, 0)
	for packing.Run(effort) {
	}
	return *p, packing.Places()
}

func TestPackedPlacesAreUsedAgain(t *testing.T) {
	d := fins(8)
	v, _ := design.Read(d)
	rows := Make(v)
	require.True(t, rows.Drawn)
	packed, lays := packOf(v, 3_000_000)
	verified(t, packed)
	require.Len(t, lays, 16)
	again := must(t, keep(d, lays))
	assert.True(t, again.Lay.Sheets[0].Packed)
	assert.False(t, has(again, "packing-old"))
	verified(t, again)
	last := func(p Plan) float64 {
		ss := p.Lay.Sheets[0].Layout.Sheets
		return 1000*float64(len(ss)) + ss[len(ss)-1].Length
	}
	assert.LessOrEqual(t, last(again), last(rows))
	assert.InDelta(t, last(packed), last(again), 1e-5)
	for i, at := range packed.Lay.Sheets[0].Layout.Placed {
		b := again.Lay.Sheets[0].Layout.Placed[i]
		assert.InDelta(t, at.X, b.X, 1e-6)
		assert.Equal(t, at.Turn, b.Turn, "a turn comes back exactly")
	}
	_, twice := packOf(v, 3_000_000)
	assert.Equal(t, lays, twice, "the same effort gives the same places")
}

func TestOldPlacesGiveWayToRows(t *testing.T) {
	d := fins(8)
	v, _ := design.Read(d)
	_, lays := packOf(v, 1_000_000)
	for name, change := range map[string]func(*design.Document){
		"larger parts":    func(d *design.Document) { d.Panel.Width = "70" },
		"more of them":    func(d *design.Document) { d.Panel.Quantity = "9" },
		"one place gone":  func(d *design.Document) { d.Cut.Places = d.Cut.Places[1:] },
		"one place twice": func(d *design.Document) { d.Cut.Places[1] = d.Cut.Places[0] },
		"off the bed":     func(d *design.Document) { d.Cut.Places[0].X = "-500" },
	} {
		e := keep(d, lays)
		change(&e)
		p := must(t, e)
		assert.True(t, has(p, "packing-old"), name)
		assert.False(t, p.Lay.Sheets[0].Packed, name)
		verified(t, p)
	}
	e := keep(d, lays)
	e.Cut.Places[0].Turn = "sideways"
	assert.False(t, must(t, e).Lay.Sheets[0].Packed, "what can't be read lies in rows")
}

func TestPinsStayAndTheRestGoesRound(t *testing.T) {
	d := fins(3)
	d.Cut.Pins = []design.Pin{{Part: "panel", Sheet: "1", X: "200", Y: "150", Turn: "90"}, {Part: "no such part", X: "10", Y: "10"}}
	p := must(t, d)
	require.True(t, p.Drawn, "%+v", p.Findings)
	at := p.Lay.Sheets[0].Layout.Placed[0]
	assert.InDelta(t, math.Pi/2, at.Turn, 1e-12)
	moved := p.Lay.Sheets[0].Parts[0].Free().Apply(at.Move()).Box()
	assert.InDelta(t, 200+p.Panel.Overrun-p.V.Machine.Kerf/2, moved.Min.X, 1e-6, "the overrun is its left end: scores run along Y before the turn")
	assert.True(t, has(p, "pin-idle"))
	verified(t, p)
	v, _ := design.Read(d)
	packed, lays := packOf(v, 1_000_000)
	verified(t, packed)
	assert.True(t, must(t, keep(d, lays)).Lay.Sheets[0].Packed)
	d.Cut.Pins = append(d.Cut.Pins[:1], design.Pin{Part: "panel", X: "210", Y: "150"})
	assert.True(t, has(must(t, d), "parts-overlap"), "two put on each other are told of")
}

func TestAScrapIsUsedFirst(t *testing.T) {
	d := fins(2)
	d.Cut.Scrap = []design.ScrapPoint{{X: "20", Y: "10"}, {X: "330", Y: "10"}, {X: "330", Y: "200"}, {X: "20", Y: "120"}}
	p := must(t, d)
	require.True(t, p.Drawn, "%+v", p.Findings)
	verified(t, p)
	assert.NotEmpty(t, p.Lay.Beds[0].Outer.Segs)
	d.Cut.Scrap = []design.ScrapPoint{{X: "0", Y: "0"}, {X: "300", Y: "200"}, {X: "300", Y: "0"}, {X: "0", Y: "150"}}
	assert.True(t, has(must(t, d), "scrap-crosses"))
	d.Cut.Scrap = []design.ScrapPoint{{X: "0", Y: "0"}, {X: "700", Y: "0"}, {X: "700", Y: "300"}}
	over := must(t, d)
	assert.True(t, has(over, "scrap-off-bed"))
	verified(t, over)
	assert.LessOrEqual(t, over.Lay.Beds[0].Outer.Box().Max.X, 600.0, "no part is laid past the end of the bed")
	for _, o := range over.Lay.Jobs[0].Operations {
		for _, s := range o.Strokes {
			assert.LessOrEqual(t, s.Path.Box().Max.X, 600-over.V.Cut.Margin+1e-6)
		}
	}
	d.Cut.Scrap = []design.ScrapPoint{{X: "650", Y: "0"}, {X: "700", Y: "0"}, {X: "700", Y: "300"}}
	assert.Empty(t, must(t, d).Lay.Beds[0].Outer.Segs, "one that lies wholly past it is not used")
	d.Cut.Scrap = []design.ScrapPoint{{X: "0", Y: "0"}, {X: "30", Y: "0"}, {X: "30", Y: "30"}}
	small := must(t, d)
	require.True(t, small.Drawn)
	assert.Len(t, small.Lay.Jobs, 1, "a scrap that holds nothing is no sheet")
	assert.Empty(t, small.Lay.Beds[0].Outer.Segs)
}

func TestGrainLimitsTurns(t *testing.T) {
	d := fins(1)
	assert.Len(t, must(t, d).Lay.Sheets[0].Job.Pieces[0].Turns, 4, "MDF has no grain")
	d.Sheet.Stock, d.Sheet.Grain = "birch-4", "across"
	assert.Len(t, must(t, d).Lay.Sheets[0].Job.Pieces[0].Turns, 2)
	d.Cut.Turns = "quarter"
	assert.Len(t, must(t, d).Lay.Sheets[0].Job.Pieces[0].Turns, 4, "the person may")
	d.Cut.Turns = "none"
	assert.Empty(t, must(t, d).Lay.Sheets[0].Job.Pieces[0].Turns)
}
