package check

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"sort"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/bench"
	"springrib/internal/design"
	"springrib/internal/export"
	"springrib/internal/finding"
	"springrib/internal/part"
	"springrib/internal/plan"
	"springrib/internal/plane"
	"springrib/internal/support"
	"springrib/internal/unit"
)

// promise holds the files of one plan against what plan and bench sheet name.
type promise struct {
	t     *testing.T
	p     *plan.Plan
	files []cutFile
	// stopped are the parts of which a stop says that the file lacks something.
	stopped map[string]bool
	broken  []string
	light   bool // a further copy: that it is there is enough
}

// fileStops are the stops that say that a file lacks a feature, or has a wrong outline.
var fileStops = map[string]bool{"kerf-hole-lost": true, "kerf-not-allowed": true, "kerf-no-reach": true, "part-crosses": true, "corner-round": true}

func (k *promise) miss(id, format string, args ...any) {
	if !k.stopped[id] {
		k.broken = append(k.broken, id+": "+fmt.Sprintf(format, args...))
	}
}

// broken returns what the files of a drawn plan lack.
func broken(t *testing.T, p *plan.Plan, found []finding.Finding) []string {
	k := &promise{t: t, p: p, stopped: map[string]bool{}}
	for _, f := range found {
		if f.Severity == finding.Stop && fileStops[f.ID] {
			k.stopped[f.Place.Part] = true
		}
	}
	for _, j := range p.Lay.Jobs {
		k.files = append(k.files, readCutFile(t, export.SVG(j, export.SVGOptions{})))
	}
	at := 0
	for gi := range p.Lay.Sheets {
		g := &p.Lay.Sheets[gi]
		for s := range g.Layout.Sheets {
			if g.Layout.Sheets[s].Parts == 0 {
				continue
			}
			for _, pl := range g.Layout.Placed {
				if k.light = pl.Copy >= 3; pl.Sheet == s {
					k.piece(k.files[at], g.Parts[pl.Piece], pl.Move())
				}
			}
			at++
		}
	}
	for _, file := range k.files {
		k.whole(file)
	}
	k.sheet()
	return k.broken
}

// piece looks for all that is promised of one part.
func (k *promise) piece(f cutFile, pt part.Part, m plane.Affine) {
	r := pt.Outline.Apply(m)
	for i, h := range r.Holes {
		k.hole(f, pt.ID, i, h)
	}
	own := k.outer(f, pt, r.Outer, m)
	if pt.ID == "panel" && !k.light {
		k.scores(f, m)
		k.marks(f, m)
	}
	for _, s := range k.p.Supports.All {
		if k.p.Ribs.Kinds[s.Kind].ID == pt.ID && s.Task.Stub != nil && !k.p.Section.Closed {
			k.tenon(own, pt.ID, s, m)
			break
		}
	}
}

// cuts are all strokes that go through: parts in cut-outs go with the inner cuts.
func cuts(f cutFile) []*stroke {
	return append(append([]*stroke{}, f["inner-cuts"]...), f["outer-cuts"]...)
}

const near = 0.012 // mm: outlines to half of 0.01, kerf, fit and grid

func (k *promise) hole(f cutFile, id string, i int, h plane.Path) {
	kerf := k.p.V.Machine.Kerf
	pts, box := h.Flatten(0.002), h.Box()
	for _, s := range f["inner-cuts"] {
		if s.taken || !s.Closed || s.box.Centre().Dist(box.Centre()) > 0.05+kerf/8 || !box.Grow(0.01).Contains(s.box.Min) || !box.Grow(0.01).Contains(s.box.Max) {
			continue
		}
		s.taken = true
		k.follows(id+" hole "+strconv.Itoa(i+1), id, pts, s.pts)
		return
	}
	k.miss(id, "hole %d of %.2f by %.2f is not in the file", i+1, box.W(), box.H())
}

