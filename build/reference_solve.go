package main

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
)

// brick has the corners and middles of edges of a twenty-node element, in steps along, across and up.
var brick = [20][3]int{
	{0, 0, 0}, {2, 0, 0}, {2, 2, 0}, {0, 2, 0}, {0, 0, 2}, {2, 0, 2}, {2, 2, 2}, {0, 2, 2},
	{1, 0, 0}, {2, 1, 0}, {1, 2, 0}, {0, 1, 0}, {1, 0, 2}, {2, 1, 2}, {1, 2, 2}, {0, 1, 2},
	{0, 0, 1}, {2, 0, 1}, {2, 2, 1}, {0, 2, 1},
}

// elements writes the elements and numbers their nodes: those before the second score's middle
// as one set, those past it as another.
func (b *solidMesh) elements(out *bytes.Buffer) {
	n, middle := 0, b.under(2)
	for j := 2; j < len(b.cols); j += 2 {
		if j == 2 || j == middle+2 {
			fmt.Fprintf(out, "*ELEMENT,TYPE=C3D20R,ELSET=E%d\n", min(j, 3))
		}
		for i := 2; i < len(b.xs); i += 2 {
			for k := 2; k < len(b.zs); k += 2 {
				if b.open(i, j, k) {
					continue
				}
				n++
				fmt.Fprintf(out, "%d", n)
				for q, at := range brick {
					key := [3]int{i - 2 + at[0], j - 2 + at[1], k - 2 + at[2]}
					if b.ids[key] == 0 {
						b.ids[key] = len(b.ids) + 1
						b.order = append(b.order, key)
					}
					if out.WriteString(","); q == 15 { // a line has sixteen numbers at most
						out.WriteString("\n")
					}
					fmt.Fprintf(out, "%d", b.ids[key])
				}
				out.WriteString("\n")
			}
		}
	}
}

// deck writes the input file. The first column stays in its plane, the last one in a plane that turns
// by 1: of a wedge about the cone's axis, with nothing else that holds it; of a pair about the
// scores, with no strain along them, and each place along is free to go outward, so that nothing pulls.
func (b *solidMesh) deck() []byte {
	var els, out bytes.Buffer
	b.elements(&els)
	out.WriteString("*NODE,NSET=ALL\n")
	for _, k := range b.order {
		p := b.at(k)
		fmt.Fprintf(&out, "%d,%.12g,%.12g,%.12g\n", b.ids[k], p[0], p[1], p[2])
	}
	hold := len(b.ids) + 1
	out.WriteString("*NODE,NSET=HOLDS\n")
	for i := range len(b.xs) + 1 {
		fmt.Fprintf(&out, "%d,0,0,0\n", hold+i)
	}
	out.Write(els.Bytes())
	b.materials(&out)
	sin, cos := math.Sincos(1.5 * b.round())
	var fixed bytes.Buffer
	last, end := len(b.cols)-1, len(b.xs)-1
	for _, k := range b.order {
		n := b.ids[k]
		if k[1] == 0 {
			fmt.Fprintf(&fixed, "%d,2,2\n", n)
		}
		switch {
		case k[1] == last && b.turn > 0:
			p := b.at(k)
			fmt.Fprintf(&out, "*EQUATION\n3\n%d,2,%.12g,%d,1,%.12g,%d,1,%.12g\n", n, cos, n, -sin, hold, -(cos*p[0] + sin*p[1]))
		case k[1] == last:
			fmt.Fprintf(&out, "*EQUATION\n3\n%d,2,1.,%d,1,%.12g,%d,1,-1.\n", n, hold, -b.zs[k[2]], hold+1+k[0])
		}
		if b.turn == 0 && (k[0] == 0 || k[0] == end) {
			fmt.Fprintf(&fixed, "%d,1,1\n", n)
		}
	}
	out.WriteString("*BOUNDARY\n")
	out.Write(fixed.Bytes())
	fmt.Fprintf(&out, "%d,3,3\n", b.ids[[3]int{0, 0, 0}])
	fmt.Fprintf(&out, "*STEP\n*STATIC\n*BOUNDARY\n%d,1,1,1.\n*NODE PRINT,NSET=ALL\nU\n*NODE PRINT,NSET=HOLDS\nU\n*END STEP\n", hold)
	return out.Bytes()
}

// materials writes the sheet: 1 along the scores, 2 across them, 3 through it. Each facet has its axes.
func (b *solidMesh) materials(out *bytes.Buffer) {
	out.WriteString("*MATERIAL,NAME=M\n")
	if b.ez == 0 {
		fmt.Fprintf(out, "*ELASTIC\n%g,%g\n", refE, refNu)
	} else {
		fmt.Fprintf(out, "*ELASTIC,TYPE=ENGINEERING CONSTANTS\n%g,%g,%g,%g,%g,%g,%.9g,%g,\n%g,293.\n",
			refE, refE, b.ez*refE, refNu, refNu, refNu, refE/2/(1+refNu), b.g*refE, b.g*refE)
	}
	first, second := b.scores()
	lands := []int{(first + second) / 2, len(b.cols) - 1}
	if b.turn == 0 {
		lands = lands[:1]
	}
	for i, j := range lands {
		set := 2 + i
		orientation := ""
		if b.ez > 0 {
			o, along, up := b.at([3]int{0, j, 0}), b.at([3]int{len(b.xs) - 1, j, 0}), b.at([3]int{0, j, len(b.zs) - 1})
			e, n := minus(along, o), minus(up, o)
			a := [3]float64{n[1]*e[2] - n[2]*e[1], n[2]*e[0] - n[0]*e[2], n[0]*e[1] - n[1]*e[0]}
			fmt.Fprintf(out, "*ORIENTATION,NAME=O%d\n%.9g,%.9g,%.9g,%.9g,%.9g,%.9g\n", set, e[0], e[1], e[2], a[0], a[1], a[2])
			orientation = fmt.Sprintf(",ORIENTATION=O%d", set)
		}
		fmt.Fprintf(out, "*SOLID SECTION,ELSET=E%d,MATERIAL=M%s\n", set, orientation)
	}
}

