package hinge

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

// The stored finite-element table (testdata/reference/scored-cell-fe.csv, computed for
// this project, see the README beside it). A bound that is far from used is worth
// tightening; -v prints what is reached.
func TestLawAgainstFiniteElementTable(t *testing.T) {
	cells := readCells(t)
	iso := func(r feCell) bool { return r.ez == 0 }
	cases := []struct {
		name                             string
		keep                             func(feCell) bool
		n                                int
		cRms, cLow, cHigh                float64
		ktRms, ktMax, leverRms, leverMax float64
		neutralMax                       float64
	}{
		{"isotropic", iso, 359, .011, -.045, .060, .0145, .042, .010, .046, .0105},
		{"isotropic, deep and narrow", func(r feCell) bool { return iso(r) && r.d > .59 && r.w < .16 }, 193,
			.011, -.045, .036, .014, .035, .0045, .0105, .0065},
		{"0.1/0.06", func(r feCell) bool { return r.material == "0.1/0.06" }, 318, .012, -.033, .033, .026, .059, .009, .055, .0075},
		{"0.05/0.06", func(r feCell) bool { return r.material == "0.05/0.06" }, 378, .012, -.037, .036, .0185, .046, .007, .038, .0055},
		{"0.05/0.05", func(r feCell) bool { return r.material == "0.05/0.05" }, 111, .0135, -.033, .031, .02, .037, .0065, .021, .004},
		{"all orthotropic", func(r feCell) bool { return !iso(r) }, 807, .012, -.037, .036, .022, .059, .008, .055, .0075},
	}
	for _, c := range cases {
		e := compare(cells, c.keep)
		assert.Equal(t, c.n, e.c.n, "rows of %s", c.name)
		t.Logf("%-27s n %4d  C rms %.4f %+.4f..%+.4f (%s)", c.name, e.c.n, e.c.rms(), e.c.low, e.c.high, e.c.worst)
		t.Logf("%32s  kt %.4f/%.4f  lever %.4f/%.4f (%s)  y_n %.4f/%.4f", "", e.kt.rms(), e.kt.max(),
			e.lever.rms(), e.lever.max(), e.lever.worst, e.neutral.rms(), e.neutral.max())
		assert.LessOrEqual(t, e.c.rms(), c.cRms, c.name)
		assert.GreaterOrEqual(t, e.c.low, c.cLow, c.name)
		assert.LessOrEqual(t, e.c.high, c.cHigh, c.name)
		assert.LessOrEqual(t, e.kt.rms(), c.ktRms, c.name)
		assert.LessOrEqual(t, e.kt.max(), c.ktMax, c.name)
		assert.LessOrEqual(t, e.lever.rms(), c.leverRms, c.name)
		assert.LessOrEqual(t, e.lever.max(), c.leverMax, c.name)
		assert.LessOrEqual(t, e.neutral.max(), c.neutralMax, c.name)
	}
}

// Sheets and shapes that nothing was fitted to (testdata/reference/sharp-flat-fe.csv,
// CalculiX, computed for this project). Sharp corners soften wide flat bottoms, so C
// of the law is low there; the bound on each sheet at w/t 0.05 is that of the law.
func TestLawOnUnseenSheets(t *testing.T) {
	type group struct{ ez, gxz, w float64 }
	errors := map[group]*lawErrors{}
	var order []group
	for _, row := range readTable(t, "sharp-flat-fe.csv") {
		v := make([]float64, len(row))
		for i := range v {
			v[i] = number(t, row[i])
		}
		r := feCell{d: v[0], w: v[1], p: v[2], bottom: Flat, ez: v[3], gxz: v[4], c: v[5], kt: v[6], lever: v[7], neutral: v[8]}
		g := group{r.ez, r.gxz, r.w}
		if errors[g] == nil {
			errors[g] = &lawErrors{}
			order = append(order, g)
		}
		errors[g].add(r)
	}
	assert.Len(t, order, 18)
	for _, g := range order {
		e := errors[g]
		t.Logf("%v C rms %.4f %+.3f..%+.3f  kt rms %.4f  lever rms %.4f  y_n %.4f", g, e.c.rms(), e.c.low, e.c.high, e.kt.rms(), e.lever.rms(), e.neutral.max())
		cRms, cLow := .0150, -.04
		if g.w > .1 {
			cRms, cLow = .025, -.046
		}
		assert.LessOrEqual(t, e.c.rms(), cRms, g)
		assert.GreaterOrEqual(t, e.c.low, cLow, g)
		assert.LessOrEqual(t, e.c.high, .015, g)
		assert.LessOrEqual(t, e.kt.rms(), .031, g)
		assert.LessOrEqual(t, e.lever.rms(), .01, g)
		assert.LessOrEqual(t, e.neutral.max(), .0075, g)
	}
}
