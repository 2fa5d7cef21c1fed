package coupon

import "math"

// typedFreedom is how many degrees of freedom what was typed of the spread from score to
// score is worth: as sure as five skins of one strip are, to a third of itself. No source.
const typedFreedom = 4.0

// leastApart is the least that the spread is taken for, mm: no caliper tells less in a groove
// (common practice, no source).
const leastApart = 0.01

// learnApart learns by how much the skin differs from score to score where several skins of
// one strip were measured: readings of the same passes, place, date and batch. With SS the
// squares about the mean of each strip and n the readings less the strips,
//
//	s^2 = (4 typed^2 + SS)/(4 + n),   standard deviation of s about s/sqrt(2 (4 + n))
//
// which is the pooled standard deviation where there are many, and what was typed where
// there are few (the scaled inverse chi-squared prior of a normal variance: Gelman and
// others, Bayesian Data Analysis, 2nd ed. 2004, section 2.7, from memory). What the caliper
// scatters by is in it: it errs to the safe side.
func (l *Learned) learnApart(skins []Reading) {
	squares, free, n := 0.0, 0.0, 0
	for i := range skins {
		// Of each strip the mean grows reading by reading; a reading adds to the squares what it
		// lies off the mean of those before it, times m/(m+1).
		r, mean, m := &skins[i], 0.0, 0.0
		for j := range i {
			if o := &skins[j]; o.Passes == r.Passes && o.Spot == r.Spot && o.Date == r.Date && o.Batch == r.Batch {
				m++
				mean += (o.Value - mean) / m
			}
		}
		if m > 0 {
			squares += (r.Value - mean) * (r.Value - mean) * m / (m + 1)
			free++
			n++
		}
		if m == 1 {
			n++ // the first of the strip counts too
		}
	}
	if n == 0 {
		return
	}
	typed := l.Apart.Value
	s := math.Max(leastApart, math.Sqrt((typedFreedom*typed*typed+squares)/(typedFreedom+free)))
	l.Apart = Measured{s, s / math.Sqrt(2*(typedFreedom+free)), n}
}