// follows holds a closed tool path against a finished edge: half a kerf off everywhere,
// up to corners.
func (k *promise) follows(what, id string, edge, path []plane.Point) {
	half := k.p.V.Machine.Kerf / 2
	cornered := half * 2.05 // inside corners down to 60 degrees, and outside ones kept sharp
	if len(path) == 0 || k.light {
		return
	}
	for _, q := range sampled(path) {
		off := toLine(edge, q)
		least := half
		if k.p.V.Cut.Relief {
			least = half * 0.5 // the short runs into inside corners
		}
		if off < least-near {
			k.miss(id, "%s: the tool eats %.3f into it", what, half-off)
			return
		}
	}
	for _, q := range sampled(edge) {
		if off := toLine(path, q); off > cornered+near {
			k.miss(id, "%s: the tool comes no nearer than %.3f at %.2f, %.2f", what, off, q.X, q.Y)
			return
		}
	}
}

// sampled returns points of a polyline and the middles of its pieces, some hundreds.
func sampled(pts []plane.Point) []plane.Point {
	var out []plane.Point
	step := max(1, len(pts)/100)
	for i := 0; i+1 < len(pts); i += step {
		out = append(out, pts[i], pts[i].Lerp(pts[i+1], 0.5))
	}
	return out
}

// outer looks for a part's outline, whole or in pieces between bridges.
func (k *promise) outer(f cutFile, pt part.Part, o plane.Path, m plane.Affine) []*stroke {
	half := k.p.V.Machine.Kerf / 2
	edge := o.Flatten(0.002)
	near := func(s *stroke) bool {
		if s.taken || !o.Box().Grow(half*2.05+0.05).Contains(s.box.Min) || !o.Box().Grow(half*2.05+0.05).Contains(s.box.Max) {
			return false
		}
		for _, q := range sampled(s.pts) {
			if off := toLine(edge, q); off > half*2.05+0.02 {
				return false
			}
		}
		return true
	}
	var pieces []*stroke
	for _, s := range cuts(f) {
		if s.Closed && near(s) && math.Abs(s.box.W()-o.Box().W()-2*half) < 0.05+2.2*half && math.Abs(s.box.H()-o.Box().H()-2*half) < 0.05+2.2*half {
			s.taken = true
			k.follows("outline", pt.ID, edge, s.pts)
			return []*stroke{s}
		}
	}
	for _, s := range cuts(f) {
		if !s.Closed && near(s) {
			s.taken = true
			pieces = append(pieces, s)
		}
	}
	if len(pieces) == 0 {
		worst := 0.0
		for _, s := range cuts(f) {
			if s.box.Overlaps(o.Box()) {
				for _, q := range sampled(s.pts) {
					worst = math.Max(worst, toLine(edge, q))
				}
			}
		}
		k.miss(pt.ID, "its outline is not in the file; a stroke there strays %.3f", worst)
		return nil
	}
	k.bridges(f, pt, pieces, edge)
	return pieces
}

// bridges looks at the gaps in an outline: as wide as promised, and nothing in them.
func (k *promise) bridges(f cutFile, pt part.Part, pieces []*stroke, edge []plane.Point) {
	v := k.p.V
	var ends []plane.Point // of pieces that may run either way
	for _, s := range pieces {
		ends = append(ends, s.Start(), s.End())
	}
	for i, a := range ends {
		gap, width := [2]plane.Point{a, a}, math.Inf(1)
		for k, b := range ends {
			if d := a.Dist(b); k != i && d < width {
				gap[1], width = b, d
			}
		}
		if math.Abs(width-v.Cut.BridgeWidth-v.Machine.Kerf) > 0.1*(v.Cut.BridgeWidth+v.Machine.Kerf)+0.02 {
			k.miss(pt.ID, "a bridge of %.3f", width)
		}
		for _, group := range []string{"score", "mark"} {
			width := 0.0
			if group == "score" {
				width = v.Machine.ScoreWidth / 2
			}
			for _, s := range f[group] {
				for i := 0; i+1 < len(s.pts); i++ {
					if apartLines(s.pts[i], s.pts[i+1], gap[0], gap[1]) < width {
						k.miss(pt.ID, "a %s runs over a bridge at %.2f, %.2f", group, gap[0].X, gap[0].Y)
					}
				}
			}
		}
	}
}

