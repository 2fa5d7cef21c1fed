// Package solve holds the small numerical tools of the core: bracketed roots,
// quadrature, least squares, and elementary functions that give the same bits on every
// machine.
//
// math.Exp and math.Pow, and whatever is built on them, use assembly on amd64 and
// plain Go under wasm; their last bits differ on about one input in ten, and a count
// rounded from such a number can flip. The functions here use only + - * /, Sqrt and
// bit operations, in a fixed order. Each product that meets a sum is wrapped in an
// explicit conversion, float64(a*b), which by the Go specification keeps the compiler
// from fusing the two, so the bits are also equal where fused multiply-add exists.
//
// Accuracy, checked against 240-bit arithmetic (in units in the last place; one unit
// more where the result is subnormal):
//
//	Exp  1 ulp
//	Pow  1 ulp
//
// The package imports nothing of this project and has no state.
package solve
