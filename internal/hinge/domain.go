package hinge

import "math"

// Ratio names what can leave the checked domain.
type Ratio string

// The ratios that the finite-element table spans.
const (
	DepthRatio   Ratio = "d/t"
	WidthRatio   Ratio = "w/t"
	SpacingRatio Ratio = "p/t"
	EZRatio      Ratio = "E_z/E_x"
	GXZRatio     Ratio = "G_xz/E_x"
)

// Departure is one ratio outside the domain in which the law was checked.
type Departure struct {
	Ratio     Ratio
	Value     float64
	Low, High float64 // the checked range
}

// Domain returns the ratios that leave the domain checked against finite elements:
// d/t 0.3-0.9, w/t 0.03-0.3, p/t 0.25-8, E_z/E_x 0.02-1, G_xz/E_x 0.025-0.5; none if
// all is well. Spot checks beyond it (p/t 0.06 and 20, d/t 0.15 and 0.95) still had C
// within 1.3 %. A score on its own (p = +Inf) is checked too: see
// testdata/reference/edge-crack-fe.csv.
func (l Law) Domain(p float64) []Departure {
	tests := []Departure{{DepthRatio, 1 - l.eta, 0.3, 0.9}, {WidthRatio, l.w, 0.03, 0.3}}
	if q := l.over(p); !math.IsInf(q, 1) {
		tests = append(tests, Departure{SpacingRatio, q, 0.25, 8})
	}
	if !l.mat.Isotropic() {
		tests = append(tests, Departure{EZRatio, l.mat.EZ / l.mat.E, 0.02, 1}, Departure{GXZRatio, l.mat.GXZ / l.mat.E, 0.025, 0.5})
	}
	var out []Departure
	for _, d := range tests {
		if d.Value < d.Low-1e-9 || d.Value > d.High+1e-9 {
			out = append(out, d)
		}
	}
	return out
}
