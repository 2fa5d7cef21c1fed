package remedy

import (
	"maps"
	"math"
	"slices"
	"strconv"
	"strings"

	"springrib/internal/curve"
	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/machine"
	"springrib/internal/plan"
	"springrib/internal/plane"
	"springrib/internal/score"
	"springrib/internal/unit"
)

// rowOf returns the row that a field of a list names, "list.3.member"; -1 where it is none.
func rowOf(field, list string) int {
	rest, ok := strings.CutPrefix(field, list+".")
	if !ok {
		return -1
	}
	rest, _, _ = strings.Cut(rest, ".")
	n, err := strconv.Atoi(rest)
	if err != nil {
		return -1
	}
	return n
}

func withoutReading(_ *plan.Plan, f *finding.Finding) []finding.Remedy {
	row := rowOf(f.Place.Field, "strips.readings")
	if row < 0 {
		return nil
	}
	return []finding.Remedy{{Text: "Leave this reading out", Set: design.BlankRow("strips.readings", row)}}
}

// withoutPoint leaves out a point that no smooth curve can go through.
func withoutPoint(p *plan.Plan, f *finding.Finding) []finding.Remedy {
	c := p.V.Curve
	i := slices.Index(c.PointRows, rowOf(f.Place.Field, "curve.points"))
	if i < 0 || len(c.Points) < 4 {
		return nil
	}
	var left []plane.Point
	for k, xy := range c.Points {
		if k != i {
			left = append(left, plane.Pt(xy[0], xy[1]))
		}
	}
	if _, err := curve.Through(left...); err != nil {
		return nil
	}
	return []finding.Remedy{{Text: "Leave this point out", Set: design.BlankRow("curve.points", c.PointRows[i])}}
}

func seamElsewhere(_ *plan.Plan, f *finding.Finding) []finding.Remedy {
	if f.Place.Field != "curve.drawnSeam" {
		return nil
	}
	return one("Let the seam be found", "curve.drawnSeam", "")
}

// fewerPasses takes the number of passes nearest to the chosen one that leaves some skin at
// the bad end of what is known of its depth.
func fewerPasses(p *plan.Plan, _ *finding.Finding) []finding.Remedy {
	now, m := p.Try().Passes, &p.V.Machine
	for off := 1; off < len(m.Depths); off++ {
		for _, n := range []int{now - off, now + off} {
			if n >= 1 && n <= len(m.Depths) && m.Skin(n, p.V.Sheet.T, p.V.Sheet.TSpread).Low > 0 {
				return one("Use "+unit.Plural(n, "pass")+" instead of "+num(now), "panel.passes", num(n))
			}
		}
	}
	return nil
}

func knownPasses(p *plan.Plan, f *finding.Finding) []finding.Remedy {
	n := int(f.Numbers["known"])
	return one("Use "+unit.Plural(n, "pass"), "panel.passes", num(n))
}

func heldLess(p *plan.Plan, f *finding.Finding) []finding.Remedy {
	if _, known := f.Numbers["limit"]; !known {
		return nil
	}
	return uses(p, f)
}

// uses are the changes that bring cracking or pinching back to what is allowed; where
// nothing works, Search has them.
func uses(p *plan.Plan, _ *finding.Finding) []finding.Remedy {
	if p.NothingWorks() {
		return nil
	}
	var out []finding.Remedy
	if n, ok := followingCount(p); ok && n != len(p.Scores.Layout.Folds) {
		out = append(out, set("Use "+unit.Plural(n, "score")+" instead of "+num(len(p.Scores.Layout.Folds)), "panel.spacing", design.Follow))
	}
	for i, t := range p.Scores.Tries {
		if i != p.Scores.Chosen && t.Sound() {
			out = append(out, set("Use "+unit.Plural(t.Passes, "pass")+" instead of "+num(p.Try().Passes), "panel.passes", num(t.Passes)))
			break
		}
	}
	return append(out, radius(p)...)
}

// following lets the spacing follow the curve, where that keeps every limit.
func following(p *plan.Plan, _ *finding.Finding) []finding.Remedy {
	if _, ok := followingCount(p); !ok || p.V.Panel.Spacing == design.Follow {
		return nil
	}
	return one("Let the spacing follow the curve", "panel.spacing", design.Follow)
}

