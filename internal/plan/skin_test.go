package plan

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/plane"
)

func mm(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }

// between is a design of a panel between two sections on 3 mm MDF.
func between(c design.Curve) design.Document {
	d := design.Empty()
	d.Machine.Depths = []string{"1.25", "2.2", "2.55"}
	d.Machine.BedWidth, d.Machine.BedHeight = "2000", "2000"
	d.Curve = c
	d.Curve.Line = design.Contact
	return d
}

// pairAtRandom is a panel between two sections: arcs, rows of arcs and straights, boxes and ovals,
// larger, smaller and moved. Rows may swing over and back.
func pairAtRandom(r *rand.Rand) design.Document {
	in := func(lo, hi float64) string { return mm(math.Round(100*(lo+(hi-lo)*r.Float64())) / 100) }
	c := design.Curve{Apart: in(60, 400), Foot: in(0, 40), Tip: in(0, 40), FarRight: in(-40, 40), FarUp: in(-40, 40)}
	row := func(turn float64, way string) (out []design.Piece) {
		left, n := turn, 1+r.IntN(3)
		for i := range n {
			radius := 60 + 250*r.Float64()
			part := left / float64(n-i)
			left -= part
			out = append(out, design.Piece{Turn: way, Radius: mm(radius), Length: mm(radius * part)})
			if r.IntN(3) == 0 {
				out = append(out, design.Piece{Turn: design.Straight, Length: in(5, 60)})
			}
		}
		return out
	}
	switch r.IntN(5) {
	case 0:
		c.Kind, c.Radius, c.Angle, c.Far, c.FarScale = design.RadiusAngle, in(60, 300), in(20, 170), design.Scaled, in(50, 150)
	case 1:
		c.Kind, c.Radius, c.Angle, c.Far, c.FarRadius = design.RadiusAngle, in(60, 300), in(20, 170), design.FarArc, in(60, 300)
	case 2:
		c.Kind, c.Far = design.Chain, design.Chain
		for i := range 1 + r.IntN(3) { // swings over and back
			turn, way := 0.3+1.2*r.Float64(), [2]string{design.Over, design.Back}[i%2]
			c.Pieces, c.FarPieces = append(c.Pieces, row(turn, way)...), append(c.FarPieces, row(turn, way)...)
		}
	case 3:
		c.Kind, c.BoxWidth, c.BoxHeight, c.Corner = design.Box, in(160, 300), in(160, 300), in(50, 75)
		c.Far, c.FarWidth, c.FarHeight = design.Oval, in(140, 260), in(140, 260)
	default:
		c.Kind, c.BoxWidth, c.BoxHeight = design.Oval, in(160, 300), in(160, 300)
		c.Far, c.FarWidth, c.FarHeight, c.FarCorner = design.Box, in(160, 300), in(160, 300), in(50, 75)
	}
	d := between(c)
	if r.IntN(2) == 0 {
		d.Rib.Edge = design.Bevel
	}
	if r.IntN(3) == 0 {
		d.Panel.ShowFace = design.Hollow
	}
	return d
}

// Folded up again from the places in the file, the panel lies on both edges: nowhere in them, nowhere
// further off than its flats are allowed to be, and its end where both edges end.
func TestAPanelBetweenTwoSectionsLiesOnBoth(t *testing.T) {
	r := rand.New(rand.NewPCG(175, 1))
	n, worst := 0, [3]float64{}
	want := 200
	if testing.Short() {
		want = 40
	}
	for n < want {
		d := pairAtRandom(r)
		v, found := design.Read(d)
		require.NotEqual(t, finding.Stop, finding.Worst(found))
		v.Panel.MayFail = 100
		p := Make(v)
		require.NotNil(t, p.Section.Pair, "%+v %+v", d.Curve, p.Findings)
		if !p.Drawn {
			require.Equal(t, finding.Stop, finding.Worst(p.Findings))
			continue
		}
		n++
		fit, stands := p.Proof.Fit, 0.0
		if Reached(p.Scores.Layout) {
			stands = v.Panel.StandOff
		} else {
			continue
		}
		require.Greater(t, fit.Least, -0.005, "%+v", d.Curve)
		require.Less(t, fit.Most, stands+0.005, "%+v", d.Curve)
		require.Less(t, fit.EndMiss, 0.02, "%+v", d.Curve)
		for i, x := range []float64{-fit.Least, fit.Most - stands, fit.EndMiss} {
			worst[i] = math.Max(worst[i], x)
		}
	}
	t.Logf("%d panels: into an edge by up to %.4f mm, flats off by %.4f more than accepted, ends by %.4f", n, worst[0], worst[1], worst[2])
}

