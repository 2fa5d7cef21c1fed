package plan

import (
	"encoding/xml"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/coupon"
	"springrib/internal/cut"
	"springrib/internal/design"
	"springrib/internal/export"
	"springrib/internal/sheet"
)

// The strips of a design lie apart on the sheet, every stroke comes once in each of the
// passes that its figures say, and their file is as well-formed as any.
func TestStripsTakeTheRoadToACutFile(t *testing.T) {
	for _, v := range exampleValues(t) {
		v.Strips.Which = design.AllStrips
		p := Make(v)
		s := p.TestStrips()
		require.NotEmpty(t, s.Pieces)
		assert.Empty(t, s.Missing)
		assert.Empty(t, sheet.Verify(&s.Group.Job, &s.Group.Layout))
		passes := map[string]int{}
		wanted := map[string]int{}
		for _, piece := range s.Pieces {
			for _, w := range piece.Work {
				if w.Kind == cut.Score {
					wanted[piece.ID]++
				}
			}
			passes[piece.ID] = piece.Passes
			wanted[piece.ID] *= piece.Passes * piece.Quantity
		}
		got := map[string]int{}
		for n := range s.Sheets() {
			job := s.Sheet(n)
			last := cut.Score
			colours := map[string]bool{}
			for _, op := range job.Operations {
				assert.GreaterOrEqual(t, op.Kind, last, "scores, marks, inner cuts, outer cuts")
				last = op.Kind
				assert.False(t, colours[op.Colour], "a machine that goes by colour tells every layer apart")
				colours[op.Colour] = true
				if op.Kind != cut.Score {
					continue
				}
				assert.Equal(t, 1, op.Passes)
				for _, stroke := range op.Strokes {
					id, _, _ := strings.Cut(stroke.Part, " ")
					got[id]++
				}
			}
			require.NoError(t, xml.Unmarshal(export.SVG(job, export.SVGOptions{}), new(struct {
				XMLName xml.Name `xml:"svg"`
			})))
		}
		for id, n := range wanted {
			assert.Equal(t, n, got[id], id)
		}
	}
}

// Strips are of the sheet and the spacing of the design, and only those asked for.
func TestStripsFollowTheDesign(t *testing.T) {
	v := exampleValues(t)[0]
	for which, kinds := range map[string][]string{
		design.DepthStrip: {"tongue"}, design.WidthStrip: {"close"}, design.BendStrip: {"bend", "gauge"}, design.FitStrip: {"kerf", "fit"}, design.NoStrips: nil,
	} {
		v.Strips.Which = which
		p := Make(v)
		seen := map[string]bool{}
		for _, s := range p.TestStrips().Pieces {
			kind, _, _ := strings.Cut(s.ID, "-")
			seen[kind] = true
			assert.Equal(t, v.Sheet.Stock.ID, s.From.Stock.ID)
		}
		assert.Len(t, seen, len(kinds))
		for _, k := range kinds {
			assert.True(t, seen[k], k)
		}
	}
	v.Strips.Which, v.Strips.Corners = design.DepthStrip, false
	p := Make(v)
	got := p.TestStrips().Pieces
	assert.InDelta(t, p.Try().Most, got[len(got)-1].Spacing, 0.006)
	v.Machine.BedWidth, v.Machine.BedHeight = 100, 60
	small := Make(v)
	assert.NotEmpty(t, small.TestStrips().Missing, "a tongue is longer than this bed")
}

// The weights proposed for a tongue bend it far enough to read and break none: half of
// the strain at rupture is never reached, the drop stays under 0.4 of the length.
func TestWeightsForTongues(t *testing.T) {
	p := Make(exampleValues(t)[0])
	n := 0
	strips := p.TestStrips()
	for _, s := range strips.Pieces {
		loads := strips.Weights(s)
		if len(loads) == 0 {
			continue
		}
		n++
		ei, strained := 12*p.V.Sheet.E.Value*p.V.Sheet.T*p.V.Sheet.T*p.V.Sheet.T/12, p.V.Sheet.T/2
		if s.Passes > 0 {
			ei, strained = 12*p.scoring().Narrow(s.Passes).Stiffness(s.Spacing), p.scoring().Narrow(s.Passes).Strain(s.Spacing, 1)
		}
		tongue := coupon.Tongue{Length: 80, Weight: 750e-9 * 9.80665 * p.V.Sheet.T * 12}
		drop := tongue.Bend(ei, loads[1]).Drop
		assert.LessOrEqual(t, drop, 0.4*80+1e-6)
		assert.Greater(t, drop-tongue.Bend(ei, loads[0]).Drop, 2.0, "%s can be read", s.Name)
		assert.LessOrEqual(t, (loads[1]*80+tongue.Weight*3200)/ei*strained, 0.41*p.V.Sheet.Rupture.Value)
		assert.InEpsilon(t, loads[1]/3, loads[0], 1e-12)
	}
	assert.Equal(t, 7, n, "one without scores, two a number of passes")
	assert.Empty(t, strips.Weights(coupon.Strip{}))
}

func BenchmarkTestStrips(b *testing.B) {
	v := exampleValues(b)[0]
	v.Strips.Which = design.AllStrips
	p := Make(v)
	b.Run("lay", func(b *testing.B) {
		for range b.N {
			p.TestStrips()
		}
	})
	s := p.TestStrips()
	b.Run("order", func(b *testing.B) {
		for range b.N {
			s.Sheet(0)
		}
	})
}
