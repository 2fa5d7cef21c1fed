package main

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"springrib/internal/hinge"
)

// refCase is one panel that the law and the solver both answer for. Lengths are over
// the thickness. Gaps are the distances from score to score; a periodic cell has one.
type refCase struct {
	name        string
	depth, wide float64
	gaps        []float64
	strip       bool      // gaps are those of a strip with plain ends, not of a periodic cell
	ez, g       float64   // over E; 0, 0 for isotropic
	offGrid     bool      // not among the stored cells
	face        float64   // modulus at the faces over E; 0 for an even sheet
	layer       float64   // thickness of a stiff layer at either face; 0: as the law has it
	skins       []float64 // of a strip whose scores leave unequal skins
}

// refCases are cells and strips with flat bottoms and sharp corners, narrow as a laser's
// scores are.
func refCases() []refCase {
	cell := func(d, w, p, ez, g float64, off bool) refCase {
		return refCase{fmt.Sprintf("d %.3g w %.3g p %.3g", d, w, p), d, w, []float64{p}, false, ez, g, off, 0, 0, nil}
	}
	out := []refCase{
		cell(0.5, 0.05, 0.6, 0, 0, false), cell(0.6, 0.05, 1, 0, 0, false), cell(0.7, 0.05, 0.6, 0, 0, false),
		cell(0.7, 0.05, 1.5, 0, 0, false), cell(0.8, 0.05, 0.4, 0, 0, false), cell(0.8, 0.05, 2.5, 0, 0, false),
		cell(0.733, 0.067, 0.533, 0, 0, true), cell(0.733, 0.067, 0.833, 0, 0, true), cell(0.66, 0.045, 0.72, 0, 0, true),
		cell(0.77, 0.055, 1.15, 0, 0, true),
		cell(0.7, 0.05, 0.6, 0.1, 0.06, false), cell(0.8, 0.05, 1, 0.1, 0.06, false), cell(0.733, 0.067, 0.833, 0.05, 0.06, true),
		cell(0.72, 0.055, 1.3, 0.08, 0.1, true),
		{name: "strip, uneven", depth: 0.733, wide: 0.067, gaps: []float64{0.6, 1.4, 0.8, 0.5}, strip: true, offGrid: true},
		{name: "strip, uneven", depth: 0.733, wide: 0.067, gaps: []float64{1.2, 0.6, 1.8, 0.7}, strip: true, ez: 0.08, g: 0.06, offGrid: true},
	}
	return append(append(out, layeredCases()[12:15]...), unequalCases()...)
}

// law returns the law of the case for a sheet 1 mm thick of modulus refE.
func (c refCase) law() hinge.Law { return c.lawOf(1 - c.depth) }

// lawOf is law for one skin.
func (c refCase) lawOf(skin float64) hinge.Law {
	return hinge.New(hinge.Material{E: refE, NuXY: refNu, NuXZ: refNu, EZ: c.ez * refE, GXZ: c.g * refE, Face: c.face},
		hinge.Score{Thickness: 1, Depth: 1 - skin, Width: c.wide, Bottom: hinge.Flat})
}

const (
	refE, refNu = 1000.0, 0.3
	refPlain    = refE / (1 - refNu*refNu) / 12 // stiffness of the plain sheet
	plainEnd    = 3.0                           // of a strip, over the thickness
)

