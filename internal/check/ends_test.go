package check

import (
	"math"
	"math/rand/v2"
	"runtime"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/plan"
)

func typedCorners(rows ...[2]float64) []design.Corner {
	var out []design.Corner
	for _, r := range rows {
		out = append(out, design.Corner{Along: fixed(r[0]), Across: fixed(r[1])})
	}
	return out
}

func made(t *testing.T, d design.Document) plan.Plan {
	t.Helper()
	v, found := design.Read(d)
	require.NotEqual(t, finding.Stop, finding.Worst(found), "%+v", found)
	p := plan.Make(v)
	require.True(t, p.Drawn, "%+v", p.Findings)
	return p
}

// tapered is sound but for its outline: a panel with one straight edge, whose other edge
// runs from full width at the foot to a point at the tip. One rib stands across 0.
func tapered(t *testing.T) design.Document {
	d := sound()
	long := made(t, d).Scores.Layout.Length
	d.Panel.Shape, d.Panel.Width = design.Polygon, ""
	d.Panel.Corners = typedCorners([2]float64{0, -40}, [2]float64{long, -40}, [2]float64{long, -34}, [2]float64{0, 40})
	return d
}

// A rib across the middle ends where the taper crosses it, and the panel runs on straight:
// that is a warning, and what is offered for it mends it.
func TestAnEndThatMissesItsCurveIsNotSound(t *testing.T) {
	d := tapered(t)
	d.Rib.Places = []design.RibPlace{{Across: "0"}}
	all := findings(t, d)
	f := pick(all, "end-gap")
	require.NotNil(t, f)
	assert.Equal(t, finding.Warn, f.Severity)
	assert.Greater(t, f.Numbers["gap"], 10.0)
	// By hand: the rib's line leaves the outline 40/74 of the way to the tip; from there the
	// panel goes straight on while the curve turns away under it at R 120, then runs straight
	// for 20 mm.
	bent := f.Numbers["free"] - 20
	hand := 120*(1-math.Cos(bent/120)) + 20*math.Sin(bent/120)
	assert.InDelta(t, hand, f.Numbers["gap"], 0.01)
	require.NotEmpty(t, f.Remedies)
	for _, r := range f.Remedies {
		assert.Nil(t, pick(findings(t, apply(t, d, r)), "end-gap"), r.Text)
	}
}

// Left to the program the rib stands where the panel is there for it.
func TestTheRibGoesWhereThePanelIs(t *testing.T) {
	all := findings(t, tapered(t))
	assert.Nil(t, pick(all, "end-gap"), "%+v", all)
	p := made(t, tapered(t))
	assert.Less(t, p.Supports.All[0].Across, -30.0)
	assert.Greater(t, p.Supports.All[0].Across, -40+p.Supports.All[0].Thickness/2-1e-9)
}

// A longer foot moves the corners of the panel with it, so that no part of the curve is
// left bare.
func TestALongerCurveTakesItsPanelAlong(t *testing.T) {
	d := sound()
	d.Curve.Foot, d.Curve.Tip = "3", "3"
	long := made(t, d).Scores.Layout.Length
	d.Panel.Shape, d.Panel.Width = design.Polygon, ""
	d.Panel.Corners = typedCorners([2]float64{0, -40}, [2]float64{long, -40}, [2]float64{long, 40}, [2]float64{0, 40})
	tried := 0
	for _, f := range tell(d).findings {
		for _, r := range f.Remedies {
			if r.Set["curve.foot"] == "" && r.Set["curve.tip"] == "" || r.Set["panel.passes"] != "" { // with other passes the same panel is a little longer
				continue
			}
			q := made(t, apply(t, d, r))
			assert.Nil(t, pick(Run(&q), "panel-shorter"), "%s: panel to %g under %g", r.Text, q.Outline.To, q.Scores.Layout.Length)
			if f.ID == "glue-peels" {
				tried++
			}
		}
	}
	assert.Equal(t, 2, tried, "foot and tip")
}

