package plan

import (
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/cut"
	"springrib/internal/design"
	"springrib/internal/export"
	"springrib/internal/finding"
	"springrib/internal/plane"
)

func must(t *testing.T, doc design.Document) Plan {
	t.Helper()
	v, found := design.Read(doc)
	require.NotEqual(t, finding.Stop, finding.Worst(found), "%+v", found)
	p := Make(v)
	mend(&p)
	return p
}

// alone is Make without what the numbers of passes that are not taken would come to, for tests
// that plan many designs and look at none of that.
func alone(v design.Values) Plan { return new(Memory).Alone(v) }

func f(v float64) string { return strconv.FormatFloat(v, 'f', 3, 64) }

// randomDesign is a design that somebody could type: any stock and sides, arcs given
// in all ways, chains of uneven arcs.
func randomDesign(r *rand.Rand) design.Document {
	pick := func(xs ...string) string { return xs[r.IntN(len(xs))] }
	d := design.Empty()
	d.Name = "Random"
	d.Sheet.Stock = pick("mdf-3", "mdf-6", "birch-3", "birch-4", "birch-6", "basswood-1.5")
	d.Panel.Width = f(30 + 150*r.Float64())
	d.Panel.ScoredFace, d.Panel.ShowFace, d.Rib.Side = pick("hollow", "round"), pick("hollow", "round"), pick("hollow", "round")
	d.Panel.Spacing = pick("follow", "even")
	d.Panel.Finish = pick("gloss", "satin", "hidden", "any")
	d.Curve.Line = pick("contact", "outer", "neutral")
	radius := 120 + 400*r.Float64()
	switch d.Curve.Kind = pick("radius-angle", "span-rise", "length-radius", "chain", "points", "box", "oval"); d.Curve.Kind {
	case "radius-angle":
		d.Curve.Radius, d.Curve.Angle = f(radius), f(20+100*r.Float64())
	case "span-rise":
		d.Curve.Span, d.Curve.Rise = f(radius), f(radius*(0.05+0.15*r.Float64()))
	case "length-radius":
		d.Curve.Length, d.Curve.Radius = f(radius*r.Float64()+20), f(radius)
	case "points":
		at, dir := plane.Pt(0, 0), r.Float64()
		for range 3 + r.IntN(4) {
			d.Curve.Points = append(d.Curve.Points, design.Point{X: f(at.X), Y: f(at.Y)})
			dir += (r.Float64() - 0.5) * 0.7
			at = at.Add(plane.Dir(dir).Mul(60 + 80*r.Float64()))
		}
	case "box":
		d.Curve.BoxWidth, d.Curve.BoxHeight, d.Curve.Corner = f(300+200*r.Float64()), f(300+200*r.Float64()), f(100+45*r.Float64())
		d.Rib.Side, d.Curve.Seam = "hollow", pick("butt", "lap")
	case "oval":
		d.Curve.BoxWidth, d.Curve.BoxHeight = f(350+100*r.Float64()), f(350+100*r.Float64())
		d.Rib.Side, d.Curve.Seam = "hollow", pick("butt", "lap")
	case "chain":
		for i := range 1 + r.IntN(4) {
			turn := "over"
			if i > 0 {
				turn = pick("over", "over", "back", "straight")
			}
			d.Curve.Pieces = append(d.Curve.Pieces, design.Piece{
				Turn: turn, Length: f(20 + 100*r.Float64()), Radius: f(120 + 400*r.Float64()),
			})
		}
	}
	return d
}

// Folded up from the rounded places in the file, every sound design meets its rib; and
// the file holds the places of the plan.
func TestRandomDesignsFitAndTheFileHoldsThem(t *testing.T) {
	r := rand.New(rand.NewPCG(31, 32))
	seen := map[string]int{}
	wanted := 500
	if testing.Short() {
		wanted = 60
	}
	for n := 0; n < wanted; {
		doc := randomDesign(r)
		v, found := design.Read(doc)
		require.NotEqual(t, finding.Stop, finding.Worst(found), "%+v", found)
		p := alone(v)
		if !p.Drawn || !p.Try().Sound() || p.Scores.Layout.Folds == nil {
			continue
		}
		n++
		seen[fmt.Sprint("towards ", p.Section.Towards)]++
		seen[doc.Curve.Kind]++
		for _, run := range p.Scores.Layout.Runs {
			seen[fmt.Sprint("wraps ", run.Wraps)]++
		}
		require.InDelta(t, 0, p.Proof.Fit.LeastFlat, 0.02, "%+v", doc)
		require.LessOrEqual(t, p.Proof.Fit.Most, 1.05*v.Panel.StandOff)
		require.Less(t, p.Proof.Fit.EndMiss, 0.02)
		fileHolds(t, p)
	}
	for _, k := range []string{"towards true", "towards false", "wraps true", "wraps false", "chain", "radius-angle", "span-rise", "length-radius", "points", "box", "oval"} {
		assert.Greater(t, seen[k], wanted/25, k)
	}
}

