package plan

import (
	"fmt"
	"math"
	"math/rand"
	"runtime"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/cut"
	"springrib/internal/design"
	"springrib/internal/lay"
	"springrib/internal/part"
	"springrib/internal/plane"
	"springrib/internal/sheet"
)

// randomJob is a design of any shape, tool and way of lying on the sheet that the form
// can ask for.
func randomJob(rng *rand.Rand) design.Document {
	f := func(lo, hi float64) string { return strconv.FormatFloat(lo+(hi-lo)*rng.Float64(), 'f', 2, 64) }
	n := func(lo, hi int) string { return strconv.Itoa(lo + rng.Intn(hi-lo+1)) }
	pick := func(s ...string) string { return s[rng.Intn(len(s))] }
	d := design.Empty()
	d.Machine.Tool = pick("laser", "laser", "router", "knife")
	d.Machine.BedWidth, d.Machine.BedHeight = f(500, 1200), f(400, 900)
	d.Machine.Kerf = f(0, 0.6)
	d.Curve.Radius, d.Curve.Angle, d.Curve.Foot, d.Curve.Tip = f(90, 300), f(30, 90), f(0, 30), f(0, 30)
	d.Panel.Shape = pick("rectangle", "taper", "ellipse", "lens", "sector", "polygon")
	d.Panel.Width = f(30, 110)
	switch d.Panel.Shape {
	case "rectangle":
		d.Panel.CornerRadius = f(0, 10)
	case "taper":
		d.Panel.FootWidth, d.Panel.WidestWidth, d.Panel.TipWidth = f(30, 60), f(60, 110), f(20, 60)
		d.Panel.TipRound = rng.Intn(2) == 0
	case "sector":
		d.Panel.InnerRadius, d.Panel.SectorAngle = f(20, 150), f(10, 40)
	case "polygon":
		d.Panel.Corners = []design.Corner{{Along: "0", Across: f(-50, -20)}, {Along: f(60, 90), Across: f(-70, -50), Radius: "3"}, {Along: f(100, 140), Across: f(-60, -10)},
			{Along: f(60, 80), Across: f(5, 10)}, {Along: f(100, 140), Across: f(30, 60)}, {Along: "0", Across: f(20, 40)}}
	}
	for range rng.Intn(3) {
		d.Panel.Holes = append(d.Panel.Holes, design.Hole{Kind: pick("round", "slot"), Along: f(10, 100), Across: f(-40, 40), Width: f(3, 14), Length: f(16, 40), Turn: f(0, 180)})
	}
	d.Panel.Quantity, d.Rib.Quantity = n(1, 6), n(1, 3)
	d.Panel.Overrun = pick("auto", f(0, 8))
	d.Rib.FootDepth, d.Rib.TipDepth, d.Rib.Foot = f(12, 40), f(6, 12), pick("plain", "stub", "tenon")
	d.Rib.Stock = pick("same", "same", "mdf-6")
	d.Base.Kind = pick("none", "none", "row", "ring")
	d.Base.Copies = n(1, 3)
	d.Cut.Gap, d.Cut.Margin = f(0, 10), f(0, 15)
	d.Cut.Turns = pick("grain", "none", "half", "quarter")
	d.Cut.CutOuts, d.Cut.EveryThird, d.Cut.RepeatLayers = rng.Intn(2) == 0, rng.Intn(2) == 0, rng.Intn(3) == 0
	d.Cut.Bridges, d.Cut.BridgeBelow = pick("small", "none", "all"), f(0, 60)
	if rng.Intn(3) == 0 {
		d.Cut.Scrap = []design.ScrapPoint{{X: f(0, 20), Y: f(0, 20)}, {X: f(250, 450), Y: f(0, 40)}, {X: f(250, 450), Y: f(200, 350)}, {X: f(100, 200), Y: f(150, 350)}, {X: f(0, 20), Y: f(200, 300)}}
	}
	if rng.Intn(4) == 0 {
		d.Cut.Pins = []design.Pin{{Part: "panel", X: f(20, 80), Y: f(20, 80), Turn: pick("0", "90", "17")}}
	}
	return d
}

// Three hundred random jobs, half of them packed: checked by package sheet's exact test
// and by polygons of our own, never by what laid them.
func TestNothingCrosses(t *testing.T) {
	jobs := 300
	if testing.Short() || runtime.GOARCH == "wasm" {
		jobs = 30
	}
	rng := rand.New(rand.NewSource(20))
	drawn, packed := 0, 0
	tried := 0
	for i := 0; drawn < jobs; i++ {
		tried++
		d := randomJob(rng)
		v, _ := design.Read(d)
		p := alone(v)
		if !p.Drawn {
			continue
		}
		if i%2 == 1 {
			_, lays := packOf(v, 150_000)
			v.Cut.Places = lays
			if p = alone(v); p.Lay.Sheets[0].Packed {
				packed++
			}
		}
		drawn++
		if problem := crosses(&p); !assert.Empty(t, problem, "job %d", i) {
			return
		}
	}
	assert.Less(t, tried, 2*jobs, "most of the jobs can be drawn")
	assert.Greater(t, packed, jobs/3)
	t.Logf("%d jobs drawn of %d, %d of them packed", drawn, tried, packed)
}

