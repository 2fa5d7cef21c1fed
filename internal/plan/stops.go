package plan

import (
	"maps"
	"math"
	"sort"
	"strconv"

	"springrib/internal/curve"
	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/part"
	"springrib/internal/plane"
	"springrib/internal/sheet"
	"springrib/internal/unit"
)

// Changes that do away with what stops a plan. Each is tried before it is offered.

func offer(text string, set map[string]string) []finding.Remedy {
	return []finding.Remedy{{Text: text, Set: set}}
}

// shallower offers depths at which no rib's back edge runs into itself.
func (p *Plan) shallower() []finding.Remedy {
	foot, tip := p.V.Rib.FootDepth, p.V.Rib.TipDepth
	for range 24 {
		foot, tip = math.Floor(1.8*foot)/2, math.Floor(1.8*tip)/2
		if foot < 1 || tip < 1 {
			return nil
		}
		fits := true
		for _, s := range p.Supports {
			t := s.Task
			t.FootDepth, t.TipDepth = foot, tip
			share, _ := t.Deepest()
			fits = fits && share <= 0.95
		}
		if fits {
			return offer("Make the rib "+p.len(foot)+" deep at the foot and "+p.len(tip)+" at the tip", map[string]string{
				"rib.footDepth": unit.Bare(foot, p.V.Units), "rib.tipDepth": unit.Bare(tip, p.V.Units)})
		}
	}
	return nil
}

// Onto offers the place across nearest to where a rib was put at which the panel covers
// it over some of the curve, other ribs left where they are.
func (p *Plan) Onto(at design.RibPlaceValues) []finding.Remedy {
	if at.Row < 0 && (p.V.Rib.Quantity != 1 || len(p.V.Rib.Places) > 0) {
		return nil
	}
	b := p.Outline.Box()
	const steps = 40
	best, off := 0.0, math.Inf(1)
	for i := range steps + 1 {
		across := math.Round(10*(b.Min.Y+b.H()*float64(i)/steps)) / 10
		if away := math.Abs(across - at.Across); away < off && away > 0.05 && p.standsAt(at, across) {
			best, off = across, away
		}
	}
	if math.IsInf(off, 1) {
		return nil
	}
	row := max(at.Row, 0)
	return offer("Stand it "+p.len(best)+" across", map[string]string{"rib.places." + strconv.Itoa(row) + ".across": unit.Bare(best, p.V.Units)})
}

// standsAt tells whether a rib could stand at a place across.
func (p *Plan) standsAt(at design.RibPlaceValues, across float64) bool {
	for _, o := range p.V.Rib.Places {
		if o.Row != at.Row && math.Abs(o.Across-across) < (o.Thickness+at.Thickness)/2 {
			return false
		}
	}
	u0, u1, ok := p.reach(across, at.Thickness)
	return ok && math.Min(p.Edge.Length(), p.places.S(u1))-math.Max(0, p.places.S(u0)) >= 1
}

// smallerHole offers a size at which a hole keeps clear, else to leave it out. What stops
// may be another hole as well.
func (p *Plan) smallerHole(i int) []finding.Remedy {
	n := i - len(p.drawn.region.Holes)
	if n < 0 || n >= len(p.V.Panel.Holes) || p.trying {
		return nil
	}
	h := p.V.Panel.Holes[n]
	q := *p
	q.trying = true
	q.V.Panel.Holes = append([]design.HoleValues{}, p.V.Panel.Holes...)
	for _, share := range []float64{0.9, 0.8, 0.7, 0.6, 0.5, 0.4} {
		w := math.Floor(10*share*h.Width) / 10
		if w < 1 {
			break
		}
		q.V.Panel.Holes[n].Width = w
		if h.Slot {
			q.V.Panel.Holes[n].Length = math.Floor(10*share*h.Length) / 10
		}
		q.Findings = nil
		if !outline(&q) {
			continue
		}
		set := map[string]string{p.HoleField(i, "width"): unit.Bare(w, p.V.Units)}
		if h.Slot {
			set[p.HoleField(i, "length")] = unit.Bare(q.V.Panel.Holes[n].Length, p.V.Units)
		}
		return offer("Make it "+p.len(w)+" wide", set)
	}
	return p.withoutHole(i)
}

func (p *Plan) withoutHole(i int) []finding.Remedy {
	n := i - len(p.drawn.region.Holes)
	if n < 0 || n >= len(p.V.Panel.Holes) {
		return nil
	}
	return offer("Leave this hole out", design.BlankRow("panel.holes", p.V.Panel.Holes[n].Row))
}

// inOrder offers the corners of a crossed outline in the order in which they lie round
// their middle, where that is one sound outline.
func (p *Plan) inOrder() []finding.Remedy {
	if p.V.Panel.Shape != design.Polygon || p.trying {
		return nil
	}
	cs := append([]design.CornerValues{}, p.V.Panel.Corners...)
	var mid plane.Point
	for _, c := range cs {
		mid = mid.Add(pt(c.Along, c.Across).Mul(1 / float64(len(cs))))
	}
	round := func(c design.CornerValues) float64 { return math.Atan2(c.Across-mid.Y, c.Along-mid.X) }
	sort.SliceStable(cs, func(i, j int) bool { return round(cs[i]) < round(cs[j]) })
	set := map[string]string{}
	for i, c := range cs {
		row := "panel.corners." + strconv.Itoa(p.V.Panel.Corners[i].Row) + "."
		set[row+"along"], set[row+"across"], set[row+"radius"] = unit.Bare(c.Along, p.V.Units), unit.Bare(c.Across, p.V.Units), unit.Bare(c.Radius, p.V.Units)
		cs[i].Row = p.V.Panel.Corners[i].Row
	}
	q := *p
	q.trying, q.Findings = true, nil
	q.V.Panel.Corners = cs
	if !outline(&q) {
		return nil
	}
	return offer("Put the corners in order round their middle", set)
}