// fileHolds reads the scores back from the SVG and compares them with the plan's.
func fileHolds(t *testing.T, p Plan) {
	t.Helper()
	for i, job := range p.Lay.Jobs {
		var want [][4]float64
		for _, op := range job.Operations {
			if op.Kind == cut.Score {
				for _, s := range op.Strokes {
					a, b := s.Path.Start(), s.Path.End()
					want = append(want, [4]float64{a.X, job.Height - a.Y, b.X, job.Height - b.Y})
				}
			}
		}
		got := scoresOf(t, export.SVG(job, export.SVGOptions{}))
		require.Len(t, got, len(want), "sheet %d", i+1)
		for j := range want {
			for k := range want[j] {
				require.InDelta(t, want[j][k], got[j][k], 0.001)
			}
		}
	}
	// Between two scores in the file lie as many mm as between the plan's rulings; one
	// that crosses a hole is in two pieces.
	cut := map[int]bool{}
	for i, s := range p.Panel.Flat.Segments {
		cut[s.Score] = true
		if i > 0 {
			q := p.Panel.Flat.Segments[i-1]
			require.InDelta(t, p.Scores.Layout.Folds[s.Score-1].U-p.Scores.Layout.Folds[q.Score-1].U, s.A.X-q.A.X, 0.0011)
		}
	}
	require.Len(t, cut, p.ScoresCut()-p.Panel.Flat.Lapped, "those that bend the curve; the lap has scores of its own, see TestTheLapOfASeamBends")
}

// scoresOf reads the end points of the paths in the first group, which holds scores.
func scoresOf(t *testing.T, svg []byte) [][4]float64 {
	t.Helper()
	dec := xml.NewDecoder(strings.NewReader(string(svg)))
	var out [][4]float64
	in := false
	for {
		tok, err := dec.Token()
		if err == io.EOF {
			return out
		}
		require.NoError(t, err)
		el, ok := tok.(xml.StartElement)
		if !ok {
			continue
		}
		for _, a := range el.Attr {
			if el.Name.Local == "g" && a.Name.Local == "id" {
				in = strings.HasPrefix(a.Value, "score")
			}
			if in && el.Name.Local == "path" && a.Name.Local == "d" {
				var c [4]float64
				d := strings.NewReplacer("M", " ", "L", " ", ",", " ").Replace(a.Value)
				_, err := fmt.Sscan(d, &c[0], &c[1], &c[2], &c[3])
				require.NoError(t, err, a.Value)
				out = append(out, c)
			}
		}
	}
}

func TestExamplesAreSound(t *testing.T) {
	for _, e := range design.Examples() {
		p := must(t, e.Design)
		require.True(t, p.Drawn, e.ID)
		assert.True(t, p.Try().Sound(), "%s: %s", e.ID, p.Try().Out)
		assert.Empty(t, p.Findings, e.ID)
	}
}

// The rib of an arc is at most twelve lines and arcs within 0.01 mm.
func TestRibOfAnArcHasFewPieces(t *testing.T) {
	r := rand.New(rand.NewPCG(33, 34))
	for n := 0; n < 100; {
		doc := randomDesign(r)
		switch doc.Curve.Kind {
		case "chain", "points", "box", "oval":
			continue
		}
		v, _ := design.Read(doc)
		p := alone(v)
		if !p.Drawn {
			continue
		}
		n++
		segs := p.Ribs.Rib.Outline.Outer.Segs
		require.LessOrEqual(t, len(segs), 12, "%+v", doc)
		for _, s := range segs {
			require.NotEqual(t, plane.Cubic, s.Kind)
		}
		// Every place of the exact back edge lies within 0.01 mm of the outline.
		for i := 0; i <= 200; i++ {
			s := p.Ribs.Task.End * float64(i) / 200 * 0.9
			at := p.Section.Edge.At(s)
			n := at.Tangent().Left()
			if p.Section.PanelLeft {
				n = n.Mul(-1)
			}
			q := at.P.Add(n.Mul(p.Ribs.Task.DepthAt(s)))
			require.Less(t, distance(p.Ribs.Rib.Outline.Outer, q), 0.0105)
			require.Less(t, distance(p.Ribs.Rib.Outline.Outer, at.P), 1e-6, "the rib edge itself is exact")
		}
	}
}

