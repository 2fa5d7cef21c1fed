// Package trial makes designs at random, for tests and the list of sentences: whatever the form can ask for, in
// figures that somebody might type. One seed gives one design.
package trial

import (
	"math"
	"math/rand/v2"
	"strconv"

	"springrib/internal/design"
)

// Design returns the design of a seed. Three in four are calm: figures that go together, as
// a maker who knows the trade types them, and most of these are meant to be sound. The rest
// are wild.
func Design(seed uint64) design.Document {
	r := rand.New(rand.NewPCG(seed, 0x7269625f737072))
	g := gen{Rand: r, d: design.Empty(), calm: r.IntN(4) > 0}
	g.good = g.calm && r.IntN(3) > 0
	g.d.Units = g.pick("mm", "mm", "mm", "in")
	for _, card := range []func(){g.names, g.sheet, g.machine, g.curve, g.panel, g.holes, g.rib, g.base, g.cut, g.lay, g.bed} {
		card()
	}
	return g.d
}

// gen is a design in the making, with what its later figures follow from.
type gen struct {
	*rand.Rand
	d      design.Document
	calm   bool    // figures that go together
	good   bool    // and such as give a sound panel, but for odd ones here and there
	t      float64 // thickness of the sheet, mm
	radius float64 // about the tightest, mm
	length float64 // about how long the panel is, mm
	width  float64 // about how wide, mm
	across float64 // over all, of what is wrapped all round, mm
	slant  float64 // of a cone, mm
	closed bool
}

func (g *gen) pick(words ...string) string { return words[g.IntN(len(words))] }

// once tells of one in n designs.
func (g *gen) once(n int) bool { return g.IntN(n) == 0 }

// wild tells of one in n calm designs, and of one in three of the others.
func (g *gen) wild(n int) bool {
	if g.calm {
		return g.once(n)
	}
	return g.once(3)
}

// between returns a figure from lo to hi, small ones more often.
func (g *gen) between(lo, hi float64) float64 {
	if lo <= 0 || hi <= lo {
		return lo + (hi-lo)*g.Float64()
	}
	root := 1 - g.Float64()*(1-math.Sqrt(lo/hi)) // no power, which differs between processors
	return lo / (root * root)
}

func plain(v float64, digits int) string { return strconv.FormatFloat(v, 'f', digits, 64) }

// mm writes a length in the design's unit, or with a unit of its own.
func (g *gen) mm(v float64) string {
	switch {
	case g.d.Units == "mm" && g.once(40):
		return plain(v/25.4, 3) + " in"
	case g.d.Units == "mm" && v >= 20 && g.once(3):
		return plain(v, 0)
	case g.d.Units == "mm":
		return plain(v, 2)
	case g.once(4):
		return plain(v, 2) + " mm"
	case v > 10 && g.once(3):
		return sixteenths(v / 25.4)
	}
	return plain(v/25.4, 3)
}

// sixteenths writes inches as a rule has them, "1 3/16".
func sixteenths(in float64) string {
	n := int(math.Round(16 * in))
	text, rest := strconv.Itoa(n/16), n%16
	if rest == 0 || n < 0 {
		return text
	}
	fraction := strconv.Itoa(rest) + "/16"
	if n < 16 {
		return fraction
	}
	return text + " " + fraction
}

// size is mm of a figure between two.
func (g *gen) size(lo, hi float64) string { return g.mm(g.between(lo, hi)) }

// maybe is a length one time in n, else left to its default.
func (g *gen) maybe(n int, lo, hi float64) string {
	if g.once(n) {
		return g.size(lo, hi)
	}
	return ""
}

func (g *gen) count(lo, hi int) string { return strconv.Itoa(lo + g.IntN(hi-lo+1)) }

func (g *gen) names() {
	d := &g.d
	d.Name = g.pick("Quay shade", "Außenleuchte", "Лампа у причала", "λάμπα λιμανιού", "מנורת נמל", "港の明かり", "घाट का दीपक", "Fin <4> & \"tray\"", "")
	d.Revision = g.pick("", "A", "B/2", "γ")
	if g.once(10) {
		d.Cut.Operations = map[string]design.Operation{
			"score": {Name: g.pick("score/1", "ritzen", "оценка"), Colour: g.pick("", "#112233", "#0000FF"), Passes: g.pick("", "1", "3"), Speed: ""},
			"outer": {Name: g.pick("score:1", "cut", ""), Passes: g.pick("", "2")},
			"mark":  {Name: g.pick("", "mark"), Colour: g.pick("", "#FF0000")},
		}
	}
}

