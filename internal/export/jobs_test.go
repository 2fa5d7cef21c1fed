package export

import (
	"math"
	"math/rand/v2"

	"springrib/internal/cut"
	"springrib/internal/plane"
)

// Jobs that several tests share.

func line(x0, y0, x1, y1 float64) plane.Path {
	return plane.Path{Segs: []plane.Segment{{A: plane.Pt(x0, y0), B: plane.Pt(x1, y1)}}}
}

func arc(x0, y0, x1, y1, bulge float64) plane.Segment {
	return plane.Segment{Kind: plane.Arc, A: plane.Pt(x0, y0), B: plane.Pt(x1, y1), Bulge: bulge}
}

func circle(x, y, r float64) plane.Path {
	return plane.Path{Closed: true, Segs: []plane.Segment{arc(x+r, y, x-r, y, 1), arc(x-r, y, x+r, y, 1)}}
}

// smallJob holds every kind of operation and of segment: a panel with five scores,
// a glue mark as a cubic, a round hole, and a slot-ended outline.
func smallJob() cut.Job {
	var scores []cut.Stroke
	for i := range 5 {
		x := 30 + 4.127*float64(i)
		scores = append(scores, cut.Stroke{Part: "panel", Path: line(x, 5, x, 75)})
	}
	mark := plane.Path{Segs: []plane.Segment{{Kind: plane.Cubic, A: plane.Pt(8, 40), C: plane.Pt(25, 50), D: plane.Pt(45, 30), B: plane.Pt(60, 40)}}}
	outline := plane.Path{Closed: true, Segs: []plane.Segment{
		{A: plane.Pt(10, 10), B: plane.Pt(80, 10)},
		arc(80, 10, 80, 70, 1),
		{A: plane.Pt(80, 70), B: plane.Pt(10, 70)},
		{A: plane.Pt(10, 70), B: plane.Pt(10, 10)},
	}}
	return cut.Job{
		Title: "Reading lamp", Revision: "2", Note: "The kerf of 0.2 mm is already allowed for: cut on the line.", Fault: "the skin may crack", Sheet: 1, Sheets: 2, Width: 120, Height: 80,
		Operations: []cut.Operation{
			{Kind: cut.Score, Name: "1 score", Colour: "#E69F00", Passes: 2, Speed: 120, Strokes: scores},
			{Kind: cut.Mark, Name: "2 mark", Colour: "#56B4E9", Passes: 1, Speed: 200, Strokes: []cut.Stroke{{Part: "panel", Path: mark}}},
			{Kind: cut.Inner, Name: "3 inner cuts", Colour: "#009E73", Passes: 1, Speed: 20, Strokes: []cut.Stroke{{Part: "panel", Path: circle(90, 40, 5.5)}}},
			{Kind: cut.Outer, Name: "4 outer cuts", Colour: "#CC79A7", Passes: 1, Speed: 20, Strokes: []cut.Stroke{{Part: "panel", Path: outline}}},
		},
	}
}

// randomJob has up to forty strokes of all kinds of segment on a sheet of odd size.
func randomJob(r *rand.Rand) cut.Job {
	job := cut.Job{Title: "random", Sheet: 1, Sheets: 1, Width: 50 + 900*r.Float64(), Height: 50 + 900*r.Float64()}
	pt := func() plane.Point { return plane.Pt(job.Width*r.Float64(), job.Height*r.Float64()) }
	for _, k := range cut.Kinds() {
		op := cut.Operation{Kind: k, Name: k.Name(), Colour: k.Colour(), Passes: 1 + r.IntN(3)}
		for range 1 + r.IntN(10) {
			op.Strokes = append(op.Strokes, cut.Stroke{Part: "p", Path: randomPath(r, pt)})
		}
		job.Operations = append(job.Operations, op)
	}
	return job
}

func randomPath(r *rand.Rand, pt func() plane.Point) plane.Path {
	start := pt()
	p := plane.Path{Closed: r.IntN(2) == 0}
	at := start
	n := 1 + r.IntN(5)
	if p.Closed {
		n++
	}
	for i := range n {
		s := plane.Segment{Kind: plane.Kind(r.IntN(3)), A: at, B: pt()}
		if p.Closed && i == n-1 {
			s.B = start
		}
		switch s.Kind {
		case plane.Arc:
			// From too flat to show to nearly a full circle.
			s.Bulge = math.Tan((r.Float64() - 0.5) * 2 * math.Pi / 2 * 0.95)
		case plane.Cubic:
			s.C, s.D = pt(), pt()
		}
		p.Segs = append(p.Segs, s)
		at = s.B
	}
	return p
}

// jobFiles returns every kind of file of one sheet.
func jobFiles(job cut.Job, paper Paper) []File {
	return []File{
		{"cut.svg", SVG(job, SVGOptions{})}, {"cut.dxf", DXF(job, DXFOptions{})}, {"old.dxf", DXF(job, DXFOptions{R12: true})},
		{"template.pdf", PDF(job, PDFOptions{})}, {"tiles.pdf", PDF(job, PDFOptions{Paper: paper})}, {"picture.png", PNG(job, PNGOptions{})},
	}
}

// hostileNames would each break at least one format written without care.
func hostileNames() []string {
	return []string{
		`quote " apostrophe ' less < greater > amp & ]]> -->`,
		"line\nbreak\r\nand\ttab\x00nul\x1b[31mescape\x7f",
		"0\nSECTION\n2\nENTITIES", // group codes of a DXF
		"not UTF-8: \xff\xfe\xc0\x80",
		"right to left: \u202Egpj.exe\u202C and \u2066isolate\u2069",
		"( ) \\ ) Tj ET endstream endobj %%EOF",
		"../../etc/passwd", `C:\Windows\..\system32`, "/absolute", "CON", "nul.txt", ".hidden", "trailing. ", "-rf *",
		"*|?<>:;,=`", "naïve façade – “quoted” € ½",
		"Ω≈ç√ 竹 木 ١٢٣", "", "   ", "\u2028\u2029\uFFFE\uFFFF", "{\\fArial; %%d %%c \\U+0041 \\P ^J ^M",
	}
}

// bigJob is a sheet of 600 by 400 with six panels of scores and holes in one half of
// it, so that tiles of it are empty.
func bigJob() cut.Job {
	job := cut.Job{Title: "Hall seat, revision 3", Sheet: 1, Sheets: 1, Width: 600, Height: 400}
	ops := make([]cut.Operation, 4)
	for i, k := range cut.Kinds() {
		ops[i] = cut.Operation{Kind: k, Name: k.Name(), Colour: k.Colour(), Passes: 1, Speed: 100}
	}
	for i := range 6 {
		x, y := 15+float64(i%2)*150, 20+float64(i/2)*120
		for k := range 20 {
			u := x + 20 + 5*float64(k)
			ops[0].Strokes = append(ops[0].Strokes, cut.Stroke{Part: "panel", Path: line(u, y-5, u, y+85)})
		}
		ops[1].Strokes = append(ops[1].Strokes, cut.Stroke{Part: "panel", Path: line(x, y+40, x+100, y+40)})
		ops[2].Strokes = append(ops[2].Strokes, cut.Stroke{Part: "panel", Path: circle(x+8, y+40, 3)})
		ops[3].Strokes = append(ops[3].Strokes, cut.Stroke{Part: "panel", Path: plane.RectPath(plane.BoxOf(plane.Pt(x, y), plane.Pt(x+135, y+80)))})
	}
	job.Operations = ops
	return job
}
