package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"sort"
	"strings"

	"springrib/internal/fit"
	"springrib/internal/plane"
	"springrib/internal/solve"
)

// pieceTolerance is the deviation in mm, both ways, at which pieces are counted.
const pieceTolerance = 0.01

// pieceSamples is the number of even steps over each smooth run: fine enough that the
// chords of every curve here stand off it by less than 0.0006 mm.
const pieceSamples = 1500

// pieceCurve is a curve of the comparison as smooth runs; a corner or an end lies
// between two of them.
type pieceCurve struct {
	name string
	loop bool
	runs []plane.Source
}

func (c pieceCurve) source() plane.Source { return plane.Join(c.loop, c.runs...) }

// pieceCurves are ten curves as they come up in ribs and panels. All figures are ours.
func pieceCurves() []pieceCurve {
	open := func(name string, runs ...plane.Source) pieceCurve { return pieceCurve{name, false, runs} }
	loop := func(name string, runs ...plane.Source) pieceCurve { return pieceCurve{name, true, runs} }
	graph := func(a, b float64, f func(x float64) (y, slope float64)) plane.Source {
		return plane.Func(false, func(x float64) (p, d plane.Point) {
			y, slope := f(x)
			return plane.Pt(x, y), plane.Pt(1, slope)
		}, a, b)
	}
	hump := plane.MustParse("M 0 0 C 10 20 30 20 40 0")
	free := plane.MustParse("M 0 0 C 40 0 70 20 100 60 C 130 100 170 100 200 70 C 230 40 260 40 300 60")
	back := plane.Parallel(free, -20, -8)
	end := func(s plane.Source, k int, t float64) plane.Point { p, _ := s.Stretches()[k].At(t); return p }
	return []pieceCurve{
		open("parallel at 6.35 mm of a cubic", plane.Parallel(hump, 6.35, 6.35)),
		loop("ellipse 60 x 30 mm", plane.Func(true, func(t float64) (p, d plane.Point) {
			return plane.Pt(30*math.Cos(t), 15*math.Sin(t)), plane.Pt(-30*math.Sin(t), 15*math.Cos(t))
		}, 0, 2*math.Pi)),
		open("clothoid, 100 mm to R 20", plane.Func(false, func(s float64) (p, d plane.Point) {
			turn := func(s float64) float64 { return s * s / 4000 }
			p = plane.Pt(solve.Integrate(func(x float64) float64 { return math.Cos(turn(x)) }, 0, s, 1e-9),
				solve.Integrate(func(x float64) float64 { return math.Sin(turn(x)) }, 0, s, 1e-9))
			return p, plane.Dir(turn(s))
		}, 0, 100)),
		open("tapering back of a rib, R 100", plane.Parallel(plane.Chain(false, plane.ArcSeg(plane.Pt(0, 0), 100, 0, math.Pi/2)), 20, 8)),
		open("logarithmic spiral, turn and a half", plane.Func(false, func(t float64) (p, d plane.Point) {
			r := 8 * math.Exp(0.18*t)
			return plane.Dir(t).Mul(r), plane.Dir(t).Mul(0.18 * r).Add(plane.Dir(t).Left().Mul(r))
		}, 0, 3*math.Pi)),
		open("sine, three waves of 80 mm", graph(0, 240, func(x float64) (y, slope float64) {
			k := 2 * math.Pi / 80
			return 15 * math.Sin(k*x), 15 * k * math.Cos(k*x)
		})),
		open("catenary, 180 mm", graph(-90, 90, func(x float64) (y, slope float64) {
			return 60 * math.Cosh(x/60), math.Sinh(x / 60)
		})),
		loop("rib on a free curve", free, plane.Open(free.End(), end(back, 2, 1)), plane.Reversed(back),
			plane.Open(end(back, 0, 0), free.Start())),
		loop("rounded taper, 4 mm outside", plane.Parallel(roundedTaper(180, 50, 24, 8), -4, -4)),
		loop("wing section", plane.Func(true, func(u float64) (p, d plane.Point) {
			// A section of our own: a parabola's nose, thin and cambered behind.
			return plane.Pt(100*u*u, (26*u+10*u*u)*(1-u*u)), plane.Pt(200*u, 26+20*u-78*u*u-40*u*u*u)
		}, -1, 1)),
	}
}

// roundedTaper is a taper of this length and these widths, its corners rounded to r.
func roundedTaper(length, foot, tip, r float64) plane.Path {
	at := []plane.Point{plane.Pt(0, -foot/2), plane.Pt(length, -tip/2), plane.Pt(length, tip/2), plane.Pt(0, foot/2)}
	var segs []plane.Segment
	var from plane.Point
	for i := range 5 {
		p := at[i%4]
		in, out := p.Sub(at[(i+3)%4]).Unit(), at[(i+1)%4].Sub(p).Unit()
		turn := math.Atan2(in.Cross(out), in.Dot(out))
		cut := r * math.Tan(turn/2)
		a, b := p.Sub(in.Mul(cut)), p.Add(out.Mul(cut))
		if i > 0 {
			segs = append(segs, plane.LineSeg(from, a), plane.BulgeSeg(a, b, math.Tan(turn/4)))
		}
		from = b
	}
	segs[len(segs)-1].B = segs[0].A
	return plane.Chain(true, segs...)
}

// pieceRun samples a run in even steps of its stretches' parameters.
func pieceRun(run plane.Source) []plane.Point {
	parts := run.Stretches()
	n := (pieceSamples + len(parts) - 1) / len(parts)
	var pts []plane.Point
	for k, s := range parts {
		for i := range n + 1 {
			if i == 0 && k > 0 {
				continue
			}
			p, _ := s.At(float64(i) / float64(n))
			pts = append(pts, p)
		}
	}
	return pts
}

