package plan

import (
	"math"
	"strconv"

	"springrib/internal/design"
	"springrib/internal/export"
	"springrib/internal/form"
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

// Up is 1 where the cone opens toward +Z in space and -1 where it opens the other way: so that the
// flat panel, its wide edge up, is seen from the face that shows.
func (p *Plan) Up() float64 {
	if p.V.Panel.ShowFace == design.Hollow {
		return 1
	}
	return -1
}

// InFlat takes a place of the outline to the flat panel: the same for a cylinder. A cone's fan has its
// lines v apart along its scores, and u round its narrow rim; a net shares v out from rib to rib.
func (p *Plan) InFlat(u, v float64) plane.Point {
	switch past := v + p.Width()/2; {
	case p.Panel.Fan != nil:
		return p.Panel.Fan.Place(u, past)
	case p.Panel.Net != nil:
		return p.Panel.Net.Place(u, past)
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
		ID: "panel", Name: "panel", From: p.V.Own(), Strip: p.Panel.Strip, Lap: p.lapped(f.Turn(p.Round())), Overrun: p.Panel.Overrun,
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

// coneFit refolds a cone and measures it along both rims: the worse of the two counts, figure by
// figure.
func (p *Plan) coneFit() form.Fit {
	k, f := p.Section.Cone, p.Panel.Fan
	line := func(u float64) [2]plane.Point { return [2]plane.Point{f.Place(u, 0), f.Place(u, k.Slant())} }
	along := func(z float64) form.Fit {
		return form.Along(p.Panel.Strip, form.Across(p.Section.Rim(z), true, p.Up()*z), line(0), line(p.Scores.Layout.Length))
	}
	return worse(along(0), along(k.Height))
}
