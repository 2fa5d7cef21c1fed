package part

import (
	"math"

	"springrib/internal/plane"
)

// Bridged cuts gaps into a closed tool path, so that bridges of sound material as wide as
// width hold the part: the gap is wider by the kerf, for the tool is round. There are n
// of them spread over the path, each on a straight or gentle stretch and never within
// half a bridge of keep, such as the edge that will be glued. Where no place is to be
// had there are fewer. With none the path comes back whole.
func Bridged(path plane.Path, keep []plane.Path, width, kerf float64, n int) []plane.Path {
	gap, total := width+kerf, path.Length()
	if n < 1 || gap <= 0 || total < 3*gap {
		return []plane.Path{path}
	}
	var at []float64 // middles of gaps along the path
	clear := 2 * gap // material that stays between two gaps at least
	for i := range n {
		want := total * (float64(i) + 0.5) / float64(n)
		step := math.Max(gap/4, total/2000)
		for off := 0.0; off <= total/float64(n)/2; off += step {
			if m, ok := firstClear(path, keep, []float64{want + off, want - off}, gap, kerf, at, clear, total); ok {
				at = append(at, m)
				break
			}
		}
	}
	if len(at) == 0 {
		return []plane.Path{path}
	}
	return without(path, at, gap, total)
}

func firstClear(path plane.Path, keep []plane.Path, tries []float64, gap, kerf float64, taken []float64, clear, total float64) (float64, bool) {
	for _, m := range tries {
		m = math.Mod(m+total, total)
		ok := true
		for _, t := range taken {
			d := math.Abs(m - t)
			ok = ok && math.Min(d, total-d) >= gap+clear
		}
		if ok && gentle(path, m, gap, total) && farFrom(path, keep, m, gap, kerf, total) {
			return m, true
		}
	}
	return 0, false
}

// gentle tells whether the path bends by less than 15 degrees over a gap and its
// neighbourhood: a bridge at a corner tears it.
func gentle(path plane.Path, m, gap, total float64) bool {
	_, dir := path.At(math.Mod(m-gap+total, total))
	for i := 1; i <= 8; i++ {
		_, d := path.At(math.Mod(m-gap+2*gap*float64(i)/8+total, total))
		if math.Abs(math.Atan2(dir.Cross(d), dir.Dot(d))) > math.Pi/12 {
			return false
		}
	}
	return true
}

// farFrom tells whether a gap and half a bridge more on both sides lie off keep, which
// runs half a kerf from the tool's path where it is the same edge.
func farFrom(path plane.Path, keep []plane.Path, m, gap, kerf, total float64) bool {
	for i := range 9 {
		q, _ := path.At(math.Mod(m-gap+2*gap*float64(i)/8+total, total))
		for _, k := range keep {
			if nearest(k, q) < kerf/2+0.05 {
				return false
			}
		}
	}
	return true
}

// nearest returns how far q lies from a path, taken as chords within 0.02 mm.
func nearest(p plane.Path, q plane.Point) float64 {
	best := math.Inf(1)
	if !p.Box().Grow(20).Contains(q) {
		return best
	}
	pts := p.Flatten(0.02)
	for i := 0; i+1 < len(pts); i++ {
		d := pts[i+1].Sub(pts[i])
		t := 0.0
		if l := d.Dot(d); l > 0 {
			t = math.Max(0, math.Min(1, q.Sub(pts[i]).Dot(d)/l))
		}
		best = math.Min(best, q.Dist(pts[i].Add(d.Mul(t))))
	}
	return best
}

// without returns what is left of a closed path once gaps around the middles are taken
// out, in its direction.
func without(path plane.Path, at []float64, gap, total float64) []plane.Path {
	sorted := append([]float64{}, at...)
	for i := range sorted { // few: by insertion
		for j := i; j > 0 && sorted[j] < sorted[j-1]; j-- {
			sorted[j], sorted[j-1] = sorted[j-1], sorted[j]
		}
	}
	var out []plane.Path
	for i, m := range sorted {
		end := sorted[(i+1)%len(sorted)] - gap/2
		if i == len(sorted)-1 {
			end += total
		}
		out = append(out, stretch(path, m+gap/2, end, total))
	}
	return out
}

// stretch returns the part of a closed path from arc length a to b, b > a, past its start
// where b is beyond its end.
func stretch(path plane.Path, a, b, total float64) plane.Path {
	var segs []plane.Segment
	for lap := range 3 {
		s := float64(lap) * total
		for _, seg := range path.Segs {
			l := seg.Length()
			from, to := math.Max(a, s), math.Min(b, s+l)
			if to-from > 1e-9 {
				segs = append(segs, seg.Split(seg.ParamAt(from-s), seg.ParamAt(to-s)))
			}
			s += l
		}
	}
	return plane.Path{Segs: segs}
}
