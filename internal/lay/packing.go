package lay

import (
	"math"

	"springrib/internal/design"
	"springrib/internal/sheet"
)

// Packing lays the parts closer, by their real outlines, a slice of work at a time. The
// best so far stands in its Lay after each.
type Packing struct {
	*Lay
	groups []packing
}

// packing is that of one group.
type packing struct {
	*sheet.Search
	effort int64
	gains  int // of those that the group's layout has
}

// Pack begins a packing from how the parts lie now, with so much effort (see sheet.Search)
// shared among the stocks by their number of parts.
func (l *Lay) Pack(effort int64, seed uint64) *Packing {
	all := 0
	for _, g := range l.Sheets {
		all += len(g.Layout.Placed)
	}
	p := &Packing{Lay: l}
	for i := range l.Sheets {
		g := &l.Sheets[i]
		share := int64(float64(effort) * float64(len(g.Layout.Placed)) / math.Max(1, float64(all)))
		s := sheet.NewSearch(g.Job, share, seed)
		if g.Packed {
			s.Take(g.Layout)
		}
		g.Packed = true
		p.groups = append(p.groups, packing{Search: s, effort: share})
	}
	return p
}

// Run does about so many steps of the whole effort and reports whether there is more to do.
func (p *Packing) Run(steps int64) bool {
	more, gain := false, false
	all := int64(0)
	for _, g := range p.groups {
		all += g.effort
	}
	for i := range p.groups {
		g := &p.groups[i]
		if g.Search.Run(int64(float64(min(steps, all)) * float64(g.effort) / math.Max(1, float64(all)))) {
			more = true
		}
		if g.Gains() == g.gains {
			continue
		}
		g.gains = g.Gains()
		if best := g.Best(); sheet.Closer(best, p.Sheets[i].Layout) {
			p.Sheets[i].Layout = best
			gain = true
		}
	}
	if gain || p.Jobs == nil {
		p.Jobs, p.Times, p.Beds, p.Froms = nil, nil, nil, nil
		p.jobs()
	}
	return more
}

// Done returns the share of the effort that is spent, 0 to 1.
func (p *Packing) Done() float64 {
	done, all := 0.0, 0.0
	for _, g := range p.groups {
		done += float64(g.effort) * g.Search.Done()
		all += float64(g.effort)
	}
	if all == 0 {
		return 1
	}
	return done / all
}

// Take goes on from places found elsewhere for the same parts, group by group where they
// are sound and enough better.
func (p *Packing) Take(places []design.LayValues) {
	for i := range p.groups {
		g := &p.Sheets[i]
		if l, ok := p.packed(g, g.Layout.Missing, places); ok && sheet.Closer(l, g.Layout) {
			p.groups[i].Take(l)
		}
	}
}

// Places returns the best places so far, for the design to keep.
func (p *Packing) Places() []design.LayValues {
	var out []design.LayValues
	for _, g := range p.Sheets {
		for _, at := range g.Layout.Placed {
			out = append(out, design.LayValues{Part: g.Job.Pieces[at.Piece].ID, Copy: at.Copy, Sheet: at.Sheet, X: at.X, Y: at.Y, Turn: at.Turn})
		}
	}
	return out
}
