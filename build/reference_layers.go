package main

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"os/exec"
	"slices"
	"strings"
	"time"

	"springrib/internal/hinge"
)

// layeredCases are cells of sheets whose faces are stiffer than their core, E_z and G_xz in
// the same ratio to E at every depth: three depths by three spacings of a sheet soft through
// its thickness and of an isotropic one, even and with two and one stiffness of the faces;
// last boards of three layers, which the law takes for a parabola with the same face.
func layeredCases() []refCase {
	var out []refCase
	add := func(ez, g, face, layer, d, p float64) {
		out = append(out, refCase{name: fmt.Sprintf("r %g d %.3g p %.3g", face, d, p), depth: d, wide: 0.067, gaps: []float64{p}, ez: ez, g: g, offGrid: true, face: face, layer: layer})
	}
	for _, s := range []struct{ ez, g, face, layer float64 }{
		{0.07, 0.055, 1, 0}, {0.07, 0.055, 1.15, 0}, {0.07, 0.055, 1.3, 0}, {0, 0, 1, 0}, {0, 0, 1.3, 0},
		{0.07, 0.055, 1.15, 0.15}, {0.07, 0.055, 1.3, 0.15},
	} {
		for _, d := range []float64{0.6, 0.733, 0.85} {
			for _, p := range []float64{0.5, 1, 2.5} {
				if s.layer == 0 || p == 1 {
					add(s.ez, s.g, s.face, s.layer, d, p)
				}
			}
		}
	}
	return out
}

// unequalCases are strips of scores that leave unequal skins, near enough to share land.
func unequalCases() []refCase {
	even := func(p float64) []float64 { return []float64{p, p, p, p, p} }
	skins := func(h float64, off ...float64) []float64 {
		out := slices.Repeat([]float64{h}, 6)
		for i, o := range off {
			out[i+1] *= 1 + o
		}
		return out
	}
	return []refCase{
		{name: "strip, one deeper", wide: 0.067, gaps: even(0.35), strip: true, offGrid: true, skins: skins(0.267, 0, -0.1)},
		{name: "strip, deep by shallow", wide: 0.067, gaps: even(0.6), strip: true, offGrid: true, ez: 0.07, g: 0.055, skins: skins(0.267, 0, -0.12, 0.1)},
		{name: "strip, one deeper", wide: 0.05, gaps: even(1), strip: true, offGrid: true, ez: 0.07, g: 0.055, skins: skins(0.25, 0, -0.15)},
	}
}

// webs are the skins under the scores.
func (c refCase) webs() []float64 {
	switch {
	case c.skins != nil:
		return c.skins
	case c.strip:
		return slices.Repeat([]float64{1 - c.depth}, len(c.gaps)+1)
	}
	return []float64{1 - c.depth}
}

// unequalMouths is by how much each mouth closes for a moment of 1.
func (c refCase) unequalMouths() []float64 {
	var laws []hinge.Law
	for _, skin := range c.skins {
		laws = append(laws, c.lawOf(skin))
	}
	out := hinge.Unequal(laws, c.gaps)
	for i, l := range laws {
		left, right := math.Inf(1), math.Inf(1)
		if i > 0 {
			left = c.gaps[i-1]
		}
		if i < len(c.gaps) {
			right = c.gaps[i]
		}
		out[i] *= (l.Lx(left) + l.Lx(right)) / 2 / refPlain
	}
	return out
}

// heights returns grid lines from the uncut face to the scored one, fine at every bottom.
func heights(webs []float64, fine float64) []float64 {
	at := slices.Compact(slices.Sorted(slices.Values(webs)))
	ys := graded(0, at[0], fine, false)
	for i, h := range at[:len(at)-1] {
		mid := (h + at[i+1]) / 2
		ys = append(ys, graded(h, mid, fine, true)[1:]...)
		ys = append(ys, graded(mid, at[i+1], fine, false)[1:]...)
	}
	return append(ys, graded(at[len(at)-1], 1, fine, true)[1:]...)
}

// rowSet names the elements of a row: all are of one stuff in an even sheet.
func (c refCase) rowSet(j int) string {
	if c.face == 0 {
		return "E"
	}
	return fmt.Sprintf("E%d", j)
}