// pieceCount is one row of the comparison: numbers of pieces within pieceTolerance.
type pieceCount struct {
	name        string
	any, cubics int            // ours: lines, arcs and cubics; lines and cubics
	library     map[string]int // by name; 0 where no setting comes within the tolerance
}

// errNoLibraries tells that the page's packages are not installed.
var errNoLibraries = errors.New("the libraries to compare with are absent: run npm ci in site")

// countPieces fits the ten curves, all from the same points: ours sees whole outlines
// and finds the corners itself, the libraries are given runs without corners. Of each
// library the fewest pieces over its whole ladder of settings count.
func countPieces(root string) ([]pieceCount, error) {
	curves := pieceCurves()
	var asked [][][2]float64
	for _, c := range curves {
		for _, r := range c.runs {
			var run [][2]float64
			for _, p := range pieceRun(r) {
				run = append(run, [2]float64{p.X, p.Y})
			}
			asked = append(asked, run)
		}
	}
	answers, err := askLibraries(root, asked)
	if err != nil {
		return nil, err
	}
	var rows []pieceCount
	for _, c := range curves {
		row := pieceCount{name: c.name, library: map[string]int{}}
		row.any, row.cubics = ourPieces(c, fit.Any), ourPieces(c, fit.Cubics)
		for name, runs := range answers {
			n := 0
			for i, r := range c.runs {
				fewest := fewestWithin(r, runs[i])
				if fewest == 0 {
					n = 0
					break
				}
				n += fewest
			}
			row.library[name] = n
			answers[name] = runs[len(c.runs):]
		}
		rows = append(rows, row)
	}
	return rows, nil
}

// ourPieces fits the points of c and returns the number of pieces. A fit that is not
// within the tolerance of the true curve panics: its bound would be wrong.
func ourPieces(c pieceCurve, m fit.Mode) int {
	var pts []plane.Point
	for _, r := range c.runs {
		for _, p := range pieceRun(r) {
			if len(pts) == 0 || p.Dist(pts[len(pts)-1]) > 1e-9 {
				pts = append(pts, p)
			}
		}
	}
	if c.loop && pts[0].Dist(pts[len(pts)-1]) < 1e-9 {
		pts = pts[:len(pts)-1]
	}
	// What chords stand off is paid from the tolerance.
	f := fit.Fit(fit.Points(pts, c.loop), fit.Options{Tolerance: 0.93 * pieceTolerance, Mode: m})
	if _, hi := fit.Deviation(c.source(), f.Path, pieceTolerance/50); hi > pieceTolerance {
		panic(fmt.Sprintf("%s: fitted within %.4f mm of its points, but within %.4f of the curve", c.name, f.Deviation, hi))
	}
	return len(f.Path.Segs)
}

// fewestWithin returns the least number of cubics among fits that stay within
// pieceTolerance of the run, both ways, 0 when none does.
func fewestWithin(run plane.Source, fits [][][8]float64) int {
	sort.SliceStable(fits, func(i, j int) bool { return len(fits[i]) < len(fits[j]) })
	for _, cubics := range fits {
		var p plane.Path
		for _, q := range cubics {
			p.Segs = append(p.Segs, plane.CubicSeg(plane.Pt(q[0], q[1]), plane.Pt(q[2], q[3]), plane.Pt(q[4], q[5]), plane.Pt(q[6], q[7])))
		}
		if len(cubics) == 0 {
			continue
		}
		if lo, _ := fit.Deviation(run, p, pieceTolerance/50); lo <= pieceTolerance {
			return len(cubics)
		}
	}
	return 0
}

// askLibraries has the libraries fit runs of points: by library, run and setting, the
// cubics of each fit.
func askLibraries(root string, runs [][][2]float64) (map[string][][][][8]float64, error) {
	for _, name := range []string{"fit-curve", "paper"} {
		if _, err := os.Stat(filepath.Join(root, "site", "node_modules", name)); err != nil {
			return nil, errNoLibraries
		}
	}
	text, err := json.Marshal(runs)
	if err != nil {
		return nil, err
	}
	cmd := exec.Command("node", filepath.Join(root, "site", "testing", "pieces.mjs"))
	cmd.Stdin = bytes.NewReader(text)
	cmd.Stderr = os.Stderr
	out, err := cmd.Output()
	if err != nil {
		return nil, fmt.Errorf("site/testing/pieces.mjs: %w", err)
	}
	var answers map[string][][][][8]float64
	return answers, json.Unmarshal(out, &answers)
}

// printPieces prints the comparison as the table of README.md.
func printPieces(root string, out io.Writer) error {
	rows, err := countPieces(root)
	if err != nil {
		return err
	}
	_, err = io.WriteString(out, piecesTable(rows))
	return err
}

func piecesTable(rows []pieceCount) string {
	var b strings.Builder
	b.WriteString("| curve | Springrib | Springrib, no arcs | fit-curve | paper |\n|---|---|---|---|---|\n")
	var sum [4]int
	for _, r := range rows {
		all := [4]int{r.any, r.cubics, r.library["fit-curve"], r.library["paper"]}
		fmt.Fprintf(&b, "| %s | %d | %d | %d | %d |\n", r.name, all[0], all[1], all[2], all[3])
		for i, n := range all {
			sum[i] += n
		}
	}
	fmt.Fprintf(&b, "| all ten | %d | %d | %d | %d |\n", sum[0], sum[1], sum[2], sum[3])
	return b.String()
}