// crosses returns what is wrong with the jobs of a plan, "" for nothing.
func crosses(p *Plan) string {
	pinned := map[string]bool{}
	for _, g := range p.Lay.Sheets {
		for _, pc := range g.Job.Pieces {
			pinned[pc.ID] = len(pc.Pins) > 0
		}
		for _, f := range sheet.Verify(&g.Job, &g.Layout) {
			if f.A >= 0 && len(g.Job.Pieces[g.Layout.Placed[f.A].Piece].Pins) > 0 {
				continue // the person's own place: told of, not moved
			}
			return fmt.Sprintf("verify: %+v", f)
		}
	}
	// The jobs come sheet by sheet in the order of the groups.
	at := 0
	for gi := range p.Lay.Sheets {
		g := &p.Lay.Sheets[gi]
		for s := range g.Layout.Sheets {
			if g.Layout.Sheets[s].Parts == 0 {
				continue
			}
			if problem := sheetCrosses(p, g, s, p.Lay.Jobs[at], pinned); problem != "" {
				return fmt.Sprintf("sheet %d: %s", at+1, problem)
			}
			at++
		}
	}
	if at != len(p.Lay.Jobs) {
		return "jobs without a sheet"
	}
	return ""
}

// copyCut is one copy as the job cuts it.
type copyCut struct {
	id               string
	scores           []plane.Path
	lengths          map[cut.Kind]float64
	counts           map[cut.Kind]int
	outline, allowed plane.Region // finished, and where the tool's middle runs
	inner            []plane.Box  // of inner cuts
	pinned           bool
}

func boxes(work []part.Work, m plane.Affine) []plane.Box {
	var out []plane.Box
	for _, w := range work {
		if w.Kind == cut.Inner {
			out = append(out, w.Path.Apply(m).Box())
		}
	}
	return out
}

func sheetCrosses(p *Plan, g *lay.Group, s int, j cut.Job, pinned map[string]bool) string {
	copies := map[string]*copyCut{}
	for _, pl := range g.Layout.Placed {
		if pl.Sheet != s {
			continue
		}
		src := g.Parts[pl.Piece]
		id := src.ID
		if src.Quantity > 1 {
			id += " " + strconv.Itoa(pl.Copy+1)
		}
		if copies[id] != nil {
			return id + " lies there twice"
		}
		copies[id] = &copyCut{id: id, lengths: map[cut.Kind]float64{}, counts: map[cut.Kind]int{},
			inner: boxes(p.Lay.Works[src.ID], pl.Move()), outline: src.Outline.Apply(pl.Move()), allowed: src.Free().Apply(pl.Move()), pinned: pinned[src.ID]}
	}
	last, done := cut.Score, map[cut.Kind]bool{}
	for _, o := range j.Operations {
		nested := g.Job.CutOuts && o.Kind == cut.Inner
		if o.Kind < last && !nested {
			return "operations out of order"
		}
		last = o.Kind
		if done[o.Kind] {
			continue // a pass that repeats the layer before
		}
		done[o.Kind] = true
		for _, st := range o.Strokes {
			c := copies[st.Part]
			if c == nil {
				return "a stroke of no part: " + st.Part
			}
			kind := o.Kind
			if nested && !c.isInner(st.Path) {
				kind = cut.Outer // a part in a cut-out goes with the inner cuts
			}
			c.lengths[kind] += st.Path.Length()
			c.counts[kind]++
			if kind == cut.Score {
				c.scores = append(c.scores, st.Path)
			}
			b := st.Path.Box()
			if !c.pinned && (b.Min.X < -1e-6 || b.Min.Y < -1e-6 || b.Max.X > j.Width+1e-6 && len(p.V.Cut.Scrap) == 0 || b.Max.Y > j.Height+1e-6 && len(p.V.Cut.Scrap) == 0) {
				return st.Part + " leaves the bed"
			}
		}
	}
	for id, c := range copies {
		src := part0(g, id)
		want, counts := map[cut.Kind]float64{}, map[cut.Kind]int{}
		for _, w := range p.Lay.Works[src] {
			want[w.Kind] += w.Path.Length()
			counts[w.Kind]++
		}
		for _, k := range cut.Kinds() {
			if counts[k] != c.counts[k] {
				return fmt.Sprintf("%s: %d strokes of kind %d, the plan has %d", id, c.counts[k], k, counts[k])
			}
			if math.Abs(want[k]-c.lengths[k]) > 1e-6*(1+want[k]) {
				return fmt.Sprintf("%s: %v mm of kind %d, the plan has %v", id, c.lengths[k], k, want[k])
			}
		}
		if problem := c.reenters(); problem != "" {
			return problem
		}
		for other, e := range copies {
			if other == id || c.pinned || e.pinned {
				continue
			}
			for _, sc := range c.scores {
				if in := inside(e.allowed, sc, g.Job.CutOuts); in > 0.003 {
					return fmt.Sprintf("a score of %s runs %v mm through %s", id, in, other)
				}
			}
			if overlaps(c.allowed, e.allowed, g.Job.CutOuts) {
				return id + " and " + other + " overlap"
			}
		}
	}
	return ""
}