// A curve that the panel does not reach is told of, wherever that comes from.
func TestABareCurveIsToldOf(t *testing.T) {
	for _, c := range []struct {
		name  string
		sev   finding.Severity
		field string
		edit  func(d *design.Document, long float64)
	}{
		{"corners", finding.Warn, "panel.corners", func(d *design.Document, long float64) {
			d.Panel.Shape = design.Polygon
			d.Panel.Corners = typedCorners([2]float64{0, -40}, [2]float64{long - 40, -40}, [2]float64{long - 40, 40}, [2]float64{0, 40})
		}},
		{"corners, a straight tip bare", finding.Note, "panel.corners", func(d *design.Document, long float64) {
			d.Panel.Shape = design.Polygon
			d.Panel.Corners = typedCorners([2]float64{0, -40}, [2]float64{long - 10, -40}, [2]float64{long - 10, 40}, [2]float64{0, 40})
		}},
		{"drawn", finding.Warn, "panel.drawnLength", func(d *design.Document, long float64) {
			d.Panel.Shape = design.Drawn
			l := fixed(long - 40)
			d.Panel.Drawn.Outline = "M0 -40L" + l + " -40L" + l + " 40L0 40Z"
		}},
		{"a typed length", finding.Warn, "panel.length", func(d *design.Document, long float64) { d.Panel.Length = "120" }},
		{"a length that ends on the tip", finding.Note, "panel.length", func(d *design.Document, long float64) { d.Panel.Length = fixed(long - 10) }},
		{"shifted along", finding.Warn, "panel.along", func(d *design.Document, long float64) { d.Panel.Along = "30" }},
		{"shifted along the foot", finding.Note, "panel.along", func(d *design.Document, long float64) { d.Panel.Along = "5" }},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := sound()
			c.edit(&d, made(t, d).Scores.Layout.Length)
			f := pick(findings(t, d), "panel-shorter")
			require.NotNil(t, f)
			assert.Equal(t, c.sev, f.Severity)
			assert.Equal(t, c.field, f.Place.Field)
			require.NotEmpty(t, f.Remedies)
			for _, r := range f.Remedies {
				all := findings(t, apply(t, d, r))
				assert.Nil(t, pick(all, "panel-shorter"), r.Text)
				assert.Nil(t, pick(all, "panel-longer"), r.Text)
			}
		})
	}
}

// The glue is judged at the low end of what the sheet's face holds: by hand
// sqrt(M/(bond b)) at .32 MPa, the low end of MDF (ANSI A208.2-2009, Table 2, grade 210).
func TestGlueIsJudgedAtTheBadEndOfItsBond(t *testing.T) {
	d := sound()
	d.Curve.Foot, d.Panel.Passes = "12", "2"
	p := made(t, d)
	assert.Equal(t, 0.32, p.V.Rib.GlueBond.Low)
	need := math.Sqrt(p.Strength.Hold.Moment / (p.V.Rib.GlueBond.Low * p.V.Rib.Thickness))
	likely := math.Sqrt(p.Strength.Hold.Moment / (p.V.Rib.GlueBond.Value * p.V.Rib.Thickness))
	require.Less(t, likely, 12.0)
	require.Greater(t, need, 12.0)
	f := pick(Run(&p), "glue-peels")
	require.NotNil(t, f)
	assert.InEpsilon(t, need, f.Numbers["needed"], 1e-6)
	long, err := strconv.ParseFloat(f.Remedies[0].Set["curve.foot"], 64)
	require.NoError(t, err)
	assert.GreaterOrEqual(t, long, need)
}

// A rib that holds at its usual strength but not at its low end is told of.
func TestTheRibIsJudgedAtTheBadEndOfItsStrength(t *testing.T) {
	d := sound()
	d.Rib.TipRound = "1"
	for depth := 9.0; depth > 1.5; depth -= 0.1 {
		d.Rib.FootDepth, d.Rib.TipDepth = fixed(depth), fixed(depth)
		p := made(t, d)
		bad := p.Strength.Hold.Rib.Stress / p.V.Rib.MOR.Low
		f := pick(Run(&p), "rib-weak")
		if bad > 1 {
			require.NotNil(t, f, "%g", depth)
			return
		}
	}
	t.Fatal("no rib was weak")
}

