package coupon

import (
	"math"

	"springrib/internal/solve"
)

// stripScatter is the standard deviation of the logarithm of the strain at which strips
// cut from one sheet break. Published coefficients of variation of the least bending
// radius of layered aspen and beech are 3-20 %, mostly 10-17 % (Forests 10(6) 470, 2019,
// table 1, between specimens); for other sheet no source.
const stripScatter = 0.10

// handbookSigma is the least standard deviation of the logarithm that a handbook's strain is
// believed to, once there are strips: it is strength over stiffness of bending tests, which
// built work exceeds up to twofold. No source for the figure.
const handbookSigma = 0.5

// vague is the standard deviation taken for the logarithm of a mean that nothing is known
// of beforehand.
const vague = 1.0

// rupture is what is known of the mean strain at which strips of one sheet break: a
// normal belief about its logarithm, and strips that held or broke. A strip breaks at a
// strain of its own, so one that held at eps says P(own > eps), one that broke P(own <=
// eps), and a pair of both brackets the mean no closer than strips scatter.
type rupture struct {
	mean, sigma float64 // of the logarithm, beforehand
	strips      []BendResult
}

// steps of the sum over the mean, and how far it goes past belief and readings.
const (
	ruptureSteps = 400
	rupturePast  = 5.0
)

// learn returns mean and standard deviation of the logarithm of the mean strain, by
// Bayes' rule on an even grid.
func (r rupture) learn() (mean, sigma float64) {
	lo, hi := r.mean-rupturePast*r.sigma, r.mean+rupturePast*r.sigma
	for _, s := range r.strips {
		lo, hi = math.Min(lo, math.Log(s.Strain)-rupturePast*stripScatter), math.Max(hi, math.Log(s.Strain)+rupturePast*stripScatter)
	}
	weights := make([]float64, ruptureSteps+1)
	most := math.Inf(-1)
	for i := range weights {
		x := lo + (hi-lo)*float64(i)/ruptureSteps
		z := (x - r.mean) / r.sigma
		w := -z * z / 2
		for _, s := range r.strips {
			z := (math.Log(s.Strain) - x) / stripScatter // of its own strain below which it breaks
			if !s.Broke {
				z = -z
			}
			w += math.Log(math.Max(solve.Normal(z), 1e-300))
		}
		weights[i] = w
		most = math.Max(most, w)
	}
	sum, first, second := 0.0, 0.0, 0.0
	for i, w := range weights {
		x := lo + (hi-lo)*float64(i)/ruptureSteps
		w := solve.Exp(w - most)
		sum, first, second = sum+w, first+w*x, second+w*x*x
	}
	mean = first / sum
	return mean, math.Sqrt(math.Max(0, second/sum-mean*mean))
}
