package trial

import (
	"math"

	"springrib/internal/design"
)

func (g *gen) panel() {
	p := &g.d.Panel
	g.width = g.between(40, 180)
	if g.wild(10) {
		g.width = g.between(8, 400)
	}
	if g.slant > 0 {
		g.width = g.slant
	}
	g.faces()
	g.scores()
	p.Width = g.mm(g.width)
	p.Quantity = g.pick("", "", "", "2", "3", g.count(4, 12))
	shapes := []string{"rectangle", "rectangle", "rectangle", "taper", "taper", "ellipse", "lens", "sector", "polygon", "drawn"}
	if g.closed && !g.once(8) {
		shapes = shapes[:1]
	}
	p.Shape = g.pick(shapes...)
	switch p.Shape {
	case "rectangle":
		p.CornerRadius = g.maybe(3, 1, g.width*0.4)
	case "taper":
		p.FootWidth, p.WidestWidth, p.TipWidth = g.size(0.6*g.width, g.width), g.mm(g.width), g.size(0.2*g.width, g.width)
		p.WidestAt, p.TipRound = g.maybe(2, 1, g.length), g.once(3)
		if g.once(3) { // a trapezoid
			p.WidestWidth, p.WidestAt, p.TipRound = p.FootWidth, "0", false
		}
		if g.once(3) { // from foot to tip, with one straight edge as often as not
			p.WidestWidth, p.WidestAt = "", ""
			if g.once(2) {
				p.Edges, p.TipRound = "one", false
			}
		}
	case "ellipse":
		p.Width = g.mm(math.Max(g.width, 60))
	case "lens":
		p.Width = g.mm(math.Min(g.width, 0.6*g.length))
		p.FootRadius, p.TipRadius = g.maybe(2, 1, 10), g.maybe(2, 1, 10)
	case "sector":
		p.InnerRadius, p.SectorAngle = g.size(10, 200), plain(g.between(8, 80), 0)
	case "polygon":
		g.polygon()
	case "drawn":
		g.drawn()
	}
	if g.wild(10) {
		p.Length = g.mm(g.length * g.between(0.5, 1.3))
	}
	if g.wild(15) {
		p.Along, p.Across = g.pick("", g.mm(0.1*g.length), g.mm(-5)), g.pick("", g.mm(10), g.mm(-4))
	}
	if turned := g.d.Curve.Angle != "" || g.closed; !turned && g.once(6) || g.wild(30) {
		p.View = "seen"
	}
}

// faces says which of them is scored, and which shows.
func (g *gen) faces() {
	p := &g.d.Panel
	p.ScoredFace, p.ShowFace = "hollow", "round"
	if g.wild(5) {
		p.ScoredFace, p.ShowFace = g.pick("hollow", "round"), g.pick("hollow", "round")
	}
}

func (g *gen) scores() {
	p := &g.d.Panel
	p.Finish = g.pick("satin", "satin", "hidden", "any", "gloss")
	if g.good {
		p.Finish = g.pick("satin", "hidden", "any")
		p.Quantity = g.pick("", "", "2", "4")
		return
	}
	p.Spacing = g.pick("follow", "follow", "follow", "even", "count", "pitch")
	p.Count, p.Pitch = g.count(5, 90), g.mm(g.t*g.between(0.6, 3))
	p.Passes = g.pick("auto", "auto", "auto", "1", "2", "3")
	p.Overrun = g.pick("auto", "auto", "0", g.size(0.5, 8))
	p.StandOff = g.pick("", "", "0.05 mm", "0.3 mm")
	if g.wild(8) {
		p.MinLand, p.StrainSafe, p.ClosingSafe = g.pick("", "0.3 mm", "2 mm"), g.pick("", "1", "2.5"), g.pick("", "1", "1.5")
	}
}

// polygon goes round a middle, with a straight foot edge or without, and one in three is a
// trapezoid with one straight side.
func (g *gen) polygon() {
	l, w := g.length+20, g.width
	var at [][2]float64
	switch g.IntN(3) {
	case 0:
		at = [][2]float64{{0, -w / 2}, {l, -w / 2}, {l, -w/2 + w*g.between(0.2, 0.8)}, {0, w / 2}}
	case 1:
		n := 5 + g.IntN(3)
		for i := range n {
			a := 2 * math.Pi * (float64(i) + 0.5*g.Float64()) / float64(n)
			at = append(at, [2]float64{l / 2 * (1 - math.Cos(a)), w / 2 * -math.Sin(a)})
		}
	default: // a notch in one side
		at = [][2]float64{{0, -w / 2}, {0.4 * l, -w / 2}, {0.4 * l, -w / 4}, {0.6 * l, -w / 5}, {0.6 * l, -w / 2}, {l, -w / 2}, {0.95 * l, w / 2}, {0, 0.4 * w}}
	}
	for _, c := range at {
		g.d.Panel.Corners = append(g.d.Panel.Corners, design.Corner{Along: g.mm(c[0]), Across: g.mm(c[1]), Radius: g.maybe(4, 1, w/10)})
	}
}