func (g *gen) sheet() {
	s := &g.d.Sheet
	s.Stock = g.pick("mdf-3", "mdf-3", "mdf-6", "hardboard-3", "birch-3", "birch-4", "birch-6", "basswood-1.5", "acrylic-3", "greyboard-2")
	if g.wild(40) {
		s.Stock = g.pick("pvc-3", "own")
	}
	g.t = map[string]float64{"mdf-6": 6, "birch-4": 4, "birch-6": 6, "basswood-1.5": 1.5, "greyboard-2": 2}[s.Stock]
	if g.t == 0 {
		g.t = 3
	}
	if s.Stock == "own" {
		s.OwnName, s.OwnKind, s.OwnDensity = "Offcut of the yard", g.pick("wood", "acrylic", "unknown", ""), g.pick("", "700")
		s.E, s.MOR = "3500 MPa", g.pick("", "30 MPa")
	}
	switch g.IntN(3) {
	case 0: // as sold
	case 1:
		g.t *= 0.95 + 0.08*g.Float64()
		for range 1 + g.IntN(5) {
			s.Readings = append(s.Readings, g.mm(g.t+0.04*(g.Float64()-0.5)))
		}
	case 2:
		if g.wild(10) {
			g.t *= g.between(0.6, 1.6)
		}
		s.Readings = []string{g.mm(g.t)}
	}
	s.Grain = g.pick("across", "across", "none", "along", "angle")
	if g.calm {
		s.Grain = "across"
	}
	if s.Grain == "angle" {
		s.GrainAngle = plain(90*g.Float64(), 0)
	}
	if g.wild(4) {
		s.StrainLimit, s.StrainTested = g.pick("0.9", "1.2", "0.4"), g.once(2)
		if s.StrainTested {
			s.Face = "1.2"
		}
	}
}

func (g *gen) machine() {
	m := &g.d.Machine
	m.Tool = g.pick("laser", "laser", "laser", "router", "saw", "knife")
	if m.Tool == "laser" && g.once(2) {
		m.Kerf, m.ScoreWidth = plain(g.between(0.05, 0.4), 2)+" mm", plain(g.between(0.15, 0.4), 2)+" mm"
	}
	switch {
	case m.Tool == "router" && g.once(2):
		m.Kerf = g.pick("1 mm", "2 mm", "3 mm", "3.175 mm", "1/8 in", "6 mm")
		m.ScoreWidth = g.pick("", "0.8 mm", "1.6 mm")
	case m.Tool == "saw" && g.once(3):
		m.Kerf, m.ScoreWidth = g.pick("1.8 mm", "3.2 mm"), g.pick("1.8 mm", "")
	case m.Tool == "knife" && g.once(4):
		m.Kerf = "0.2 mm"
	}
	if g.once(2) && m.Tool == "laser" {
		left := []float64{0.55, 0.3, 0.17}
		for i := range 1 + g.IntN(3) {
			at := g.t * (1 - left[i])
			if m.Reference = g.pick("top", "top", "table"); m.Reference == "table" {
				break
			}
			m.Depths = append(m.Depths, plain(at, 2)+" mm")
		}
		m.Tested, m.DepthSpread = g.once(2), g.pick("", "0.05 mm", "0.08 mm")
		if m.DepthSpread == "0.08 mm" {
			m.Apart = "0.03 mm"
		}
		if m.Reference == "table" {
			m.Depths = []string{plain(0.3*g.t, 2) + " mm"}
		}
	}
	if g.wild(8) {
		m.Speed, m.Acceleration = g.pick("20 mm/s", "150 mm/s", "400 mm/s"), g.pick("", "500 mm/s2", "5000 mm/s2")
		m.Bottom = g.pick("round", "flat", "vee")
	}
}

// bed is large enough for most.
func (g *gen) bed() {
	m := &g.d.Machine
	l, w := g.length+180, math.Max(g.width, math.Max(g.across, 0.6*math.Min(g.length, 2*g.radius)))+200
	switch {
	case g.good || g.once(3):
		m.BedWidth, m.BedHeight = g.mm(math.Max(500, l*g.between(1, 1.5))), g.mm(math.Max(400, w*g.between(1, 1.5)))
	case g.wild(8):
		m.BedWidth, m.BedHeight = g.size(150, 600), g.size(120, 400)
	case g.wild(20):
		m.BedWidth, m.BedHeight = g.size(3000, 7000), g.size(1500, 3500)
	}
}

