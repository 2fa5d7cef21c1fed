package plan

import (
	"math"
	"strconv"

	"springrib/internal/curve"
	"springrib/internal/design"
	"springrib/internal/export"
	"springrib/internal/finding"
	"springrib/internal/form"
	"springrib/internal/outline"
	"springrib/internal/part"
	"springrib/internal/plane"
	"springrib/internal/score"
	"springrib/internal/surface"
	"springrib/internal/unit"
)

// A panel that goes round a cone is worked out in two places.
//
// What its scores come to is asked at the narrow rim, as of a cylinder that bends as the cone does
// there, square to the scores: its radius is r/cos(lean), its length the girth of that rim. Strain,
// land and closing are worst there or the same; what is worst at the wide rim, the flats' height,
// is asked there (score.Limits.Wider). Outlines and scores have the coordinates of that cylinder's
// flat, u along the narrow rim and v along the scores, up to the flat panel itself.
//
// What is cut comes from the cone: the chain of planes round it (surface.Chain), the fan that they
// unroll to, and a ring for each place up its axis.

// Wider is how many times as far apart the scores lie at the wide rim as at the narrow one, 1
// where they run parallel.
func (c *Section) Wider() float64 {
	if c.Cone == nil {
		return 1
	}
	return c.Cone.Wide / c.Cone.Narrow
}

// leastLean is the least lean of a cone, rad: the fan of one that leans less has its apex so far
// off that the thickness of the sheet decides it. Common practice, no source.
const leastLean = 0.5 * math.Pi / 180

// coneOf returns the cone of the panel's inner face at its rims, which is the contact face; ok is
// false where there is none. ring is how thick its rings are.
func coneOf(c *design.CurveValues, t, ring float64) (k surface.Cone, ok bool) {
	k = surface.Cone{Narrow: c.Small / 2, Wide: c.Large / 2, Height: c.RimHeight}
	switch c.Sizes {
	case design.Outside:
		in := t * math.Cos(k.Lean())
		k.Narrow, k.Wide = k.Narrow-in, k.Wide-in
	case design.RingCut:
		// The wide ring touches at its narrow face, its thickness below the rim.
		if ring >= c.RimHeight {
			return k, false
		}
		k.Wide += ring * (k.Wide - k.Narrow) / (c.RimHeight - ring)
	}
	return k, k.Narrow > 0 && k.Lean() >= leastLean
}

// sweep returns how far round a cone goes, rad.
func sweep(c *design.CurveValues) float64 {
	if c.Kind == design.ConePart {
		return c.Sweep
	}
	return 2 * math.Pi
}

// narrowEdge returns the edge at the narrow rim of a cone as it bends square to its scores, the
// straights before and after it included.
func narrowEdge(k surface.Cone, c *design.CurveValues) curve.Curve {
	kappa, p := math.Cos(k.Lean())/k.Narrow, plane.Pt(0, -k.Narrow)
	bend := curve.Piece{Length: sweep(c) * k.Narrow, Kappa: -kappa}
	if c.Kind == design.Cone {
		return curve.Chain(p, math.Pi, bend)
	}
	return curve.Chain(p, math.Pi, curve.Piece{Length: c.Foot}, bend, curve.Piece{Length: c.Tip})
}

// round returns the edge of a ring about the axis, as the section of a cylinder has it: over the
// span of the cone to the left and round, turning right, and straight on before and after it. A
// whole one begins at the lowest point.
func (c *Section) round(r float64) curve.Curve {
	if c.Closed {
		return curve.Chain(plane.Pt(0, -r), math.Pi, curve.Piece{Length: c.Sweep * r, Kappa: -1 / r})
	}
	return c.arc(r, c.Foot(), c.Tip())
}

// arc is round of part of a cone, between straights that are so long.
func (c *Section) arc(r, foot, tip float64) curve.Curve {
	a := surface.Angle(c.Sweep, 0)
	heading := math.Pi - a
	at := plane.Pt(-math.Sin(a), -math.Cos(a)).Mul(r).Sub(plane.Dir(heading).Mul(foot))
	return curve.Chain(at, heading, curve.Piece{Length: foot}, curve.Piece{Length: c.Sweep * r, Kappa: -1 / r}, curve.Piece{Length: tip})
}

