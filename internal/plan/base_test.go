package plan

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/cut"
	"springrib/internal/design"
	"springrib/internal/plane"
)

// ring is ten fins round a ring on one base.
func ring() design.Document {
	d := fins(10)
	d.Rib.Foot, d.Base.Kind = "tenon", "ring"
	d.Machine.BedWidth, d.Machine.BedHeight = "900", "600"
	return d
}

func TestTenFinsRoundARing(t *testing.T) {
	p := must(t, ring())
	require.True(t, p.Drawn, "%+v", p.Findings)
	require.NotNil(t, p.Base)
	require.Len(t, p.Base.Slots, 10)
	assert.Equal(t, 1, p.Base.Quantity)
	n := 0
	for _, g := range p.Lay.Sheets {
		n += len(g.Layout.Placed)
	}
	assert.Equal(t, 10+10+1, n, "ten panels, ten ribs, one base")
	v := p.V
	for k, s := range p.Base.Slots {
		assert.InDelta(t, v.Rib.Thickness+0.1, s.Width, 1e-9)
		assert.InDelta(t, v.Rib.StubWidth+0.1, s.Length, 1e-9)
		assert.InDelta(t, p.Base.Slots[0].At.Len(), s.At.Len(), 1e-9)
		// Its length points at the middle of the ring.
		d := pt(math.Cos(s.Turn), math.Sin(s.Turn))
		assert.InDelta(t, 0, d.Cross(s.At.Unit()), 1e-9, "slot %d", k)
		// A panel as wide as it is, standing square on its slot, keeps clear of the next one.
		next := p.Base.Slots[(k+1)%10]
		assert.Greater(t, s.At.Dist(next.At), p.Outline.Region.Box().H())
	}
	for _, id := range []string{"slots-near", "slots-meet", "slot-tight", "tenon-wide", "tenon-length", "slot-off-base"} {
		assert.False(t, has(p, id), "%s: %+v", id, p.Findings)
	}
	verified(t, p)
	d := ring()
	d.Panel.Quantity, d.Base.Copies = "25", "10"
	assert.Equal(t, 3, must(t, d).Base.Quantity, "25 panels, ten to a base")
}

// A tenon goes into its slot with half the clearance on every side.
func TestTenonFitsItsSlot(t *testing.T) {
	d := ring()
	d.Rib.Fit = "0.2"
	p := must(t, d)
	s, stub := p.Base.Slots[0], p.Ribs.Task.Stub
	assert.InDelta(t, 0.2, s.Length-stub.Width, 1e-9)
	assert.InDelta(t, 0.2, s.Width-p.V.Rib.Thickness, 1e-9)
	assert.InDelta(t, p.V.Base.Thickness, stub.Depth, 1e-9, "flush with the far face")
}

func TestBasesInARowAndAtPlaces(t *testing.T) {
	d := ring()
	d.Panel.Quantity, d.Base.Kind, d.Base.Pitch, d.Rib.Quantity = "3", "row", "80", "2"
	p := must(t, d)
	require.True(t, p.Drawn, "%+v", p.Findings)
	require.Len(t, p.Base.Slots, 6, "two ribs to each of three panels")
	for i, x := range []float64{-90, -70, -10, 10, 70, 90} {
		assert.InDelta(t, x, p.Base.Slots[i].At.X, 1e-9)
	}
	b := p.Base.Outline.Box()
	assert.InDelta(t, 15, b.Max.X-90-p.Base.Slots[0].Width/2, 0.6, "a border of 15 mm")
	d.Base.Kind, d.Rib.Quantity = "places", "1"
	d.Base.Places = []design.BasePlace{{X: "0", Y: "0"}, {X: "60", Y: "10", Turn: "90"}}
	p = must(t, d)
	require.Len(t, p.Base.Slots, 2)
	assert.Equal(t, 2, p.Base.Quantity, "three panels, two to a base")
	assert.InDelta(t, math.Pi, p.Base.Slots[1].Turn, 1e-9)
	d.Base.Places = nil
	_, found := design.Read(d)
	require.NotEmpty(t, found)
	assert.Equal(t, "field-missing", found[0].ID)
}

