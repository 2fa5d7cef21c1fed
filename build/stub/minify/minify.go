// Package minify stands in for the module of the same path.
//
// The geometry library imports it only to shorten numbers in writers that this
// project does not use; the real module would bring an HTTP client and a TLS
// stack into the browser. The stand-in returns numbers as they are.
package minify

// Number returns num unchanged.
func Number(num []byte, prec int) []byte { return num }

// Decimal returns num unchanged.
func Decimal(num []byte, prec int) []byte { return num }
