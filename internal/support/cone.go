package support

import (
	"math"
	"springrib/internal/design"
	"springrib/internal/outline"
	"springrib/internal/part"
	"springrib/internal/unit"
)

// ringsApart returns the places of rings that have none of their own: the outer ones flush with
// the rims, others evenly between. One alone stands at the wide rim.
func (p *Task) ringsApart(n int) []float64 {
	half := p.Values.Rib.Thickness / 2
	if k := p.Section.Cone; k != nil {
		half /= math.Cos(k.Lean())
	}
	lo, hi := half-p.Width/2, p.Width/2-half
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
func (p *Task) ringWord() string {
	if p.Section.Closed {
		return "the ring"
	}
	return "the rib"
}

// atRim is how near a rim a ring's line may lie and is not marked, mm.
const atRim = 0.5

// rings places the ribs of a panel whose scores run apart. A ring is cut square and so touches with the edge of its
// narrow face alone.
func (p *making) rings() bool {
	r := &p.Values.Rib
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
		s.Share = p.Across.Widths(s.Lo, s.Hi)
		s.Seat = p.Section.Seat(at.Across+p.Width/2, at.Thickness, r.Edge == design.Bevel)
		if s.Past > 1e-6 {
			return p.Stop("rib-off-panel", p.ribField(at, "across"), unit.Upper(p.ringWord())+" "+p.Len(at.Across)+" across reaches "+p.Len(s.Past)+
				" past the rim of the panel. Move it inward.", map[string]float64{"across": at.Across, "past": s.Past})
		}
		s.Mark = Mark{
			Across: s.Line - p.Width/2, From: p.Outline.From - r.MarkStart,
			To: math.Min(p.Layout.Length, p.Outline.To), Turned: !p.Section.Towards,
		}
		s.Task = part.RibTask{
			From: p.Values.From(s.Stock, s.Thickness, s.StockAt), Edge: s.Edge, PanelLeft: true,
			FootDepth: r.FootDepth, TipDepth: r.FootDepth, Kerf: p.Values.Machine.Kerf, Tolerance: outline.Tolerance, Quick: p.Draft,
		}
		s.Task.End = s.Task.Edge.Length()
		if h := r.Hub; h == design.HubNarrow && i == 0 || h == design.HubWide && i == len(places)-1 {
			s.Task.Hub = &part.Hub{Hole: r.HubHole, Spokes: r.Spokes}
			radius := p.Section.Cone.Radius(s.Height)
			if room := 2 * (radius - r.FootDepth); r.HubHole > room {
				return p.Stop("hub-no-room", "rib.hubHole", "A ring "+p.Len(2*radius)+" across has room for a hole of "+p.Len(math.Max(0, room))+" at most where "+
					p.Len(r.FootDepth)+" of it are to be left all round. Make the hole smaller, or the ring narrower.", map[string]float64{"hole": r.HubHole, "room": math.Max(0, room)})
			}
		}
		if !p.Section.Closed {
			short := math.Min(ShortOfTip, p.Section.Tip())
			s.Task.End -= short
			s.Mark.To -= short
			s.Task.TipDepth, s.Task.TipRound = r.TipDepth, r.TipRound
		}
		if s.Height < atRim || p.Section.Tall()-s.Height < atRim {
			s.Mark.To = s.Mark.From // the rim is the line
		}
		p.out.All = append(p.out.All, s)
	}
	for i, s := range p.out.All {
		if s.Task.End > p.out.All[p.out.Longest].Task.End+Alike {
			p.out.Longest = i
		}
	}
	p.out.Mark = p.out.All[p.out.Longest].Mark
	return true
}

// GlueWidth is the width over which glue joins a rib and the panel, mm: its thickness, or as much of
// the wedge beside a ring as is no wider than a flat may stand off.
func (s *Support) GlueWidth(standOff float64) float64 {
	if s.Wedge > standOff && standOff > 0 {
		return s.Thickness * standOff / s.Wedge
	}
	return s.Thickness
}
