//go:build !unix

package view

// processorSeconds isn't known here; what asks for it is tried natively.
func processorSeconds() float64 { return 0 }
