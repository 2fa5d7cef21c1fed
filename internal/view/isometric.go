package view

import "springrib/internal/bridge"

func (w worked) isometric(folded float64) (bridge.Drawing, []float32) {
	s := newSketch("isometric", "Bent, in space")
	return s.done(4)
}
