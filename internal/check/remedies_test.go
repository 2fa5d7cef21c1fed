package check

import (
	"fmt"
	"math"
	"math/rand/v2"
	"sort"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/plan"
)

// told is a design as the page tells of it.
type told struct {
	drawn    bool
	findings []finding.Finding
}

func tell(d design.Document) told {
	v, found := design.Read(d)
	if finding.Worst(found) == finding.Stop {
		return told{findings: found}
	}
	p := plan.Make(v)
	return told{p.Drawn, append(found, Tried(d, &p)...)}
}

// measures are the numbers that say how bad a finding is, by id; what is not listed has
// to be gone.
var measures = map[string]func(n map[string]float64) float64{
	"strain-over":   func(n map[string]float64) float64 { return n["use"] },
	"kerf-pinches":  func(n map[string]float64) float64 { return n["use"] },
	"flats-visible": func(n map[string]float64) float64 { return n["height"] },
	"folds-visible": func(n map[string]float64) float64 { return n["fold"] },
	"bridges-few":   func(n map[string]float64) float64 { return n["wanted"] - n["bridges"] },
	"rib-weak":      func(n map[string]float64) float64 { return n["use"] },
}

var rank = map[finding.Severity]int{finding.Stop: 0, finding.Warn: 1, finding.Note: 2}

// lessened tells whether a finding is gone, or still there and less.
func lessened(f finding.Finding, after []finding.Finding) bool {
	for _, g := range after {
		if g.ID != f.ID || g.Place.Field != f.Place.Field || g.Place.Part != f.Place.Part {
			continue
		}
		if rank[g.Severity] > rank[f.Severity] {
			continue
		}
		if m := measures[f.ID]; m != nil && m(g.Numbers) < 0.99*m(f.Numbers) {
			continue
		}
		return false
	}
	return true
}

func apply(t *testing.T, d design.Document, r finding.Remedy) design.Document {
	t.Helper()
	for _, path := range design.Paths(r.Set) {
		var ok bool
		d, ok = design.Set(d, path, r.Set[path])
		require.True(t, ok, "%s: %+v", path, r)
	}
	return d
}

// Every remedy of every finding, taken, mends that finding or lessens it, and leaves a
// design that was drawn drawn. A remedy that sets nothing only says where to go.
func TestEveryRemedyMends(t *testing.T) {
	designs := 40
	r := rand.New(rand.NewPCG(91, 92))
	tried, without := map[string]int{}, map[string]int{}
	var docs []design.Document
	for _, e := range design.Examples() {
		docs = append(docs, e.Design)
	}
	for len(docs) < designs {
		docs = append(docs, troubled(r))
	}
	for i, d := range docs {
		before := tell(d)
		for _, f := range before.findings {
			clicks := 0
			for _, remedy := range f.Remedies {
				if len(remedy.Set) == 0 {
					continue
				}
				clicks++
				tried[f.ID]++
				after := tell(apply(t, d, remedy))
				if !lessened(f, after.findings) || before.drawn && !after.drawn {
					assert.Fail(t, "not mended", "design %d: %s at %q by %q %v: %s -> drawn %v, %s\n%s", i, f.ID, f.Place.Field, remedy.Text, remedy.Set, f.Text, after.drawn, of(f, after), typed(d))
				}
			}
			assert.NotEqual(t, "does-not-fit", f.ID, "design %d: %s\n%s", i, f.Text, typed(d))
			if f.Severity == finding.Stop && clicks == 0 {
				for _, g := range before.findings {
					if g.ID == "nothing-works" && len(g.Remedies) > 0 {
						clicks++ // which mends it as well
					}
				}
			}
			if f.Severity == finding.Stop && clicks == 0 {
				without[f.ID+" "+f.Place.Field]++
			}
		}
	}
	t.Log("tried", tried)
	t.Log("stops without", without)
}

func of(f finding.Finding, after told) string {
	out := ""
	for _, g := range after.findings {
		if g.ID == f.ID || g.Severity == finding.Stop {
			out += fmt.Sprintf("%s %s %q: %s; ", g.Severity, g.ID, g.Place.Field, g.Text)
		}
	}
	return out
}