// drawn is an outline from a file: a rectangle with one side bowed out, holes and marks.
func (g *gen) drawn() {
	p := &g.d.Panel
	l, w := g.length+20, g.width
	bow := w * g.between(0.05, 0.3)
	p.Drawn = design.Drawing{Source: "панель.svg", Outline: "M 0 0 L " + pair(l, 0) + " L " + pair(l, w) +
		" C " + pair(0.7*l, w+bow) + " " + pair(0.3*l, w+bow) + " " + pair(0, w) + " Z"}
	if g.once(2) {
		r := math.Min(l, w) / 8
		x, y := l*g.between(0.2, 0.7), w*g.between(0.3, 0.6)
		arc := " A " + plain(r, 3) + " 0 1 "
		p.Drawn.Holes = []string{"M " + pair(x-r, y) + arc + pair(x, y-r) + arc + pair(x+r, y) + arc + pair(x, y+r) + arc + pair(x-r, y) + " Z"}
	}
	if g.once(2) {
		p.Drawn.Marks = []string{"M " + pair(0.1*l, 0.1*w) + " L " + pair(0.2*l, 0.15*w)}
	}
	if g.once(3) {
		p.DrawnLength = g.mm(g.length)
	}
	p.DrawnTurn, p.DrawnMirror = g.pick("", "", "180", "3"), g.once(3)
}

func (g *gen) holes() {
	if g.good && !g.once(4) || !g.good && !g.once(3) || g.d.Panel.Shape == "lens" {
		return
	}
	n := 1 + g.IntN(3)
	for i := range n {
		along, most := g.length*(0.3+0.5*(float64(i)+0.5)/float64(n)), math.Min(g.width/4, g.length/float64(4*n))
		h := design.Hole{Kind: g.pick("round", "slot"), Along: g.mm(along), Across: g.mm(g.width * (g.Float64() - 0.5) * 0.3),
			Width: g.mm(math.Min(g.between(2, 40), most/2)), Length: g.mm(most), Turn: g.pick("0", "90", plain(180*g.Float64(), 0))}
		if !g.calm {
			h.Along, h.Across, h.Width, h.Length = g.mm(g.length*g.between(0.1, 0.9)), g.mm(g.width*(g.Float64()-0.5)*0.6), g.size(2, 40), g.size(12, 50)
		}
		if g.wild(8) {
			h.Width = g.size(0.6, 4)
		}
		g.d.Panel.Holes = append(g.d.Panel.Holes, h)
	}
}

func (g *gen) ribStock() string {
	if g.wild(30) {
		return g.pick("pvc-3", "acrylic-3")
	}
	return g.pick("same", "mdf-3", "mdf-6", "birch-3", "birch-6", "birch-4")
}