// likely is a design that may well be sound: gentle bends with straights at their ends, in
// every outline, with ribs left open or placed.
func likely(r *rand.Rand) design.Document {
	pick := func(xs ...string) string { return xs[r.IntN(len(xs))] }
	between := func(lo, hi float64) float64 { return lo + (hi-lo)*r.Float64() }
	d := sound()
	d.Sheet.Stock = pick("mdf-3", "mdf-3", "birch-3", "acrylic-3", "basswood-1.5")
	if d.Sheet.Stock != "mdf-3" {
		d.Sheet.Readings, d.Machine.Depths, d.Panel.Finish = nil, nil, "any"
	}
	foot, radius, angle := between(0, 40), between(90, 500), between(15, 90)
	d.Curve.Radius, d.Curve.Angle = fixed(radius), fixed(angle)
	d.Curve.Foot, d.Curve.Tip = fixed(foot), fixed(between(0, 40))
	if r.IntN(4) == 0 {
		d.Curve.Kind = design.Chain
		d.Curve.Pieces = []design.Piece{{Turn: "over", Length: fixed(between(30, 120)), Radius: fixed(radius)}, {Turn: "back", Length: fixed(between(30, 120)), Radius: fixed(between(90, 500))}}
	}
	p := &d.Panel
	w := between(30, 120)
	p.Width = fixed(w)
	long := 2*foot + radius*angle*math.Pi/180
	switch p.Shape = pick("rectangle", "taper", "ellipse", "lens", "polygon", "polygon", "drawn"); p.Shape {
	case "taper":
		p.FootWidth, p.WidestWidth, p.TipWidth = fixed(w), fixed(w*1.2), fixed(w*0.6)
	case "lens":
		p.Width = fixed(math.Min(w, long/3))
	case "polygon":
		p.Corners = typedCorners([2]float64{0, -w / 2}, [2]float64{long * between(0.9, 1.02), -w / 2}, [2]float64{long * between(0.9, 1.02), w * between(-0.4, 0.5)}, [2]float64{0, w / 2})
	case "drawn":
		l, h := fixed(long), fixed(w/2)
		p.Drawn.Outline = "M0 -" + h + "L" + l + " -" + h + "L" + l + " 0L0 " + h + "Z"
	}
	if r.IntN(3) == 0 && p.Shape != "polygon" && p.Shape != "drawn" {
		p.Length = fixed(long * between(0.8, 1))
	}
	if r.IntN(6) == 0 {
		p.Along = fixed(between(0, foot))
	}
	b := &d.Rib
	b.Side, b.Stock = pick("hollow", "hollow", "round"), pick("same", "same", "mdf-6", "birch-6")
	if p.ScoredFace = "hollow"; b.Side == "round" {
		p.ShowFace = "round"
	}
	b.Quantity, b.EndGap, b.Short = pick("1", "1", "2", "3"), pick("0.3", "0.3", "2"), pick("auto", "auto", "0", "3")
	if r.IntN(4) == 0 {
		b.Places = []design.RibPlace{{Across: fixed(w * between(-0.4, 0.4))}}
	}
	return d
}

// Whatever is called sound has its ends within the accepted gap, glue and ribs within their
// limits at the bad end of what is known, every score of its curve on the panel, and no
// plastic held over what it stands for good.
func TestWhatIsSoundIsSound(t *testing.T) {
	r := rand.New(rand.NewPCG(121, 122))
	sounds, designs := 0, 600
	if testing.Short() || runtime.GOARCH == "wasm" {
		designs = 150
	}
	for range designs {
		d := likely(r)
		v, found := design.Read(d)
		if finding.Worst(found) == finding.Stop {
			continue
		}
		p := new(plan.Memory).Alone(v)
		if worst := finding.Worst(append(append(found, NothingWorks(d, &p)...), Judged(&p)...)); !p.Drawn || worst == finding.Stop || worst == finding.Warn {
			continue
		}
		sounds++
		accepted := p.V.Rib.EndGap + 1e-4
		face := p.Face(0)
		require.LessOrEqual(t, p.Supports.FootEnd.Gap, accepted, typed(d))
		require.LessOrEqual(t, p.Supports.TipEnd.Gap, accepted, typed(d))
		// As drawn: the ends of the contact face, near where the edge has them.
		for _, e := range []struct{ at, to float64 }{{0, math.Max(0, p.Outline.From)}, {float64(len(face) - 1), math.Min(p.Outline.To, p.Scores.Layout.Length)}} {
			require.LessOrEqual(t, face[int(e.at)].Dist(p.Section.Edge.At(p.Under(e.to)).P), accepted+0.05, typed(d))
		}
		for _, s := range p.Supports.All {
			// Either the face holds the peak itself, or the straight is long enough.
			for _, end := range [][3]float64{{s.Hold.FootPeel.Stress, s.Hold.FootPeel.Length, s.Hold.FootStraight}, {s.Hold.TipPeel.Stress, s.Hold.TipPeel.Length, s.Hold.TipStraight}} {
				require.True(t, end[0] <= p.V.Rib.GlueBond.Low || end[1] <= end[2]+1e-6, typed(d))
			}
			require.LessOrEqual(t, s.Hold.Rib.Stress, s.MOR.Low, typed(d))
		}
		require.LessOrEqual(t, p.Strength.Bond.Stress, p.V.Rib.GlueBond.Low*(1+1e-9), typed(d))
		for _, f := range p.Scores.Layout.Folds {
			require.True(t, f.U >= p.Outline.From && f.U <= p.Outline.To, typed(d))
		}
		if held := p.V.Sheet.Stock.Sustained; held.Given() {
			require.LessOrEqual(t, p.Scores.Cracking.Value*p.V.Sheet.Rupture.Value, held.Low*(1+1e-6), typed(d))
		}
	}
	t.Log(sounds, "of", designs)
	assert.Greater(t, sounds, designs/20)
}