// followingCount returns the number of scores at which every limit is kept with the chosen
// number of passes, when the spacing follows the curve; ok is false when there is none.
func followingCount(p *plan.Plan) (n int, ok bool) {
	t := p.Passed(p.Try().Passes, score.Follow)
	if !plan.Reached(t.Layout) || !t.Cracking.Sound() || !t.Pinching.Sound() {
		return 0, false
	}
	for _, r := range t.Layout.Runs { // a whole number of scores may lie closer than the spacing asked for
		if r.Count > 0 && r.Pitch < p.Law().Score().Width+p.V.Panel.MinLand-1e-6 {
			return 0, false
		}
	}
	return len(t.Layout.Folds), true
}

// radius returns a radius to type, near the least, at which the chosen number of passes is
// sound and few panels fail: from the worst use, which goes about as the curvature, in steps
// of 2 %, then of 5 %, until it is.
// There is none to give where the curve has no one radius to type, nor with a fixed count,
// where the spacing grows with the radius and the fold stays. An outline that does not
// follow the curve by itself is taken along.
func radius(p *plan.Plan) []finding.Remedy {
	k := p.V.Curve.Kind
	if k != design.RadiusAngle && k != design.LengthRadius && !p.V.Curve.Coned() || p.V.Panel.Spacing == design.FixedCount {
		return nil
	}
	passes := p.Try().Passes
	r := p.V.Curve.Radius * math.Max(1, p.Try().Over())
	if p.V.Curve.Coned() {
		r = p.V.Curve.Small / 2 * math.Max(1, p.Try().Over())
	}
	for n := range 24 {
		q := p.Anew()
		wide := math.Ceil(r*10-1e-9) / 10
		q.V.Curve.Radius = wide
		if p.V.Curve.Coned() {
			q.V.Curve.Small, q.V.Curve.Large = 2*wide, p.V.Curve.Large-p.V.Curve.Small+2*wide
		}
		if q.Run(plan.StageLine, plan.StageSection, plan.StageSize) {
			t := q.Passed(passes, q.Rule())
			var along map[string]string
			if !follows(p) {
				q.Scores = q.Laid(&t)
				along = takeAlong(p, q)
				if q.V.Panel.Shape == design.Drawn {
					q.Run(plan.StageSize)
				}
				t = q.Passed(passes, q.Rule()) // which reaches more of the curve now
			}
			if fewFail(p, &t) {
				wider := set("Bend no tighter than a radius of "+mm(p, wide), "curve.radius", bare(p, wide))
				if p.V.Curve.Coned() {
					wider = rims(p, q.V.Curve.Small)
				}
				maps.Copy(wider.Set, along)
				return []finding.Remedy{wider}
			}
		}
		r *= 1.02
		if n > 10 {
			r *= 1.03
		}
	}
	return nil
}

// rims makes the small rim of a cone as wide as that, and the large one wider by as much.
func rims(p *plan.Plan, small float64) finding.Remedy {
	large := math.Ceil(10*(p.V.Curve.Large-p.V.Curve.Small+small)-1e-9) / 10
	if p.V.Curve.Rims == design.BySlant {
		return set("Make the large rim "+mm(p, large)+" across", "curve.large", bare(p, large))
	}
	return set("Make the rims "+mm(p, small)+" and "+mm(p, large)+" across", "curve.small", bare(p, small), "curve.large", bare(p, large))
}

// wider bends the wanted line no tighter than a radius, where its bends have radii to type
// and the curve is none too tight with it.
func wider(p *plan.Plan, f *finding.Finding) []finding.Remedy {
	room := f.Numbers["distance"] + p.V.Sheet.T
	if run, tight := plan.Roomless(p.Scores.Layout); tight { // of the neutral line, not of the edge
		room = p.LineRadius(run) + f.Numbers["distance"] - run.Radius + p.V.Sheet.T
	}
	r := math.Ceil(10*room-1e-9) / 10
	q := p.Anew()
	c := &q.V.Curve
	text, sets := "Bend no tighter than a radius of "+mm(p, r), map[string]string{}
	switch c.Kind {
	case design.RadiusAngle, design.LengthRadius:
		c.Radius, sets["curve.radius"] = r, bare(p, r)
	case design.SpanRise:
		if r <= c.Span/2 {
			return nil
		}
		c.Rise = riseOf(c.Span, r)
		text, sets["curve.rise"] = "Let it rise no more than "+mm(p, c.Rise), bare(p, c.Rise)
		if c.Rise <= 0 {
			return nil
		}
	case design.Chain:
		c.Pieces = slices.Clone(c.Pieces)
		for i, pc := range c.Pieces {
			if pc.Turn != design.Straight && pc.Radius < r {
				c.Pieces[i].Radius, sets["curve.pieces."+num(i)+".radius"] = r, bare(p, r)
			}
		}
	case design.Box:
		if r > math.Min(c.BoxWidth, c.BoxHeight)/2 {
			return nil
		}
		text = "Round the corners to " + mm(p, r)
		c.Corner, sets["curve.corner"] = r, bare(p, r)
	default:
		return nil
	}
	if !q.Run(plan.StageLine, plan.StageSection, plan.StageSize) {
		return nil
	}
	for n := range q.V.Machine.Depths {
		if _, tight := plan.Roomless(q.Passed(n+1, q.Rule()).Layout); tight {
			return nil
		}
	}
	return []finding.Remedy{{Text: text, Set: sets}}
}

