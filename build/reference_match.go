package main

import (
	"fmt"
	"io"
	"math"
)

// match is one figure of the law beside what the solver found.
type match struct {
	what    string
	law, fe float64
}

// matches holds what the solver found of a wedge or a pair to the law.
func (c solidCase) matches(found []station) []match {
	if c.turn > 0 {
		return c.wedgeMatches(found)
	}
	return c.pairMatches(found)
}

// at returns what was found nearest to a place.
func at(found []station, x float64) station {
	best := found[0]
	for _, s := range found {
		if math.Abs(s.x-x) < math.Abs(best.x-x) {
			best = s
		}
	}
	return best
}

// wedgeMatches are asked for a thickness inside either rim, and between: the fold for a turn of 1
// about the axis from score to score, 1/cos(lean) for a sheet that does not stretch; strain and
// closing for a fold of 1.
func (c solidCase) wedgeMatches(found []station) []match {
	var out []match
	l := c.law()
	for _, x := range []float64{c.from + 1, (c.from + c.to) / 2, c.to - 1} {
		s := at(found, x)
		p := c.spacing(s.x)
		for i, which := range []string{"middle", "outer"} {
			name := fmt.Sprintf("%s at %.2f", which, p)
			out = append(out,
				match{"fold " + name, 1 / math.Cos(math.Atan(math.Tan(c.lean())*math.Cos(c.fold/2))), 1.5 * s.folds[i]},
				match{"strain " + name, l.Strain(p, 1/p), s.strain[i] / s.folds[i]},
				match{"lever " + name, l.MouthLever(p), s.mouth[i] / s.folds[i]})
		}
	}
	return out
}

// pairMatches are lambda, and strain, closing and fibre far from the end of the short score.
func (c solidCase) pairMatches(found []station) []match {
	l, p := c.law(), c.gap
	behind, ahead := found[0], found[len(found)-1]
	most := 0.0
	for _, s := range found {
		most = math.Max(most, s.strain[0])
	}
	return []match{
		{"lambda", l.Transition(p), lambda(found)},
		{"strain behind", l.Strain(2*p, 1/p), behind.strain[0]},
		{"strain ahead", l.Strain(p, 1/p), ahead.strain[0]},
		{"lever behind", l.MouthLever(2 * p), behind.mouth[0] / 2},
		{"lever ahead", l.MouthLever(p), ahead.mouth[0]},
		{"fibre behind", l.Neutral(2 * p), behind.fibre},
		{"fibre ahead", l.Neutral(p), ahead.fibre},
		{"strain most", l.Strain(2*p, 1/p), most},
	}
}

// lambda fits exp(-x/lambda) to what the short score lacks of its fold, from half of it to a twentieth.
func lambda(found []station) float64 {
	whole := found[len(found)-1].folds[1]
	var n, x, y, xx, xy float64
	for _, s := range found {
		lack := 1 - s.folds[1]/whole
		if s.x > 0 && lack < 0.5 && lack > 0.05 {
			v := math.Log(lack)
			n, x, y, xx, xy = n+1, x+s.x, y+v, xx+s.x*s.x, xy+s.x*v
		}
	}
	return -(n*xx - x*x) / (n*xy - x*y)
}

const solidHead = `# How: go run ./build reference %s. Elements of twenty nodes, reduced integration, linear elastic, small rotation, nu 0.3.
# Solver: CalculiX %s.
# Lengths over the thickness: depth d, width w, flat bottoms with sharp corners. ez, gxz are E_z/E and G_xz/E (0: isotropic). Computed for this project; nothing was fitted to it.
`

const wedgeHead = `# A wedge of three scores of a cone, its scores 1/30 rad from each other in the flat, folded by 1/30 each (the cone leans 45 degrees), free of stress as it stands.
# Then its cut faces, planes through the axis half way between scores, turn about the axis; rims are free. Half of it is solved.
# s: from the apex along a score; p: spacing there. Of the middle score (1) and an outer one (2): fold per turn about the axis from score to score; peak strain on the
#   uncut face and closing of the mouth, per fold.
`