// reference writes input decks for a finite-element solver, runs it, and prints the law
// beside what it found, or one of the tables that it found.
func reference(out io.Writer, table string) error {
	if _, err := exec.LookPath("ccx"); err != nil {
		return errors.New("the solver ccx is not here: on Debian, apt-get install calculix-ccx")
	}
	dir, err := os.MkdirTemp("", "reference")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	switch table {
	case "layers":
		return layeredTable(out, dir)
	case "cones":
		return wedgeTable(out, dir)
	case "stops":
		return pairTable(out, dir)
	}
	fmt.Fprintln(out, "Law against CalculiX: flat bottoms with sharp corners, plane strain, eight-node elements refined at the root.")
	fmt.Fprintln(out, "Lengths over the thickness; E_z and G_xz over E; * lies off the stored grid; r is the stiffness of the faces over the mean. Cells: stiffness ratio C, peak strain, mouth closing per rotation, fibre that keeps its length. Strips: of each score, strain and mouth closing per moment.")
	fmt.Fprintf(out, "%-24s %5s %5s  %-9s %9s %9s %8s\n", "case", "E_z", "G_xz", "what", "law", "solver", "off")
	var worst float64
	row := func(c refCase, what string, law, fe float64) {
		name := c.name
		if c.offGrid {
			name += " *"
		}
		off := law/fe - 1
		worst = math.Max(worst, math.Abs(off))
		fmt.Fprintf(out, "%-24s %5.2g %5.2g  %-9s %9.5g %9.5g %+7.2f%%\n", name, c.ez, c.g, what, law, fe, 100*off)
	}
	for i, c := range refCases() {
		m := c.mesh()
		got, err := m.solve(dir, fmt.Sprintf("case%02d", i), c)
		if err != nil {
			return fmt.Errorf("%s: %w", c.name, err)
		}
		if c.skins != nil {
			for k, law := range c.unequalMouths() {
				row(c, fmt.Sprintf("mouth %d", k+1), law, got.scores[k].mouth/got.moment)
			}
			continue
		}
		l := c.law()
		if c.strip {
			for k, s := range got.scores {
				left, right := math.Inf(1), math.Inf(1)
				if k > 0 {
					left = c.gaps[k-1]
				}
				if k < len(c.gaps) {
					right = c.gaps[k]
				}
				f := l.Fold(1, left, right, false)
				row(c, fmt.Sprintf("strain %d", k+1), f.Strain/f.Moment, s.strain/got.moment)
				row(c, fmt.Sprintf("mouth %d", k+1), f.Elastic*f.Lever/f.Moment, s.mouth/got.moment)
			}
			continue
		}
		p := c.gaps[0]
		ei := got.moment * p / got.rotation
		row(c, "C", l.Softening(p), refPlain*c.discrete(m.ys)/ei)
		row(c, "strain", l.Strain(p, 1/p), got.scores[0].strain/got.rotation)
		row(c, "lever", l.MouthLever(p), got.scores[0].mouth/got.rotation)
		row(c, "fibre", l.Neutral(p), got.fibre)
	}
	fmt.Fprintf(out, "worst %.1f %%\n", 100*worst)
	return solids(out, dir)
}

// refMesh is a structured mesh of a panel with scores cut from the top, the uncut face at
// y = 0. Grid lines stand at xs and ys; elements inside a score are left out.
type refMesh struct {
	xs, ys []float64
	scores []float64 // middles
	half   float64   // half a score's width
	webs   []float64 // under each score
	cell   bool      // a half cell: symmetric about its first score and its right end
}

// mesh lays grid lines that are fine at the roots of the scores and grow away from them.
func (c refCase) mesh() refMesh {
	webs := c.webs()
	fine := math.Min(0.004, math.Min(c.wide/20, slices.Min(webs)/40))
	m := refMesh{half: c.wide / 2, webs: webs, cell: !c.strip}
	m.ys = heights(webs, fine)
	if !c.strip {
		m.scores = []float64{0}
		m.xs = append(graded(0, m.half, fine, false), graded(m.half, c.gaps[0]/2, fine, true)[1:]...)
		return m
	}
	at := plainEnd
	m.scores = append(m.scores, at)
	for _, g := range c.gaps {
		at += g
		m.scores = append(m.scores, at)
	}
	end := at + plainEnd
	m.xs = []float64{0}
	last := 0.0
	for i, s := range m.scores {
		to := s - m.half
		if i == 0 {
			m.xs = append(m.xs, graded(last, to, fine, false)[1:]...)
		} else {
			mid := (last + to) / 2
			m.xs = append(m.xs, graded(last, mid, fine, true)[1:]...)
			m.xs = append(m.xs, graded(mid, to, fine, false)[1:]...)
		}
		m.xs = append(m.xs, graded(to, s, fine, true)[1:]...)
		m.xs = append(m.xs, graded(s, s+m.half, fine, false)[1:]...)
		last = s + m.half
	}
	m.xs = append(m.xs, graded(last, end, fine, true)[1:]...)
	return m
}

