package trial_test

import (
	"math"

	"springrib/internal/finding"
	"springrib/internal/support"
)

// sound holds a verdict "Sound" to what it promises, worked out anew where that can be.
func (j *judge) sound() {
	if j.view.Verdict.Word != "Sound" && j.view.Verdict.Severity != "sound" {
		if j.worst() != finding.Stop && j.worst() != finding.Warn {
			j.say("verdict-word", "%q with nothing graver than a note", j.view.Verdict.Word)
		}
		return
	}
	j.seen["sound"]++
	j.seen["sound "+j.v.Curve.Kind]++
	j.seen["sound "+j.v.Panel.Shape]++
	if w := j.worst(); w == finding.Stop || w == finding.Warn {
		j.say("sound-findings", "sound with %s", j.view.Findings[0].ID)
	}
	for _, g := range j.view.Verdict.Gauges {
		if g.ID == "flats" {
			if g.Value > 1.05+1e-6 {
				j.say("sound-flats", "%.3f of the flats' height", g.Value)
			}
			continue
		}
		if g.Value > g.Allowed+1e-6 || g.High > 1+1e-6 {
			j.say("sound-"+g.ID, "%.3f of %.3f allowed, %.3f at the bad end", g.Value, g.Allowed, g.High)
		}
	}
	if j.p.Section.Closed {
		j.girth()
	}
	if k, ok := j.cone(); ok {
		j.coneHolds(k)
		return
	}
	if j.v.Curve.Skinned() {
		return // skinScores folds it up
	}
	if !j.p.Section.Closed {
		j.ends()
		j.glue()
	}
	j.ribs()
}

// girth: a panel that goes all round must reach round at the bad end of the thickness.
func (j *judge) girth() {
	off := 2 * math.Pi * j.v.Sheet.TSpread
	parts := float64(max(1, j.v.Curve.Gores))
	if more := parts*j.p.Outline.Length - j.p.Scores.Layout.Length; more < off-1e-6 {
		j.say("sound-length", "the panel is %.3f longer than its girth, which may be off by %.3f", more, off)
	}
}

// arcs returns the arc length of the edge over a place along the flat panel, by the scores:
// a straight runs on at its own length.
func (j *judge) arcs(u float64) float64 {
	f := j.p.Scores.Layout.Folds
	if len(f) == 0 {
		return u
	}
	n := len(f) - 1
	switch {
	case u <= f[0].U:
		return f[0].S - (f[0].U - u)
	case u >= f[n].U:
		return f[n].S + u - f[n].U
	}
	for i := range n {
		if u <= f[i+1].U {
			t := (u - f[i].U) / (f[i+1].U - f[i].U)
			return f[i].S + t*(f[i+1].S-f[i].S)
		}
	}
	return f[n].S
}

// edgeGap returns how far a place lies from the wished edge, which runs on straight past
// both its ends.
func (j *judge) edgeGap(q xy) float64 {
	best := math.Inf(1)
	length := j.p.Section.Edge.Length()
	at := func(s float64) xy { st := j.p.Section.Edge.At(s); return xy{st.P.X, st.P.Y} }
	const n = 2000
	lo, hi := -length, 2*length
	for i := range n {
		a, b := at(lo+(hi-lo)*float64(i)/n), at(lo+(hi-lo)*float64(i+1)/n)
		best = math.Min(best, fromEdge(q, a, b))
	}
	return best
}

// ends: past the ribs the panel runs on straight; its ends, the furthest of the whole
// outline, must not stand off the wished curve by more than was accepted. Every score must
// lie on the panel, no bend may be left without panel, and no panel without curve.
func (j *judge) ends() {
	j.seen["ends"]++
	lo, hi := math.Inf(1), math.Inf(-1)
	first, last := math.Inf(1), math.Inf(-1)
	for _, h := range j.p.Outline.Region.Outer.Segs {
		for i := range 9 {
			u := h.Point(float64(i) / 8).X
			first, last = math.Min(first, u), math.Max(last, u)
		}
	}
	for _, s := range j.p.Supports.All {
		lo, hi = math.Min(lo, s.Task.Start), math.Max(hi, s.Task.End)
	}
	for _, e := range []struct {
		name   string
		rib, u float64
	}{{"foot", lo, first}, {"tip", hi, last}} {
		st := j.p.Section.Edge.At(e.rib)
		dir := st.Tangent()
		q := xy{st.P.X, st.P.Y}.add(xy{dir.X, dir.Y}.mul(j.arcs(e.u) - e.rib))
		if gap := j.edgeGap(q); gap > j.v.Rib.EndGap+0.01 {
			j.say("sound-end-gap", "the %s stands %.3f off the wished edge, %.3f is accepted; the ribs end at %.2f, the panel at %.2f", e.name, gap, j.v.Rib.EndGap, e.rib, j.arcs(e.u))
		}
		if e.name == "foot" && e.rib < j.arcs(e.u)-0.1 || e.name == "tip" && e.rib > j.arcs(e.u)+0.1 {
			j.say("sound-length", "a rib reaches past the panel's %s: %.2f, %.2f", e.name, e.rib, j.arcs(e.u))
		}
	}
	if n := len(j.p.Scores.Layout.Folds); n > 0 && (j.p.Scores.Layout.Folds[0].U <= first || j.p.Scores.Layout.Folds[n-1].U >= last) {
		j.say("sound-length", "the panel runs from %.2f to %.2f, the scores from %.2f to %.2f", first, last, j.p.Scores.Layout.Folds[0].U, j.p.Scores.Layout.Folds[n-1].U)
	}
	if last > j.p.Scores.Layout.Length+0.06 || first < -0.06 {
		j.say("sound-length", "the panel runs from %.2f to %.2f, the curve from 0 to %.2f", first, last, j.p.Scores.Layout.Length)
	}
}

