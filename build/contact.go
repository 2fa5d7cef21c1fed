package main

import (
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"

	"github.com/tdewolff/canvas"
	"github.com/tdewolff/canvas/renderers/rasterizer"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"

	"springrib/internal/wire"
)

// A contact sheet is a grid of cells, one for each design: its name and verdict, the
// bent side view over the flat panel in one scale, and the sheets to the right of them.
// Those that can't be drawn come last, in low cells, with what the page says of them.
// Lengths are in units of its own; scale says how many pixels a unit has.
type contactSheet struct {
	title        string // above the grid; none leaves no room for one
	columns      int
	cellW, cellH float64
	scale        float64
	ink          palette
}

const (
	contactMargin = 20.0 // round the grid, and inside each cell
	contactHead   = 64.0 // room for the title of the sheet
	cellHead      = 56.0 // room for the name and two lines of verdict
	cellGap       = 14.0 // between the drawings of a cell
	fieldShare    = 0.62 // of a cell's width for the bent and the flat drawing
	lowCell       = 92.0 // height of a cell without drawings
	legendCell    = 236.0
	mostInk       = 0.25 // of the area that scores lie in; more would run together
)

// palette holds colours by the names that the page's style sheet gives them.
type palette map[string]color.RGBA

// inkLine fits the colours of the style sheet; those for light paper come first.
var inkLine = regexp.MustCompile(`--([a-z]+): #([0-9A-Fa-f]{6});`)

// readInk reads the colours of the page, so that both have the same.
func readInk(root string) (palette, error) {
	file := filepath.Join(root, "site", "views", "ink.css")
	text, err := os.ReadFile(file)
	if err != nil {
		return nil, err
	}
	p := palette{}
	for _, m := range inkLine.FindAllStringSubmatch(string(text), -1) {
		if _, ok := p[m[1]]; ok {
			continue
		}
		v, err := strconv.ParseUint(m[2], 16, 32)
		if err != nil {
			return nil, err
		}
		p[m[1]] = color.RGBA{uint8(v >> 16), uint8(v >> 8), uint8(v), 255}
	}
	for _, name := range []string{"paper", "inset", "ink", "soft", "line", "edge", "wood", "sound", "warn", "stop", "score", "mark", "inner", "outer"} {
		if _, ok := p[name]; !ok {
			return nil, fmt.Errorf("%s has no colour --%s", file, name)
		}
	}
	return p, nil
}

// tint is a share of a colour over the paper.
func (p palette) tint(name string, share float64) color.RGBA {
	a, b := p[name], p["paper"]
	mix := func(a, b uint8) uint8 { return uint8(math.Round(float64(a)*share + float64(b)*(1-share))) }
	return color.RGBA{mix(a.R, b.R), mix(a.G, b.G), mix(a.B, b.B), 255}
}

// stroke is how one role is drawn: its colour, the width of its line, and dashes in
// multiples of that width.
type stroke struct {
	colour string
	width  float64
	dashes []float64
}

// strokes are the lines of the drawings, those of the page made finer.
var strokes = map[string]stroke{
	"panel": {"ink", 1.1, nil}, "rib": {"soft", 0.8, nil}, "score": {"score", 0.55, nil},
	"mark": {"mark", 0.9, []float64{4, 2.5}}, "glue": {"mark", 1.4, []float64{1, 1.2}},
	"inner": {"inner", 0.9, nil}, "outer": {"outer", 0.9, nil}, "bed": {"edge", 0.7, nil}, "dimension": {"soft", 0.55, nil},
}

// explained are the lines that the legend names, in its order.
var explained = []struct{ role, word string }{
	{"panel", "panel"}, {"rib", "rib"}, {"score", "score"}, {"glue", "glue line"}, {"mark", "mark"}, {"inner", "inner cut"}, {"outer", "outer cut"}, {"bed", "bed of the machine"},
}

