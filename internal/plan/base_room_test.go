package plan

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/form"
	"springrib/internal/plane"
	"springrib/internal/stand"
	"springrib/internal/surface"
)

func findingOf(t *testing.T, p Plan, id string) finding.Finding {
	t.Helper()
	for _, f := range p.Findings {
		if f.ID == id {
			return f
		}
	}
	require.Fail(t, "no "+id, "%+v", p.Findings)
	return finding.Finding{}
}

// leaning is a ring of n panels that bend over its middle: a quarter turn of 60 mm, 40
// wide, ribs on the hollow side.
func leaning(n string) design.Document {
	d := ring()
	d.Panel.Quantity, d.Curve.Radius, d.Curve.Angle = n, "60", "90"
	d.Rib.FootDepth, d.Rib.TipDepth = "20", "8"
	return d
}

// Panels that lean over the middle meet at the inner corners of their tips, whose
// distance from the middle is plain from the drawing: a quarter turn brings the tip
// inward by radius and straight end, and two rectangles turned by 2 pi/n against each
// other touch where half their width is that distance times tan(pi/n).
func TestRingAsTightAsTipsAllow(t *testing.T) {
	for _, n := range []int{4, 6, 10} {
		p := must(t, leaning(map[int]string{4: "4", 6: "6", 10: "10"}[n]))
		require.True(t, p.Drawn, "%+v", p.Findings)
		s := p.Base.One
		// Inward of the middle of the foot lies the tip by this.
		in := 60 + p.Section.Tip() - p.V.Rib.FootDepth/2
		want := in + p.V.Panel.Width/2/math.Tan(math.Pi/float64(n))
		got, ok := s.RingRadius(1, n, 0)
		require.True(t, ok)
		assert.InDelta(t, want, got, 1.5, "%d panels", n)
		assert.False(t, has(p, "panels-meet"), "left open, the ring is as wide as it must be")
		assert.GreaterOrEqual(t, p.Base.Radius, want)
		assert.Less(t, p.Base.Radius, want+15)
		assert.InDelta(t, p.Base.Radius, p.Base.Slots[0].At.Len(), 1e-9)
	}
}

// A ring typed too tight is told where its panels meet, how wide it must be and how many
// would do; both remedies are true.
func TestTightRingIsToldAndMended(t *testing.T) {
	d := leaning("6")
	free := must(t, d)
	d.Base.Radius = "75"
	p := must(t, d)
	f := findingOf(t, p, "panels-meet")
	assert.Equal(t, finding.Warn, f.Severity)
	assert.Equal(t, "base.radius", f.Place.Field)
	assert.InDelta(t, 60, f.Numbers["height"], 12, "at the tips, a radius above the foot")
	assert.Less(t, f.Numbers["outward"], -20.0, "behind the ribs")
	assert.Less(t, f.Numbers["fromMiddle"], 40.0)
	require.Len(t, f.Remedies, 2, "%+v", f.Remedies)
	for _, r := range f.Remedies {
		e := design.Clone(d)
		for field, text := range r.Set {
			if field == "base.radius" {
				e.Base.Radius = text
			} else {
				require.Equal(t, "base.copies", field)
				e.Base.Copies = text
			}
		}
		assert.False(t, has(must(t, e), "panels-meet"), r.Text)
	}
	assert.InDelta(t, free.Base.Radius, f.Numbers["needed"], 1, "what it would have been, left open")
	// One more than it offers would not do.
	d.Base.Copies = f2(f.Numbers["copies"] + 1)
	assert.True(t, has(must(t, d), "panels-meet"))
}

func f2(v float64) string { return string(rune('0' + int(v))) }

// Panels that bend outward stand free as soon as their feet do.
func TestRingThatLeansOutward(t *testing.T) {
	d := leaning("6")
	d.Rib.Side = "round"
	p := must(t, d)
	require.True(t, p.Drawn, "%+v", p.Findings)
	require.NotNil(t, p.Base)
	d.Curve.Angle = "20"
	q := must(t, d)
	assert.InDelta(t, q.Base.Radius, p.Base.Radius, 1e-9)
	assert.False(t, has(p, "panels-meet"))
}

// In a row, panels closer than they are wide meet, and the pitch that is offered is their
// width; so do two at places of their own.
func TestRowsAndPlacesThatMeet(t *testing.T) {
	d := leaning("3")
	d.Base.Kind, d.Base.Pitch = "row", "30"
	p := must(t, d)
	f := findingOf(t, p, "panels-meet")
	assert.Equal(t, "base.pitch", f.Place.Field)
	assert.InDelta(t, 40, f.Numbers["pitch"], 1)
	require.Len(t, f.Remedies, 1)
	d.Base.Pitch = f.Remedies[0].Set["base.pitch"]
	assert.False(t, has(must(t, d), "panels-meet"))

	// Two that face away from each other bend over each other's feet and meet between.
	d.Base.Kind, d.Base.Places = "places", []design.BasePlace{{X: "0", Y: "30"}, {X: "0", Y: "-30", Turn: "180"}}
	f = findingOf(t, must(t, d), "panels-meet")
	assert.Equal(t, "base.places", f.Place.Field)
	assert.Equal(t, 1.0, f.Numbers["first"])
	assert.Equal(t, 2.0, f.Numbers["second"])
	d.Base.Places = []design.BasePlace{{X: "0", Y: "75"}, {X: "0", Y: "-75", Turn: "180"}}
	assert.False(t, has(must(t, d), "panels-meet"))
}