// As large at the far rib and not moved it is a cylinder: as many scores, where the cylinder has them.
func TestTheSameSectionIsACylinder(t *testing.T) {
	c := design.Curve{Kind: design.Chain, Foot: "20", Tip: "15", Pieces: []design.Piece{{Turn: "over", Length: "90", Radius: "110"}, {Turn: "straight", Length: "30"}, {Turn: "over", Length: "120", Radius: "160"}}}
	d := between(c)
	d.Panel.Width, d.Rib.Quantity = "120", "2"
	v, _ := design.Read(d)
	cylinder := Make(v)
	d.Curve.Far, d.Curve.FarScale, d.Curve.Apart = design.Scaled, "100", "120"
	v, _ = design.Read(d)
	skin := Make(v)
	require.True(t, cylinder.Drawn && skin.Drawn, "%+v", skin.Findings)
	a, b := cylinder.Scores.Layout, skin.Scores.Layout
	require.Len(t, b.Folds, len(a.Folds))
	for i := range a.Folds {
		assert.InDelta(t, a.Folds[i].U, b.Folds[i].U, 0.01)
		assert.InDelta(t, a.Folds[i].Theta, b.Folds[i].Theta, 1e-4)
	}
	box := skin.Panel.Flat.Outline.Box()
	assert.InDelta(t, cylinder.Panel.Flat.Outline.Box().W(), box.W(), 0.02)
	assert.InDelta(t, 120, box.H(), 0.002)
}

// Scaled about its middle it is part of a cone, which has a construction of its own: the flat panel is
// the same fan, the ribs the same arcs.
func TestAScaledArcIsPartOfACone(t *testing.T) {
	d := between(design.Curve{Kind: design.ConePart, Small: "200", Large: "300", RimHeight: "160", Sweep: "100", Foot: "0", Tip: "0"})
	v, _ := design.Read(d)
	cone := Make(v)
	// The near section is the small rim; its middle and that of the large one lie on one line up from the axis.
	half := 50 * math.Pi / 180
	up := 150*math.Cos(half) - 100*math.Cos(half) // from chord to chord
	d = between(design.Curve{Kind: design.RadiusAngle, Radius: "100", Angle: "100", Far: design.Scaled, FarScale: "150", Apart: "160", FarUp: mm(up), Foot: "0", Tip: "0"})
	v, _ = design.Read(d)
	skin := Make(v)
	require.True(t, cone.Drawn && skin.Drawn, "%+v", skin.Findings)
	assert.InDelta(t, len(cone.Scores.Layout.Folds), len(skin.Scores.Layout.Folds), 1)
	a, b := cone.Panel.Flat.Outline.Box(), skin.Panel.Flat.Outline.Box()
	assert.InDelta(t, a.W(), b.W(), 0.05)
	assert.InDelta(t, a.H(), b.H(), 0.05)
	assert.InDelta(t, cone.Panel.Flat.Outline.Area(), skin.Panel.Flat.Outline.Area(), 0.0005*cone.Panel.Flat.Outline.Area())
	for i := range 2 {
		s, o := cone.Supports.All[i], skin.Supports.All[i]
		assert.InDelta(t, s.Task.Edge.Length(), o.Task.Edge.Length(), 0.01)
		assert.InDelta(t, s.Wedge, o.Wedge, 1e-6)
		k, _ := s.Task.Edge.Tightest()
		l, _ := o.Task.Edge.Tightest()
		assert.InDelta(t, 1/k, 1/l, 1e-3)
	}
}