// draw draws the sheet with these designs; the legend takes the cell after the last that
// is drawn.
func (c contactSheet) draw(designs []pictured) (image.Image, error) {
	cells := c.cells(designs)
	last := cells[len(cells)-1]
	w := 2*contactMargin + float64(c.columns)*c.cellW
	sheet, err := c.paper(w, last.y+last.h+contactMargin)
	if err != nil {
		return nil, err
	}
	if c.title != "" {
		sheet.text(c.title, contactMargin*2, contactMargin+34, 26, "ink", true, canvas.Left)
		sheet.text(fmt.Sprintf("%d designs", len(designs)), w-contactMargin*2, contactMargin+34, 15, "soft", false, canvas.Right)
	}
	// A cell is a small picture of its own: for each line the rasterizer takes a time that
	// grows with the whole picture.
	small, err := inOrder(len(cells), func(i int) (*image.RGBA, error) {
		p, err := c.paper(c.cellW, cells[i].h)
		if err != nil {
			return nil, err
		}
		if cells[i].design == nil {
			p.legend()
		} else {
			p.design(*cells[i].design)
		}
		return p.image, nil
	})
	if err != nil {
		return nil, err
	}
	for i, img := range small {
		at := image.Pt(int(math.Round(cells[i].x*c.scale)), int(math.Round(cells[i].y*c.scale)))
		draw.Draw(sheet.image, img.Bounds().Add(at), img, image.Point{}, draw.Src)
	}
	return sheet.image, nil
}

// contactCell is the place of a design on the sheet, or of the legend.
type contactCell struct {
	design  *pictured
	x, y, h float64
}

// cells lays out the grid.
func (c contactSheet) cells(designs []pictured) []contactCell {
	y := contactMargin
	if c.title != "" {
		y += contactHead
	}
	var drawn, rest []*pictured
	for i := range designs {
		if d := &designs[i]; d.problem == "" {
			drawn = append(drawn, d)
		} else {
			rest = append(rest, d)
		}
	}
	var cells []contactCell
	grid := func(designs []*pictured, h float64) {
		for i, d := range designs {
			cells = append(cells, contactCell{d, contactMargin + float64(i%c.columns)*c.cellW, y + float64(i/c.columns)*h, h})
		}
		y += float64((len(designs)+c.columns-1)/c.columns) * h
	}
	if len(drawn)%c.columns > 0 {
		grid(append(drawn, nil), c.cellH)
	} else { // the legend alone in its row
		grid(drawn, c.cellH)
		grid([]*pictured{nil}, legendCell)
	}
	grid(rest, lowCell)
	return cells
}

// paper is a picture that is being drawn, Y down.
type paper struct {
	*canvas.Context
	w, h  float64
	image *image.RGBA
	ink   palette
	fonts *canvas.FontFamily
}

// paper returns an empty picture of this size. Each has fonts of its own: the library's
// keep what they are doing, so that two can't be drawn with them at a time.
func (c contactSheet) paper(w, h float64) (*paper, error) {
	fonts := canvas.NewFontFamily("go")
	if err := fonts.LoadFont(goregular.TTF, 0, canvas.FontRegular); err != nil {
		return nil, err
	}
	if err := fonts.LoadFont(gobold.TTF, 0, canvas.FontBold); err != nil {
		return nil, err
	}
	r := rasterizer.New(w, h, canvas.DPMM(c.scale), canvas.LinearColorSpace{})
	p := &paper{Context: canvas.NewContext(r), w: w, h: h, image: r.Image.(*image.RGBA), ink: c.ink, fonts: fonts}
	p.SetCoordSystem(canvas.CartesianIV)
	p.fill(canvas.Rectangle(w, h), c.ink["paper"])
	return p, nil
}

func (p *paper) fill(path *canvas.Path, c color.RGBA) {
	p.SetFillColor(c)
	p.SetStrokeColor(canvas.Transparent)
	p.DrawPath(0, 0, path)
}

func (p *paper) stroke(path *canvas.Path, s stroke) {
	p.SetFillColor(canvas.Transparent)
	p.SetStrokeColor(p.ink[s.colour])
	p.SetStrokeWidth(s.width)
	p.SetStrokeJoiner(canvas.BevelJoin)
	p.SetDashes(0, s.dashes...)
	p.DrawPath(0, 0, path)
	p.SetDashes(0)
}

func (p *paper) face(size float64, colour string, bold bool) *canvas.FontFace {
	style := canvas.FontRegular
	if bold {
		style = canvas.FontBold
	}
	const point = 25.4 / 72 // the library takes points and thinks in mm
	return p.fonts.Face(size/point, p.ink[colour], style, canvas.FontNormal)
}

// text writes one line with its baseline at y.
func (p *paper) text(s string, x, y, size float64, colour string, bold bool, align canvas.TextAlign) {
	p.DrawText(x, y, canvas.NewTextLine(p.face(size, colour, bold), s, align))
}