// graded returns places from a to b whose steps grow by a quarter from the fine end, the
// first when fromStart.
func graded(a, b, fine float64, fromStart bool) []float64 {
	l := b - a
	s, h := []float64{0}, fine
	for s[len(s)-1]+1.5*h < l {
		s = append(s, s[len(s)-1]+h)
		h = math.Min(h*1.25, 0.08)
	}
	s = append(s, l)
	out := make([]float64, len(s))
	for i, q := range s {
		if fromStart {
			out[i] = a + q
		} else {
			out[len(s)-1-i] = b - q
		}
	}
	return out
}

// refResult is what the solver says of one case, per unit thickness out of the plane.
type refResult struct {
	moment, rotation, fibre float64
	scores                  []struct{ strain, mouth float64 }
}

// open tells whether the element at column i, row j lies in a score.
func (m refMesh) open(i, j int) bool {
	mid := (m.xs[i] + m.xs[i+1]) / 2
	for k, s := range m.scores {
		if math.Abs(mid-s) < m.half {
			return m.ys[j] > m.webs[k]-1e-12
		}
	}
	return false
}

// halves returns the grid lines of eight-node elements: corners and middles.
func halves(v []float64) []float64 {
	out := []float64{v[0]}
	for i := 1; i < len(v); i++ {
		out = append(out, (v[i-1]+v[i])/2, v[i])
	}
	return out
}

// solve writes the deck, runs the solver and reads what is asked. Two load cases on the
// right end - turned about the uncut face, and pulled - are combined so that no force
// remains; what is left is pure bending.
func (m refMesh) solve(dir, name string, c refCase) (refResult, error) {
	hx, hy := halves(m.xs), halves(m.ys)
	ids := map[[2]int]int{}
	var order [][2]int
	node := func(i, j int) int {
		k := [2]int{i, j}
		if ids[k] == 0 {
			ids[k] = len(ids) + 1
			order = append(order, k)
		}
		return ids[k]
	}
	var els bytes.Buffer
	n := 0
	for j := 0; j+1 < len(m.ys); j++ {
		els.WriteString("*ELEMENT,TYPE=CPE8,ELSET=" + c.rowSet(j) + "\n")
		for i := 0; i+1 < len(m.xs); i++ {
			if m.open(i, j) {
				continue
			}
			n++
			a, b := 2*i, 2*j
			fmt.Fprintf(&els, "%d,%d,%d,%d,%d,%d,%d,%d,%d\n", n, node(a, b), node(a+2, b), node(a+2, b+2), node(a, b+2), node(a+1, b), node(a+2, b+1), node(a+1, b+2), node(a, b+1))
		}
	}
	deck, right := m.deck(hx, hy, ids, order, els.Bytes(), c)
	file := filepath.Join(dir, name)
	if err := os.WriteFile(file+".inp", deck, 0o644); err != nil {
		return refResult{}, err
	}
	cmd := exec.Command("ccx", name)
	cmd.Dir = dir
	if said, err := cmd.CombinedOutput(); err != nil {
		return refResult{}, fmt.Errorf("ccx: %w: %s", err, said)
	}
	blocks, err := readDat(file + ".dat")
	if err != nil {
		return refResult{}, err
	}
	return m.result(blocks, hx, hy, ids, right)
}

// deck writes the input file; right lists the nodes of the right end.
func (m refMesh) deck(hx, hy []float64, ids map[[2]int]int, order [][2]int, els []byte, c refCase) (deck []byte, right [][2]int) {
	var b bytes.Buffer
	b.WriteString("*NODE,NSET=ALL\n")
	var left [][2]int
	for _, k := range order {
		fmt.Fprintf(&b, "%d,%.12g,%.12g,0\n", ids[k], hx[k[0]], hy[k[1]])
		switch k[0] {
		case 0:
			left = append(left, k)
		case len(hx) - 1:
			right = append(right, k)
		}
	}
	b.Write(els)
	c.materials(&b, m.ys)
	b.WriteString("*NSET,NSET=R\n")
	for _, k := range right {
		fmt.Fprintf(&b, "%d,\n", ids[k])
	}
	b.WriteString("*NSET,NSET=Q\n")
	for _, k := range m.asked(hx, hy) {
		fmt.Fprintf(&b, "%d,\n", ids[k])
	}
	for _, pulled := range []bool{false, true} {
		b.WriteString("*STEP\n*STATIC\n*BOUNDARY,OP=NEW\n")
		for _, k := range left {
			fmt.Fprintf(&b, "%d,1,1,0.\n", ids[k])
		}
		fmt.Fprintf(&b, "%d,2,2,0.\n", ids[[2]int{0, 0}])
		for _, k := range right {
			u := hy[k[1]]
			if pulled {
				u = 1
			}
			fmt.Fprintf(&b, "%d,1,1,%.12g\n", ids[k], u)
		}
		b.WriteString("*NODE PRINT,NSET=R\nRF\n*NODE PRINT,NSET=Q\nU\n*END STEP\n")
	}
	return b.Bytes(), right
}