// apartLines is how far two straight lines are apart, 0 where they cross.
func apartLines(a, b, c, d plane.Point) float64 {
	if _, ok := crossesItself([]plane.Point{a, b, b, c, c, d}); ok {
		return 0
	}
	side := func(p, q, r plane.Point) float64 { return q.Sub(p).Cross(r.Sub(p)) }
	if side(a, b, c)*side(a, b, d) < 0 && side(c, d, a)*side(c, d, b) < 0 {
		return 0
	}
	return math.Min(math.Min(toLine([]plane.Point{a, b}, c), toLine([]plane.Point{a, b}, d)),
		math.Min(toLine([]plane.Point{c, d}, a), toLine([]plane.Point{c, d}, b)))
}

// covered tells whether one straight stroke of a group runs over both places.
func covered(strokes []*stroke, a, b plane.Point) bool {
	for _, s := range strokes {
		if s.box.Grow(0.03).Contains(a) && toLine(s.pts, a) < 0.02 && toLine(s.pts, b) < 0.02 {
			return true
		}
	}
	return false
}

// cone looks for the scores of a cone, each from rim to rim half way between two touches, and for
// the arcs of its rings: one at a rim has none.
func (k *promise) cone(f cutFile, m plane.Affine) {
	p := k.p
	if p.Panel.Mirror {
		m = m.Mul(plane.Scale(1, -1))
	}
	n, length := len(p.Scores.Layout.Folds), p.Scores.Layout.Length
	at := func(turn, past float64) plane.Point {
		return m.Apply(p.Panel.Fan.At(p.Panel.Fan.Angle*turn, past))
	}
	for i := range n {
		turn := (float64(i) + 0.5) / float64(n)
		if !covered(f["score"], at(turn, 0), at(turn, p.Width())) {
			k.miss("panel", "score %d is not in the file", i+1)
		}
	}
	lapped := 0
	for i := range n { // over the lap they go on as they begin
		turn := (float64(n+i) + 0.5) / float64(n)
		if p.Gores() > 1 || !k.overLap((turn-1)*length) {
			break
		}
		lapped++
		if !covered(f["score"], at(turn, 0), at(turn, p.Width())) {
			k.miss("panel", "score %d of the lap is not in the file", i+1)
		}
	}
	if p.ScoresCut() != n+lapped {
		k.miss("panel", "%d scores go round and %d over the lap, the plan has %d", n, lapped, p.ScoresCut())
	}
	for _, s := range p.Supports.All {
		if s.Mark.Turned || s.Mark.To <= s.Mark.From {
			continue
		}
		past := s.Height / math.Cos(p.Section.Cone.Lean())
		for j := range 21 {
			q, on := at(math.Min(s.Mark.To, length)/length*float64(j)/20, past), false
			for _, stroke := range f["mark"] {
				on = on || toLine(stroke.pts, q) < 0.02
			}
			if !on {
				k.miss("panel", "the line of the ring %.2f across is not in the file", s.Across)
				break
			}
		}
	}
}

// overLap tells whether the lap of the seam is to be scored a place past once round, mm: land
// and a score's width are kept from its end.
func (k *promise) overLap(u float64) bool {
	p := k.p
	return p.Section.Closed && p.V.Curve.Seam == design.Lap && u <= p.Outline.Length-p.Round()-p.V.Panel.MinLand-p.V.Machine.ScoreWidth
}

