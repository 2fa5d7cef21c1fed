package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"image"
	"image/png"
	"os"
	"path/filepath"
	"sort"
	"strings"
	"sync"

	"springrib/internal/design"
	"springrib/internal/view"
	"springrib/internal/wire"
)

// Pictures that writePictures makes.
const (
	contactName  = "contact.png"  // all designs, to see at a glance what a change did
	examplesName = "examples.png" // the examples alone; site/examples.png is one of these
)

// pictured is a design as a contact sheet shows it. What can't be drawn has a problem
// in words instead of drawings.
type pictured struct {
	name     string
	verdict  wire.Verdict
	problem  string
	drawings []wire.Drawing // bent, flat, then the sheets
	streams  [][]float32
}

// writePictures draws every example and every design of testdata into dir.
func writePictures(root, dir string) error {
	ink, err := readInk(root)
	if err != nil {
		return err
	}
	examples, err := picturedExamples()
	if err != nil {
		return err
	}
	stored, err := picturedFiles(filepath.Join(root, "testdata", "designs"))
	if err != nil {
		return err
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	for _, p := range []struct {
		name  string
		sheet contactSheet
	}{
		{examplesName, contactSheet{columns: 3, cellW: 440, cellH: 350, scale: 1.5, ink: ink}},
		{contactName, contactSheet{title: "Every example and every design in testdata", columns: 4, cellW: 400, cellH: 330, scale: 2, ink: ink}},
	} {
		cells := examples
		if p.name == contactName {
			cells = append(append([]pictured(nil), examples...), stored...)
		}
		img, err := p.sheet.draw(cells)
		if err != nil {
			return err
		}
		if err := writePNG(dir, p.name, img); err != nil {
			return err
		}
	}
	return nil
}

func writePNG(dir, name string, img image.Image) error {
	var out bytes.Buffer
	e := png.Encoder{CompressionLevel: png.BestCompression}
	if err := e.Encode(&out, img); err != nil {
		return err
	}
	return write(dir, name, out.Bytes())
}

// picturedExamples plans the examples, in the page's order.
func picturedExamples() ([]pictured, error) {
	examples := design.Examples()
	return inOrder(len(examples), func(i int) (pictured, error) {
		raw, err := json.Marshal(examples[i].Design)
		if err != nil {
			return pictured{}, err
		}
		return picture(examples[i].Title, raw)
	})
}

// picturedFiles plans the designs of a folder, by their names. A file that is no design
// is told as the page tells it.
func picturedFiles(dir string) ([]pictured, error) {
	files, err := filepath.Glob(filepath.Join(dir, "*.json"))
	if err != nil {
		return nil, err
	}
	sort.Strings(files)
	return inOrder(len(files), func(i int) (pictured, error) {
		text, err := os.ReadFile(files[i])
		if err != nil {
			return pictured{}, err
		}
		name := strings.TrimSuffix(filepath.Base(files[i]), ".json")
		raw, _, err := view.Core{}.Open(string(text))
		if err != nil {
			return pictured{name: name, problem: err.Error()}, nil
		}
		return picture(name, raw)
	})
}

// picture plans one design as the page asks for it.
func picture(name string, raw []byte) (pictured, error) {
	plan, streams, err := view.Core{}.Plan(raw, wire.Show{})
	if err != nil {
		return pictured{}, fmt.Errorf("%s: %w", name, err)
	}
	p := pictured{name: name, verdict: plan.Verdict}
	if !plan.Drawn {
		p.problem = plan.Verdict.Sentence
		if len(plan.Findings) > 0 {
			p.problem = plan.Findings[0].Text
		}
		return p, nil
	}
	for i, d := range plan.Drawings {
		if d.ID == "bent" || d.ID == "flat" || strings.HasPrefix(d.ID, "sheet") {
			p.drawings, p.streams = append(p.drawings, d), append(p.streams, streams[i])
		}
	}
	return p, nil
}

// inOrder calls f for 0 to n-1, some at a time, and returns the results in order.
func inOrder[T any](n int, f func(i int) (T, error)) ([]T, error) {
	out, errs := make([]T, n), make([]error, n)
	next := make(chan int)
	var workers sync.WaitGroup
	for range 4 {
		workers.Go(func() {
			for i := range next {
				out[i], errs[i] = f(i)
			}
		})
	}
	for i := range n {
		next <- i
	}
	close(next)
	workers.Wait()
	for _, err := range errs {
		if err != nil {
			return nil, err
		}
	}
	return out, nil
}