func (g *gen) curve() {
	c := &g.d.Curve
	least := 30.0 // radius over thickness that a scored panel bends to with ease
	if g.d.Machine.Tool != "laser" {
		least = 45
	}
	g.radius = g.t * least * g.between(1, 4)
	if !g.calm {
		g.radius = g.t * g.between(6, 150)
	}
	if g.good {
		g.radius *= 1.4
	}
	c.Line = g.pick("contact", "contact", "outer", "neutral")
	switch {
	case g.good:
		c.Foot, c.Tip = g.size(25, 90), g.size(25, 90)
	case !g.once(4):
		c.Foot, c.Tip = g.maybe(2, 1, 60), g.maybe(2, 1, 60)
		if g.wild(10) {
			c.Foot = "0"
		}
	}
	turn := g.between(15, 120)
	g.length = g.radius * turn * math.Pi / 180
	switch g.IntN(25) {
	case 0, 1, 2:
		g.cone()
		return
	case 3, 4:
		g.skin()
		return
	}
	c.Kind = g.pick("radius-angle", "radius-angle", "radius-angle", "radius-angle", "span-rise", "span-rise", "length-radius", "length-radius", "chain", "points", "box", "oval", "drawn", "drawn-round")
	switch c.Kind {
	case "radius-angle":
		c.Radius, c.Angle = g.mm(g.radius), plain(turn, 1)
	case "span-rise":
		half := turn / 2 * math.Pi / 180
		c.Span, c.Rise = g.mm(2*g.radius*math.Sin(half)), g.mm(g.radius*(1-math.Cos(half)))
	case "length-radius":
		c.Length, c.Radius = g.mm(g.length), g.mm(g.radius)
	case "chain":
		g.chain()
	case "points":
		g.points()
	case "box", "oval", "drawn-round":
		g.round()
	case "drawn":
		// Through a straight, an arc and a cubic that bends back a little.
		r, s := g.radius, g.radius/3
		x, y := s+r*math.Sin(0.7), -r*(1-math.Cos(0.7))
		c.Drawn = design.Drawing{Source: "side.svg", Line: "M 0 0 L " + pair(s, 0) + " A " + plain(r, 3) + " 0 0 " + pair(x, y) +
			" L " + pair(x+s*math.Cos(0.7), y-s*math.Sin(0.7))}
		c.DrawnTurn, c.DrawnMirror, c.DrawnBack = g.pick("", "90", "-17"), g.once(2), g.once(2)
		g.length = 2*s + 0.7*r
		if g.once(3) {
			g.length *= 1.2
			c.DrawnLength = g.mm(g.length)
		}
	}
}

func pair(x, y float64) string { return plain(x, 4) + " " + plain(y, 4) }

func (g *gen) chain() {
	g.length = 0
	for i := range 1 + g.IntN(4) {
		p := design.Piece{Turn: "over"}
		if i > 0 {
			if p.Turn = g.pick("over", "over", "back", "straight"); g.good && p.Turn == "back" {
				p.Turn = "straight"
			}
		}
		l := g.between(20, 140)
		g.length += l
		p.Length, p.Radius = g.mm(l), g.mm(g.radius*g.between(1, 2))
		g.d.Curve.Pieces = append(g.d.Curve.Pieces, p)
	}
}

// points lie on a line that wanders.
func (g *gen) points() {
	x, y, dir := 0.0, 0.0, g.Float64()
	step := g.radius * g.between(0.3, 0.6)
	for range 3 + g.IntN(4) {
		g.d.Curve.Points = append(g.d.Curve.Points, design.Point{X: g.mm(x), Y: g.mm(y)})
		by := 0.4
		if g.good {
			by = 1
		}
		dir += (g.Float64() - by) * 0.6
		x, y = x+step*math.Cos(dir), y+step*math.Sin(dir)
		g.length += step
	}
}

// round is a shape that the panel goes all round.
func (g *gen) round() {
	c := &g.d.Curve
	g.closed = true
	w, h := g.radius*g.between(2.2, 4), g.radius*g.between(2.2, 4)
	g.across = math.Max(w, h)
	c.BoxWidth, c.BoxHeight, c.Corner = g.mm(w), g.mm(h), g.mm(g.radius*g.between(0.8, 1))
	if c.Kind == "drawn-round" {
		r, a, b := plain(g.radius, 3), w-2*g.radius, h-2*g.radius
		x0, x1, x2 := 0.0, g.radius, g.radius+a
		y0, y1, y2 := 0.0, g.radius, g.radius+b
		x3, y3 := x2+g.radius, y2+g.radius
		arc := func(x, y float64) string { return " A " + r + " 0 1 " + pair(x, y) }
		c.Drawn = design.Drawing{Source: "ring.dxf", Line: "M " + pair(x1, y0) + " L " + pair(x2, y0) + arc(x3, y1) + " L " + pair(x3, y2) +
			arc(x2, y3) + " L " + pair(x1, y3) + arc(x0, y2) + " L " + pair(x0, y1) + arc(x1, y0) + " Z"}
	}
	c.Seam = g.pick("butt", "lap")
	if c.Lap, c.Trim = g.maybe(2, 5, 40), g.maybe(3, 1, 8); g.wild(10) {
		c.Trim = "0"
	}
	g.length = 2 * (w + h)
}
