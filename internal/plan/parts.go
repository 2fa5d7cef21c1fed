package plan

import (
	"math"

	"springrib/internal/brace"
	"springrib/internal/design"
	"springrib/internal/export"
	"springrib/internal/form"
	"springrib/internal/part"
	"springrib/internal/plane"
	"springrib/internal/surface"
)

// outlineTolerance is how far a fitted outline may lie from the exact one, mm.
const outlineTolerance = 0.01

// panel makes the flat panel with its scores.
func panel(p *Plan) bool {
	v := p.V.Panel
	p.Length = v.Length.Or(p.Layout.Length + p.seam())
	p.Overrun = p.wantedOverrun()
	outline := p.outline()
	b := outline.Box()
	var creases []surface.Crease
	for _, f := range p.Layout.Folds {
		creases = append(creases, surface.Crease{U: export.Round(f.U), Turn: f.Theta, Height: f.D, Pivot: f.Pivot})
	}
	st := p.Edge.At(0)
	p.Strip = surface.Cylinder(st.P, st.Phi, p.PanelLeft, creases, b.Min.Y, b.Max.Y)
	p.placeMark()
	p.Mirror = v.ScoredFace != v.ShowFace
	task := part.PanelTask{
		ID: "panel", Name: "panel", Stock: p.V.Sheet.Stock.ID, Outline: outline, Strip: p.Strip,
		Overrun: p.Overrun, Mirror: p.Mirror, Quantity: v.Quantity, Kerf: p.V.Machine.Kerf,
	}
	if !p.Mark.Turned && p.Mark.To > p.Mark.From {
		task.Marks = []plane.Path{plane.Open(plane.Pt(p.Mark.From, 0), plane.Pt(p.Mark.To, 0))}
	}
	p.Panel = part.NewPanel(task)
	return true
}

// seam returns what the panel needs beyond the girth of a closed edge.
func (p *Plan) seam() float64 {
	c := p.V.Curve
	switch {
	case !p.Closed:
		return 0
	case c.Seam == design.Lap:
		return c.Lap
	}
	return c.Trim
}

// outline returns the panel's outline, seen from the show face.
func (p *Plan) outline() plane.Region {
	v := p.V.Panel
	if v.Shape != design.Taper {
		return part.Rectangle(p.Length, v.Width)
	}
	return part.Taper{
		Length: p.Length, FootWidth: v.FootWidth, WidestWidth: v.WidestWidth, TipWidth: v.TipWidth,
		WidestAt: math.Min(v.WidestAt.Or(p.Length/3), p.Length), Round: v.TipRound,
	}.Outline()
}

// placeMark finds where rib and glue end, and marks the line of the rib.
//
// By rule the glue runs to just short of the tip where the straight tip is long enough
// to take the panel's pull without peeling; else the end stays free over the straight
// tip and as far into the bend as leaves the accepted gap there, s = sqrt(2 R gap).
func (p *Plan) placeMark() {
	r := p.V.Rib
	total := p.Edge.Length()
	kappa := p.endCurvature()
	free := r.Short.Or(0)
	switch {
	case p.Closed:
		free = 0
	case r.Short.OK:
	case kappa == 0 || p.tip() >= p.peel().Length+shortOfTip:
		free = shortOfTip
	default:
		free = p.tip() + math.Min(brace.FreeLength(kappa, r.EndGap), (total-p.tip())/3)
	}
	free = math.Min(math.Max(free, 0), 0.9*total)
	m := Mark{From: -r.MarkStart, Free: free, Turned: !p.Towards}
	m.To = p.Layout.At(p.Edge, total-free)
	if m.Bent = math.Max(0, free-p.tip()); m.Bent > 0 {
		// The free end runs on straight: over the bend it gains its own gap, over the
		// straight tip the slope that it has gained by then.
		m.Gap = brace.EndGap(kappa, m.Bent) + kappa*m.Bent*p.tip()
	}
	p.Mark = m
}

// shortOfTip keeps glue and rib out of sight at the tip, mm. Common practice, no
// source.
const shortOfTip = 2

// ribShare is the panel's width that one rib holds, mm.
func (p *Plan) ribShare() float64 {
	v := p.V
	return v.Panel.Width / float64(max(1, v.Rib.Quantity/max(1, v.Panel.Quantity)))
}

// peel returns what the end of the glue line sees where the last bend ends.
func (p *Plan) peel() brace.Peel {
	v := p.V
	ez := v.Sheet.EZ.Value
	if ez <= 0 {
		ez = v.Sheet.E.Value
	}
	at := p.Edge.Length() - p.tip()
	return brace.PeelAt(p.endCurvature(), p.stiffness()(at), p.ribShare(), v.Sheet.T, ez,
		brace.Glue{Width: v.Rib.Thickness, Bond: v.Rib.GlueBond.Value})
}

