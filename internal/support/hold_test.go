package support

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/part"
	"springrib/internal/section"
	"springrib/internal/state"
	"springrib/internal/stock"
	"springrib/internal/unit"
)

// An arc with its scores, its ribs and their strength from figures alone: a panel of so much
// EI per width bent to R needs the moment EI w/R; a rib of one depth bears it with
// 6M/(b d^2) (beam theory), and gives way until both are in balance, k EI = (1/R - k) EI of
// the rib.
func TestHoldAndReleaseFromFigures(t *testing.T) {
	const radius, ei, wide, thick, deep, e = 200.0, 900.0, 120.0, 6.0, 25.0, 9000.0
	line, _, ok := section.Line(&design.CurveValues{Kind: design.LengthRadius, Radius: radius, Length: 300, Foot: 30, Tip: 30}, unit.MM)
	require.True(t, ok)
	sheet := design.SheetValues{T: 3, E: stock.Figure{Value: 3000}, EZ: stock.Figure{Value: 200}}
	sec, said, ok := section.New(section.Task{Line: line, Curve: &design.CurveValues{Kind: design.LengthRadius, Line: design.Outer},
		Sheet: &sheet, ScoredFace: design.Hollow, RibSide: design.Hollow, Units: unit.MM})
	require.True(t, ok, "%+v", said)
	k, _ := sec.Edge.Tightest()
	require.InDelta(t, radius-3, 1/k, 1e-9, "the outer face is the wanted line")

	u := pull{Scoring: state.Scoring{Sheet: &sheet}, Section: &sec, stiff: func(float64) float64 { return ei }, at: sec.Edge.Samples(math.Pi / 180), bond: 0.5}
	rib := Support{Share: func(float64) float64 { return wide }}
	rib.Thickness, rib.E, rib.MOR = thick, stock.Figure{Value: e}, stock.Figure{Value: 60, Low: 40}
	rib.Task = part.RibTask{Edge: sec.Edge, PanelLeft: sec.PanelLeft, End: sec.Edge.Length(), FootDepth: deep, TipDepth: deep}
	h := u.hold([]Support{rib})
	moment := ei * wide * k
	assert.InEpsilon(t, moment, h.Moment, 1e-9)
	assert.InEpsilon(t, 6*moment/(thick*deep*deep)/60, h.RibUse, 1e-6)
	assert.InEpsilon(t, 60.0/40, h.RibBad/h.RibUse, 1e-9, "at the low end of its strength")
	assert.InDelta(t, 30, h.FootStraight, 1e-9)

	_, set := u.settle([]Support{rib})
	stiff := e * thick * deep * deep * deep / 12
	assert.InEpsilon(t, 1/k, set.Was, 1e-9)
	assert.InEpsilon(t, 1/k*(1+ei*wide/stiff), set.Is, 1e-6)
}