func TestFaultsOfSlots(t *testing.T) {
	for id, change := range map[string]func(*design.Document){
		"slot-tight":    func(d *design.Document) { d.Rib.Fit = "-0.1" },
		"tenon-wide":    func(d *design.Document) { d.Rib.StubWidth = "40" },
		"tenon-length":  func(d *design.Document) { d.Rib.StubDepth = "9" },
		"slots-near":    func(d *design.Document) { d.Base.Radius = "15" },
		"slots-meet":    func(d *design.Document) { d.Base.Radius = "5" },
		"slot-off-base": func(d *design.Document) { d.Base.Diameter = "60" },
		"base-no-tenon": func(d *design.Document) { d.Rib.Foot = "plain" },
		"off-bed":       func(d *design.Document) { d.Base.Diameter = "800" },
	} {
		d := ring()
		change(&d)
		assert.True(t, has(must(t, d), id), id)
	}
}

// A stub wider than its foot is cut as wide as the foot: that is told with a base and
// without one, and the width that is offered is cut.
func TestAStubWiderThanItsFootIsTold(t *testing.T) {
	d := fins(1)
	d.Rib.Foot, d.Rib.StubWidth = "stub", "40"
	p := must(t, d)
	require.Nil(t, p.Base)
	f := findingOf(t, p, "tenon-wide")
	assert.Equal(t, "rib1", f.Place.Part)
	assert.Equal(t, "rib.stubWidth", f.Place.Field)
	assert.InDelta(t, p.V.Rib.FootDepth, p.Ribs.Kinds[0].Task.Stub.Width, 1e-9)
	require.Len(t, f.Remedies, 1)
	d.Rib.StubWidth = f.Remedies[0].Set["rib.stubWidth"]
	p = must(t, d)
	assert.False(t, has(p, "tenon-wide"))
	assert.InDelta(t, p.V.Rib.StubWidth, p.Ribs.Kinds[0].Task.Stub.Width, 1e-9)
	d.Rib.Foot = "plain"
	d.Rib.StubWidth = "40"
	assert.False(t, has(must(t, d), "tenon-wide"), "a plain foot has none")
}

// Where a panel narrows toward its foot a rib off the middle starts further along the
// curve, and its tenon hangs over the base that the middle one stands on: it is told, and
// each change that is offered mends it.
func TestTenonThatMissesTheBase(t *testing.T) {
	d := fins(1)
	d.Rib.Foot, d.Base.Kind, d.Rib.Quantity = "tenon", "row", "3"
	d.Panel.Shape, d.Panel.Width = "ellipse", "90"
	p := must(t, d)
	require.NotNil(t, p.Base, "%+v", p.Findings)
	f := findingOf(t, p, "feet-apart")
	assert.InDelta(t, p.Supports.All[0].Task.Start-p.Supports.All[1].Task.Start, f.Numbers["apart"], 1e-9)
	assert.Greater(t, f.Numbers["apart"], 5.0)
	require.Len(t, f.Remedies, 1)
	assert.Equal(t, map[string]string{"rib.quantity": "2"}, f.Remedies[0].Set, "two stand alike")
	d.Rib.Quantity = "2"
	assert.False(t, has(must(t, d), "feet-apart"))

	d.Rib.Places = []design.RibPlace{{Across: "-30"}, {Across: "0"}, {Across: "30"}}
	f = findingOf(t, must(t, d), "feet-apart")
	assert.Equal(t, "rib.places.0.foot", f.Place.Field)
	assert.Equal(t, map[string]string{"rib.places.0.foot": "plain", "rib.places.2.foot": "plain"}, f.Remedies[0].Set)
	d.Rib.Places[0].Foot, d.Rib.Places[2].Foot = "plain", "plain"
	p = must(t, d)
	assert.False(t, has(p, "feet-apart"))
	assert.Len(t, p.Base.Slots, 1)

	d.Panel.Shape, d.Rib.Places = "rectangle", nil
	d.Rib.Quantity = "3"
	assert.False(t, has(must(t, d), "feet-apart"))
}

