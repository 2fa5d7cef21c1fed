package view

import (
	"encoding/json"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/plan"
	"springrib/internal/sheet"
	"springrib/internal/wire"
)

// tray is a design of a few kinds of part, some of them pinned: an invented stack of trays.
func tray() design.Document {
	d := design.Examples()[0].Design
	d.Panel.Shape, d.Panel.Width, d.Panel.Quantity = "lens", "90", "6"
	d.Machine.BedWidth, d.Machine.BedHeight = "700", "500"
	d.Cut.Places = nil
	d.Cut.Pins = []design.Pin{{Part: "panel", Sheet: "1", X: "300", Y: "200", Turn: "90"}}
	return d
}

// packed asks a core once and checks the layout by the exact tests, which share nothing with the search.
func packed(t *testing.T, c Core, doc []byte, w wire.Work) ([]byte, wire.Packed) {
	t.Helper()
	out, p, err := c.Pack(doc, w)
	require.NoError(t, err)
	var d design.Document
	require.NoError(t, json.Unmarshal(out, &d))
	v, _ := design.Read(d)
	made := plan.Make(v)
	require.True(t, made.Drawn)
	for i := range made.Lay.Sheets {
		g := &made.Lay.Sheets[i]
		require.True(t, g.Packed)
		require.Empty(t, sheet.Verify(&g.Job, &g.Layout))
		for k := range g.Job.Pieces {
			for n, pin := range g.Job.Pieces[k].Pins {
				for _, at := range g.Layout.Placed {
					if at.Piece == k && at.Copy == n {
						require.Equal(t, pin, at.Place, "what was pinned stays")
					}
				}
			}
		}
	}
	return out, p
}

func TestPackInSlices(t *testing.T) {
	doc := raw(t, tray())
	const effort = 6_000_000
	whole, end := packed(t, New(), doc, wire.Work{Effort: effort})
	assert.Equal(t, 1., end.Done)
	assert.Regexp(t, `^On \d sheets?; of the last one .* of its length is used, \d+ % of that by parts\.$`, end.Text)
	core := New()
	var p wire.Packed
	rank, out := math.Inf(1), doc
	for answers := 0; p.Done < 1; answers++ {
		before := p.Done
		out, p = packed(t, core, out, wire.Work{Effort: effort, Slice: 500_000})
		require.GreaterOrEqual(t, p.Done, before)
		require.LessOrEqual(t, p.Rank, rank)
		rank = p.Rank
		require.Less(t, answers, 20)
	}
	assert.Equal(t, string(whole), string(out), "slices come to the same")
	other, _ := packed(t, New(), doc, wire.Work{Effort: effort, Seed: 1})
	assert.NotEqual(t, string(whole), string(other), "another seed, another layout")
}

// A core that is new, as after one was killed, goes on from the places that there are; and one in
// the middle takes those that another found.
func TestPackGoesOnFromPlaces(t *testing.T) {
	doc := raw(t, tray())
	good, far := packed(t, New(), doc, wire.Work{Effort: 20_000_000})
	_, p := packed(t, New(), good, wire.Work{Effort: 20_000_000, Slice: 1})
	assert.LessOrEqual(t, p.Rank, far.Rank+1e-5, "places are kept to 0.000001 mm")

	core := New()
	work := wire.Work{Effort: 20_000_000, Slice: 200_000, Seed: 1}
	_, first := packed(t, core, doc, work)
	require.Greater(t, first.Rank, far.Rank)
	_, then := packed(t, core, good, work)
	if first.Rank > 1.01*far.Rank {
		assert.LessOrEqual(t, then.Rank, far.Rank+1e-5)
	}
	assert.GreaterOrEqual(t, then.Done, first.Done, "and goes on where it was")

	var d design.Document
	require.NoError(t, json.Unmarshal(good, &d))
	d.Panel.Width = "80"
	d.Cut.Places = nil
	_, anew := packed(t, core, raw(t, d), work)
	assert.Less(t, anew.Done, then.Done, "other parts are another search")
}