// skin looks for the scores of a panel between two ribs, each from the one edge to the other, and for
// the lines of its ribs, which divide all scores alike.
func (k *promise) skin(f cutFile, m plane.Affine) {
	p := k.p
	if p.Panel.Mirror {
		m = m.Mul(plane.Scale(1, -1))
	}
	const over = 0.02 // the edges of what is cut are fitted, and the file's places rounded
	look := func(i int, a, b plane.Point, what string) {
		for _, s := range p.Panel.Flat.Stops { // which the page says; at which end the line itself shows
			if s.Score == i+1 {
				a, b = a.Lerp(b, s.Short/a.Dist(b)), b.Lerp(a, s.Short/a.Dist(b))
			}
		}
		d := b.Sub(a).Unit().Mul(over)
		if !covered(f["score"], m.Apply(a.Add(d)), m.Apply(b.Sub(d))) {
			k.miss("panel", "score %d%s is not in the file", i+1, what)
		}
	}
	folds, w := p.Scores.Layout.Folds, p.Width()/2
	lapped := 0
	for i, fold := range folds {
		look(i, p.InFlat(fold.U, -w), p.InFlat(fold.U, w), "")
		if k.overLap(fold.U) {
			lapped++
			u := fold.U + p.Scores.Layout.Length
			look(i, p.InFlat(u, -w), p.InFlat(u, w), " of the lap")
		}
	}
	if p.ScoresCut() != len(folds)+lapped {
		k.miss("panel", "%d scores go along and %d over the lap, the plan has %d", len(folds), lapped, p.ScoresCut())
	}
	for _, s := range p.Supports.All {
		if s.Mark.Turned || s.Mark.To <= s.Mark.From {
			continue
		}
		for _, fold := range folds {
			q, on := m.Apply(p.InFlat(fold.U, s.Line-w)), false
			for _, stroke := range f["mark"] {
				on = on || toLine(stroke.pts, q) < 0.02
			}
			if !on && fold.U <= s.Mark.To {
				k.miss("panel", "the line of the rib %.2f across is not in the file at score place %.2f", s.Across, fold.U)
				break
			}
		}
	}
}

func (k *promise) scores(f cutFile, m plane.Affine) {
	switch {
	case k.p.Panel.Fan != nil:
		k.cone(f, m)
		return
	case k.p.Panel.Net != nil:
		k.skin(f, m)
		return
	}
	p, lines := k.p, 0
	var places []float64
	for _, fold := range p.Scores.Layout.Folds {
		places = append(places, fold.U)
	}
	for _, fold := range p.Scores.Layout.Folds {
		if !k.overLap(fold.U) {
			break
		}
		places = append(places, math.Round(p.Round()*1000)/1000+fold.U)
	}
	for i, place := range places {
		x, on := math.Round(place*1000)/1000, false
		for _, s := range alongX(p.Panel.Flat.Outline, x) {
			if s[1]-s[0] < 0.2 {
				continue
			}
			on = true
			if !covered(f["score"], m.Apply(plane.Pt(x, s[0])), m.Apply(plane.Pt(x, s[1]))) {
				k.miss("panel", "score %d is not in the file from %.2f to %.2f", i+1, s[0], s[1])
			}
		}
		if on {
			lines++
		}
	}
	if lines > p.ScoresCut() || lines < p.ScoresCut()-2 { // shorter than 0.2
		k.miss("panel", "%d scores cross the panel, the plan has %d", lines, p.ScoresCut())
	}
}

func (k *promise) marks(f cutFile, m plane.Affine) {
	if k.p.Ruled() {
		return // see cone and skin
	}
	if k.p.Panel.Mirror {
		m = m.Mul(plane.Scale(1, -1))
	}
	for _, s := range k.p.Supports.All {
		if s.Mark.Turned {
			continue
		}
		if !covered(f["mark"], m.Apply(plane.Pt(s.Mark.From, s.Mark.Across)), m.Apply(plane.Pt(s.Mark.To, s.Mark.Across))) {
			k.miss("panel", "the glue mark %.2f across is not in the file", s.Mark.Across)
		}
	}
	for i, d := range k.p.Outline.Marks {
		if !covered(f["mark"], m.Apply(d.Start()), m.Apply(d.End())) {
			k.miss("panel", "drawn mark %d is not in the file", i+1)
		}
	}
}