// cone returns the narrow edge of the cone that is asked for, or says why there is none.
func (l *lining) cone() (out curve.Curve, ok bool) {
	c := l.c
	k := surface.Cone{Narrow: c.Small / 2, Wide: c.Large / 2, Height: c.RimHeight}
	if c.Rims == design.BySlant && c.Small <= 0 {
		most := c.Large / 2 / math.Sin(c.Lean)
		return out, l.Stop("cone-past-point", "curve.slant", "With this lean the panel comes to a point "+l.Len(most)+" along its slant, and it is "+l.Len(c.Slant)+
			" long. Make the slant shorter, the lean less, or the large diameter larger.", map[string]float64{"slant": c.Slant, "most": most})
	}
	if c.Large <= c.Small {
		return out, l.Stop("cone-turned", "curve.large", "The large diameter is "+l.Len(c.Large)+" and the small one "+l.Len(c.Small)+
			". Make the large one larger, or choose an oval of one width and height for a straight tube.",
			map[string]float64{"small": c.Small, "large": c.Large})
	}
	if k.Lean() < leastLean {
		return out, l.Stop("cone-straight", "curve.large", "This cone leans by only "+unit.Angle(k.Lean())+", which the thickness of the sheet would swallow. "+
			"Make the diameters differ by more than "+l.Len(2*c.RimHeight*math.Tan(leastLean))+", or choose an oval of one width and height.",
			map[string]float64{"degrees": k.Lean() * 180 / math.Pi})
	}
	return narrowEdge(k, c), true
}

// cone makes the section of a cone.
func (t *SectionTask) cone(out *Section, say *finding.Notes) bool {
	k, ok := coneOf(t.Curve, t.Sheet.T, t.Ring)
	if t.Curve.Sizes == design.RingCut && t.Ring >= t.Curve.RimHeight {
		return say.Stop("cone-no-room", "curve.rimHeight", "The rings are "+say.Len(t.Ring)+" thick and the cone is only "+say.Len(t.Curve.RimHeight)+" high. Make it higher, or its rings thinner.",
			map[string]float64{"thickness": t.Ring, "height": t.Curve.RimHeight})
	}
	if !ok {
		return say.Stop("cone-no-room", "curve.sizes", "With these sizes the inside of the panel has no room: its narrow rim would have a radius of "+say.Len(k.Narrow)+
			". Make the cone larger or higher, or its sheet thinner.", map[string]float64{"radius": k.Narrow})
	}
	out.Cone, out.Sweep, out.Closed = &k, sweep(t.Curve), t.Curve.Kind == design.Cone
	out.PanelLeft, out.Edge = true, narrowEdge(k, t.Curve)
	if out.Closed {
		return true
	}
	// The sheet is as thick as its ends must keep apart.
	if c, crosses := out.arc(k.Narrow, out.Foot()+t.Sheet.T, out.Tip()+t.Sheet.T).Crossing(); crosses {
		return say.Stop("curve-crosses", "curve.sweep", "The straight ends of this part would run into each other. Go less far round, or make the straight foot and tip shorter.",
			map[string]float64{"first": c.S1, "second": c.S2})
	}
	return true
}

// Up is 1 where the cone opens toward +Z in space and -1 where it opens the other way: so that the
// flat panel, its wide edge up, is seen from the face that shows.
func (p *Plan) Up() float64 {
	if p.V.Panel.ShowFace == design.Hollow {
		return 1
	}
	return -1
}

// InFlat takes a place of the outline to the flat panel: the same but for a cone, whose fan has
// its lines v apart along its scores, and u round its narrow rim.
func (p *Plan) InFlat(u, v float64) plane.Point {
	if f := p.Panel.Fan; f != nil {
		return f.Place(u, v+p.Width()/2)
	}
	return pt(u, v)
}

// Gores is how many equal parts the panel of a cone is cut in; 1 for all other panels.
func (p *Plan) Gores() int {
	if p.Section.Cone == nil || !p.Section.Closed {
		return 1
	}
	return max(1, p.V.Curve.Gores)
}

// Round is how much of the edge, as the flat panel has it, one part takes, mm.
func (p *Plan) Round() float64 { return p.Scores.Layout.Length / float64(p.Gores()) }

// Joined is the outline of the panel; of one that is cut in parts, that of all of them in a row.
func (p *Plan) Joined() plane.Region {
	if p.Gores() == 1 {
		return p.Outline.Region
	}
	b := p.Outline.Region.Box()
	b.Max.X += p.Scores.Layout.Length - p.Round()
	return plane.Region{Outer: plane.RectPath(b)}
}

// fewest is the least number of scores that go round a cone: with fewer the planes of its flats
// no longer meet beside it. Common practice, no source.
const fewest = 6