// pull is the moment of the bent panel at arc length s, over the width that a rib holds
// there: curvature, stiffness by the spacing of the scores about it, width.
func (j *judge) pull(s support.Support, at float64) float64 {
	folds := j.p.Scores.Layout.Folds
	kappa := math.Abs(j.p.Section.Edge.At(at).Kappa)
	if kappa == 0 || len(folds) == 0 {
		return 0
	}
	best, pitch := math.Inf(1), 0.0
	for i, f := range folds {
		if d := math.Abs(f.S - at); d < best {
			best = d
			switch {
			case i > 0 && i+1 < len(folds):
				pitch = (folds[i+1].U - folds[i-1].U) / 2
			case i > 0:
				pitch = folds[i].U - folds[i-1].U
			case len(folds) > 1:
				pitch = folds[1].U - folds[0].U
			}
		}
	}
	for _, r := range j.p.Scores.Layout.Runs { // a lone score, or the first after a straight
		if at >= r.Start-1e-6 && at <= r.End+1e-6 && (pitch == 0 || pitch > 1.5*r.Pitch) {
			pitch = r.Pitch
		}
	}
	if pitch <= 0 {
		return 0
	}
	return kappa * j.p.Law().Stiffness(pitch) * j.wide(s, at)
}

// wide is how much of the panel's width a rib holds at arc length s: half way to its
// neighbours.
func (j *judge) wide(s support.Support, at float64) float64 {
	lo, hi := math.Inf(-1), math.Inf(1)
	for _, o := range j.p.Supports.All {
		if m := (o.Across + s.Across) / 2; o.Across < s.Across-1e-9 {
			lo = math.Max(lo, m)
		} else if o.Across > s.Across+1e-9 {
			hi = math.Min(hi, m)
		}
	}
	if j.loops == nil {
		for _, p := range j.p.Outline.Region.Paths() {
			j.loops = append(j.loops, newChain(traceOf(p, identity).chords(chordError), true))
		}
	}
	sum := 0.0
	for _, span := range slices(j.loops, xy{j.p.Place(at), 0}, xy{0, 1}) {
		sum += math.Max(0, math.Min(span[1], hi)-math.Max(span[0], lo))
	}
	return sum
}

// glue: at both ends of every rib either the face holds the peel at the low end of its bond
// (the panel as a beam on an elastic bed: kappa sqrt(k EI w)/b, k = E_z b/t), or the glued
// straight there takes the moment: sqrt(M/(bond b)) of it. M. Hetenyi, Beams on Elastic
// Foundation, 1946, as package brace has it.
func (j *judge) glue() {
	bond := j.v.Rib.GlueBond.Value
	if l := j.v.Rib.GlueBond.Low; l > 0 {
		bond = math.Min(bond, l)
	}
	ez := j.v.Sheet.EZ.Value
	if ez == 0 {
		ez = j.v.Sheet.E.Value
	}
	firstBend, lastBend := math.Inf(1), 0.0
	for _, st := range j.p.Section.Edge.Stretches() {
		if st.Sign != 0 {
			firstBend, lastBend = math.Min(firstBend, st.Start), math.Max(lastBend, st.End)
		}
	}
	for _, s := range j.p.Supports.All {
		for _, e := range []struct {
			name         string
			at, straight float64
		}{
			{"foot", math.Max(s.Task.Start, firstBend) + 1e-6, math.Max(0, firstBend-s.Task.Start)},
			{"tip", math.Min(s.Task.End, lastBend) - 1e-6, math.Max(0, s.Task.End-lastBend)},
		} {
			j.seen["glue"]++
			m := j.pull(s, e.at)
			kappa := math.Abs(j.p.Section.Edge.At(e.at).Kappa)
			if m <= 0 || kappa == 0 {
				continue
			}
			need := math.Sqrt(m / (bond * s.Thickness))
			peel := math.Sqrt(m*kappa*ez*s.Thickness/j.v.Sheet.T) / s.Thickness / bond
			if len(j.v.Sheet.Stock.Plies) > 0 {
				// How stiff a score through plies leaves them only the plan knows; what it
				// says it needs must be there.
				of := s.Hold.FootPeel
				if e.name == "tip" {
					of = s.Hold.TipPeel
				}
				need, peel = of.Length, of.Use
			}
			if peel > 1.02 && e.straight < 0.98*need-0.01 {
				j.say("sound-glue", "at the %s %.2f of glued straight, %.2f needed at the low bond of %.3f MPa; peel %.2f of what it holds (rib %.1f across)", e.name, e.straight, need, bond, peel, s.Across)
			}
		}
	}
}

// ribs: stress 6M/(b d^2) within the low end of the rib's strength.
func (j *judge) ribs() {
	if j.p.Section.Closed {
		return // a former is a plate: it does not bend
	}
	for _, s := range j.p.Supports.All {
		mor := s.MOR.Value
		if s.MOR.Low > 0 {
			mor = math.Min(mor, s.MOR.Low)
		}
		if len(j.v.Sheet.Stock.Plies) > 0 {
			if use := s.Hold.RibUse * s.MOR.Value / mor; use > 1.001 {
				j.say("sound-rib", "the rib %.1f across is at %.2f of its low strength", s.Across, use)
			}
			continue
		}
		for i := range 41 {
			at := s.Task.Start + (s.Task.End-s.Task.Start)*(float64(i)+0.5)/41
			d := s.Task.DepthAt(at)
			if use := 6 * j.pull(s, at) / (s.Thickness * d * d) / mor; use > 1.02 {
				j.say("sound-rib", "the rib %.1f across is at %.2f of its low strength, %.1f from the foot", s.Across, use, at)
				break
			}
		}
	}
}
