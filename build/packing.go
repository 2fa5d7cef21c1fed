package main

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"sync"
	"time"

	"springrib/internal/plane"
	"springrib/internal/sheet"
)

// packingFolder names the environment variable with the folder of public strip-packing
// instances, one JSON file each, in the form in which Gardeyn, Vanden Berghe & Wauters publish
// them with arXiv 2509.13329 (2025).
const packingFolder = "SPRINGRIB_PACKING"

// bestKnown are the densities best known of the instances, in percent (Gardeyn, Vanden Berghe &
// Wauters, arXiv 2509.13329, 2025, and its records).
var bestKnown = []struct {
	name    string
	density float64
}{
	{"albano", 89.82}, {"blaz1", 86.22}, {"dagli", 90.17}, {"fu", 92.39}, {"jakobs1", 89.24},
	{"mao", 86.87}, {"shapes0", 69.98}, {"shirts", 90.92}, {"swim", 79.83},
}

// strip is an instance: a job on a bed long enough for any layout, and the length of the strip
// that its parts would fill wholly.
type strip struct {
	job   sheet.Job
	least float64
}

// readStrip reads an instance: a list of polygons, how many of each, the turns allowed in
// degrees, and the height of the strip.
func readStrip(dir, name string) (strip, error) {
	data, err := os.ReadFile(filepath.Join(dir, name+".json"))
	if err != nil {
		return strip{}, err
	}
	var in struct {
		Items []struct {
			Demand       int
			Orientations []float64 `json:"allowed_orientations"`
			Shape        struct{ Data [][2]float64 }
		}
		Height float64 `json:"strip_height"`
	}
	if err := json.Unmarshal(data, &in); err != nil {
		return strip{}, fmt.Errorf("%s: %w", name, err)
	}
	s := strip{job: sheet.Job{CutOuts: true}}
	area, long := 0.0, 0.0
	for _, it := range in.Items {
		var pts []plane.Point
		for _, q := range it.Shape.Data {
			pts = append(pts, plane.Pt(q[0], q[1]))
		}
		p := sheet.Piece{ID: name, Outline: plane.Region{Outer: plane.Poly(pts...)}.Normal(), Quantity: it.Demand}
		for _, o := range it.Orientations {
			p.Turns = append(p.Turns, o*math.Pi/180)
		}
		area += float64(it.Demand) * p.Outline.Area()
		b := p.Outline.Box()
		long = max(long, b.W()+b.H())
		s.job.Pieces = append(s.job.Pieces, p)
	}
	s.job.Beds = []sheet.Bed{{W: 3*area/in.Height + long, H: in.Height}}
	s.least = area / in.Height
	return s, nil
}

// density returns that of a layout of the strip in percent, once the exact check found it sound.
func (s *strip) density(l sheet.Layout) (float64, error) {
	if faults := sheet.Verify(&s.job, &l); len(faults) > 0 || len(l.Missing) > 0 || len(l.Sheets) != 1 {
		return 0, fmt.Errorf("the layout is not sound: %v", faults)
	}
	return 100 * s.least / l.Sheets[0].Length, nil
}

// packingSlices is how often searches that share their best do so.
const packingSlices = 100

// packStrip packs with so many searches side by side, from the seed on, each with so much
// effort. They tell each other the best at equal shares of it, so that the same comes of the
// same whatever the machine does.
func packStrip(job sheet.Job, effort int64, searches int, seed uint64) sheet.Layout {
	all := make([]*sheet.Search, searches)
	for i := range all {
		all[i] = sheet.NewSearch(job, effort, seed+uint64(i))
	}
	best := sheet.Rows(job)
	for more := true; more; {
		more = false
		bests, goes := make([]sheet.Layout, searches), make([]bool, searches)
		var wait sync.WaitGroup
		for i, s := range all {
			wait.Go(func() { goes[i], bests[i] = s.Run(effort/packingSlices+1), s.Best() })
		}
		wait.Wait()
		for i := range all {
			more = more || goes[i]
			if sheet.Closer(bests[i], best) {
				best = bests[i]
			}
		}
		for _, s := range all {
			s.Take(best)
		}
	}
	return best
}

// stepsIn measures how many steps two searches side by side do each in a second.
func stepsIn(job sheet.Job) float64 {
	const trial = 30_000_000
	start := time.Now()
	packStrip(job, trial, 2, 99)
	return trial / time.Since(start).Seconds()
}

// printPacking prints how densely the public instances are packed in so many seconds on two
// processors, beside the best known. With an effort in place of seconds ("2e9") the same
// comes out everywhere.
func printPacking(out io.Writer, wanted []string) error {
	dir := os.Getenv(packingFolder)
	if dir == "" {
		fmt.Fprintf(out, "Set %s to the folder of the public strip-packing instances to see how densely they are packed.\n", packingFolder)
		return nil
	}
	if len(wanted) == 0 {
		wanted = []string{"10", "60"}
	}
	fmt.Fprintf(out, "Density in %%, two searches that share their best; the best known is of arXiv 2509.13329 (2025).\n%-10s", "")
	for _, w := range wanted {
		fmt.Fprintf(out, "%10s    short", w)
	}
	fmt.Fprintf(out, "%12s\n", "best known")
	for _, b := range bestKnown {
		s, err := readStrip(dir, b.name)
		if err != nil {
			return err
		}
		fmt.Fprintf(out, "%-10s", b.name)
		for _, w := range wanted {
			amount, err := strconv.ParseFloat(w, 64)
			if err != nil || amount <= 0 {
				return errors.New("packing takes seconds, or an effort of a million steps and more")
			}
			if amount < 1e6 {
				amount *= stepsIn(s.job)
			}
			d, err := s.density(packStrip(s.job, int64(amount), 2, 0))
			if err != nil {
				return fmt.Errorf("%s: %w", b.name, err)
			}
			fmt.Fprintf(out, "%10.2f%9.2f", d, b.density-d)
		}
		fmt.Fprintf(out, "%12.2f\n", b.density)
	}
	return nil
}
