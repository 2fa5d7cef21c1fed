package plan

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/finding"
)

// Every place of the caul's edge lies one thickness and one pad off the rib edge, the
// caul wholly on the other side of the panel.
func TestCaulIsTheOuterFacesParallel(t *testing.T) {
	r := rand.New(rand.NewPCG(51, 52))
	seen := map[string]bool{}
	for n := 0; n < 40; {
		d := randomDesign(r)
		d.Rib.Caul, d.Rib.CaulPad, d.Rib.CaulDepth = "yes", "2.5", "20"
		v, found := design.Read(d)
		if finding.Worst(found) == finding.Stop {
			continue
		}
		p := Make(v)
		if !p.Drawn || p.Caul == nil {
			continue
		}
		n++
		seen[d.Rib.Side] = true
		gap := v.Sheet.T + 2.5
		c := p.Caul
		for _, s := range c.Contact.Segs {
			for _, at := range []float64{0, 0.3, 0.7, 1} {
				q := s.Point(at)
				near := p.Section.Edge.At(p.Section.Edge.Nearest(q, c.Task.Start+(c.Task.End-c.Task.Start)/2)).P
				best := near.Dist(q)
				for _, arc := range p.Section.Edge.Samples(0.01) {
					best = math.Min(best, p.Section.Edge.At(arc).P.Dist(q))
				}
				require.InDelta(t, gap, best, 0.05)
			}
		}
		mid := c.Task.Edge.At((c.Task.Start + c.Task.End) / 2)
		back := mid.P.Add(mid.Tangent().Left().Mul(map[bool]float64{true: 1, false: -1}[p.Section.PanelLeft]))
		assert.True(t, c.Outline.Contains(back), "it lies beyond the panel")
		laid := 0
		for _, g := range p.Lay.Sheets {
			for _, part := range g.Parts {
				if part.ID == "caul" {
					laid += part.Quantity
				}
			}
		}
		assert.Equal(t, v.Rib.CaulQuantity*v.Panel.Quantity, laid)
	}
	assert.Len(t, seen, 2)
}

// The caul begins and ends over the panel's ends.
func TestCaulIsAsLongAsThePanel(t *testing.T) {
	d := design.Empty()
	d.Curve.Radius, d.Curve.Angle, d.Panel.Width, d.Rib.Caul, d.Rib.CaulPad = "100", "90", "80", "yes", "2"
	v, _ := design.Read(d)
	p := Make(v)
	require.NotNil(t, p.Caul)
	r := 100 + v.Sheet.T + 2
	assert.InDelta(t, r*math.Pi/2+v.Curve.Foot+v.Curve.Tip, p.Caul.Task.End-p.Caul.Task.Start, 0.05)
	assert.Nil(t, Make(func() design.Values { v.Rib.Caul = false; return v }()).Caul)
}

// A rib that gives opens the bend a little, a stiffer one less, and creep only ever
// lowers the pull.
func TestSettled(t *testing.T) {
	v := exampleValues(t)[0]
	a := Make(v)
	v.Rib.FootDepth, v.Rib.TipDepth = 2*v.Rib.FootDepth, 2*v.Rib.TipDepth
	b := Make(v)
	assert.InDelta(t, 110, a.Strength.Settled.Was, 0.01)
	assert.Greater(t, a.Strength.Settled.Is, a.Strength.Settled.Was)
	assert.Less(t, b.Strength.Settled.Is, a.Strength.Settled.Is)
	assert.Greater(t, b.Strength.Settled.Is, b.Strength.Settled.Was)
	assert.InDelta(t, 1/3.25, a.Strength.Settled.Indoors, 1e-12, "k_def 2.25: EN 1995-1-1, Table 3.2, from memory")
	assert.InDelta(t, 1/4.0, a.Strength.Settled.Covered, 1e-12)
	assert.Positive(t, a.Strength.Bond.Stress)
}
