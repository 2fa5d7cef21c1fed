package stock

import "math"

// Readings sums up several readings of one thickness.
type Readings struct {
	N        int
	Mean     float64 // mm
	SD       float64 // sample standard deviation, 0 for a single reading
	Min, Max float64
	// Error is the half width of the 95 % interval of the mean, t(N-1) SD/sqrt(N);
	// infinite for a single reading.
	Error float64
}

// Measure sums up readings, of which there must be at least one.
func Measure(readings []float64) Readings {
	if len(readings) == 0 {
		panic("stock: no readings")
	}
	r := Readings{N: len(readings), Min: readings[0], Max: readings[0], Error: math.Inf(1)}
	for _, v := range readings {
		r.Mean += v / float64(r.N)
		r.Min, r.Max = math.Min(r.Min, v), math.Max(r.Max, v)
	}
	if r.N == 1 {
		return r
	}
	ss := 0.0
	for _, v := range readings {
		ss += (v - r.Mean) * (v - r.Mean)
	}
	r.SD = math.Sqrt(ss / float64(r.N-1))
	r.Error = student95(r.N-1) * r.SD / math.Sqrt(float64(r.N))
	return r
}

// Spread returns the half width that the thickness anywhere on the sheet is taken to
// have: what the readings scatter by, and never less than the uncertainty of their
// mean. Two or three readings make that uncertainty absurdly wide (t is 12.7 and
// 4.3), so that it is held to fallback, the tolerance as sold; a single reading has
// nothing else.
func (r Readings) Spread(fallback float64) float64 {
	half := (r.Max - r.Min) / 2
	if r.N < 2 {
		return fallback
	}
	return math.Max(half, math.Min(r.Error, fallback))
}

// student95 returns the two-sided 95 % point of Student's t with f degrees of freedom
// (M. Abramowitz & I. A. Stegun, Handbook of Mathematical Functions, 1964, Table
// 26.10, column 0.95; from memory, confidence high). Above 12 it is 1.96 + 2.5/f, within 0.5 %.
func student95(f int) float64 {
	table := [...]float64{12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228, 2.201, 2.179}
	if f <= len(table) {
		return table[f-1]
	}
	return 1.96 + 2.5/float64(f)
}