// words writes text within a width, at most so many lines.
func (p *paper) words(s string, x, y, width, size float64, most int) {
	face := p.face(size, "soft", false)
	var lines []string
	line := ""
	for _, word := range strings.Fields(s) {
		longer := strings.TrimSpace(line + " " + word)
		if line != "" && face.TextWidth(longer) > width {
			lines, longer = append(lines, line), word
		}
		line = longer
	}
	lines = append(lines, line)
	if len(lines) > most {
		lines = lines[:most]
		short := lines[most-1]
		for face.TextWidth(short+" ...") > width {
			short = short[:max(0, strings.LastIndexByte(short, ' '))]
		}
		lines[most-1] = short + " ..."
	}
	for i, l := range lines {
		p.text(l, x, y+float64(i)*size*1.3, size, "soft", false, canvas.Left)
	}
}

// design fills a cell.
func (p *paper) design(d pictured) {
	m := contactMargin
	p.stroke(line(m, m-6, p.w-m, m-6), stroke{"line", 0.8, nil})
	p.text(d.name, m, m+12, 15, "ink", true, canvas.Left)
	if d.problem != "" {
		p.text(d.verdict.Word, p.w-m, m+12, 13, "soft", true, canvas.Right)
		p.words(d.problem, m, m+30, p.w-2*m, 10.5, 3)
		return
	}
	colour := map[string]string{"sound": "sound", "note": "sound", "warn": "warn", "stop": "stop"}[d.verdict.Severity]
	p.text(d.verdict.Word, p.w-m, m+12, 13, colour, true, canvas.Right)
	p.words(d.verdict.Sentence, m, m+28, p.w-2*m, 10.5, 2)
	top, w, h := m+cellHead, p.w-2*m, p.h-2*m-cellHead
	field := canvas.Rect{X0: m, Y0: top, X1: m + fieldShare*w - cellGap, Y1: top + h}
	side := canvas.Rect{X0: m + fieldShare*w, Y0: top, X1: m + w, Y1: top + h}
	p.stack(field, d.drawings[:2], d.streams[:2])
	p.tile(side, d.drawings[2:], d.streams[2:])
}

// figureRoom is left at either side of a stack: figures keep their size where a drawing is
// small, and one beside it reaches past the drawing's own margin.
const figureRoom = 3.0

// stack draws drawings one below the other in one scale.
func (p *paper) stack(in canvas.Rect, drawings []wire.Drawing, streams [][]float32) {
	in.X0, in.X1 = in.X0+figureRoom, in.X1-figureRoom
	room := in.H() - cellGap*float64(len(drawings)-1)
	widest, high := 0.0, 0.0
	for _, d := range drawings {
		widest, high = math.Max(widest, d.Box[2]), high+d.Box[3]
	}
	scale := math.Min(in.W()/widest, room/high)
	y := in.Y0 + (room-scale*high)/2
	for i, d := range drawings {
		p.drawing(d, streams[i], scale, in.X0+(in.W()-scale*d.Box[2])/2, y)
		y += scale*d.Box[3] + cellGap
	}
}

// tile draws drawings of like size in rows, as large as they go.
func (p *paper) tile(in canvas.Rect, drawings []wire.Drawing, streams [][]float32) {
	w, h := 0.0, 0.0
	for _, d := range drawings {
		w, h = math.Max(w, d.Box[2]), math.Max(h, d.Box[3])
	}
	const gap = cellGap / 2
	scale, columns := 0.0, 0
	for c := 1; c <= len(drawings); c++ {
		rows := float64((len(drawings) + c - 1) / c)
		s := math.Min((in.W()-gap*float64(c-1))/(float64(c)*w), (in.H()-gap*(rows-1))/(rows*h))
		if s > scale {
			scale, columns = s, c
		}
	}
	for i, d := range drawings {
		rows := float64((len(drawings) + columns - 1) / columns)
		top := in.Y0 + (in.H()-rows*scale*h-(rows-1)*gap)/2
		p.drawing(d, streams[i], scale, in.X0+float64(i%columns)*(scale*w+gap), top+float64(i/columns)*(scale*h+gap))
	}
}