// asked lists, of each score, two or three nodes of the uncut face under its middle and
// the corners of its mouth.
func (m refMesh) asked(hx, hy []float64) [][2]int {
	top := len(hy) - 1
	var out [][2]int
	for _, s := range m.scores {
		i := column(hx, s)
		if !m.cell {
			out = append(out, [2]int{i - 2, 0}, [2]int{column(hx, s-m.half), top})
		}
		out = append(out, [2]int{i, 0}, [2]int{i + 1, 0}, [2]int{i + 2, 0}, [2]int{column(hx, s+m.half), top})
	}
	return out
}

func column(hx []float64, x float64) int {
	best := 0
	for i := range hx {
		if math.Abs(hx[i]-x) < math.Abs(hx[best]-x) {
			best = i
		}
	}
	return best
}

func (m refMesh) result(blocks []datBlock, hx, hy []float64, ids map[[2]int]int, right [][2]int) (refResult, error) {
	var force, move []map[int][3]float64
	for _, b := range blocks {
		if b.forces {
			force = append(force, b.values)
		} else {
			move = append(move, b.values)
		}
	}
	if len(force) != 2 || len(move) != 2 {
		return refResult{}, fmt.Errorf("the solver answered %d force and %d displacement tables", len(force), len(move))
	}
	var n, mo [2]float64
	for s := range 2 {
		for _, k := range right {
			f := force[s][ids[k]][0]
			n[s] += f
			mo[s] += f * hy[k[1]]
		}
	}
	mix := -n[0] / n[1]
	u := func(i, j int) float64 { k := ids[[2]int{i, j}]; return move[0][k][0] + mix*move[1][k][0] }
	out := refResult{moment: math.Abs(mo[0] + mix*mo[1]), rotation: 1, fibre: -mix}
	top := len(hy) - 1
	for _, s := range m.scores {
		i := column(hx, s)
		var r struct{ strain, mouth float64 }
		if m.cell {
			// u is odd about the middle: its slope there from two places beside it. The
			// cell is half, so its rotation of 1 is half of a whole cell's.
			out.rotation = 2
			r.strain = math.Abs(4*u(i+1, 0)-u(i+2, 0)) / hx[i+2]
			r.mouth = 2 * math.Abs(u(column(hx, s+m.half), top))
		} else {
			r.strain = math.Abs(u(i+2, 0)-u(i-2, 0)) / (hx[i+2] - hx[i-2])
			r.mouth = math.Abs(u(column(hx, s+m.half), top) - u(column(hx, s-m.half), top))
		}
		out.scores = append(out.scores, r)
	}
	return out, nil
}

// datBlock is one table of a .dat file: reaction forces or displacements by node.
type datBlock struct {
	forces bool
	values map[int][3]float64
}

func readDat(path string) ([]datBlock, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	var out []datBlock
	sc := bufio.NewScanner(f)
	for sc.Scan() {
		line := sc.Text()
		if strings.Contains(line, "for set") {
			out = append(out, datBlock{strings.Contains(line, "forces"), map[int][3]float64{}})
			continue
		}
		words := strings.Fields(line)
		id := 0
		if len(words) == 4 {
			id, _ = strconv.Atoi(words[0])
		}
		if id == 0 || len(out) == 0 {
			continue
		}
		var v [3]float64
		for i := range v {
			if v[i], err = strconv.ParseFloat(words[i+1], 64); err != nil {
				return nil, err
			}
		}
		out[len(out)-1].values[id] = v
	}
	return out, sc.Err()
}