// riseOf returns the rise of an arc of radius r over a span, rounded down to what is typed.
func riseOf(span, r float64) float64 { return floor(r-math.Sqrt(r*r-span*span/4), 10) }

// mostApart bounds how many scores are laid to find how many leave land enough.
const mostApart = 20000

// apart lets the spacing follow the curve, or finds the number of scores, or their
// distance, at which the least land is left between them.
func apart(p *plan.Plan, f *finding.Finding) []finding.Remedy {
	out := following(p, f)
	least := p.Law().Score().Width + p.V.Panel.MinLand
	q := p.Anew()
	q.Line, q.Section, q.Size = p.Line, p.Section, p.Size
	v := &q.V.Panel
	laid := 0
	enough := func() bool {
		l := q.Lays(p.Try().Limits, q.Rule())
		laid = len(l.Folds)
		for i := 1; i < laid; i++ {
			if l.Folds[i].U-l.Folds[i-1].U < least-1e-6 { // where a bend meets one the other way
				return false
			}
		}
		return !slices.ContainsFunc(l.Runs, func(r score.Run) bool { return r.Count > 0 && r.Pitch < least-1e-6 })
	}
	switch v.Spacing {
	case design.FixedPitch:
		for _, more := range []float64{1, 1.02, 1.05, 1.1, 1.2, 1.4, 1.7, 2, 2.1, 2.3} {
			if v.Pitch = math.Ceil(100*least*more-1e-6) / 100; enough() {
				return append(out, set("Set the scores "+mm(p, v.Pitch)+" apart", "panel.pitch", bare(p, v.Pitch)))
			}
		}
	case design.FixedCount:
		near := math.Inf(1)
		for _, r := range p.Scores.Layout.Runs {
			near = math.Min(near, r.Pitch)
		}
		n := int(float64(v.Count) * near / least)
		for left := mostApart; n >= 1 && left > 0; n = min(n-1, int(0.97*float64(n))) {
			v.Count = n
			left -= n
			if ok := enough(); laid != n {
				break
			} else if ok {
				return append(out, set("Use "+unit.Plural(n, "score"), "panel.count", num(n)))
			}
		}
	}
	return out
}

func flatter(p *plan.Plan, f *finding.Finding) []finding.Remedy {
	out, most := following(p, f), f.Numbers["height"]
	if field, _ := design.At("panel.standOff"); most < field.Max-0.01 {
		out = append(out, set("Accept "+mm(p, most), "panel.standOff", bare(p, ceil(most, 100))))
	}
	return out
}

func count(p *plan.Plan, f *finding.Finding) []finding.Remedy {
	n := int(f.Numbers["laid"])
	return append(one("Use "+unit.Plural(n, "score"), "panel.count", num(n)), following(p, f)...)
}

func runOut(p *plan.Plan, _ *finding.Finding) []finding.Remedy {
	need := ceil(machine.LeastOverrun(p.V.Machine.Speed, p.V.Machine.Acceleration), 10)
	return one("Run out "+mm(p, need), "panel.overrun", bare(p, need))
}

// other is the face that is not meant.
func other(face string) string {
	return map[string]string{design.Hollow: design.Round, design.Round: design.Hollow}[face]
}

func otherFace(p *plan.Plan, f *finding.Finding) []finding.Remedy {
	if f.Place.Field != "panel.scoredFace" {
		return nil
	}
	face := other(p.V.Panel.ShowFace)
	return one("Score the "+face+" side", f.Place.Field, face)
}