func typed(d design.Document) string {
	out, empty := "", design.Empty()
	var paths []string
	for _, f := range design.Fields() {
		paths = append(paths, f.Path)
	}
	sort.Strings(paths)
	for _, p := range paths {
		if now, ok := design.Get(d, p); ok {
			if was, _ := design.Get(empty, p); was != now {
				out += p + "=" + now + " "
			}
		}
	}
	return out + fmt.Sprintf("%+v %+v %+v %+v", d.Curve, d.Panel, d.Rib, d.Base)
}

func fixed(v float64) string { return strconv.FormatFloat(v, 'f', 2, 64) }

// troubled is a design of which much is to be said: figures at the edge of sense, with
// curves, outlines, ribs, bases and machines of every kind.
func troubled(r *rand.Rand) design.Document {
	pick := func(xs ...string) string { return xs[r.IntN(len(xs))] }
	num := func(lo, hi float64) string { return fixed(lo * math.Pow(hi/lo, r.Float64())) }
	some := func(n int, texts ...string) string { // a text one time in n
		if r.IntN(n) > 0 {
			return ""
		}
		return pick(texts...)
	}
	plain := num
	d := design.Empty()
	d.Units = pick("mm", "mm", "mm", "in")
	if d.Units == "in" {
		num = func(lo, hi float64) string { return fixed(lo*math.Pow(hi/lo, r.Float64())) + " mm" }
	}
	d.Sheet.Stock = pick("mdf-3", "mdf-3", "mdf-6", "birch-3", "birch-4", "birch-6", "basswood-1.5", "acrylic-3", "pvc-3")
	d.Sheet.Grain = some(3, "along", "across")
	if r.IntN(2) == 0 {
		d.Sheet.StrainLimit, d.Sheet.StrainTested = some(3, "0.4", "0.9"), r.IntN(2) == 0
	}
	m := &d.Machine
	m.Tool = pick("laser", "laser", "router", "knife")
	m.ScoreWidth, m.Kerf, m.DepthSpread = some(3, "0.1", "0.3", "1"), some(3, "0", "0.4", "3"), some(3, "0.02", "0.15")
	if r.IntN(3) == 0 {
		m.Speed, m.Acceleration = plain(20, 400), plain(300, 5000)
	}
	if r.IntN(4) == 0 {
		m.BedWidth, m.BedHeight = num(150, 900), num(150, 900)
	}
	w := 10 * math.Pow(30, r.Float64())
	radius := 20 * math.Pow(30, r.Float64())
	c := &d.Curve
	c.Line = pick("contact", "contact", "outer", "neutral")
	c.Foot, c.Tip = some(2, "0", "3", "12", "40"), some(2, "0", "3", "12", "40")
	switch c.Kind = pick("radius-angle", "radius-angle", "span-rise", "length-radius", "chain", "points", "box", "oval"); c.Kind {
	case "radius-angle":
		c.Radius, c.Angle = fixed(radius), plain(5, 170)
	case "span-rise":
		c.Span, c.Rise = fixed(radius), fixed(radius*(0.03+0.4*r.Float64()))
	case "length-radius":
		c.Length, c.Radius = fixed(radius*(0.1+2*r.Float64())), fixed(radius)
	case "points":
		for i := range 3 + r.IntN(4) {
			c.Points = append(c.Points, design.Point{X: fixed(float64(i) * (20 + 40*r.Float64())), Y: fixed(40 * r.Float64())})
		}
	case "box":
		c.BoxWidth, c.BoxHeight, c.Corner = num(60, 500), num(60, 500), num(5, 60)
		c.Seam = pick("butt", "lap")
	case "oval":
		c.BoxWidth, c.BoxHeight, c.Seam, c.Trim = num(100, 500), num(100, 500), pick("butt", "lap"), some(2, "0", "3")
	case "chain":
		for range 1 + r.IntN(4) {
			c.Pieces = append(c.Pieces, design.Piece{Turn: pick("over", "over", "back", "straight"), Length: num(10, 120), Radius: num(15, 400)})
		}
	}
	p := &d.Panel
	p.Width, p.Length = fixed(w), some(4, fixed(5+300*r.Float64()))
	p.ScoredFace, p.ShowFace = pick("hollow", "hollow", "round"), pick("hollow", "round", "round")
	p.Spacing, p.Count, p.Pitch = pick("follow", "follow", "even", "count", "pitch"), plain(1, 90), num(0.5, 12)
	p.Count = strconv.Itoa(1 + r.IntN(80))
	p.Passes, p.Finish = pick("auto", "auto", "1", "2", "3", "7"), pick("gloss", "satin", "hidden", "any")
	p.StandOff, p.MinLand, p.Overrun = some(3, "0.01", "0.1", "1"), some(3, "0.3", "3"), pick("auto", "auto", "0.5", "4")
	p.Quantity = some(5, "3", "200")
	p.Along, p.Across = some(5, "-10", "20", "500"), some(5, "-8", "8")
	p.View = some(5, "seen")
	if c.Kind != "box" && c.Kind != "oval" {
		switch p.Shape = pick("rectangle", "rectangle", "taper", "ellipse", "lens", "sector", "polygon"); p.Shape {
		case "rectangle":
			p.CornerRadius = some(3, fixed(w*0.7*r.Float64()))
		case "taper":
			p.FootWidth, p.WidestWidth, p.TipWidth, p.WidestAt = fixed(w), fixed(w*1.2), fixed(w*0.6), some(3, "30")
		case "ellipse":
			p.Width = pick(fixed(w), fixed(8*w), "2000")
		case "lens":
			p.FootRadius, p.TipRadius = some(2, fixed(w*0.7*r.Float64())), some(2, fixed(w*0.7*r.Float64()))
		case "sector":
			p.InnerRadius, p.SectorAngle = num(5, 200), plain(5, 170)
		case "polygon":
			for i := range 5 {
				a := 2 * math.Pi * (float64(i) + 1.3*r.Float64()) / 5
				p.Corners = append(p.Corners, design.Corner{Along: fixed(80 + 90*math.Cos(a)), Across: fixed(w / 2 * math.Sin(a)), Radius: some(3, fixed(0.4*w*r.Float64()))})
			}
		}
		for range max(0, r.IntN(5)-3) {
			p.Holes = append(p.Holes, design.Hole{Kind: pick("round", "slot"), Along: num(10, 200), Across: fixed(w * (r.Float64() - 0.5)), Width: num(0.2, 30), Length: num(10, 60), Turn: plain(1, 90)})
		}
	}
	b := &d.Rib
	b.Side = pick("hollow", "hollow", "round")
	b.Stock = pick("same", "same", "mdf-6", "birch-6", "pvc-3")
	b.FootDepth, b.TipDepth, b.TipRound = some(2, num(2, 60)), some(2, num(2, 40)), some(3, "1", "20")
	b.Short, b.Foot, b.StubWidth, b.StubDepth = pick("auto", "auto", "0", "12", "60", "200"), pick("plain", "stub", "tenon"), some(3, num(2, 60)), some(3, num(1, 20))
	b.Quantity, b.Fit, b.MarkStart = some(3, "2", "3"), some(3, "-0.1", "0.1"), some(4, "2")
	b.GlueBond = some(3, "0.1", "0.3", "2")
	b.Caul, b.CaulPad = some(4, "yes"), some(4, "3", "60")
	for range max(0, r.IntN(5)-2) {
		b.Places = append(b.Places, design.RibPlace{Across: fixed(1.1 * w * (r.Float64() - 0.5)), Thickness: some(4, "9"), Foot: some(3, "tenon", "stub"), Stock: some(4, "pvc-3", "birch-4", "same")})
	}
	if d.Base.Kind = pick("", "", "row", "ring"); d.Base.Kind != "" {
		d.Base.Copies, d.Base.Pitch, d.Base.Radius, d.Base.Border = some(2, "1", "3"), some(3, num(3, 60)), some(3, num(5, 200)), some(3, "0", "4")
	}
	d.Base.Stock = some(5, "pvc-3", "mdf-6", "same")
	d.Panel.Quantity, d.Cut.Gap = some(3, "2", "4"), some(4, "0", "0.15")
	d.Cut.Bridges, d.Cut.Turns = some(3, "none", "all"), some(3, "none", "quarter")
	return d
}