// fan makes strip and fan of a cone, or says why there is none.
func (p *Plan) fan() bool {
	k, l := p.Section.Cone, &p.Scores.Layout
	n := len(l.Folds)
	if least := int(math.Ceil(fewest*p.Section.Sweep/(2*math.Pi) - 1e-9)); n < least {
		return p.stop("cone-few-scores", "panel.spacing", "Only "+unit.Plural(n, "score")+" would go round this cone, and it takes at least "+strconv.Itoa(least)+
			". Allow a smaller fold at each, or lower flats.", map[string]float64{"scores": float64(n)})
	}
	bend := l.Length - p.Section.Foot() - p.Section.Tip()
	var pivots [2]float64 // by the spacing that there is, not the one that was wanted
	for i, more := range [2]float64{0, p.Section.Sweep * (k.Wide - k.Narrow)} {
		pivots[i] = score.StandIn(p.Law(), (bend+more)/float64(n), p.Section.Towards)
	}
	raw, lain := surface.Chain(k.Touches(n, p.Up(), p.Section.Sweep), func(int) [2]float64 { return pivots })
	fan, strip := surface.FanOf(raw, lain, 1/float64(p.Gores()))
	fan.Foot, fan.Bend, fan.Open = p.Section.Foot(), bend, !p.Section.Closed
	for i := range strip.Rulings {
		f := &strip.Rulings[i].Flat
		f[0], f[1] = export.RoundPoint(f[0]), export.RoundPoint(f[1])
	}
	p.Panel.Fan, p.Panel.Strip = &fan, strip
	return p.flat(k.Slant())
}

// flat tells whether the flat cone lies clear of itself, or says why it does not.
func (p *Plan) flat(slant float64) bool {
	f := p.Panel.Fan
	all := f.Angle * p.Outline.To / f.Bend
	// The ends of part of a cone lie further apart flat than in space, where they don't meet.
	if f.Open || all <= 2*math.Pi-roomInFan/(f.Inner+slant) {
		return true
	}
	return p.stop("cone-overlaps", "curve.rimHeight", "Laid flat the panel would turn through "+unit.Angle(all)+" and lie over its own start. Make the cone higher, or its seam allowance smaller.",
		map[string]float64{"degrees": all * 180 / math.Pi})
}

// roomInFan is the least room between the two ends of a flat cone at its wide edge, mm.
const roomInFan = 3

// conePanel makes the flat panel of a cone.
func conePanel(p *Plan) bool {
	if !p.fan() {
		return false
	}
	f, w := p.Panel.Fan, p.Width()
	p.Panel.Bent, p.Panel.frames = p.Panel.Strip, form.Fold(p.Panel.Strip)
	p.Panel.Mirror = p.V.Panel.ScoredFace != p.V.Panel.ShowFace
	task := part.PanelTask{
		ID: "panel", Name: "panel", From: p.V.Own(), Strip: p.Panel.Strip, Overrun: p.Panel.Overrun,
		Outline: plane.Region{Outer: f.Outline(p.Outline.From, p.Outline.To, w)}.Normal(),
		Apart:   p.Law().Score().Width + p.V.Panel.MinLand,
		Mirror:  p.Panel.Mirror, Quantity: p.V.Panel.Quantity * p.Gores(), Kerf: p.V.Machine.Kerf,
	}
	for _, s := range p.Supports.All {
		if m := s.Mark; !m.Turned && m.To > m.From {
			task.Marks = append(task.Marks, plane.Path{Segs: f.Line(m.Across+w/2, m.From, m.To)})
		}
	}
	p.Panel.Flat = part.NewPanel(task)
	return true
}

// ringsApart returns the places of rings that have none of their own: the outer ones flush with
// the rims, others evenly between. One alone stands at the wide rim.
func (p *Plan) ringsApart(n int) []float64 {
	half := p.V.Rib.Thickness / 2 / math.Cos(p.Section.Cone.Lean())
	lo, hi := half-p.Width()/2, p.Width()/2-half
	if n == 1 {
		return []float64{hi}
	}
	out := make([]float64, n)
	for i := range out {
		out[i] = lo + (hi-lo)*float64(i)/float64(n-1)
	}
	return out
}

// ringWord is what the support of a cone is called.
func (p *Plan) ringWord() string {
	if p.Section.Closed {
		return "the ring"
	}
	return "the rib"
}

// atRim is how near a rim a ring's line may lie and is not marked, mm.
const atRim = 0.5