// tenon measures a stub where the tool is past the rounding of its shoulders.
func (k *promise) tenon(own []*stroke, id string, s support.Support, m plane.Affine) {
	foot := s.Task.Edge.At(s.Task.Start)
	out, in := foot.Tangent().Mul(-1), foot.Tangent().Left()
	if s.Task.PanelLeft {
		in = in.Mul(-1)
	}
	half := k.p.V.Machine.Kerf / 2
	if s.Task.Stub.Depth < half+0.2 {
		return // shorter than the tool is round
	}
	mid := foot.P.Add(in.Mul(s.Task.FootDepth / 2)).Add(out.Mul((s.Task.Stub.Depth + half) / 2))
	o, d := m.Apply(mid), m.Apply(mid.Add(in)).Sub(m.Apply(mid))
	lo, hi := math.Inf(-1), math.Inf(1)
	if len(own) == 0 {
		return // which is told
	}
	for _, c := range own {
		for i := 0; i+1 < len(c.pts); i++ {
			a, b := c.pts[i].Sub(o), c.pts[i+1].Sub(o)
			u, w := d.Cross(a), d.Cross(b)
			if (u > 0) == (w > 0) {
				continue
			}
			at := a.Lerp(b, u/(u-w)).Dot(d)
			if at < 0 {
				lo = math.Max(lo, at)
			} else {
				hi = math.Min(hi, at)
			}
		}
	}
	if want := math.Min(s.Task.Stub.Width, s.Task.FootDepth) + k.p.V.Machine.Kerf; math.Abs(hi-lo-want) > near {
		k.miss(id, "its tenon is %.3f wide in the file, not %.3f", hi-lo, want)
	}
}

// whole looks at the strokes by themselves.
func (k *promise) whole(f cutFile) {
	var groups []string
	for g := range f {
		groups = append(groups, g)
	}
	sort.Strings(groups)
	for _, g := range groups {
		for _, s := range f[g] {
			for _, seg := range s.Segs {
				if l := seg.Length(); l < 0.01 {
					k.broken = append(k.broken, fmt.Sprintf("%s: a segment of %.4f", g, l))
				}
			}
			if len(k.stopped) > 0 || g == "score" || g == "mark" {
				continue
			}
			if at, ok := crossesItself(s.pts); ok {
				k.broken = append(k.broken, fmt.Sprintf("%s: an outline crosses itself at %.2f, %.2f", g, at.X, at.Y))
			}
			if !s.taken && !strings.Contains(g, "-cuts-") {
				k.broken = append(k.broken, fmt.Sprintf("%s: a stroke of no part", g))
			}
		}
	}
}

var benchSlots = regexp.MustCompile(`^(\d+) slots? of (.+?) by (.+?) takes? (?:a tenon|tenons) of (.+?) by (.+?)\. `)

// sheet holds the bench sheet's own words against the plan's parts, which by now are held
// against the file.
func (k *promise) sheet() {
	p := k.p
	b := bench.Make(p, Run(p))
	if !strings.Contains(b.Lead, " "+strings.TrimSuffix(counted(p.ScoresCut(), "score", "", ""), " ")+", bent") {
		k.miss("panel", "the bench sheet's lead is %q, the file has %d scores", b.Lead, p.ScoresCut())
	}
	for _, s := range b.Sections {
		for _, st := range s.Steps {
			switch st.ID {
			case "base":
				k.slots(st.How)
			case "free":
				n := 0
				for _, f := range k.files {
					for _, c := range cuts(f) {
						if !c.Closed {
							n++
						}
					}
				}
				if !strings.HasPrefix(st.How, strconv.Itoa(n)+" bridge") {
					k.miss("panel", "%d bridges in the file: %s", n, st.How)
				}
			case "dry":
				if p.ScoresCut() > 0 && !strings.Contains(st.How, "Its "+unit.Plural(p.ScoresCut(), "score")+" turn") {
					k.miss("panel", "%d scores in the file: %s", p.ScoresCut(), st.How)
				}
			}
		}
	}
}