func minus(a, b [3]float64) [3]float64 { return [3]float64{a[0] - b[0], a[1] - b[1], a[2] - b[2]} }

func dot(a, b [3]float64) float64 { return a[0]*b[0] + a[1]*b[1] + a[2]*b[2] }

// station is what is seen at one place along the scores, per turn of 1 of the last column.
type station struct {
	x             float64
	folds         [2]float64 // of the first score and the second
	strain, mouth [2]float64 // of either; of a pair the first's alone
	fibre         float64    // of a pair: that keeps its length, from the uncut face
}

// solve runs the solver and reads what it says at every place along the scores.
func (b *solidMesh) solve(dir, name string) ([]station, error) {
	file := filepath.Join(dir, name)
	if err := os.WriteFile(file+".inp", b.deck(), 0o644); err != nil {
		return nil, err
	}
	cmd := exec.Command("ccx", name)
	cmd.Dir = dir
	if said, err := cmd.CombinedOutput(); err != nil {
		return nil, fmt.Errorf("ccx: %w: %s", err, said)
	}
	tables, err := readDat(file + ".dat")
	if err != nil {
		return nil, err
	}
	if len(tables) != 2 {
		return nil, errors.New("the solver did not print two tables")
	}
	var out []station
	for i := 0; i < len(b.xs); i += 2 {
		out = append(out, b.station(i, tables[0].values, tables[1].values))
	}
	return out, nil
}

func (b *solidMesh) station(i int, u, holds map[int][3]float64) station {
	first, second := b.scores()
	top, last := len(b.zs)-1, len(b.cols)-1
	// across is by how much a node moves square to a score's plane.
	across := func(j, k int) float64 {
		sin, cos := 0.0, 1.0
		if b.turn > 0 {
			sin, cos = math.Sincos(b.cols[j].angle / b.turn * b.round())
		}
		v := u[b.ids[[3]int{i, j, k}]]
		return cos*v[1] - sin*v[0]
	}
	// fibre is a straight through the sheet in the middle of a land, and how it turns.
	fibre := func(j int) (d, turn [3]float64) {
		lo, hi := [3]int{i, j, 0}, [3]int{i, j, top}
		d, turn = minus(b.at(hi), b.at(lo)), minus(u[b.ids[hi]], u[b.ids[lo]])
		longer := dot(turn, d)
		return d, minus(turn, [3]float64{longer * d[0], longer * d[1], longer * d[2]})
	}
	s := station{x: b.xs[i]}
	s.strain[0] = slope(b.cols[first/2].beside, across(first/2, 0), b.cols[first].beside, across(first, 0))
	s.mouth[0] = 2 * math.Abs(across(first, top))
	d, turn := fibre((first + second) / 2)
	s.folds[0] = 2 * math.Abs(turn[1]) / math.Sqrt(1-d[1]*d[1])
	if b.turn == 0 {
		hold := len(b.ids) + 1
		s.folds[1], s.fibre = 2-s.folds[0], -holds[hold+1+i][0]
		return s
	}
	e, turned := fibre(last)
	s.folds[1] = math.Abs(dot(d, turned)+dot(turn, e)) / math.Sin(b.fold)
	middle := b.under(2)
	right := 2*middle - second
	within := (middle + right) / 2
	s.strain[1] = slope(b.cols[within].beside, (across(within, 0)-across(2*middle-within, 0))/2, b.cols[right].beside, (across(right, 0)-across(second, 0))/2)
	s.mouth[1] = math.Abs(across(right, top) - across(second, top))
	return s
}

// slope returns that at 0 of an odd cubic through two places.
func slope(x, u, y, v float64) float64 {
	return math.Abs(u*y*y*y-v*x*x*x) / (x*y*y*y - y*x*x*x)
}

// scores returns the columns of the walls of the two scores that face each other.
func (b *solidMesh) scores() (first, second int) {
	for j, q := range b.cols {
		if q.score == 1 {
			first = j
		}
		if q.score == 2 {
			return first, j
		}
	}
	panic("a mesh without two scores")
}

// under is the column in the middle of a score; of half a score that at its end.
func (b *solidMesh) under(score int) int {
	lo, hi := len(b.cols), 0
	for j, q := range b.cols {
		if q.score == score {
			lo, hi = min(lo, j), max(hi, j)
		}
	}
	if b.turn == 0 {
		return hi
	}
	return (lo + hi) / 2
}