func distance(path plane.Path, q plane.Point) float64 {
	best := math.Inf(1)
	for _, s := range path.Segs {
		switch s.Kind {
		case plane.Line:
			d := s.B.Sub(s.A)
			t := math.Max(0, math.Min(1, q.Sub(s.A).Dot(d)/d.Dot(d)))
			best = math.Min(best, q.Dist(s.A.Add(d.Mul(t))))
		case plane.Arc:
			c, r, a0, sweep := s.ArcGeometry()
			a := math.Remainder(math.Atan2(q.Y-c.Y, q.X-c.X)-a0-sweep/2, 2*math.Pi)
			if math.Abs(a) <= math.Abs(sweep)/2+1e-9 {
				best = math.Min(best, math.Abs(q.Dist(c)-r))
			}
			best = math.Min(best, math.Min(q.Dist(s.A), q.Dist(s.B)))
		}
	}
	return best
}

// The three ways to say the same arc give the same plan.
func TestOneArcThreeWays(t *testing.T) {
	base := design.Empty()
	base.Panel.Width = "80"
	a, b, c := base, base, base
	a.Curve.Kind, a.Curve.Radius, a.Curve.Angle = "radius-angle", "150", "80"
	angle := 80 * math.Pi / 180
	b.Curve.Kind, b.Curve.Span, b.Curve.Rise = "span-rise", f6(300*math.Sin(angle/2)), f6(150*(1-math.Cos(angle/2)))
	c.Curve.Kind, c.Curve.Length, c.Curve.Radius = "length-radius", f6(150*angle), "150"
	pa, pb, pc := must(t, a), must(t, b), must(t, c)
	for _, q := range []Plan{pb, pc} {
		require.Len(t, q.Scores.Layout.Folds, len(pa.Scores.Layout.Folds))
		for i, fo := range pa.Scores.Layout.Folds {
			require.InDelta(t, fo.U, q.Scores.Layout.Folds[i].U, 1e-4)
		}
	}
}

func f6(v float64) string { return strconv.FormatFloat(v, 'f', 6, 64) }

// Which line the curve is moves the rib edge by what lies between the lines.
func TestLineOfTheCurve(t *testing.T) {
	doc := design.Empty()
	doc.Panel.Width = "80"
	doc.Curve.Radius, doc.Curve.Angle = "150", "80"
	radius := func(line, side string) float64 {
		d := doc
		d.Curve.Line, d.Rib.Side = line, side
		k, _ := must(t, d).Section.Edge.Tightest()
		return 1 / k
	}
	assert.InDelta(t, 150, radius("contact", "hollow"), 1e-9)
	assert.InDelta(t, 147, radius("outer", "hollow"), 1e-9, "3 mm of panel over the rib")
	assert.InDelta(t, 153, radius("outer", "round"), 1e-9, "3 mm of panel inside the cradle")
	n := radius("neutral", "hollow")
	assert.Greater(t, n, 147.0)
	assert.Less(t, n, 148.5, "scored on the hollow side the neutral line lies in the skin, far from the rib")
}