func (k *promise) slots(how string) {
	p := k.p
	for _, s := range p.Base.Slots[1:] {
		if first := p.Base.Slots[0]; math.Abs(s.Width-first.Width) > 0.005 || math.Abs(s.Length-first.Length) > 0.005 {
			assert.Contains(k.t, how, strconv.Itoa(len(p.Base.Slots))+" slots take the tenons")
			return
		}
	}
	said := benchSlots.FindStringSubmatch(how)
	if !assert.NotNil(k.t, said, how) {
		return
	}
	if said[1] != strconv.Itoa(len(p.Base.Slots)) {
		k.miss("base", "%d slots: %s", len(p.Base.Slots), how)
	}
	if s := p.Base.Slots[0]; said[2] != unit.LengthFit(s.Width, p.V.Units) || said[3] != unit.LengthFit(s.Length, p.V.Units) {
		k.miss("base", "slots of %v by %v: %s", s.Width, s.Length, how)
	}
	for _, s := range p.Supports.All {
		if s.Foot == design.Tenon {
			if said[4] != unit.LengthFit(s.Thickness, p.V.Units) || said[5] != unit.LengthFit(s.Task.Stub.Width, p.V.Units) {
				k.miss("base", "a tenon of %v by %v: %s", s.Thickness, s.Task.Stub.Width, how)
			}
			break
		}
	}
}

// promised runs a document through; drawn is false for what has no files.
func promised(t *testing.T, d design.Document) (drawn bool, problems []string) {
	v, found := design.Read(d)
	if finding.Worst(found) == finding.Stop {
		return false, nil
	}
	p := new(plan.Memory).Alone(v)
	if !p.Drawn {
		return false, nil
	}
	return true, broken(t, &p, Judged(&p))
}

// Every feature that plan and bench sheet name is found again in the file as written, or a
// stop says that it is not: scores, glue marks, holes, slots, tenons, outlines, bridges;
// and no path has a piece below 0.01 mm, is open, or runs across itself.
func TestWhatIsPromisedIsInTheFile(t *testing.T) {
	designs := 300
	if testing.Short() || runtime.GOARCH == "wasm" {
		designs = 40
	}
	docs := map[string]design.Document{}
	for _, e := range design.Examples() {
		docs["example "+e.ID] = e.Design
	}
	files, err := filepath.Glob("../../testdata/designs/*.json")
	require.NoError(t, err)
	for _, name := range files {
		if data, err := os.ReadFile(name); err == nil {
			if d, _, err := design.Open(data); err == nil {
				docs[name] = d
			}
		}
	}
	r := rand.New(rand.NewPCG(121, 122))
	for i := range designs {
		docs[fmt.Sprintf("random %3d", i)] = jointed(r)
	}
	var names []string
	for n := range docs {
		names = append(names, n)
	}
	sort.Strings(names)
	drawn, kinds := 0, map[string]int{}
	for _, n := range names {
		if only := os.Getenv("ONLY"); only != "" && !strings.Contains(only+",", n+",") {
			continue
		}
		ok, problems := promised(t, docs[n])
		if ok {
			drawn++
		}
		for _, pr := range problems {
			kinds[regexp.MustCompile(`[-\d.]+`).ReplaceAllString(pr, "#")]++
		}
		if len(problems) > 0 {
			assert.Fail(t, n, "%s\n%s", strings.Join(problems, "\n"), typed(docs[n]))
		}
	}
	t.Log(drawn, "drawn", kinds)
	assert.Greater(t, drawn, len(docs)/4)
}

// jointed is a troubled design with joints, holes, marks and bridges more often.
func jointed(r *rand.Rand) design.Document {
	d := troubled(r)
	pick := func(xs ...string) string { return xs[r.IntN(len(xs))] }
	num := func(lo, hi float64) string { return fixed(lo+(hi-lo)*r.Float64()) + " mm" }
	d.Machine.Kerf = pick("", "0", num(0.05, 0.6), num(0.05, 0.6), "3.175 mm")
	if r.IntN(2) == 0 {
		d.Rib.Foot, d.Base.Kind = "tenon", pick("row", "ring")
	}
	for range r.IntN(3) {
		d.Panel.Holes = append(d.Panel.Holes, design.Hole{Kind: pick("round", "slot"), Along: num(10, 120), Across: num(-20, 20), Width: num(0.1, 12), Length: num(12, 40), Turn: fixed(180 * r.Float64())})
	}
	d.Cut.Bridges, d.Cut.Relief = pick("", "all", "all"), pick("", "none")
	d.Cut.BridgeWidth = pick("", "", num(0.2, 6))
	return d
}
