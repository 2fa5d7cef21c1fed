package plane

import (
	"fmt"
	"math"
	"testing"
)

func kindsOf(p Path) string {
	s := ""
	for _, x := range p.Segs {
		s += "lac"[x.Kind : x.Kind+1]
	}
	return s
}

func TestExperiment(t *testing.T) {
	show := func(name string, src Source, o Options) {
		f := Fit(src, o)
		lo, hi := Deviation(src, f.Path, 1e-4)
		fmt.Printf("%-28s mode %d: %2d %s dev %.5f (%.5f..%.5f) kink %.3f deg\n", name, o.Mode, len(f.Path.Segs), kindsOf(f.Path), f.Deviation, lo, hi, f.Kink*180/math.Pi)
	}
	cub := MustParse("M 0 0 C 10 20 30 20 40 0")
	ell := Func(true, func(t float64) (p, d Point) {
		return Pt(30*math.Cos(t), 15*math.Sin(t)), Pt(-30*math.Sin(t), 15*math.Cos(t))
	}, 0, math.Pi/2, math.Pi, 1.5*math.Pi, 2*math.Pi)
	var gon []Point
	for i := range 400 {
		a := 2 * math.Pi * float64(i) / 400
		gon = append(gon, Pt(30*math.Cos(a), 15*math.Sin(a)))
	}
	var clo []Point
	x, y := 0.0, 0.0
	for i := range 1000 {
		clo = append(clo, Pt(x, y))
		h := 100.0 / 999
		s := float64(i) * h
		f := func(s float64) float64 { return s * s / (2 * 2000) }
		x += Quad(func(s float64) float64 { return math.Cos(f(s)) }, s, s+h, 1e-12)
		y += Quad(func(s float64) float64 { return math.Sin(f(s)) }, s, s+h, 1e-12)
	}
	for _, m := range []Mode{Any, Arcs, Cubics} {
		o := Options{Mode: m}
		show("cubic", cub, o)
		show("parallel +6.35", Parallel(cub, 6.35, 6.35), o)
		show("parallel -6.35", Parallel(cub, -6.35, -6.35), o)
		show("ellipse", ell, o)
		show("ellipse path", EllipsePath(Pt(0, 0), 30, 15), o)
		show("400-gon", Points(gon, true), o)
		show("clothoid", Points(clo, false), o)
		for _, r := range []float64{60, 100, 150} {
			arc := Chain(false, ArcSeg(Pt(0, 0), r, 0, math.Pi/2))
			show(fmt.Sprintf("spiral %g left", r), Parallel(arc, 20, 8), o)
			show(fmt.Sprintf("spiral %g right", r), Parallel(arc, -20, -8), o)
		}
		show("circle", CirclePath(Pt(1, 2), 30), o)
		show("round rect", MustParse("M 5 0 L 35 0 A 5 0 1 40 5 L 40 25 A 5 0 1 35 30 L 5 30 A 5 0 1 0 25 L 0 5 A 5 0 1 5 0 Z"), o)
	}
}