// withoutPoint offers to leave out a point that no smooth curve can go through.
func (p *Plan) withoutPoint(i int, pts []plane.Point) []finding.Remedy {
	if i < 0 || len(pts) < 4 {
		return nil
	}
	left := append(append([]plane.Point{}, pts[:i]...), pts[i+1:]...)
	if _, err := curve.Through(left...); err != nil {
		return nil
	}
	return offer("Leave this point out", design.BlankRow("curve.points", p.V.Curve.PointRows[i]))
}

// offBed adds to what lies off the bed the turn, or the smaller margin, with which it fits.
func (p *Plan) offBed(f *finding.Finding) {
	w, h, bw, bh := f.Numbers["width"], f.Numbers["height"], f.Numbers["bedWidth"], f.Numbers["bedHeight"]
	if f.ID != "off-bed" || bw == 0 {
		return
	}
	const hair = 0.01
	if p.V.Cut.Turns != design.TurnQuarter && h <= bw-hair && w <= bh-hair {
		f.Remedies = append(offer("Let parts lie turned by a quarter", map[string]string{"cut.turns": design.TurnQuarter}), f.Remedies...)
	}
	m := p.V.Cut.Margin
	least := math.Floor(10*(m-math.Max(w-bw, h-bh)/2-hair)) / 10
	if w > bw || h > bh {
		if least >= 0 && least < m {
			f.Remedies = append(offer("Leave "+p.len(least)+" along the edge of the bed", map[string]string{"cut.margin": unit.Bare(least, p.V.Units)}), f.Remedies...)
		}
	}
}

// unpinned adds to a fault of pinned parts that they be laid as all others are.
func (p *Plan) unpinned(f *finding.Finding, job *sheet.Job, parts []part.Part) {
	set := map[string]string{}
	for i, pc := range job.Pieces {
		for _, pin := range p.V.Cut.Pins {
			if pc.ID == f.Place.Part && i < len(parts) && names(pin.Part, parts[i]) {
				maps.Copy(set, design.BlankRow("cut.pins", pin.Row))
			}
		}
	}
	if len(set) > 0 {
		f.Remedies = append(offer("Let it lie where there is room", set), f.Remedies...)
	}
}

// PassesThatHold returns the number of passes nearest to the chosen one that leaves some
// skin at the bad end of what is known of its depth.
func (p *Plan) PassesThatHold() (int, bool) {
	now := p.Try().Passes
	for off := 1; off < len(p.V.Machine.Depths); off++ {
		for _, n := range []int{now - off, now + off} {
			if n >= 1 && n <= len(p.V.Machine.Depths) && p.V.Machine.Skin(n, p.V.Sheet.T, p.V.Sheet.TSpread).Low > 0 {
				return n, true
			}
		}
	}
	return 0, false
}

// mostApart bounds how many scores are laid to find how many leave land enough.
const mostApart = 20000

// ApartThatWould returns the number of scores, or their distance, as typed, at which the
// least land is left between them; ok is false where there is none to find.
func (p *Plan) ApartThatWould() (field, text, value string, ok bool) {
	least := p.Law().Score().Width + p.V.Panel.MinLand
	q := Plan{V: p.V, memory: p.memory}
	if !section(&q) || !size(&q) {
		return "", "", "", false
	}
	v := &q.V.Panel
	enough := func() bool {
		for _, r := range q.lay(p.Try().cases, q.rule()).Runs {
			if r.Count > 0 && r.Pitch < least-1e-6 {
				return false
			}
		}
		return true
	}
	switch v.Spacing {
	case design.FixedPitch:
		for _, more := range []float64{1, 1.02, 1.05, 1.1, 1.2, 1.4, 1.7, 2} {
			if v.Pitch = math.Ceil(100*least*more-1e-6) / 100; enough() {
				return "panel.pitch", "Set the scores " + p.len(v.Pitch) + " apart", unit.Bare(v.Pitch, p.V.Units), true
			}
		}
	case design.FixedCount:
		apart := math.Inf(1)
		for _, r := range p.Layout.Runs {
			apart = math.Min(apart, r.Pitch)
		}
		n := int(float64(v.Count) * apart / least)
		for left := mostApart; n >= 1 && left > 0; n = min(n-1, int(0.97*float64(n))) {
			v.Count = n
			left -= n
			l := q.lay(p.Try().cases, q.rule())
			if len(l.Folds) != n {
				break
			}
			if enough() {
				return "panel.count", "Use " + strconv.Itoa(n) + " scores", strconv.Itoa(n), true
			}
		}
	}
	return "", "", "", false
}