// A panel that comes down again stands in the plate under it.
func TestPanelStrikesTheBase(t *testing.T) {
	d := leaning("1")
	d.Curve.Radius, d.Curve.Angle, d.Base.Shape, d.Base.Diameter = "60", "210", "disc", "400"
	d.Rib.FootDepth, d.Rib.TipDepth = "15", "8"
	p := must(t, d)
	f := findingOf(t, p, "panel-strikes-base")
	// The tip lies below the foot by R sin 30 degrees, and what its straight end and the
	// sheet add, less the straight foot.
	want := 60*math.Sin(math.Pi/6) + p.Section.Tip()*math.Cos(math.Pi/6) - p.Section.Foot() + p.V.Sheet.T*math.Sin(math.Pi/6)
	assert.InDelta(t, want, f.Numbers["below"], 3)
	assert.Less(t, f.Numbers["outward"], -60.0)
	d.Base.Diameter = "60"
	assert.False(t, has(must(t, d), "panel-strikes-base"), "past the edge of a small base it hangs free")
	d.Curve.Angle = "120"
	d.Base.Diameter = "400"
	assert.False(t, has(must(t, d), "panel-strikes-base"))
}

// The prongs of a forked panel pass a base between them.
func TestForkedPanelStraddlesItsBase(t *testing.T) {
	d := leaning("1")
	d.Curve.Radius, d.Curve.Angle, d.Base.Shape, d.Base.Length, d.Base.Width = "60", "210", "rectangle", "40", "400"
	d.Rib.FootDepth, d.Rib.TipDepth = "15", "8"
	d.Panel.Shape = "polygon"
	fork := func(at string) []design.Corner {
		return []design.Corner{{Along: "0", Across: "-50"}, {Along: "230", Across: "-50"}, {Along: "230", Across: "-30"}, {Along: at, Across: "-30"},
			{Along: at, Across: "30"}, {Along: "230", Across: "30"}, {Along: "230", Across: "50"}, {Along: "0", Across: "50"}}
	}
	d.Panel.Corners = fork("100")
	p := must(t, d)
	require.NotNil(t, p.Base, "%+v", p.Findings)
	assert.False(t, has(p, "panel-strikes-base"))
	d.Panel.Corners = fork("225")
	assert.True(t, has(must(t, d), "panel-strikes-base"), "where the fork ends short of the plate")
}

// inBand tells whether a place in the foot's frame lies within d of the material of the
// panel, by the nearest of many points of its section.
func (p *Plan) inBand(section []surface.Vec, q surface.Vec, d float64) bool {
	if math.Abs(q.X) > p.V.Panel.Width/2+d {
		return false
	}
	for _, c := range section {
		if math.Hypot(q.Y-c.Y, q.Z-c.Z) < p.V.Sheet.T/2+d {
			return true
		}
	}
	return false
}

// inFrame returns a place of the section in the foot's frame.
func inFrame(f surface.Frame, q surface.Vec) surface.Vec {
	d := q.Sub(f.Origin)
	return surface.Vec{Y: d.Dot(f.V), Z: d.Dot(f.N)}
}

// Against points strewn through the panels of random rings and pairs: where a point of
// one lies in the other the bricks meet, and where they meet a point comes as near as
// bricks are long.
func TestBricksAgainstPoints(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 9))
	met, free := 0, 0
	for range 30 {
		d := leaning("5")
		d.Curve.Radius, d.Curve.Angle = f(40+80*rnd.Float64()), f(30+140*rnd.Float64())
		d.Panel.Width = f(20 + 40*rnd.Float64())
		p := must(t, d)
		if !p.Drawn || p.Base == nil {
			continue
		}
		on := p.standing()
		frame, flats := on.Frame(), form.Fold(p.Panel.Strip)
		var section []surface.Vec // the middle of the sheet
		flat := 0
		for u := p.Outline.Region.Outer.Box().Min.X; u <= p.Outline.Region.Outer.Box().Max.X; u += 0.5 {
			for flat < len(p.Panel.Strip.Rulings) && p.Panel.Strip.Rulings[flat].Flat[0].X <= u {
				flat++
			}
			section = append(section, inFrame(frame, flats[flat].At(u, 0, p.V.Sheet.T/2)))
		}
		m := plane.Translate(200*(rnd.Float64()-.5), 200*(rnd.Float64()-.5)).Mul(plane.Rotate(2 * math.Pi * rnd.Float64()))
		inside, near := false, false
		for _, c := range section {
			for x := -p.V.Panel.Width / 2; x <= p.V.Panel.Width/2; x += p.V.Panel.Width / 16 {
				q := m.Apply(pt(x, c.Y))
				at := surface.Vec{X: q.X, Y: q.Y, Z: c.Z}
				inside = inside || p.inBand(section, at, -0.3)
				near = near || p.inBand(section, at, p.V.Panel.Width/32+2.5)
			}
		}
		got := stand.New(on.PanelBricks(frame)).Meets(m, 0).OK
		if inside {
			met++
			assert.True(t, got, "%+v %v", d.Curve, m)
		}
		if !near {
			free++
			assert.False(t, got, "%+v %v", d.Curve, m)
		}
	}
	assert.Greater(t, met, 4)
	assert.Greater(t, free, 4)
}

func BenchmarkRingOfTwenty(b *testing.B) {
	d := leaning("20")
	v, _ := design.Read(d)
	p := Make(v)
	for range b.N {
		stand.NewBase(p.standing())
	}
}
