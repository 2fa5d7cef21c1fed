package coupon

import (
	"math"
	"sort"

	"springrib/internal/finding"
	"springrib/internal/unit"
)

// series is figures of one thing, with the readings they came from.
type series struct {
	values []float64
	index  []int
}

func (s *series) add(v float64, i int) {
	s.values, s.index = append(s.values, v), append(s.index, i)
}

// mean returns the mean and its standard deviation: from the scatter, and never less
// than one reading's own error over the root of their number.
func (s series) mean(own float64) Measured {
	n := float64(len(s.values))
	sum := 0.0
	for _, v := range s.values {
		sum += v
	}
	m := sum / n
	sq := 0.0
	for _, v := range s.values {
		sq += (v - m) * (v - m)
	}
	sd := own
	if n > 1 {
		sd = math.Max(own, math.Sqrt(sq/(n-1)))
	}
	return Measured{m, sd / math.Sqrt(n), len(s.values)}
}

// odd returns the positions of figures further from the median than 3.5 times the
// scatter by the median deviation (B. Iglewicz, D. C. Hoaglin, How to Detect and Handle
// Outliers, ASQC 1993, modified z-score), which is taken as at least own. It needs four
// figures to tell which one is odd.
func (s series) odd(own float64) []int {
	if len(s.values) < 4 {
		return nil
	}
	mid := median(s.values)
	dev := make([]float64, len(s.values))
	for i, v := range s.values {
		dev[i] = math.Abs(v - mid)
	}
	sigma := math.Max(median(dev)/0.6745, own)
	var out []int
	for i, d := range dev {
		if d > 3.5*sigma {
			out = append(out, i)
		}
	}
	return out
}

func median(v []float64) float64 {
	s := append([]float64(nil), v...)
	sort.Float64s(s)
	n := len(s)
	return (s[(n-1)/2] + s[n/2]) / 2
}

// settle makes a series the new figure, and points out what is odd in it.
func (l *Learned) settle(s series, own float64, what string, figure *Measured) {
	if len(s.values) == 0 {
		return
	}
	for _, i := range s.odd(own) {
		l.Findings = append(l.Findings, say(IDOutlier, finding.Note, s.index[i], map[string]float64{"value": s.values[i], "median": median(s.values)},
			"A %s of %s lies far from the others, %s in the middle. It is used all the same; read it again.", what, unit.LengthFine(s.values[i], l.Units), unit.LengthFine(median(s.values), l.Units)))
	}
	*figure = s.mean(own)
}

// learnThickness takes thicknesses that strips told together with what was typed of the
// caliper, each by how sure it is. Where they lie further apart than that explains, the
// result is as much less sure (R. T. Birge, The calculation of errors by the method of
// least squares, Phys. Rev. 40 (1932) 207), and it is said. A thickness by name alone is no
// reading: a strip takes its place.
func (l *Learned) learnThickness(s series) {
	was := l.Thickness
	l.settle(s, thicknessSigma, "thickness", &l.Thickness)
	if len(s.values) == 0 || was.N == 0 {
		return
	}
	now := l.Thickness
	was.Sigma = math.Max(was.Sigma, thicknessSigma/math.Sqrt(float64(was.N)))
	a, b := 1/(was.Sigma*was.Sigma), 1/(now.Sigma*now.Sigma)
	apart := math.Abs(was.Value-now.Value) / math.Hypot(was.Sigma, now.Sigma)
	l.Thickness = Measured{(a*was.Value + b*now.Value) / (a + b), math.Max(1, apart) / math.Sqrt(a+b), was.N + now.N}
	if apart > oddSigmas {
		l.Findings = append(l.Findings, say(IDOutlier, finding.Warn, s.index[0], map[string]float64{"strips": now.Value, "caliper": was.Value, "sigmas": apart},
			"The strips are %s thick and your readings of the sheet come to %s. Both count, so the thickness is little known: measure again.",
			unit.LengthFine(now.Value, l.Units), unit.LengthFine(was.Value, l.Units)))
	}
}

// learnFit picks the clearance: the mean of the good slots, or half way between the
// widest tight and the narrowest loose one.
func (l *Learned) learnFit(readings []Reading, index []int) {
	var good series
	tight, loose := math.Inf(-1), math.Inf(1)
	last := 0
	for i, r := range readings {
		last = index[i]
		switch r.Verdict {
		case Good:
			good.add(r.Value, index[i])
		case Tight:
			tight = math.Max(tight, r.Value)
		case Loose:
			loose = math.Min(loose, r.Value)
		}
	}
	if tight > loose {
		l.Findings = append(l.Findings, say(IDContradicts, finding.Warn, last, map[string]float64{"tight": tight, "loose": loose},
			"A slot %s over its tenon was tight and one of %s was loose. The clearance stays as it was.", unit.LengthFine(tight, l.Units), unit.LengthFine(loose, l.Units)))
		return
	}
	const own = 0.03 // mm, between one slot of a fit strip and the next (common practice, no source)
	switch {
	case len(good.values) > 0:
		l.Clearance = good.mean(own)
	case !math.IsInf(tight, 0) && !math.IsInf(loose, 0):
		l.Clearance = Measured{(tight + loose) / 2, (loose - tight) / math.Sqrt(12), 2}
	case len(readings) > 0:
		l.Findings = append(l.Findings, say(IDAlone, finding.Warn, last, nil,
			"Slots that are all tight or all loose don't tell what fits. Cut some on the other side; the clearance stays as it was."))
	}
}
