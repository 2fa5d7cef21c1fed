package coupon

import (
	"math"

	"springrib/internal/finding"
	"springrib/internal/solve"
	"springrib/internal/unit"
)

const (
	spotName = "spot "
	// fewSigma is the same with too few spots to tell, mm: what a depth differs by over a
	// bed that is looked after (common practice, no source); spotLeast is the least it is
	// taken for.
	fewSigma, spotLeast = 0.03, 0.01
	// spotSigma is how far the skin at one spot of the bed may differ from the mean over
	// the bed before anything is read, mm: wide, so that the readings decide (a bed out of
	// level by a focal depth or so; common practice, no source).
	spotSigma = 0.15
	// leastSpots is how many spots tell of a spread.
	leastSpots = 3
)

// unevenFrom is the least difference over a bed that is spoken of, mm: what a caliper
// can just tell in a groove (common practice, no source).
const unevenFrom = 0.05

// The places on the bed that Order cuts tongues at, as their labels have them.
const (
	LowerLeft  = "1"
	LowerRight = "2"
	UpperLeft  = "3"
	UpperRight = "4"
	Centre     = "5"
)

// SpotWords returns a place in words, as the drawing of the sheet has it; a place of the
// person's own as they wrote it.
func SpotWords(spot string) string {
	switch spot {
	case LowerLeft:
		return "lower left"
	case LowerRight:
		return "lower right"
	case UpperLeft:
		return "upper left"
	case UpperRight:
		return "upper right"
	case Centre:
		return "the centre"
	}
	return spot
}

// spotWords is SpotWords within a sentence.
func spotWords(spot string) string {
	switch spot {
	case "":
		return "the spot that is not named"
	case LowerLeft, LowerRight, UpperLeft, UpperRight:
		return "the " + SpotWords(spot)
	case Centre:
		return "the centre"
	}
	return `"` + spot + `"`
}

// SpotResult is what one spot of the bed leaves more than the mean over the bed, mm.
type SpotResult struct {
	Spot        string
	More, Sigma float64
}

// findSpots gives every spot of the bed its own difference, the same for all numbers of
// passes, once scored tongues or calipers come from two spots or more. The skins then are
// means over the bed. Spots count in the order in which they first appear.
func (d *depthFit) findSpots() {
	seen := map[string]bool{}
	add := func(spot string) {
		if !seen[spot] {
			seen[spot] = true
			d.spots = append(d.spots, spot)
		}
	}
	for _, g := range d.tongues {
		if g.passes > 0 {
			add(g.spot)
		}
	}
	for _, s := range d.skins {
		add(s.Spot)
	}
	switch {
	case len(d.spots) < 2:
		d.spots = nil
	case len(d.spots) < leastSpots:
		d.apart = fewSigma
	default:
		d.apart = spotSigma
	}
}

// rows is the number of residuals.
func (d depthFit) rows() int {
	n := 3 + 2*len(d.passes) + 2*len(d.spots) + len(d.tongues) + len(d.skins)
	if d.was.SpreadFace > 0 {
		n++
	}
	return n
}

// skinOn is the skin at a spot, held between a thousandth of the thickness and the rest.
func (d depthFit) skinOn(x []float64, passes int, spot string) float64 {
	h := d.skin(x, passes)
	for i, s := range d.spots {
		if s == spot {
			t := solve.Exp(x[0])
			return math.Max(0.001*t, math.Min(0.999*t, h+x[3+len(d.passes)+i]))
		}
	}
	return h
}

// spotDifference is x_i - x_j of two spots with its standard deviation.
func (d depthFit) spotDifference(fit solve.Fit, i, j int) (v, sigma float64) {
	at := 3 + len(d.passes)
	g := make([]float64, len(fit.X))
	g[at+i]++
	g[at+j]--
	return fit.X[at+i] - fit.X[at+j], math.Sqrt(variance(fit.Covariance, g))
}

// uneven says where on the bed a score goes deepest and where least, when that is more
// than the readings are off by and enough to matter.
func (l *Learned) uneven(d depthFit, fit solve.Fit) {
	most, least := 0, 0
	for i, s := range l.Spots {
		if s.More > l.Spots[most].More {
			most = i
		}
		if s.More < l.Spots[least].More {
			least = i
		}
	}
	v, sigma := d.spotDifference(fit, most, least)
	if v < unevenFrom || v < oddSigmas*sigma {
		return
	}
	l.Findings = append(l.Findings, say(IDUneven, finding.Note, d.firstOf(l.Spots[most].Spot), map[string]float64{"difference": v, "sigma": sigma},
		"A score leaves %s more skin at %s than at %s, give or take %s. The ranges count with that; level the bed and set the focus there, or keep the work to one part of the bed.",
		unit.Length(v, l.Units), spotWords(l.Spots[most].Spot), spotWords(l.Spots[least].Spot), unit.Length(1.645*sigma, l.Units)))
}

// firstOf is the first reading that is of a spot, in the order of the fit.
func (d depthFit) firstOf(spot string) int {
	for i, g := range d.tongues {
		if g.passes > 0 && g.spot == spot {
			return d.results[i].First
		}
	}
	for i, s := range d.skins {
		if s.Spot == spot {
			return d.skinIndex[i]
		}
	}
	return 0
}

// takeSpots keeps what every spot leaves more or less than the mean over the bed.
func (l *Learned) takeSpots(d depthFit, fit solve.Fit) {
	at := 3 + len(d.passes)
	for i, s := range d.spots {
		l.Spots = append(l.Spots, SpotResult{s, fit.X[at+i], fit.Sigma(at + i)})
	}
	if len(d.spots) > 0 {
		l.uneven(d, fit)
	}
}

// overBed tells what differs from spot to spot. The variance over the spots is that of
// the places and that of the fit together; the covariance of the fit gives the second,
// which is taken off.
func (d depthFit) overBed(fit solve.Fit) Measured {
	n := len(d.spots)
	if n < leastSpots {
		return Measured{}
	}
	at := 3 + len(d.passes)
	mean := 0.0
	for i := range n {
		mean += fit.X[at+i] / float64(n)
	}
	sq, own := 0.0, 0.0
	for i := range n {
		sq += (fit.X[at+i] - mean) * (fit.X[at+i] - mean)
		// What the fit is unsure of in x_i less the mean of all.
		g := make([]float64, len(fit.X))
		for j := range n {
			g[at+j] = -1 / float64(n)
		}
		g[at+i]++
		own += variance(fit.Covariance, g)
	}
	dof := float64(n - 1)
	// The standard deviation of a standard deviation is about it over root 2 dof.
	return Measured{Value: math.Sqrt(math.Max(0, sq-own) / dof), Sigma: math.Sqrt((sq + own) / dof / (2 * dof)), N: n}
}