// Three independent choices; the drawing is turned over when the scored face is not
// the show face, and the mark is left to the hand when the rib goes on the other face.
func TestFaces(t *testing.T) {
	for _, scored := range []string{"hollow", "round"} {
		for _, show := range []string{"hollow", "round"} {
			for _, side := range []string{"hollow", "round"} {
				d := design.Empty()
				d.Panel.Width, d.Curve.Radius, d.Curve.Angle = "80", "150", "60"
				d.Panel.ScoredFace, d.Panel.ShowFace, d.Rib.Side = scored, show, side
				p := must(t, d)
				assert.Equal(t, scored != show, p.Panel.Mirror)
				assert.Equal(t, scored != side, p.Supports.Mark.Turned)
				assert.Equal(t, scored == "hollow", p.Scores.Layout.Folds[0].Closing)
				assert.Equal(t, side == "hollow", p.Scores.Layout.Runs[0].Wraps)
				marks := 0
				for _, w := range p.Panel.Flat.Work {
					if w.Kind == cut.Mark {
						marks++
						assert.InDelta(t, -p.V.Rib.MarkStart, w.Path.Start().X, 1e-9, "starts outside the foot edge")
						assert.Less(t, w.Path.End().X, p.Outline.Length, "stops short of the tip")
					}
				}
				assert.Equal(t, scored == side, marks == 1)
			}
		}
	}
}

// The glue mark by length and by rule; the gap of the free end is s^2/(2R), short of it by
// (s/R)^2/12 of it, from the series of the cosine.
func TestFreeEnd(t *testing.T) {
	d := design.Empty()
	d.Panel.Width, d.Curve.Radius, d.Curve.Angle, d.Curve.Tip = "80", "150", "60", "0"
	d.Rib.Short = "10"
	p := must(t, d)
	assert.InDelta(t, 10, p.Supports.Mark.Free, 1e-9)
	assert.InDelta(t, 10.0*10/(2*150)*(1-10.0*10/(150*150*12)), p.Supports.Mark.Gap, 1e-6)
	d.Rib.Short, d.Rib.EndGap = "auto", "0.3"
	p = must(t, d)
	assert.InDelta(t, math.Sqrt(2*150*0.3), p.Supports.Mark.Free, 1e-6)
	assert.InDelta(t, 0.3, p.Supports.Mark.Gap, 2e-4)
}

func TestStopsNameThePlace(t *testing.T) {
	for _, c := range []struct {
		id   string
		edit func(d *design.Document)
	}{
		{"curve-crosses", func(d *design.Document) {
			d.Curve.Radius, d.Curve.Angle, d.Curve.Foot, d.Curve.Tip = "60", "345", "80", "80"
		}},
		{"curve-crosses", func(d *design.Document) {
			d.Curve.Kind = "chain"
			d.Curve.Pieces = []design.Piece{{Turn: "over", Length: "400", Radius: "50"}, {Turn: "straight", Length: "300"}}
		}},
		{"rib-too-deep", func(d *design.Document) { d.Curve.Radius, d.Rib.FootDepth, d.Rib.TipDepth = "30", "80", "80" }},
		{"curve-tight", func(d *design.Document) { d.Curve.Radius, d.Curve.Line = "2.5", "outer" }},
	} {
		d := design.Empty()
		d.Panel.Width, d.Curve.Radius, d.Curve.Angle = "80", "150", "60"
		c.edit(&d)
		v, found := design.Read(d)
		require.NotEqual(t, finding.Stop, finding.Worst(found), "%s %+v", c.id, found)
		p := Make(v)
		assert.False(t, p.Drawn, c.id)
		require.NotEmpty(t, p.Findings, c.id)
		assert.Equal(t, c.id, p.Findings[0].ID)
		assert.NotEmpty(t, p.Findings[0].Place.Field)
	}
}

// The order of the file: all scores, all marks, inner before outer cuts.
func TestOperationsComeInOrder(t *testing.T) {
	for _, e := range design.Examples() {
		for _, j := range must(t, e.Design).Lay.Jobs {
			for i := 1; i < len(j.Operations); i++ {
				assert.Less(t, j.Operations[i-1].Kind, j.Operations[i].Kind)
			}
		}
	}
}

func TestDeterminism(t *testing.T) {
	for _, e := range design.Examples() {
		a, b := must(t, e.Design), must(t, e.Design)
		for i := range a.Lay.Jobs {
			assert.Equal(t, export.SVG(a.Lay.Jobs[i], export.SVGOptions{}), export.SVG(b.Lay.Jobs[i], export.SVGOptions{}))
		}
	}
}

func BenchmarkMake(b *testing.B) {
	v, _ := design.Read(design.Examples()[0].Design)
	for b.Loop() {
		Make(v)
	}
}

