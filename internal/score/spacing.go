package score

import (
	"math"

	"springrib/internal/hinge"
	"springrib/internal/solve"
)

// side tells how the panel bends at a place.
type side struct {
	wraps   bool // the contact edge bulges to the panel
	towards bool // the scored face meets the rib
}

// way is 1 where the edge bulges to the panel and 0 in a cradle.
func (sd side) way() int {
	if sd.wraps {
		return 1
	}
	return 0
}

// closes reports whether the mouths close: the scored face is on the hollow side,
// which is the rib's side where the panel wraps it and the far side in a cradle.
func (sd side) closes() bool { return sd.wraps == sd.towards }

// standIn returns D, the distance from the contact face to the neutral fibre.
func (sd side) standIn(l hinge.Law, p float64) float64 { return sd.fibre(l, l.Neutral(p)) }

// fibre returns the same of a fibre that is given from the uncut face.
func (sd side) fibre(l hinge.Law, neutral float64) float64 {
	if sd.towards {
		return l.Score().Thickness - neutral
	}
	return neutral
}

// turn returns the curvature of the neutral fibre over an edge of curvature k > 0.
// A cradle tighter than D leaves no fibre; the result is then +Inf.
func (sd side) turn(k, d float64) float64 {
	if sd.wraps {
		return k / (1 + k*d)
	}
	if k*d >= 1 {
		return math.Inf(1)
	}
	return k / (1 - k*d)
}

// widest is the widest spacing tried, in thicknesses: the edge of the law's domain.
const widest = 8

// at returns the spacing wanted where the contact edge has curvature k > 0.
//
// Strain, closing, height of the flats and fold all grow with the spacing, so each
// has one root; the least of them wins, and the first in the order of the Bound
// constants where two are equal. Where scores run apart, the limits hold at both ends of each:
// strain and land are asked for most where they lie close, flats where they lie wide apart.
func (lim Limits) at(k float64, sd side) Spacing {
	law := lim.Cases[0].Law
	least := law.Score().Width + lim.Land
	most := math.Max(widest*law.Score().Thickness/math.Max(1, lim.Wider), least)
	best, bound := most, ByLaw
	failed := Bound("")
	for _, t := range lim.tests(k, sd) {
		if t.over(least) > 0 {
			if failed == "" {
				failed = t.bound
			}
			best = least
			continue
		}
		if t.over(best) <= 0 {
			continue
		}
		if p, ok := solve.Root(t.over, least, best, 1e-9); ok && p < best {
			best, bound = p, t.bound
		}
	}
	sp := Spacing{Pitch: best, D: sd.standIn(law, best), Bound: bound, Reached: failed == "", Failed: failed}
	if failed != "" {
		sp.Bound = ByLand
	}
	return sp
}

// test is one condition on the spacing: over(p) <= 0 is sound.
type test struct {
	bound Bound
	over  func(p float64) float64
}

func (lim Limits) tests(k float64, sd side) []test {
	law := lim.Cases[0].Law
	fold := func(p float64) float64 { return p * sd.turn(k, sd.standIn(law, p)) }
	var ts []test
	ends := lim.ends()
	// A score folds by the same all along: at an end that is q times as wide the fibre bends
	// to a radius q times as large.
	for _, c := range lim.Cases {
		for _, q := range ends {
			if c.Strain > 0 {
				ts = append(ts, test{ByStrain, func(p float64) float64 {
					return c.Law.Strain(q*p, fold(p)/(q*p))/c.Strain - 1
				}})
			}
		}
	}
	for _, c := range lim.Cases {
		for _, q := range ends {
			if c.Closing > 0 && sd.closes() {
				ts = append(ts, test{ByClosing, func(p float64) float64 {
					return fold(p)*c.Law.MouthLever(q*p)*c.Closing/c.Law.Score().Width - 1
				}})
			}
		}
	}
	if wide := ends[len(ends)-1]; lim.StandOff > 0 {
		ts = append(ts, test{ByStandOff, func(p float64) float64 {
			return standOff(fold(p), k/wide, sd)/lim.StandOff - 1
		}})
	}
	if lim.Fold > 0 {
		ts = append(ts, test{ByFold, func(p float64) float64 { return fold(p)/lim.Fold - 1 }})
	}
	return ts
}

// standOff returns the greatest gap between flat and edge: over a bulging edge at
// the fold, R(sec(theta/2)-1); in a cradle at the middle of the chord,
// R(1-cos(theta/2)). Both are theta^2 R/8 to first order.
func standOff(theta, k float64, sd side) float64 {
	if theta >= math.Pi {
		return math.Inf(1)
	}
	if k < 1e-12 { // as good as straight: theta^2/(8 k) with theta = p k
		return 0
	}
	if sd.wraps {
		return (1/math.Cos(theta/2) - 1) / k
	}
	return 2 * sq(math.Sin(theta/4)) / k
}

func sq(x float64) float64 { return x * x }

// FlatHeight returns how far a flat stands off an edge of curvature k beside a fold that
// turns by theta: at the fold where the panel wraps the rib, at the middle of the flat in
// a cradle.
func FlatHeight(theta, k float64, wraps bool) float64 { return standOff(theta, k, side{wraps: wraps}) }
