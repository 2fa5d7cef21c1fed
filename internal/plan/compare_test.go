package plan

import (
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/machine"
	"springrib/internal/stock"
)

func threePasses() design.Document {
	d := archDesign()
	d.Sheet.Readings = []string{"3.0", "3.0", "3.0"}
	d.Machine.Depths = []string{"1.5", "2.2", "2.5"}
	d.Machine.DepthSpread = "0.05"
	d.Machine.Speed, d.Machine.Acceleration = "120", "1500"
	return d
}

// The sound tries come first, those ahead that nothing speaks against once they are glued, each
// by machine time; the one left to the program is the first; a try that is out says why.
func TestRanked(t *testing.T) {
	p := must(t, threePasses())
	order := p.Ranked()
	require.Len(t, order, 3)
	assert.Equal(t, p.Scores.Chosen, order[0])
	sound := true
	last, clear := 0.0, true
	for _, i := range order {
		x := p.Scores.Tries[i]
		assert.False(t, x.Sound() && x.Against == Sound && !clear, "a clear one after one that something speaks against")
		if clear && x.Against != Sound {
			clear, last = false, 0
		}
		assert.False(t, x.Sound() && !sound, "a sound one after one that is out")
		assert.Equal(t, x.Sound(), x.Out == Sound)
		if sound = x.Sound(); sound {
			assert.GreaterOrEqual(t, x.Seconds, last)
			last = x.Seconds
		}
	}
}

// Time is that of every stroke on the panel's own outline: on an ellipse less than on its
// box, and as long as the strokes that are cut.
func TestTimeIsOfTheOutline(t *testing.T) {
	box := must(t, threePasses())
	d := threePasses()
	d.Panel.Shape = "ellipse"
	p := must(t, d)
	sum := 0.0
	for _, s := range p.Panel.Flat.Segments {
		sum += machine.StrokeTime(120, 1500, s.RunA.Dist(s.RunB))
	}
	assert.InEpsilon(t, sum*float64(p.Try().Passes), p.Try().Seconds, 1e-3)
	assert.Less(t, p.Try().Seconds, box.Try().Seconds)
}

// The flats of every try are as high as the refolded panel measures them.
func TestFlatHeightAgreesWithRefolding(t *testing.T) {
	for _, side := range []string{"hollow", "round"} {
		d := threePasses()
		d.Rib.Side, d.Panel.Finish = side, "any"
		p := must(t, d)
		assert.InEpsilon(t, p.Proof.Fit.Most, p.Try().StandOff, 0.03, side)
		assert.InDelta(t, p.Scores.Layout.Runs[0].Pitch, p.Try().Most, 0.02)
		assert.Greater(t, p.Try().Least, 0.0)
	}
}

// Deeper scores pull less.
func TestForceFallsWithThePasses(t *testing.T) {
	p := must(t, threePasses())
	last := math.Inf(1)
	for _, x := range p.Scores.Tries {
		assert.Less(t, x.EndForce, last)
		last = x.EndForce
	}
	assert.InEpsilon(t, p.Strength.Hold.EndForce, p.Try().EndForce, 1e-9)
}

func birch(grain, angle string, depths ...string) design.Document {
	d := archDesign()
	d.Curve.Radius = "400"
	d.Sheet.Stock, d.Sheet.Grain, d.Sheet.GrainAngle = "birch-4", grain, angle
	d.Sheet.Readings = []string{"4.0", "4.0", "4.0"}
	d.Machine.Depths = depths
	return d
}

// Stiffness by angle: along, across and between, the plan bends the sheet with the
// modulus that the orthotropic transformation gives (R. M. Jones, Mechanics of Composite
// Materials, 2nd ed., 1999, section 2.6).
func TestGrainReachesTheLaw(t *testing.T) {
	s, _ := stock.Lookup("birch-4")
	for _, c := range []struct {
		grain, angle string
		theta        float64 // of bending to the face grain
	}{{"across", "", 0}, {"along", "", math.Pi / 2}, {"angle", "30", math.Pi / 3}, {"angle", "60", math.Pi / 6}} {
		p := must(t, birch(c.grain, c.angle, "2.6"))
		want := stock.OffAxis(s.EAlong.Value, s.ECross.Value, s.GInPlane.Value, s.NuXY.Value, c.theta)
		assert.InEpsilon(t, want, p.Law().Material().E, 1e-9, c.grain+c.angle)
	}
}