// drawing draws one drawing of the plan with the corner of its box at x, y.
func (p *paper) drawing(d wire.Drawing, stream []float32, scale, x, y float64) {
	place := canvas.Identity.Translate(x, y).Scale(scale, scale).Translate(-d.Box[0], -d.Box[1])
	sheet := strings.HasPrefix(d.ID, "sheet")
	for _, item := range d.Items {
		switch {
		case sheet && item.Role == "bed":
			p.fill(outline(stream[item.From:item.To], place, true), p.ink["inset"])
		case sheet && item.Role == "outer":
			p.fill(outline(stream[item.From:item.To], place, true), p.ink.tint("wood", 0.6))
		}
	}
	for from := 0; from < len(d.Items); {
		role, to := d.Items[from].Role, from
		all := &canvas.Path{}
		for ; to < len(d.Items) && d.Items[to].Role == role && (to == from || role == "score"); to++ {
			all = all.Append(outline(stream[d.Items[to].From:d.Items[to].To], place, false))
		}
		switch {
		case role == "panel":
			p.fill(all, p.ink.tint("wood", 0.28))
		case role == "rib":
			p.fill(all, p.ink["wood"])
		case sheet && role == "inner":
			p.fill(outline(stream[d.Items[from].From:d.Items[from].To], place, true), p.ink["inset"])
		}
		if s, ok := strokes[role]; ok {
			if b := all.Bounds(); role == "score" && d.ID != "bent" {
				s.width = math.Min(s.width, mostInk*b.W()*b.H()/all.Length())
			}
			p.stroke(all, s)
		}
		from = to
	}
	for _, l := range d.Labels {
		p.label(l, place)
	}
}

// label writes a figure in the gap of its dimension line.
func (p *paper) label(l wire.Label, place canvas.Matrix) {
	at := place.Dot(canvas.Point{X: l.X, Y: l.Y})
	face := p.face(8.5, "ink", false)
	w := face.TextWidth(l.Text)
	p.Push()
	p.Translate(at.X, at.Y)
	p.Rotate(l.Turn)
	p.fill(canvas.Rectangle(w+6, 8).Translate(-w/2-3, -4), p.ink["paper"])
	p.DrawText(0, 3, canvas.NewTextLine(face, l.Text, canvas.Center))
	p.Pop()
}

// legend fills a cell with the names of the lines.
func (p *paper) legend() {
	m := contactMargin
	p.stroke(line(m, m-6, p.w-m, m-6), stroke{"line", 0.8, nil})
	p.text("Lines", m, m+12, 15, "ink", true, canvas.Left)
	for i, e := range explained {
		y := m + 40 + 22*float64(i)
		if s := strokes[e.role]; e.role == "panel" || e.role == "rib" {
			box := canvas.Rectangle(34, 10).Translate(m, y-8)
			fill := p.ink["wood"]
			if e.role == "panel" {
				fill = p.ink.tint("wood", 0.28)
			}
			p.fill(box, fill)
			p.stroke(box, s)
		} else {
			s.width *= 1.5
			p.stroke(line(m, y-3.5, m+34, y-3.5), s)
		}
		p.text(e.word, m+46, y, 12, "soft", false, canvas.Left)
	}
}

func line(x0, y0, x1, y1 float64) *canvas.Path {
	l := &canvas.Path{}
	l.MoveTo(x0, y0)
	l.LineTo(x1, y1)
	return l
}

// outline reads a stream of wire.Drawing into a path; closed keeps the closed runs
// alone.
func outline(stream []float32, place canvas.Matrix, closed bool) *canvas.Path {
	out, run := &canvas.Path{}, &canvas.Path{}
	end := func() {
		if !run.Empty() && (!closed || run.Closed()) {
			out = out.Append(run)
		}
		run = &canvas.Path{}
	}
	at := func(i int) canvas.Point {
		return place.Dot(canvas.Point{X: float64(stream[i]), Y: float64(stream[i+1])})
	}
	for i := 0; i < len(stream); {
		switch stream[i] {
		case 0:
			end()
			q := at(i + 1)
			run.MoveTo(q.X, q.Y)
			i += 3
		case 1:
			q := at(i + 1)
			run.LineTo(q.X, q.Y)
			i += 3
		case 2:
			c, d, q := at(i+1), at(i+3), at(i+5)
			run.CubeTo(c.X, c.Y, d.X, d.Y, q.X, q.Y)
			i += 7
		case 3:
			run.Close()
			i++
		default:
			panic(fmt.Sprintf("build: no command %v in a drawing", stream[i]))
		}
	}
	end()
	return out
}
