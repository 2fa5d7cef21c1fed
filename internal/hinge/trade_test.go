package hinge

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// The rules of the trade, for comparison only. They treat a score as a rigid hinge and
// know nothing of stiffness, strain or the distance between scores. Lengths in mm.

// deflectionSpacing returns the spacing of saw kerfs by the deflection rule: the board
// is bent until one kerf shuts, and its deflection at the distance of the radius is the
// spacing, R sin(phi) with tan(phi) = width/depth. Building Construction, vol. 3, art.
// 13, Curved Risers, fig. 11 (technical-school text); B. Culhane, A Measured Approach
// to Kerfing, in Technical Design Solutions for Theatre.
func deflectionSpacing(outerRadius, width, depth float64) float64 {
	return outerRadius * width / math.Hypot(width, depth)
}

// arcDifferenceSpacing returns the spacing by the arc-difference rule: as many kerfs as
// the outer arc is longer than the inner, over their width. It counts the full
// thickness, not the depth, so it asks for more kerfs than shut. Common in trade texts.
func arcDifferenceSpacing(outerRadius, width, thickness float64) float64 {
	return outerRadius * width / thickness
}

// midplaneClosingAngle returns the angle at which a kerf, or a V of the same mouth and
// depth, shuts if it turns about its bottom: 2 atan(width/(2 depth)).
func midplaneClosingAngle(width, depth float64) float64 { return 2 * math.Atan(width/(2*depth)) }

// midplaneSpacing returns the spacing at which rigid hinges in the middle of the web
// just shut on an outer radius.
func midplaneSpacing(outerRadius, thickness, width, depth float64) float64 {
	return midplaneClosingAngle(width, depth) * (outerRadius - (thickness-depth)/2)
}

// kerfWidthSoftening returns C as if the hinge were as long as the kerf is wide, the
// usual guess; it is far too stiff for narrow scores.
func kerfWidthSoftening(s Score, p float64) float64 {
	eta := (s.Thickness - s.Depth) / s.Thickness
	return 1 + s.Width/p*(1/(eta*eta*eta)-1)
}

// The three rules side by side. Columns computed from the rules themselves (closed
// forms, see above), rounded as printed.
func TestTradeRules(t *testing.T) {
	cases := []struct {
		name                                        string
		t, d, k, r, angle, exact, deflect, arc, per float64
	}{
		{"saw, 18 mm board", 18, 16, 3, 300, 10.712, 55.899, 55.287, 50.000, 8.40},
		{"3/4 in, 5/8 deep, 1/8 kerf, R 4 in", 19.05, 15.875, 3.175, 101.6, 11.421, 19.936, 19.925, 16.933, 7.88},
		{"3/4 in, 3/4 t deep, 3/32 kerf, R 8 in", 19.05, 14.2875, 2.38125, 203.2, 9.527, 33.393, 33.406, 25.400, 9.45},
		{"laser MDF", 3, 2.4, 0.2, 50, 4.772, 4.139, 4.152, 3.333, 18.86},
		{"laser MDF, coarse", 3, 2.5, 0.25, 100, 5.725, 9.967, 9.950, 8.333, 15.72},
		{"laser ply", 6, 5, 0.3, 150, 3.437, 8.967, 8.984, 7.500, 26.19},
	}
	for _, c := range cases {
		assert.InDelta(t, c.angle, midplaneClosingAngle(c.k, c.d)/degree, 6e-4, c.name)
		assert.InDelta(t, c.exact, midplaneSpacing(c.r, c.t, c.k, c.d), 6e-4, c.name)
		assert.InDelta(t, c.deflect, deflectionSpacing(c.r, c.k, c.d), 6e-4, c.name)
		assert.InDelta(t, c.arc, arcDifferenceSpacing(c.r, c.k, c.t), 6e-4, c.name)
		assert.InDelta(t, c.per, 90/(midplaneClosingAngle(c.k, c.d)/degree), 6e-3, c.name)
	}
}

// ruleErrors compares the law and the rules with finite-element cells: the rules as
// angles at which a mouth shuts, the kerf-width guess as stiffness.
type ruleErrors struct{ law, deflection, arc, midplane, stiff, guess spread }

func compareRules(cells []feCell, keep func(feCell) bool) ruleErrors {
	var e ruleErrors
	for _, r := range cells {
		if !keep(r) {
			continue
		}
		fe := r.w / r.lever
		l := r.law()
		e.law.add(l.ClosingAngle(r.p)/fe-1, r)
		e.deflection.add(math.Atan(r.w/r.d)/fe-1, r) // R sin phi apart, tan phi = k/d
		e.arc.add(r.w/fe-1, r)                       // R k/t apart: k/t each, t = 1
		e.midplane.add(midplaneClosingAngle(r.w, r.d)/fe-1, r)
		e.stiff.add(l.Softening(r.p)/r.c-1, r)
		e.guess.add(kerfWidthSoftening(l.Score(), r.p)/r.c-1, r)
	}
	return e
}

// Each rule against testdata/reference/scored-cell-fe.csv. The law must be the nearest
// by far; -v prints the figures that the README quotes.
func TestRulesAgainstFiniteElements(t *testing.T) {
	cells := readCells(t)
	for _, c := range []struct {
		name string
		keep func(feCell) bool
	}{
		{"all cells", func(feCell) bool { return true }},
		{"deep, narrow, close", func(r feCell) bool { return r.d > .69 && r.w < .16 && r.p < 1.6 }},
	} {
		e := compareRules(cells, c.keep)
		for _, s := range []struct {
			name string
			*spread
		}{{"law, closing angle", &e.law}, {"deflection rule", &e.deflection}, {"arc difference", &e.arc},
			{"midplane hinge", &e.midplane}, {"law, C", &e.stiff}, {"hinge = kerf width, C", &e.guess}} {
			t.Logf("%-20s n %4d %-22s rms %.4f  %+.3f..%+.3f", c.name, s.n, s.name, s.rms(), s.low, s.high)
		}
		assert.Less(t, e.law.rms(), .0085)
		assert.Greater(t, e.deflection.rms(), 5*e.law.rms())
		assert.Greater(t, e.arc.rms(), 5*e.law.rms())
		assert.Greater(t, e.midplane.rms(), 5*e.law.rms())
		assert.Less(t, e.stiff.rms(), .015)
		assert.Greater(t, e.guess.rms(), .5)
	}
}