// A skin of the face ply alone bends with that veneer: bent along its grain it is a little stiffer
// than the sheet, bent across much softer, and the pull of the panel goes with it.
func TestSkinOfPlies(t *testing.T) {
	s, _ := stock.Lookup("birch-4")
	el, et := s.Veneer()
	ply := s.Plies[0] / 2 * 4.0 / sum(s.Plies)
	depth := f(4 - ply)
	along := must(t, birch("across", "", depth)) // the panel bends along the grain
	assert.InEpsilon(t, s.EAlong.Value/el, along.scoring().SkinRatio(ply), 1e-6)
	cross := must(t, birch("along", "", depth))
	assert.InEpsilon(t, s.ECross.Value/et, cross.scoring().SkinRatio(ply), 1e-6)
	for _, p := range []Plan{along, cross} {
		pitch := p.Scores.Layout.Runs[0].Pitch
		// EI of skins and lands in a row, the skins l long: compliances add up.
		law := p.Law()
		eta := law.Skin() / 4
		l := law.HingeLength(pitch)
		plain := law.PlainStiffness()
		want := pitch / ((pitch-l)/plain + l*p.scoring().SkinRatio(law.Skin())/(plain*eta*eta*eta))
		assert.InEpsilon(t, want, p.scoring().Stiffness(law, pitch), 1e-6)
		assert.InEpsilon(t, want, p.stiffness()(p.Section.Edge.Length()/2), 1e-3)
	}
	assert.Greater(t, along.scoring().Stiffness(along.Law(), 4)/along.Law().Stiffness(4), 1.02)
	assert.Less(t, cross.scoring().Stiffness(cross.Law(), 4)/cross.Law().Stiffness(4), 0.6)
}

func sum(xs []float64) float64 {
	s := 0.0
	for _, x := range xs {
		s += x
	}
	return s
}

// The whole sheet, a sheet without plies, and a depth from test strips are as the law has
// them.
func TestNoPliesNoCorrection(t *testing.T) {
	p := must(t, birch("across", "", "2.6"))
	assert.InDelta(t, 1, p.scoring().SkinRatio(4), 1e-9)
	d := birch("across", "", "2.6")
	d.Machine.Tested = true
	tested := must(t, d)
	assert.InDelta(t, 1, tested.scoring().SkinRatio(1.4), 0)
	mdf := must(t, archDesign())
	assert.InDelta(t, 1, mdf.scoring().SkinRatio(0.8), 0)
	assert.Equal(t, mdf.Law().Stiffness(3), mdf.scoring().Stiffness(mdf.Law(), 3))
}

// ellipseOnAFreeCurve has 120 scores and two ribs.
func ellipseOnAFreeCurve() design.Document {
	d := archDesign()
	d.Sheet.Readings = []string{"3.0", "3.0", "3.0"}
	d.Machine.Depths = []string{"1.5", "2.2", "2.5"}
	d.Machine.DepthSpread = "0.05"
	d.Curve.Kind = "points"
	d.Curve.Points = []design.Point{{X: "0", Y: "0"}, {X: "90", Y: "50"}, {X: "200", Y: "69"}, {X: "310", Y: "34"}, {X: "400", Y: "-34"}, {X: "500", Y: "-48"}}
	d.Panel.Shape, d.Panel.Width = "ellipse", "200"
	d.Panel.Spacing, d.Panel.Finish = "follow", "gloss"
	d.Panel.StandOff = "0.05"
	d.Rib.Places = []design.RibPlace{{Across: "-45"}, {Across: "45", Foot: "stub"}}
	d.Machine.BedWidth, d.Machine.BedHeight = "800", "600"
	return d
}

func TestTheBenchmarkIsWhatItSays(t *testing.T) {
	p := must(t, ellipseOnAFreeCurve())
	require.True(t, p.Drawn, "%+v", p.Findings)
	assert.InDelta(t, 120, p.ScoresCut(), 6)
	assert.Len(t, p.Supports.All, 2)
	assert.Len(t, p.Ribs.Kinds, 2)
}

func BenchmarkMakeEllipse(b *testing.B) {
	v, _ := design.Read(ellipseOnAFreeCurve())
	for b.Loop() {
		Make(v)
	}
}

// Growth with the number of scores should be near linear: ns a score from about 100 to
// about 10,000, on a curve as much larger.
func BenchmarkMakeGrowth(b *testing.B) {
	for _, k := range []float64{1, 10, 100} {
		v, _ := design.Read(ellipseOnAFreeCurve())
		for i := range v.Curve.Points {
			v.Curve.Points[i][0] *= k
			v.Curve.Points[i][1] *= k
		}
		v.Panel.FoldLimit /= k
		v.Panel.Width *= k
		v.Machine.BedWidth, v.Machine.BedHeight = v.Machine.BedWidth*k, v.Machine.BedHeight*k
		v.Rib.FootDepth, v.Rib.TipDepth = v.Rib.FootDepth*k, v.Rib.TipDepth*k
		n := 0
		b.Run(strconv.Itoa(int(100*k)), func(b *testing.B) {
			for b.Loop() {
				p := Make(v)
				n = len(p.Scores.Layout.Folds)
			}
			b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(n), "ns/score")
			b.ReportMetric(float64(n), "scores")
		})
	}
}
