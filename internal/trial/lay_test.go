package trial_test

import (
	"math"
)

// apart looks for pieces that are cut out of each other.
func (j *judge) apart(f *drawing, laid []*piece) {
	for i, a := range laid {
		for _, b := range laid[:i] {
			if a.path == nil || b.path == nil || !a.path.box.meets(b.path.box) {
				continue
			}
			if d := math.Max(deepest(a.path, b), deepest(b.path, a)); d > 0.01 {
				j.say("parts-overlap", "%s and %s by %.3f mm", a.name, b.name, d)
				return
			}
		}
	}
	for _, l := range f.kind("score") {
		for _, p := range l.paths {
			stroke := newChain(p.chords(chordError), false)
			for _, pc := range laid {
				if pc.path == nil || !pc.path.box.meets(stroke.box) || pc.part.ID == "panel" {
					continue
				}
				if d := deepest(stroke, pc); d > 0.01 {
					j.say("score-on-other", "a score runs %.3f mm into %s", d, pc.name)
					return
				}
			}
		}
	}
}

// deepest returns how deep a polyline lies in the material of a piece, as its tool's path
// bounds it.
func deepest(c *chain, pc *piece) float64 {
	loops := []*chain{pc.path}
	for _, h := range pc.inner {
		loops = append(loops, newChain(h.chords(chordError), true))
	}
	most := 0.0
	for i := range c.edges() {
		a, b := c.edge(i)
		if !boxOf([]xy{a, b}).meets(pc.path.box) {
			continue
		}
		d, l := b.sub(a), a.to(b)
		if l == 0 {
			continue
		}
		for _, s := range slices(loops, a, d.mul(1/l)) {
			from, to := math.Max(s[0], 0), math.Min(s[1], l)
			for t := 1.0; t < 8 && to > from; t++ {
				q := a.add(d.mul((from + (to-from)*t/8) / l))
				deep := math.Inf(1)
				for _, loop := range loops {
					off, _ := loop.near(q, deep)
					deep = math.Min(deep, off)
				}
				most = math.Max(most, deep)
			}
		}
	}
	return most
}

// onBed looks whether every stroke keeps to the sheet and off its margin.
func (j *judge) onBed(f *drawing, n int) {
	m := j.v.Cut.Margin
	bed := box{xy{}, xy{f.w, f.h}}
	if f.w != round3(j.v.Machine.BedWidth) || f.h != round3(j.v.Machine.BedHeight) {
		j.say("bed-size", "the file is %v by %v", f.w, f.h)
	}
	var scrap *chain
	if n >= 0 && n < len(j.p.Lay.Beds) && len(j.p.Lay.Beds[n].Outer.Segs) > 0 {
		var pts []xy
		for _, s := range j.v.Cut.Scrap {
			pts = append(pts, xy{s.X, s.Y})
		}
		scrap = newChain(pts, true)
		j.seen["scrap"]++
	}
	for _, l := range f.layers {
		for _, p := range l.paths {
			c := newChain(p.chords(chordError), false)
			at := boxOf(c.pts)
			if in := bed.grown(-m + 0.003); !in.holds(at.lo) || !in.holds(at.hi) {
				if out := bed.grown(0.003); !out.holds(at.lo) || !out.holds(at.hi) {
					j.say("off-bed", "%s leaves the bed: %.3f %.3f to %.3f %.3f", l.id, at.lo.x, at.lo.y, at.hi.x, at.hi.y)
				} else {
					j.say("in-margin", "%s comes nearer to the bed's edge than %.3f: %.3f %.3f to %.3f %.3f of %.3f %.3f", l.id, m, at.lo.x, at.lo.y, at.hi.x, at.hi.y, f.w, f.h)
				}
				return
			}
			if scrap == nil {
				continue
			}
			for _, q := range c.spaced(3) {
				if d, _ := scrap.near(q, 1e6); !scrap.inside(q) || d < m-0.003 {
					j.say("off-scrap", "%s leaves the scrap, or its margin, at %.3f %.3f", l.id, q.x, q.y)
					return
				}
			}
		}
	}
}

func round3(v float64) float64 { return math.Round(v*1000) / 1000 }
