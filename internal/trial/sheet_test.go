package trial_test

import (
	"math"
	"strconv"

	"springrib/internal/part"
	"springrib/internal/plane"
)

// piece is one copy of a part where it should lie, and what of a file is its.
type piece struct {
	lines [][2]xy // of its scores between two sections, in order, near end first
	part  part.Part
	name  string
	move  plane.Affine
	outer *chain   // the finished outline
	holes []*chain // the finished holes
	cut   []trace  // outer cuts of the file that are its
	inner []trace
	path  *chain // its outer cuts, joined over bridges
	gaps  [][2]xy
	fan   *fan // of a panel of a cone
	// shared tells that a cut runs along this piece and another alike, as where no gap is left.
	shared bool
}

// finished are the outlines of the piece as it should come out.
func (pc *piece) finished() []*chain { return append([]*chain{pc.outer}, pc.holes...) }

// laid returns the pieces of each sheet, in the order of the files.
func (j *judge) laid() [][]*piece {
	var out [][]*piece
	for gi := range j.p.Lay.Sheets {
		g := &j.p.Lay.Sheets[gi]
		for s := range g.Layout.Sheets {
			var on []*piece
			for _, at := range g.Layout.Placed {
				if at.Sheet != s {
					continue
				}
				src := g.Parts[at.Piece]
				pc := &piece{part: src, move: at.Move(), name: src.ID + " " + strconv.Itoa(at.Copy+1)}
				pc.outer = newChain(traceOf(src.Outline.Outer, pc.move).chords(chordError), true)
				for _, h := range src.Outline.Holes {
					pc.holes = append(pc.holes, newChain(traceOf(h, pc.move).chords(chordError), true))
				}
				on = append(on, pc)
			}
			if len(on) > 0 {
				out = append(out, on)
			}
		}
	}
	return out
}

// sheet judges one cut file against what should lie on it.
func (j *judge) sheet(f *drawing, laid []*piece, n int) {
	j.segments(f)
	var outer, inner []layer = f.kind("outer-cuts"), f.kind("inner-cuts")
	j.repeated(f)
	if len(outer) == 0 {
		j.say("part-missing", "sheet %d has no outer cuts", n+1)
		return
	}
	var cutOut []trace
	cutOut = append(cutOut, outer[0].paths...)
	if j.v.Cut.CutOuts { // parts in cut-outs are cut with the inner cuts
		cutOut = nil
	}
	if len(inner) > 0 {
		j.assign(inner[0].paths, laid, true)
	}
	if cutOut != nil {
		j.assign(cutOut, laid, false)
	} else {
		j.assign(outer[0].paths, laid, false)
	}
	for _, pc := range laid {
		j.outline(pc)
	}
	if k, ok := j.cone(); ok {
		j.coneScores(f, laid, k)
	} else if j.v.Curve.Skinned() {
		j.skinScores(f, laid)
	} else {
		j.scores(f, laid)
	}
	j.marks(f, laid)
	j.apart(f, laid)
	j.onBed(f, n)
}

// segments looks at every segment of the file.
func (j *judge) segments(f *drawing) {
	const least = 0.01 // mm: below what any machine steps
	for _, l := range f.layers {
		for _, p := range l.paths {
			for _, s := range p.runs {
				if d := s.length(); d < least-1e-9 {
					j.say("short-segment", "%s: %.4f mm at %.3f %.3f", l.id, d, s.a.x, s.a.y)
					return
				}
			}
		}
	}
	j.seen["segments"]++
}

// repeated looks whether each pass written as a layer of its own is the whole of it.
func (j *judge) repeated(f *drawing) {
	for _, kind := range []string{"score", "mark", "inner-cuts", "outer-cuts"} {
		layers := f.kind(kind)
		for i := 1; i < len(layers); i++ {
			j.seen["repeated"]++
			if a, b := layers[0], layers[i]; math.Abs(total(a)-total(b)) > 1e-6*(1+total(a)) || len(a.paths) != len(b.paths) {
				j.say("pass-differs", "%s has %d paths of %.3f mm, %s %d of %.3f", a.id, len(a.paths), total(a), b.id, len(b.paths), total(b))
			}
		}
	}
}

func total(l layer) float64 {
	sum := 0.0
	for _, p := range l.paths {
		sum += p.length()
	}
	return sum
}

// assign gives each cut to the piece, and of inner cuts to the hole, beside which it runs.
func (j *judge) assign(paths []trace, laid []*piece, inner bool) {
	k := j.v.Machine.Kerf
	for _, p := range paths {
		at := p.chords(0.05)
		b := boxOf(at)
		step := max(1, len(at)/24)
		var best, next *piece
		bestInner := false
		least, second := math.Inf(1), math.Inf(1)
		for _, pc := range laid {
			if !pc.outer.box.grown(2*k + 1).meets(b) {
				continue
			}
			for i, loop := range pc.finished() {
				isHole := i > 0
				if isHole != inner && !(inner && j.v.Cut.CutOuts) {
					continue
				}
				off := 0.0
				for q := 0; q < len(at); q += step {
					d, _ := loop.near(at[q], 1e3)
					if d < 1e-9 && k > 0 {
						d = 0
					}
					if in := loop.inside(at[q]); in != isHole { // on the wrong side of it
						d = -d
					}
					off += math.Abs(d - k/2)
				}
				if off < least {
					if best != pc {
						second, next = least, best
					}
					least, best, bestInner = off, pc, isHole
				} else if off < second && best != pc {
					second, next = off, pc
				}
			}
		}
		if tie := placeError * float64((len(at)+step-1)/step); next != nil && second < tie && least < tie {
			best.shared, next.shared = true, true
		}
		switch {
		case best == nil || least/float64((len(at)+step-1)/step) > math.Max(1, k):
			j.say("stray-cut", "a cut of %.2f mm at %.2f %.2f belongs to no part", p.length(), p.start().x, p.start().y)
		case bestInner:
			best.inner = append(best.inner, p)
		default:
			best.cut = append(best.cut, p)
		}
	}
}
