package main

import (
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"springrib/internal/hinge"
	"springrib/internal/solve"
)

// feRow is one cell of testdata/reference/scored-cell-fe.csv, lengths over t.
type feRow struct {
	d, w, p               float64
	bottom                string
	lam, rho              float64
	c, kt, lever, neutral float64
	group                 string // sheet and bottom
}

// law is the law of package hinge written out a second time, with its constants by name,
// so that they can be fitted again. TestLawWrittenTwice holds the two together.
type law map[string]float64

// usedLaw has the constants of package hinge.
func usedLaw() law {
	k := law{}
	for _, c := range hinge.Constants() {
		k[c.Name] = c.Value
	}
	return k
}

// softening is C of a cell: hinge length by the n-norm of root, spacing and lone score.
func (k law) softening(r feRow) float64 {
	e := 1 - r.d
	stretch := math.Sqrt((1 + r.rho) / 2)
	y := r.rho - 1
	y = 1 + y*(0.1+y*(-0.016+y*0.002))
	a := k.root(r, r.lam)
	b := 1.317 * e * (1 - e*e + (1-e)*math.Pow(e, 6)) * r.lam * y * y
	l := r.p
	if land := r.p - a; land > 0 {
		n := math.Min(20, 1+k["arraySharp"]*math.Exp(k["arrayGrowth"]*r.p/(r.lam*stretch)))
		l = a + land*math.Pow(1+math.Pow(land/b, n), -1/n)
	}
	return 1 + l/r.p*(math.Pow(e, -3)-1)
}

// root is the length by which a blunt bottom adds to the hinge.
func (k law) root(r feRow, lam float64) float64 {
	switch r.bottom {
	case "flat":
		return k["rootFlat"] * r.w
	case "V":
		return k["rootRound"] * r.w / 3 / (1 + k["rootShrink"]*r.w/3/(1-r.d)) / math.Sqrt(lam)
	}
	return k["rootRound"] * r.w / (1 + k["rootShrink"]*r.w/(1-r.d)) / math.Sqrt(lam)
}

// neutral is y_n for a softening c.
func (k law) neutral(r feRow, c float64) float64 {
	e := 1 - r.d
	alone := e * (k["neutral0"] - k["neutral1"]*e + k["neutral2"]*e*e)
	touching := e * (1 - e*e) / (2 * (1 - e*e*e))
	o := math.Exp(-math.Pow(r.p/(k["reachNeutral"]*r.lam), 1.5))
	return (0.5 + (alone+o*(touching-alone))*(c-1)) / c
}

// lever is the closing of the mouth per rotation of one spacing.
func (k law) lever(r feRow, c float64) float64 {
	e := 1 - r.d
	alone := 1 - e*(k["lever0"]-k["lever1"]*e+k["lever2"]*e*e-k["lever4"]*math.Pow(e, 4))
	touching := (1 - e/2) / (1 - e*e*e)
	o := math.Exp(-math.Pow(r.p/(k["reachLever"]*r.lam), k["powerLever"]))
	return (alone + o*(touching-alone)) * (1 - 1/c)
}

// strain is k_t.
func (k law) strain(r feRow) float64 {
	e := 1 - r.d
	blunt := k["bluntRound"]
	if r.bottom == "flat" {
		blunt = k["bluntFlat"]
	}
	sharp := math.Exp(-blunt * k.root(r, 1) / (e * math.Pow(r.lam, k["reliefReach"])))
	alone := k["strainPlain"] - k["strainRelief"]*math.Pow((1+r.rho)/2, -k["reliefStretch"]/2)*sharp*math.Pow(e, k["reliefSkin"])
	return alone + math.Exp(-math.Pow(r.p/(k["reachStrain"]*e*r.lam), k["powerStrain"]))*(1-alone)
}

// lawFit is one quantity of the law: the constants that only it decides, and what it
// misses a cell by. The fits are independent: the softening that neutral fibre and lever
// are made with is that of the finite elements.
type lawFit struct {
	name  string
	of    []string
	iso   bool // fitted to isotropic rows only
	unit  float64
	error func(k law, r feRow) float64
}

func lawFits() []lawFit {
	return []lawFit{
		{"softening C", []string{"rootFlat", "rootRound", "rootShrink", "arraySharp", "arrayGrowth"}, true, 100,
			func(k law, r feRow) float64 { return k.softening(r)/r.c - 1 }},
		{"neutral fibre, over t", []string{"neutral0", "neutral1", "neutral2", "reachNeutral"}, true, 1,
			func(k law, r feRow) float64 { return k.neutral(r, r.c) - r.neutral }},
		{"mouth lever", []string{"lever0", "lever1", "lever2", "lever4", "reachLever", "powerLever"}, true, 100,
			func(k law, r feRow) float64 { return k.lever(r, r.c)/r.lever - 1 }},
		{"strain factor", []string{"reachStrain", "powerStrain", "strainPlain", "strainRelief", "reliefStretch", "reliefReach", "reliefSkin", "bluntFlat", "bluntRound"}, false, 100,
			func(k law, r feRow) float64 { return k.strain(r)/r.kt - 1 }},
	}
}