// A tenon that one rib alone has ends flush, as that of all ribs does.
func TestTenonOfOneRibAloneIsFlush(t *testing.T) {
	d := fins(1)
	d.Base.Kind, d.Rib.Places = "row", []design.RibPlace{{Across: "-10"}, {Across: "10", Foot: "tenon"}}
	p := must(t, d)
	require.NotNil(t, p.Base, "%+v", p.Findings)
	assert.InDelta(t, p.V.Base.Thickness, p.Supports.All[1].Task.Stub.Depth, 1e-9)
	assert.False(t, has(p, "tenon-length"))
}

func TestRouterClearsJoints(t *testing.T) {
	d := ring()
	d.Machine.Tool, d.Machine.Kerf, d.Panel.Quantity = "router", "2", "3"
	d.Sheet.Stock, d.Sheet.Readings, d.Machine.BedWidth, d.Machine.BedHeight = "mdf-6", nil, "1200", "900"
	d.Curve.Radius, d.Rib.FootDepth = "400", "60"
	p := must(t, d)
	require.True(t, p.Drawn, "%+v", p.Findings)
	spurs := func(id string) int {
		n := 0
		for _, w := range p.Lay.Works[id] {
			for i, s := range w.Path.Segs {
				if i > 0 && s.Kind == plane.Line && s.A == w.Path.Segs[i-1].B && s.B == w.Path.Segs[i-1].A {
					n++
				}
			}
		}
		return n
	}
	assert.Equal(t, 4*3, spurs("base"), "four corners of three slots")
	assert.Equal(t, 2, spurs("rib1"), "the two shoulders")
	assert.Zero(t, spurs("panel"))
	d.Cut.Relief = "none"
	p = must(t, d)
	assert.Zero(t, spurs("base"))
}

// No bridge stands on a tenon or on the shoulders that it seats on.
func TestBridgesSpareTheTenon(t *testing.T) {
	d := fins(1)
	d.Rib.Foot, d.Cut.Bridges, d.Cut.BridgeWidth = "tenon", "all", "4"
	for _, depth := range []string{"30", "45", "60"} {
		d.Rib.FootDepth, d.Rib.StubDepth = depth, "12"
		p := must(t, d)
		seat := 0.0
		for _, w := range p.Lay.Works["rib1"] {
			for _, q := range w.Path.Flatten(0.5) {
				for _, g := range p.Ribs.Rib.Seat.Segs {
					if q.Dist(g.A) < 1 {
						seat++
						break
					}
				}
			}
			for _, end := range []plane.Point{w.Path.Start(), w.Path.End()} {
				assert.Greater(t, edgeDistance(p.Ribs.Rib.Seat, end), p.V.Machine.Kerf/2+0.01, depth)
			}
		}
		assert.GreaterOrEqual(t, seat, 5.0, "its corners are all cut")
	}
}

func TestSmallPartsAreHeld(t *testing.T) {
	d := fins(2)
	d.Cut.BridgeBelow = "150"
	p := must(t, d)
	assert.True(t, has(p, "bridges"))
	gap := p.V.Cut.BridgeWidth + p.V.Machine.Kerf
	for _, r := range p.Ribs.Kinds {
		whole := r.Work[len(r.Work)-1].Path.Length()
		left, pieces := 0.0, 0
		for _, w := range p.Lay.Works[r.ID] {
			require.Equal(t, cut.Outer, w.Kind)
			left += w.Path.Length()
			pieces++
			for _, end := range []plane.Point{w.Path.Start(), w.Path.End()} {
				assert.Greater(t, edgeDistance(r.Contact, end), p.V.Machine.Kerf/2+0.01, "never on the glued edge")
			}
		}
		assert.InDelta(t, whole-float64(pieces)*gap, left, 1e-3)
	}
	verified(t, p)
	d.Cut.Bridges = "none"
	p = must(t, d)
	assert.True(t, has(p, "small-part"))
	for _, w := range p.Lay.Works["rib1"] {
		assert.True(t, w.Path.Closed)
	}
}

func edgeDistance(p plane.Path, q plane.Point) float64 {
	best := math.Inf(1)
	pts := p.Flatten(0.005)
	for i := 0; i+1 < len(pts); i++ {
		d := pts[i+1].Sub(pts[i])
		t := math.Max(0, math.Min(1, q.Sub(pts[i]).Dot(d)/d.Dot(d)))
		best = math.Min(best, q.Dist(pts[i].Add(d.Mul(t))))
	}
	return best
}
