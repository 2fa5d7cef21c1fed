// Package coupon is what test strips say about a sheet and a machine: tongues that
// sag under weights, strips closed until their scores pinch, strips bent round gauges
// until they break, kerfs and slots.
//
// A Reading is one figure taken off one strip. Learn takes what is believed of a sheet
// and all readings that belong to it, and returns what to believe now, each figure with
// its standard deviation, and findings about readings that can't be right. A reading
// that can't be right changes nothing; one that only looks odd is pointed out and kept.
//
// # The sag test
//
// Tongues are cut from one blank: one without scores, one with dense scores (about 0.3
// of the thickness apart) and one at the spacing of the design, for each number of
// passes. Each hangs over the edge of a table under two weights or more; what counts is
// how much lower the heavier one takes it, so that a warped strip or a ruler that
// starts anywhere does no harm. A tongue gives its stiffness EI (Tongue.Stiffness). The
// plain one gives the modulus; dense against plain gives the skin, whatever the
// softness through the thickness; the spacing of the design then gives that softness.
// All are fitted together, with one caliper reading of a snapped tongue where there is
// one (Learn).
//
// # The strips
//
// Order lays out the pieces themselves: tongues (Depth), a strip to close until its mouths
// touch (Close), strips to bend round gauges and the gauges (Bend), a window for the kerf
// and slots for the fit (Fit). Each is a part like any other and carries its passes and
// its spacing in single-line figures, marked where it is not bent.
//
// Length mm, force N, angle rad, modulus MPa.
package coupon