const pairHead = `# A long and a short score by turns in a flat panel, from the middle of one to the middle of the next; the short one begins at x = 0. Both lie in planes that turn by 1
# about the scores and are free to part, so that nothing pulls; no strain along the scores at either end.
# lambda: exp(-x/lambda) fitted to what the short score lacks of its fold, from half of it to a twentieth. behind, ahead: far from the short score's end, where it is not
#   and where it is; strain: peak on the uncut face under the long score, most anywhere; lever: closing of the mouth per fold; y_n: fibre that keeps its length, from the uncut face.
# mesh: usual, and coarse, whose least element is 1/60 of the thickness, not 1/90; of three of the latter strain was not read.
`

// wedgeTable solves wedges and writes them as testdata/reference/cone-fe.csv has them, row by row.
func wedgeTable(out io.Writer, dir string) error {
	fmt.Fprint(out, wedgeHead, fmt.Sprintf(solidHead, "cones", solver()), "ez,gxz,d_t,w_t,s,p_t,fold_1,fold_2,strain_1,strain_2,closing_1,closing_2\n")
	return each(dir, true, usual, func(c solidCase, found []station) {
		for _, s := range found {
			fmt.Fprintf(out, "%g,%g,%g,%g,%.6g,%.6g,%.6g,%.6g,%.6g,%.6g,%.6g,%.6g\n", c.ez, c.g, c.depth, c.wide, s.x, c.spacing(s.x),
				1.5*s.folds[0], 1.5*s.folds[1], s.strain[0]/s.folds[0], s.strain[1]/s.folds[1], s.mouth[0]/s.folds[0], s.mouth[1]/s.folds[1])
		}
	})
}

// pairTable solves pairs in both meshes and writes them as testdata/reference/stop-fe.csv has them.
func pairTable(out io.Writer, dir string) error {
	fmt.Fprint(out, pairHead, fmt.Sprintf(solidHead, "stops", solver()), "mesh,ez,gxz,d_t,w_t,p_t,lambda,strain_behind,strain_ahead,lever_behind,lever_ahead,y_n_behind,y_n_ahead,strain_most\n")
	for mesh, z := range []size{usual, coarse} {
		err := each(dir, false, z, func(c solidCase, found []station) {
			fmt.Fprintf(out, "%s,%g,%g,%g,%g,%g", [...]string{"usual", "coarse"}[mesh], c.ez, c.g, c.depth, c.wide, c.gap)
			for _, m := range c.matches(found) {
				fmt.Fprintf(out, ",%.5g", m.fe)
			}
			fmt.Fprintln(out)
		})
		if err != nil {
			return err
		}
	}
	return nil
}

// each solves the wedges or the pairs.
func each(dir string, wedges bool, z size, row func(c solidCase, found []station)) error {
	for _, c := range solidCases() {
		if wedges != (c.turn > 0) {
			continue
		}
		found, err := c.mesh(z).solve(dir, "solid")
		if err != nil {
			return err
		}
		row(c, found)
	}
	return nil
}

// solids prints the law beside what the solver finds of wedges and pairs.
func solids(out io.Writer, dir string) error {
	fmt.Fprintln(out, "Solids of twenty-node elements: three scores of a cone, by spacing over the thickness; a long and a short score.")
	for _, c := range solidCases() {
		if c.ez > 0 && c.gap > 1 {
			continue // in the stored table
		}
		found, err := c.mesh(usual).solve(dir, "solid")
		if err != nil {
			return err
		}
		for _, m := range c.matches(found) {
			fmt.Fprintf(out, "%-24s %5.2g %5.2g  %-20s %9.5g %9.5g %+7.2f%%\n", c.String(), c.ez, c.g, m.what, m.law, m.fe, 100*(m.law/m.fe-1))
		}
	}
	return nil
}

func (c solidCase) String() string {
	if c.turn > 0 {
		return c.name
	}
	return fmt.Sprintf("%s p %.3g", c.name, c.gap)
}