// A panel in two prongs has its rib in the middle, between them: both stand off, and ribs
// under both mend it. A window between two strips that are held at both ends is no prong.
func TestAProngThatNoRibReaches(t *testing.T) {
	d := sound()
	long := made(t, d).Scores.Layout.Length
	d.Panel.Shape, d.Panel.Width = design.Polygon, ""
	d.Panel.Corners = typedCorners([2]float64{0, -40}, [2]float64{long, -40}, [2]float64{long, -10}, [2]float64{90, -10},
		[2]float64{90, 10}, [2]float64{long, 10}, [2]float64{long, 40}, [2]float64{0, 40})
	p := made(t, d)
	assert.Zero(t, p.Supports.All[0].Across)
	f := pick(Run(&p), "end-gap")
	require.NotNil(t, f)
	assert.Equal(t, finding.Warn, f.Severity)
	assert.InDelta(t, long-90, f.Numbers["free"], 2)
	require.NotEmpty(t, f.Remedies)
	for _, r := range f.Remedies {
		assert.Nil(t, pick(findings(t, apply(t, d, r)), "end-gap"), r.Text)
	}
	d = sound()
	d.Panel.Holes = []design.Hole{{Kind: "slot", Along: "90", Across: "0", Width: "30", Length: "60"}}
	assert.Nil(t, pick(findings(t, d), "end-gap"))
}

// A mirrored panel keeps its rib in the middle, wherever its middle line was put; a panel
// typed from its edge has it in its own middle.
func TestAMirroredPanelKeepsItsRib(t *testing.T) {
	d := sound()
	long := made(t, d).Scores.Layout.Length
	for _, shape := range []string{"rectangle", "ellipse", "lens", "taper"} {
		d.Panel.Shape, d.Panel.FootWidth, d.Panel.WidestWidth, d.Panel.TipWidth = shape, "60", "60", "30"
		for _, across := range []string{"", "8"} {
			d.Panel.Across = across
			assert.Zero(t, made(t, d).Supports.All[0].Across, shape)
		}
	}
	d.Panel.Across, d.Panel.Shape = "", design.Polygon
	for _, low := range []float64{-40, -25, 0} {
		d.Panel.Corners = typedCorners([2]float64{0, low}, [2]float64{long, low}, [2]float64{long, low + 80}, [2]float64{0, low + 80})
		want := 0.0
		if low == 0 {
			want = 40
		}
		assert.Equal(t, want, made(t, d).Supports.All[0].Across)
	}
}

// What an end that misses its curve costs while a hand moves: its changes are tried anew for
// every plan.
func BenchmarkEndGap(b *testing.B) {
	for name, places := range map[string][]design.RibPlace{"as it is": nil, "rib across the middle": {{Across: "0"}}} {
		b.Run(name, func(b *testing.B) {
			d := sound()
			d.Panel.Shape = design.Polygon
			d.Panel.Corners = typedCorners([2]float64{0, -40}, [2]float64{168, -40}, [2]float64{168, -34}, [2]float64{0, 40})
			d.Rib.Places = places
			v, _ := design.Read(d)
			memory := new(plan.Memory)
			for b.Loop() {
				p := memory.Draft(v)
				Run(&p)
			}
		})
	}
}