// tip returns the length of the straight after the last bend.
func (p *Plan) tip() float64 {
	st := p.Edge.Stretches()
	if last := st[len(st)-1]; last.Sign == 0 {
		return last.End - last.Start
	}
	return 0
}

// foot returns the length of the straight before the first bend.
func (p *Plan) foot() float64 {
	if first := p.Edge.Stretches()[0]; first.Sign == 0 {
		return first.End
	}
	return 0
}

// endCurvature returns the curvature of the edge at the end of its last bend.
func (p *Plan) endCurvature() float64 {
	st := p.Edge.Stretches()
	for i := len(st) - 1; i >= 0; i-- {
		if st[i].Sign != 0 {
			return math.Abs(st[i].Shape.At(st[i].End - st[i].Start).Kappa)
		}
	}
	return 0
}

// rib makes the rib, up to where the glue ends.
func rib(p *Plan) bool {
	r := p.V.Rib
	t := part.RibTask{
		ID: "rib", Name: "rib", Stock: r.Stock.ID, Edge: p.Edge, PanelLeft: p.PanelLeft,
		End: p.Edge.Length() - p.Mark.Free, FootDepth: r.FootDepth, TipDepth: r.TipDepth,
		TipRound: r.TipRound, Kerf: p.V.Machine.Kerf, Quantity: r.Quantity, Tolerance: outlineTolerance,
	}
	if r.Foot == design.Stub {
		t.Stub = &part.Stub{Depth: r.StubDepth, Width: math.Min(r.StubWidth, r.FootDepth)}
	}
	p.RibTask = t
	if p.Closed {
		p.Rib = part.NewFormer(t)
		return true
	}
	if share, s := t.Deepest(); share > 0.95 {
		deep := t.DepthAt(s)
		return p.stop("rib-too-deep", "rib.footDepth",
			"The rib is "+p.len(deep)+" deep where its edge bends at a radius of "+p.len(deep/share)+
				", "+p.len(s)+" from the foot: its back edge would run into itself. Make it shallower there.",
			map[string]float64{"depth": deep, "radius": deep / share, "at": s})
	}
	p.Rib = part.NewRib(t)
	return true
}

// hold works out how hard the panel pulls and whether rib and glue stand it.
func hold(p *Plan) bool {
	v := p.V
	share := p.ribShare()
	stiff := p.stiffness()
	var pulls []brace.Pull
	for _, s := range p.Edge.Samples(math.Pi / 180) {
		if s > p.RibTask.End {
			break
		}
		st := p.Edge.At(s)
		m := brace.Moment(math.Abs(st.Kappa), stiff(s), share)
		pulls = append(pulls, brace.Pull{S: s, P: st.P, Moment: m, Depth: p.RibTask.DepthAt(s)})
		p.Hold.Moment = math.Max(p.Hold.Moment, m)
	}
	if p.Closed {
		pulls = nil // a former is a plate: it does not bend
	}
	p.Hold.Rib = brace.Hold(pulls, brace.Beam{Thickness: v.Rib.Thickness, E: v.Rib.E.Value})
	if v.Rib.MOR.Value > 0 {
		p.Hold.RibUse = p.Hold.Rib.Stress / v.Rib.MOR.Value
	}
	if k := p.endCurvature(); k > 0 {
		at := p.Edge.Length() - p.tip()
		ei := stiff(at)
		p.Hold.EndForce = brace.EndForce(k, ei, v.Panel.Width, p.tip(), v.Rib.EndGap)
		p.Hold.Peel = p.peel()
		p.Hold.FootStraight, p.Hold.TipStraight = p.foot(), math.Max(0, p.tip()-p.Mark.Free)
	}
	return true
}

// stiffness returns EI per width along the edge: that of the run at s, of the plain
// sheet on straights.
func (p *Plan) stiffness() func(s float64) float64 {
	law := p.Law()
	return func(s float64) float64 {
		for _, r := range p.Layout.Runs {
			if s >= r.Start && s <= r.End {
				return law.Stiffness(r.Pitch)
			}
		}
		return law.PlainStiffness()
	}
}

// refold folds the panel up again from its rounded places and measures it.
func refold(p *Plan) bool {
	p.Fit = form.Measure(p.Strip, p.Edge, p.PanelLeft, 0, p.Layout.Length)
	p.Flats = Use{Allowed: 1}
	if so := p.V.Panel.StandOff; so > 0 {
		p.Flats.Value = p.Fit.Most / so
		p.Flats.Bad = p.Flats.Value
		for i, g := range p.Fit.Flats {
			if g.Most == p.Fit.Most {
				p.Flats.Score = max(1, min(i, len(p.Layout.Folds)))
			}
		}
	}
	return true
}