func part0(_ *lay.Group, id string) string {
	kind, _, _ := strings.Cut(id, " ")
	return kind
}

// isInner tells whether a stroke is one of the part's own holes.
func (c *copyCut) isInner(path plane.Path) bool {
	for _, h := range c.inner {
		if math.Abs(h.W()-path.Box().W()) < 1e-6 && h.Centre().Dist(path.Box().Centre()) < 1e-6 {
			return true
		}
	}
	return false
}

// reenters tells whether the material under a score is not one piece: its overruns must
// end in the air.
func (c *copyCut) reenters() string {
	for i, s := range c.scores {
		a, b := s.Start(), s.End()
		spans := 0
		for _, sp := range c.outline.ClipSegment(a, b) {
			if !sp.Graze && sp.Len() > 1e-6 {
				spans++
			}
		}
		if spans != 1 {
			return fmt.Sprintf("%s: score stroke %d crosses %d pieces of material", c.id, i, spans)
		}
	}
	return ""
}

// inside returns the length of a straight stroke that lies in a region.
func inside(r plane.Region, s plane.Path, holesCount bool) float64 {
	if !holesCount {
		r.Holes = nil
	}
	if !r.Box().Overlaps(s.Box()) {
		return 0
	}
	l := 0.0
	for _, sp := range r.ClipSegment(s.Start(), s.End()) {
		l += sp.Len()
	}
	return l
}

// overlaps tells whether two outlines cross or one lies in the other, as polygons within
// 0.005 mm.
func overlaps(a, b plane.Region, holesCount bool) bool {
	if !a.Box().Overlaps(b.Box()) {
		return false
	}
	pa, pb := a.Outer.Flatten(0.005), b.Outer.Flatten(0.005)
	shrink := func(pts []plane.Point, c plane.Point) []plane.Point { // parts may touch where the gap is 0
		out := make([]plane.Point, len(pts))
		for i, q := range pts {
			d := q.Sub(c)
			out[i] = c.Add(d.Mul(1 - 0.012/math.Max(d.Len(), 1)))
		}
		return out
	}
	pa, pb = shrink(pa, a.Outer.Box().Centre()), shrink(pb, b.Outer.Box().Centre())
	for i := 0; i+1 < len(pa); i++ {
		for k := 0; k+1 < len(pb); k++ {
			if properly(pa[i], pa[i+1], pb[k], pb[k+1]) {
				return true
			}
		}
	}
	within := func(r plane.Region, q plane.Point) bool {
		if !r.Outer.Contains(q) {
			return false
		}
		for _, h := range r.Holes {
			if holesCount && h.Contains(q) {
				return false
			}
		}
		return true
	}
	return within(a, pb[0]) || within(b, pa[0])
}

func properly(a, b, c, d plane.Point) bool {
	if math.Max(a.X, b.X) < math.Min(c.X, d.X) || math.Max(c.X, d.X) < math.Min(a.X, b.X) || math.Max(a.Y, b.Y) < math.Min(c.Y, d.Y) || math.Max(c.Y, d.Y) < math.Min(a.Y, b.Y) {
		return false
	}
	side := func(p, q, r plane.Point) float64 { return q.Sub(p).Cross(r.Sub(p)) }
	return side(a, b, c)*side(a, b, d) < 0 && side(c, d, a)*side(c, d, b) < 0
}

// The check itself must see what it is there to see.
func TestCrossesSeesFaults(t *testing.T) {
	for name, harm := range map[string]func(p *Plan){
		"moved": func(p *Plan) { p.Lay.Sheets[0].Layout.Placed[1].X = p.Lay.Sheets[0].Layout.Placed[0].X + 3 },
		"lost":  func(p *Plan) { p.Lay.Jobs[0].Operations[0].Strokes = p.Lay.Jobs[0].Operations[0].Strokes[1:] },
		"twice": func(p *Plan) {
			o := &p.Lay.Jobs[0].Operations[0]
			o.Strokes = append(o.Strokes, o.Strokes[0])
		},
		"order": func(p *Plan) {
			o := p.Lay.Jobs[0].Operations
			o[0], o[len(o)-1] = o[len(o)-1], o[0]
		},
		"long": func(p *Plan) {
			s := &p.Lay.Jobs[0].Operations[0].Strokes[0].Path.Segs[0]
			s.B = s.B.Add(s.B.Sub(s.A).Mul(3))
		},
	} {
		p := must(t, fins(3))
		require.Empty(t, crosses(&p))
		harm(&p)
		assert.NotEmpty(t, crosses(&p), name)
	}
}