// A rib along a free curve is at most 24 pieces, and both its edges lie within 0.01 mm.
func TestRibOfAFreeCurveHasFewPieces(t *testing.T) {
	r := rand.New(rand.NewPCG(35, 36))
	for n := 0; n < 40; {
		doc := randomDesign(r)
		if doc.Curve.Kind != "points" {
			continue
		}
		v, _ := design.Read(doc)
		p := alone(v)
		if !p.Drawn {
			continue
		}
		n++
		require.LessOrEqual(t, len(p.Ribs.Rib.Outline.Outer.Segs), 24, "%+v", doc.Curve)
		pts := p.Ribs.Rib.Outline.Outer.Flatten(0.0005)
		for i := 1; i < 100; i++ {
			s := p.Ribs.Task.End * float64(i) / 100 * 0.9
			require.Less(t, polyDistance(pts, p.Section.Edge.At(s).P), 0.0115)
		}
	}
}

func polyDistance(pts []plane.Point, q plane.Point) float64 {
	best := math.Inf(1)
	for i := range pts {
		a, b := pts[i], pts[(i+1)%len(pts)]
		d := b.Sub(a)
		if d.Dot(d) == 0 {
			continue
		}
		t := math.Max(0, math.Min(1, q.Sub(a).Dot(d)/d.Dot(d)))
		best = math.Min(best, q.Dist(a.Add(d.Mul(t))))
	}
	return best
}

// The panel of a closed shape is its girth at the neutral line plus what is left over;
// a tenth of a millimetre of thickness moves the girth by about six tenths.
func TestWrap(t *testing.T) {
	d := design.Empty()
	d.Panel.Width = "80"
	d.Curve.Kind, d.Curve.BoxWidth, d.Curve.BoxHeight, d.Curve.Corner, d.Curve.Trim = "box", "300", "200", "90", "2"
	d.Panel.MayFail = "100" // the chance would ask for other scores on another sheet
	p := must(t, d)
	require.True(t, p.Drawn, "%+v", p.Findings)
	assert.True(t, p.Section.Closed)
	girth := 1000 - (8-2*math.Pi)*90.0
	assert.InDelta(t, girth, p.Section.Edge.Length(), 1e-9)
	mid := p.Scores.Layout.Folds[len(p.Scores.Layout.Folds)/2].D
	assert.InDelta(t, girth+2*math.Pi*mid, p.Scores.Layout.Length, 0.05)
	assert.InDelta(t, p.Scores.Layout.Length+2, p.Outline.Length, 1e-9)
	d.Sheet.Readings = []string{"3.1", "3.1", "3.1"}
	q := must(t, d)
	assert.InDelta(t, 2*math.Pi*0.1, q.Scores.Layout.Length-p.Scores.Layout.Length, 0.1)
	assert.Len(t, p.Ribs.Rib.Outline.Holes, 1, "a former has its middle cut out")
	d.Curve.Seam, d.Curve.Lap = "lap", "15"
	assert.InDelta(t, 15, must(t, d).Outline.Length-must(t, d).Scores.Layout.Length, 1e-9)
	d.Rib.Side = "round"
	assert.Equal(t, "rib-outside", must(t, d).Findings[0].ID)
}

// A smooth curve that bends first to the left has its hollow side on the left.
func TestHollowSideOfASmoothCurve(t *testing.T) {
	d := design.Empty()
	d.Panel.Width, d.Curve.Kind = "80", "points"
	d.Curve.Points = []design.Point{{X: "0", Y: "0"}, {X: "100", Y: "-20"}, {X: "200", Y: "0"}}
	sag := must(t, d)
	require.True(t, sag.Drawn, "%+v", sag.Findings)
	assert.False(t, sag.Section.PanelLeft, "the rib lies above a curve that sags")
	assert.True(t, sag.Scores.Layout.Runs[0].Wraps)
	d.Curve.Points[1].Y = "20"
	assert.True(t, must(t, d).Section.PanelLeft)
}

func BenchmarkMakeFreeCurve(b *testing.B) {
	d := design.Empty()
	d.Panel.Width, d.Curve.Kind = "80", "points"
	d.Curve.Points = []design.Point{{X: "0", Y: "0"}, {X: "120", Y: "40"}, {X: "240", Y: "30"}, {X: "330", Y: "-10"}}
	v, _ := design.Read(d)
	for b.Loop() {
		Make(v)
	}
}