func (g *gen) rib() {
	b := &g.d.Rib
	b.Side = "hollow"
	if !g.closed && g.wild(5) {
		b.Side = "round"
	}
	b.Stock = g.pick("same", "same", g.ribStock())
	if g.wild(6) {
		b.Thickness = g.size(1, 12)
	}
	deep := math.Min(g.between(15, 60), g.radius*0.4)
	if g.good { // as soft ribs let the curve open
		deep = math.Min(math.Max(g.length*g.between(0.1, 0.3), 25), g.radius*0.5)
	}
	b.FootDepth, b.TipDepth = g.mm(deep), g.mm(deep*g.between(0.4, 1))
	b.TipRound = g.maybe(3, 0.5, 8)
	b.Foot = g.pick("plain", "plain", "stub", "tenon")
	if b.Foot != "plain" {
		b.StubDepth, b.StubWidth = g.maybe(2, 2, 12), g.maybe(2, deep*0.2, deep*0.7)
		if g.wild(10) {
			b.StubWidth = g.size(1, 80)
		}
	}
	b.Short = g.pick("auto", "auto", "0", g.size(1, 30))
	if g.good {
		b.Short = g.pick("0", "0", "auto")
	}
	b.EndGap = g.pick("", "", "0.1 mm", "1 mm")
	b.MarkStart = g.pick("", "", "0", "5 mm")
	b.GlueBond = g.pick("", "", "", "0.2 MPa", "2 MPa")
	b.Quantity = g.pick("", "", "2", "3")
	if g.good && g.width > 60 {
		b.Quantity = g.count(int(g.width/60), int(g.width/35))
	}
	if g.once(4) {
		b.Caul, b.CaulPad, b.CaulDepth, b.CaulQuantity = "yes", g.pick("", "0", "5 mm"), g.maybe(2, 8, 40), g.pick("", "1", "2")
	}
	if g.good && len(g.d.Panel.Holes) > 0 { // beside the holes
		b.Places = []design.RibPlace{{Across: g.mm(-0.38 * g.width)}, {Across: g.mm(0.38 * g.width), Stock: g.ribStock()}}
		return
	}
	if !g.once(4) {
		return
	}
	n := 1 + g.IntN(3)
	if g.good {
		n = max(1, int(g.width/45))
	}
	for i := range n {
		across := g.width * ((float64(i)+0.5)/float64(n) - 0.5) * 0.9
		b.Places = append(b.Places, design.RibPlace{Across: g.mm(across), Stock: g.pick("", "", g.ribStock()), Thickness: g.maybe(6, 2, 9), Foot: g.pick("", "", "plain", "stub", "tenon")})
	}
}

func (g *gen) base() {
	if !g.once(4) {
		return
	}
	b := &g.d.Base
	if !g.once(5) {
		g.d.Rib.Foot = "tenon"
	}
	b.Kind = g.pick("row", "ring", "places")
	b.Stock = g.pick("", "same", "rib", g.ribStock())
	b.Copies, b.Pitch, b.Radius, b.Border = g.pick("", "1", "2"), g.maybe(4, 20, 300), g.maybe(4, 40, 300), g.pick("", "5 mm", "0")
	b.Shape = g.pick("", "rectangle", "disc")
	if b.Kind == "places" {
		for i := range 1 + g.IntN(3) {
			b.Places = append(b.Places, design.BasePlace{X: g.mm(float64(i) * (g.width + 30)), Y: g.mm(10 * g.Float64()), Turn: g.pick("", "30", "180")})
		}
	}
	if g.wild(10) {
		b.Length, b.Width, b.Diameter = g.size(60, 300), g.size(40, 200), g.size(60, 300)
	}
	g.d.Rib.Fit = g.pick("", "", "0", "0.3 mm", "-0.1 mm")
}

func (g *gen) cut() {
	c := &g.d.Cut
	c.EveryThird, c.RepeatLayers = g.once(2), g.once(4)
	c.Gap, c.Margin = g.pick("", "", g.size(0.3, 12)), g.pick("", "", "0", g.size(1, 20))
	if g.once(10) {
		c.Gap = "0"
	}
	c.Curves, c.Paper = g.pick("", "", "splines"), g.pick("", "a4", "letter")
	c.Turns = g.pick("", "", "grain", "none", "half", "quarter")
	c.CutOuts = g.once(4)
	c.Bridges, c.BridgeBelow = g.pick("", "", "none", "all", "all"), g.maybe(4, 10, 150)
	if g.once(4) {
		c.BridgeWidth = plain(g.between(0.3, 6), 2) + " mm"
	}
	c.Relief = g.pick("", "", "none")
	if g.once(8) {
		c.SheetPrice, c.HourPrice, c.Currency = "12.50", "30", g.pick("EUR", "£", "")
	}
	g.d.Strips.Which = g.pick("none", "none", "", "depth", "width", "bend", "fit", "all")
}

// lay puts a scrap and pins on some sheets.
func (g *gen) lay() {
	c := &g.d.Cut
	if g.once(8) {
		x, y := g.between(200, 600), g.between(150, 400)
		for _, at := range [][2]float64{{5, 5}, {x, 8}, {x * 0.9, y}, {10, y * 0.8}} {
			c.Scrap = append(c.Scrap, design.ScrapPoint{X: g.mm(at[0]), Y: g.mm(at[1])})
		}
	}
	if g.once(8) {
		for range 1 + g.IntN(2) {
			c.Pins = append(c.Pins, design.Pin{Part: g.pick("panel", "rib", "rib 1", "base"), X: g.size(6, 120), Y: g.size(6, 90), Turn: g.pick("", "90", "17")})
		}
	}
}