// The scores of a skin lie in the panel, in order, and nowhere nearer than land and a score's width
// where the limits were reached; each is of one straight line from edge to edge.
func TestScoresBetweenTwoSectionsKeepTheirLand(t *testing.T) {
	r := rand.New(rand.NewPCG(176, 1))
	for range 60 {
		v, _ := design.Read(pairAtRandom(r))
		v.Panel.MayFail = 100
		p := Make(v)
		if !p.Drawn || !Reached(p.Scores.Layout) {
			continue
		}
		least := v.Machine.ScoreWidth + v.Panel.MinLand
		segs := p.Panel.Flat.Segments
		for i := 1; i < len(segs); i++ {
			a, b := segs[i-1], segs[i]
			toLine := func(q plane.Point) float64 { return math.Abs(a.RunB.Sub(a.RunA).Unit().Cross(q.Sub(a.RunA))) }
			from, to := toLine(b.A), toLine(b.B)
			if math.Min(from, to) > 0.97*least {
				continue
			}
			// Where a bend over meets one back the score at the joint has half a spacing on one side.
			fs := p.Scores.Layout.Folds
			require.Negative(t, fs[i-1].Theta*fs[i].Theta, "scores %d and %d come as near as %.3f and %.3f", i, i+1, from, to)
			require.Greater(t, math.Min(from, to), 0.45*least)
		}
	}
}

// A far rib moved far aside leaves a panel that lies along the ribs, or scores that run along their
// edges: a stop, and the distance that it names is enough.
func TestASkinThatLiesAlongItsRibs(t *testing.T) {
	for id, move := range map[string]func(*design.Document){
		"far-leans":  func(d *design.Document) { d.Curve.FarUp = "900" },
		"far-slants": func(d *design.Document) { d.Curve.FarRight = "900" },
	} {
		d := design.Empty()
		d.Panel.Width, d.Curve.Kind, d.Curve.Radius, d.Curve.Angle = "200", "radius-angle", "200", "40"
		d.Curve.Far, d.Curve.Apart, d.Curve.FarRadius = design.FarArc, "200", "220"
		require.True(t, must(t, d).Drawn, "as it was")
		move(&d)
		p := must(t, d)
		require.False(t, p.Drawn)
		f := p.Findings[len(p.Findings)-1]
		require.Equal(t, id, f.ID)
		assert.NotEmpty(t, f.Place.Field)
		apart := f.Numbers["apart"]
		d.Curve.Apart = fmt.Sprint(math.Ceil(apart))
		p = must(t, d)
		require.True(t, p.Drawn, "%+v", p.Findings)
		lean, slant, _ := p.Section.Pair.Stance()
		assert.LessOrEqual(t, lean, math.Pi/3+1e-9)
		assert.GreaterOrEqual(t, slant, math.Pi/6-1e-9)
		assert.True(t, math.Abs(lean-math.Pi/3) < 0.02 || math.Abs(slant-math.Pi/6) < 0.02, "and no further than needed: %v %v", lean, slant)
	}
}

// The panel's edge runs on all along: where a straight goes over into a bend no piece of it runs past
// its end and back, though that lies within any tolerance.
func TestTheEdgeOfASkinNeverTurnsBack(t *testing.T) {
	r := rand.New(rand.NewPCG(71, 72))
	figure := func(lo, hi float64) string { return mm(math.Round(100*(lo+(hi-lo)*r.Float64())) / 100) }
	for n := range 60 {
		w, h := 250+600*r.Float64(), 150+400*r.Float64()
		p := must(t, between(design.Curve{Kind: design.Box, BoxWidth: mm(w), BoxHeight: mm(h), Corner: figure(60, 70), Far: design.Box, Apart: figure(60, 180),
			FarWidth: figure(.85*w, 1.05*w), FarHeight: figure(.95*h, 1.1*h), FarCorner: figure(60, 70)}))
		if !p.Drawn {
			continue
		}
		for _, s := range p.Panel.Flat.Outline.Outer.Segs {
			last := s.Point(0.001).Sub(s.Point(0))
			for k := 1; k < 1000; k++ {
				step := s.Point(float64(k+1) / 1000).Sub(s.Point(float64(k) / 1000))
				require.Positive(t, step.Dot(last), "design %d: %v turns back", n, s)
				last = step
			}
		}
	}
}