// rings places the rings of a cone. A ring is cut square and so touches with the edge of its
// narrow face alone.
func rings(p *Plan) bool {
	k := p.Section.Cone
	lean, r := k.Lean(), &p.V.Rib
	places := p.ribPlaces()
	for i, at := range places {
		s := Support{RibPlaceValues: at, Lo: math.Inf(-1), Hi: math.Inf(1)}
		s.Foot = design.Plain
		if i > 0 {
			s.Lo = (places[i-1].Across + at.Across) / 2
		}
		if i+1 < len(places) {
			s.Hi = (at.Across + places[i+1].Across) / 2
		}
		s.share = p.Across.Widths(s.Lo, s.Hi)
		s.Height = (at.Across+p.Width()/2)*math.Cos(lean) - at.Thickness/2
		if past := math.Max(-s.Height, s.Height+at.Thickness-k.Height); past > 1e-6 {
			return p.stop("rib-off-panel", p.ribField(at, "across"), unit.Upper(p.ringWord())+" "+p.len(at.Across)+" across reaches "+p.len(past)+
				" past the rim of the panel. Move it inward.", map[string]float64{"across": at.Across, "past": past})
		}
		radius := k.Radius(s.Height)
		s.Wedge = at.Thickness * math.Sin(lean)
		s.Mark = Mark{
			Across: s.Height/math.Cos(lean) - p.Width()/2, From: p.Outline.From - r.MarkStart,
			To: math.Min(p.Scores.Layout.Length, p.Outline.To), Turned: !p.Section.Towards,
		}
		s.Task = part.RibTask{
			From: p.V.From(s.Stock, s.Thickness, s.StockAt), Edge: p.Section.round(radius), PanelLeft: true,
			FootDepth: r.FootDepth, TipDepth: r.FootDepth, Kerf: p.V.Machine.Kerf, Tolerance: outline.Tolerance, Quick: p.draft,
		}
		s.Task.End = s.Task.Edge.Length()
		if h := r.Hub; h == design.HubNarrow && i == 0 || h == design.HubWide && i == len(places)-1 {
			s.Task.Hub = &part.Hub{Hole: r.HubHole, Spokes: r.Spokes}
			if room := 2 * (radius - r.FootDepth); r.HubHole > room {
				return p.stop("hub-no-room", "rib.hubHole", "A ring "+p.len(2*radius)+" across has room for a hole of "+p.len(math.Max(0, room))+" at most where "+
					p.len(r.FootDepth)+" of it are to be left all round. Make the hole smaller, or the ring narrower.", map[string]float64{"hole": r.HubHole, "room": math.Max(0, room)})
			}
		}
		if !p.Section.Closed {
			s.wider, s.foot, s.bend = radius/k.Narrow, p.Section.Foot(), p.Section.bent()
			short := math.Min(ShortOfTip, p.Section.Tip())
			s.Task.End -= short
			s.Mark.To -= short
			s.Task.TipDepth, s.Task.TipRound = r.TipDepth, r.TipRound
		}
		if s.Height < atRim || k.Height-s.Height < atRim {
			s.Mark.To = s.Mark.From // the rim is the line
		}
		p.Supports.All = append(p.Supports.All, s)
	}
	for i, s := range p.Supports.All {
		if s.Task.End > p.Supports.All[p.Supports.Longest].Task.End+ribsAlike {
			p.Supports.Longest = i
		}
	}
	p.Supports.Mark = p.Supports.All[p.Supports.Longest].Mark
	return true
}

// glueWidth is the width over which glue joins a rib and the panel, mm: its thickness, or as much of
// the wedge beside a ring as is no wider than a flat may stand off.
func (s *Support) glueWidth(standOff float64) float64 {
	if s.Wedge > standOff && standOff > 0 {
		return s.Thickness * standOff / s.Wedge
	}
	return s.Thickness
}

// coneFit refolds a cone and measures it along both rims: the worse of the two counts, figure by
// figure.
func (p *Plan) coneFit() form.Fit {
	k, f := p.Section.Cone, p.Panel.Fan
	var out form.Fit
	line := func(u float64) [2]plane.Point { return [2]plane.Point{f.Place(u, 0), f.Place(u, k.Slant())} }
	for i, z := range []float64{0, k.Height} {
		fit := form.Along(p.Panel.Strip, form.Across(p.Section.round(k.Radius(z)), true, p.Up()*z), line(0), line(p.Scores.Layout.Length))
		if i == 0 {
			out = fit
			continue
		}
		if fit.Most > out.Most { // of which each flat is told
			out.Flats = fit.Flats
		}
		out.Least, out.Most = math.Min(out.Least, fit.Least), math.Max(out.Most, fit.Most)
		if math.Abs(fit.LeastFlat) > math.Abs(out.LeastFlat) {
			out.LeastFlat = fit.LeastFlat
		}
		if fit.EndMiss > out.EndMiss {
			out.End, out.EndMiss = fit.End, fit.EndMiss
		}
	}
	return out
}