// stiffness is the mean of E(y) over the sheet's E between two heights.
func (c refCase) stiffness(a, b float64) float64 {
	if c.face == 0 {
		return 1
	}
	if c.layer > 0 {
		inner := math.Pow(1-2*c.layer, 3)
		core := (1 - c.face*(1-inner)) / inner
		soft := math.Max(0, math.Min(b, 1-c.layer)-math.Max(a, c.layer))
		return c.face + (core-c.face)*soft/(b-a)
	}
	bend := 2.5 * (c.face - 1)
	whole := func(y float64) float64 { z := 1 - 2*y; return y - bend*(z*z*z/6+0.6*y) }
	return (whole(b) - whole(a)) / (b - a)
}

// discrete is the bending stiffness of the sheet as meshed over that of an even one.
func (c refCase) discrete(ys []float64) float64 {
	sum := 0.0
	for j := 0; j+1 < len(ys); j++ {
		a, b := ys[j]-0.5, ys[j+1]-0.5
		sum += 4 * (b*b*b - a*a*a) * c.stiffness(ys[j], ys[j+1])
	}
	return sum
}

// materials writes one material for all, or one a row.
func (c refCase) materials(b *bytes.Buffer, ys []float64) {
	if c.ez > 0 {
		b.WriteString("*ORIENTATION,NAME=O\n1.,0.,0.,0.,1.,0.\n")
	}
	for j := 0; j+1 < len(ys); j++ {
		e := refE * c.stiffness(ys[j], ys[j+1])
		set := c.rowSet(j)
		fmt.Fprintf(b, "*MATERIAL,NAME=M%s\n", set)
		orientation := ""
		if c.ez == 0 {
			fmt.Fprintf(b, "*ELASTIC\n%.9g,%g\n", e, refNu)
		} else {
			g := c.g * e
			fmt.Fprintf(b, "*ELASTIC,TYPE=ENGINEERING CONSTANTS\n%.9g,%.9g,%.9g,%g,%g,%g,%.9g,%.9g,\n%.9g,293.\n", e, c.ez*e, e, refNu, refNu, refNu*c.ez, g, e/2/(1+refNu), g)
			orientation = ",ORIENTATION=O"
		}
		fmt.Fprintf(b, "*SOLID SECTION,ELSET=%s,MATERIAL=M%s%s\n1.\n", set, set, orientation)
		if c.face == 0 {
			return
		}
	}
}

// layeredHead says what the table is.
const layeredHead = `# Periodic cells of a scored panel whose faces are stiffer than its core, pure bending: plane-strain finite elements, linear elastic.
# How: go run ./build reference layers. Eight-node elements refined at the root, every row of elements of one stuff, the mean of its height; nu 0.3.
# Solver: CalculiX %s.
# Sheet: face is E at either face over E, the modulus of the plain sheet in bending. layer 0: E(y)/E = 1 + 5/2 (face-1) ((1-2y/t)^2 - 3/5);
#   else three layers, the outer ones that share of t thick. ez, gxz are E_z/E and G_xz/E at every depth (0: isotropic, E_z = E). Flat bottoms with sharp corners.
# Lengths over t: depth d, width w, spacing p. C = EI plain/EI scored; strain_arm = peak strain on the uncut face over curvature; lever = closing of the mouth
#   per rotation of one spacing; y_n = fibre that keeps its length, from the uncut face. Computed for this project.
`

// solver is the version of it, and today.
func solver() string {
	version, _ := exec.Command("ccx", "-v").CombinedOutput() // it ends with a status of its own
	return strings.TrimPrefix(strings.TrimSpace(string(version)), "This is Version ") + "; " + time.Now().Format("2 January 2006")
}

// layeredTable solves the layered cells and writes them as testdata/reference/layered-fe.csv
// has them.
func layeredTable(out io.Writer, dir string) error {
	fmt.Fprintf(out, layeredHead, solver())
	fmt.Fprintln(out, "face,layer,ez,gxz,d_t,w_t,p_t,C,strain_arm,lever,y_n")
	for i, c := range layeredCases() {
		m := c.mesh()
		got, err := m.solve(dir, fmt.Sprintf("layer%02d", i), c)
		if err != nil {
			return fmt.Errorf("%s: %w", c.name, err)
		}
		p := c.gaps[0]
		fmt.Fprintf(out, "%g,%g,%g,%g,%g,%g,%g,%.6g,%.6g,%.6g,%.6g\n", c.face, c.layer, c.ez, c.g, c.depth, c.wide, p,
			refPlain*c.discrete(m.ys)*got.rotation/(got.moment*p), got.scores[0].strain*p/got.rotation, got.scores[0].mouth/got.rotation, got.fibre)
	}
	return nil
}
