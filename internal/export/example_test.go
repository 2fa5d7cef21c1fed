package export_test

import (
	"fmt"
	"strings"

	"springrib/internal/cut"
	"springrib/internal/export"
	"springrib/internal/plane"
)

// A file holds true millimetres, rounded once, Y down as SVG has it.
func ExampleSVG() {
	job := cut.Job{Width: 60, Height: 40, Operations: []cut.Operation{
		{Kind: cut.Score, Name: "Score", Strokes: []cut.Stroke{{Part: "panel", Path: plane.Open(plane.Pt(10, 5), plane.Pt(10, 35.00049))}}},
	}}
	for _, line := range strings.Split(string(export.SVG(job, export.SVGOptions{})), "\n") {
		if strings.Contains(line, "<svg") || strings.Contains(line, "<path") {
			fmt.Println(strings.TrimSpace(line))
		}
	}
	// Output:
	// <svg xmlns="http://www.w3.org/2000/svg" version="1.1" width="60mm" height="40mm" viewBox="0 0 60 40">
	// <path d="M 10 35 L 10 5"/>
}
