package coupon

import (
	"math"
	"sort"

	"springrib/internal/finding"
	"springrib/internal/hinge"
	"springrib/internal/solve"
	"springrib/internal/unit"
)

// gravity is standard gravity, m/s^2 (3rd General Conference on Weights and Measures, 1901).
const gravity = 9.80665

const (
	// dropSigma is the standard deviation of a drop read by eye to 0.5 mm: 0.5/sqrt 12
	// of rounding, and as much again of the eye (common practice, no source).
	dropSigma = 0.2
	// offsetSigma is how far the ruler's zero or the warp of a tongue may be off, mm;
	// wide, so that the slope between weights decides.
	offsetSigma = 3
)

// tongue is the readings of one strip under several weights.
type tongue struct {
	Tongue
	width   float64
	passes  int
	spacing float64
	spot    string
	loads   []float64
	drops   []float64
	index   []int // of the readings
}

// gatherTongues sorts sag readings by strip, in the order the strips first appear.
// weight is N per mm of length of a tongue.
func gatherTongues(readings []Reading, index []int, weight func(Reading) float64) []tongue {
	type key struct {
		passes                 int
		spacing, length, width float64
		spot                   string
	}
	at := map[key]int{}
	var out []tongue
	for i, r := range readings {
		k := key{r.Passes, r.Spacing, r.Length, r.Width, r.Spot}
		n, ok := at[k]
		if !ok {
			n = len(out)
			at[k] = n
			out = append(out, tongue{Tongue: Tongue{r.Length, weight(r)}, width: r.Width, passes: r.Passes, spacing: r.Spacing, spot: r.Spot})
		}
		t := &out[n]
		t.loads = append(t.loads, r.Load)
		t.drops = append(t.drops, r.Value)
		t.index = append(t.index, index[i])
	}
	return out
}

// weightOf is the weight per length of a tongue: that of the sheet, less what the
// scores took out.
func (b Belief) weightOf(r Reading) float64 {
	t := b.Thickness.Value
	left := 1.0
	if r.Passes > 0 {
		depth := t / 2
		if b.deepEnough(r.Passes) {
			depth = t - b.Skins[r.Passes-1].Value
		}
		full := 1.0
		if b.Bottom == hinge.Vee {
			full = 2.0 / 3 // the mean of mouth and root, a third of it
		}
		left = math.Max(.5, 1-full*depth*b.Width.Value/(t*r.Spacing))
	}
	return b.Density * 1e-9 * gravity * t * r.Width * left
}

// stiffness fits EI and the ruler's zero to the drops. ok is false, with a finding,
// when the readings can't be of one tongue under those weights.
func (t tongue) stiffness(units unit.System) (TongueResult, *finding.Finding, bool) {
	res := TongueResult{Passes: t.passes, Spacing: t.spacing, Spot: t.spot, First: t.index[0]}
	if f := t.contradiction(units); f != nil {
		return res, f, false
	}
	start := 0.0
	heaviest := 0
	for i := range t.loads {
		if t.loads[i] > t.loads[heaviest] {
			heaviest = i
		}
	}
	ei, ok := t.Stiffness(t.loads[heaviest], t.drops[heaviest])
	if !ok {
		f := say(IDContradicts, finding.Warn, t.index[heaviest], map[string]float64{"drop": t.drops[heaviest], "load": t.loads[heaviest]},
			"No stiffness gives a drop of %s under %s. Check both; the tongue is not used.", unit.Length(t.drops[heaviest], units), unit.Mass(t.loads[heaviest], units))
		return res, &f, false
	}
	start = math.Log(ei)
	n := len(t.drops)
	// The ruler's zero enters linearly: for every stiffness the best one is known, and only
	// the stiffness is left to find. Its variance is the same as of both found together.
	drops := make([]float64, n)
	bend := func(ei float64) (offset float64) {
		for i, load := range t.loads {
			drops[i] = t.Bend(ei, load).Drop
			offset += t.drops[i] - drops[i]
		}
		return offset / (float64(n) + dropSigma*dropSigma/(offsetSigma*offsetSigma))
	}
	fit := solve.LeastSquares(func(x, r []float64) {
		offset := bend(solve.Exp(x[0]))
		for i := range drops {
			r[i] = (drops[i] + offset - t.drops[i]) / dropSigma
		}
		r[n] = offset / offsetSigma
	}, []float64{start}, n+1)
	res.EI = solve.Exp(fit.X[0])
	res.Offset = bend(res.EI)
	// Scatter beyond what reading by eye explains widens the result.
	if dof := n - 1; dof > 1 {
		if scale := fit.Sum / float64(dof); scale > 1 {
			res.SigmaLn = fit.Sigma(0) * math.Sqrt(scale)
			return res, nil, true
		}
	}
	res.SigmaLn = fit.Sigma(0)
	return res, nil, true
}

// contradiction looks for one weight only, and for a heavier weight that took the
// tongue less far.
func (t tongue) contradiction(units unit.System) *finding.Finding {
	order := make([]int, len(t.loads))
	for i := range order {
		order[i] = i
	}
	sort.SliceStable(order, func(a, b int) bool { return t.loads[order[a]] < t.loads[order[b]] })
	lightest, heaviest := order[0], order[len(order)-1]
	if t.loads[lightest] == t.loads[heaviest] {
		f := say(IDAlone, finding.Warn, t.index[0], map[string]float64{"load": t.loads[0]},
			"One weight alone can't tell a stiff tongue from a warped one: read it under a second weight. It is not used.")
		return &f
	}
	for k := 1; k < len(order); k++ {
		a, b := order[k-1], order[k]
		if t.loads[b] > t.loads[a] && t.drops[b] < t.drops[a]-2*dropSigma || t.drops[heaviest] <= t.drops[lightest] {
			f := say(IDContradicts, finding.Warn, t.index[b], map[string]float64{"load": t.loads[b], "drop": t.drops[b], "lighter": t.loads[a], "lighterDrop": t.drops[a]},
				"%s took the tongue down %s, but %s only %s. One of them is wrong; the tongue is not used.",
				unit.Mass(t.loads[a], units), unit.Length(t.drops[a], units), unit.Mass(t.loads[b], units), unit.Length(t.drops[b], units))
			return &f
		}
	}
	return nil
}