// rows returns what f is fitted to.
func (f lawFit) rows(all []feRow) (out []feRow) {
	for _, r := range all {
		if !f.iso || r.lam == 1 {
			out = append(out, r)
		}
	}
	return out
}

// refit returns the constants of least squares, each between what is known of it and its
// standard deviation as the residuals have it.
func (f lawFit) refit(all []feRow) (k law, sigma map[string]float64, converged bool) {
	rows, used := f.rows(all), usedLaw()
	k, sigma = usedLaw(), map[string]float64{}
	start := make([]float64, len(f.of))
	residuals := func(x, out []float64) {
		for i, name := range f.of {
			k[name] = used[name] * math.Exp(x[i]) // all are above zero
		}
		for i, r := range rows {
			out[i] = f.error(k, r)
		}
	}
	fit := solve.LeastSquares(residuals, start, len(rows))
	residuals(fit.X, make([]float64, len(rows)))
	per := math.Sqrt(fit.Sum / float64(len(rows)-len(f.of)))
	for i, name := range f.of {
		sigma[name] = k[name] * fit.Sigma(i) * per
	}
	return k, sigma, fit.Converged
}

// missed returns the root mean square and the worst of what f misses rows by.
func (f lawFit) missed(k law, rows []feRow) (rms, worst float64, at feRow) {
	for _, r := range rows {
		e := f.error(k, r)
		rms += e * e
		if math.Abs(e) > math.Abs(worst) {
			worst, at = e, r
		}
	}
	return math.Sqrt(rms / float64(len(rows))), worst, at
}

// printLaw fits the law again and prints both laws side by side.
func printLaw(root string, w io.Writer) error {
	all, err := readCells(filepath.Join(root, "testdata", "reference", "scored-cell-fe.csv"))
	if err != nil {
		return err
	}
	used := usedLaw()
	for _, f := range lawFits() {
		again, sigma, _ := f.refit(all)
		rows := f.rows(all)
		fmt.Fprintf(w, "%s: %d constants from %d cells\n", f.name, len(f.of), len(rows))
		fmt.Fprintf(w, "  %-14s %10s %10s %10s\n", "", "used", "fitted", "+-")
		for _, name := range f.of {
			fmt.Fprintf(w, "  %-14s %10.4f %10.4f %10.4f\n", name, used[name], again[name], sigma[name])
		}
		unit := " %"
		if f.unit == 1 {
			unit = " t"
		}
		fmt.Fprintf(w, "  %-22s %5s %18s %18s\n", "misses by, rms (worst)", "cells", "used", "fitted")
		var groups []string
		of := map[string][]feRow{}
		for _, r := range all {
			if of[r.group] == nil {
				groups = append(groups, r.group)
			}
			of[r.group] = append(of[r.group], r)
		}
		for _, g := range append(groups, "all") {
			cells := of[g]
			if g == "all" {
				cells = all
			}
			ur, uw, at := f.missed(used, cells)
			ar, aw, _ := f.missed(again, cells)
			fmt.Fprintf(w, "  %-22s %5d  %7.4f (%+.4f)%s  %7.4f (%+.4f)%s  worst at d %g w %g p %g\n", g, len(cells),
				f.unit*ur, f.unit*uw, unit, f.unit*ar, f.unit*aw, unit, at.d, at.w, at.p)
		}
		fmt.Fprintln(w)
	}
	return nil
}

// readCells reads the stored table.
func readCells(name string) ([]feRow, error) {
	file, err := os.Open(name)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	in := csv.NewReader(file)
	in.Comment = '#'
	lines, err := in.ReadAll()
	if err != nil {
		return nil, err
	}
	var out []feRow
	for _, line := range lines[1:] {
		var v [10]float64
		for i := range v {
			if i == 3 || i == 4 {
				continue
			}
			if v[i], err = strconv.ParseFloat(line[i], 64); err != nil {
				return nil, err
			}
		}
		r := feRow{d: v[0], w: v[1], p: v[2], bottom: line[3], lam: 1, rho: 1, c: v[5], kt: v[7], lever: v[8], neutral: v[9], group: "isotropic, " + line[3]}
		if strings.HasPrefix(line[4], "ortho") {
			m := hinge.Material{E: 1, NuXY: 0.3, NuXZ: 0.3}
			if _, err := fmt.Sscanf(line[4], "ortho Ez/Ex=%g Gxz/Ex=%g", &m.EZ, &m.GXZ); err != nil {
				return nil, err
			}
			r.lam, r.rho = m.Anisotropy()
			r.group = fmt.Sprintf("%g/%g, %s", m.EZ, m.GXZ, line[3])
		}
		out = append(out, r)
	}
	return out, nil
}
