package main

import (
	"bytes"
	"image/color"
	"image/png"
	"math"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"github.com/tdewolff/canvas"

	"springrib/internal/design"
	"springrib/internal/wire"
)

// all returns what the contact sheet shows, at half its size.
func all(t *testing.T) (contactSheet, []pictured) {
	t.Helper()
	root, err := findRoot()
	require.NoError(t, err)
	ink, err := readInk(root)
	require.NoError(t, err)
	cells, err := picturedExamples()
	require.NoError(t, err)
	stored, err := picturedFiles(filepath.Join(root, "testdata", "designs"))
	require.NoError(t, err)
	return contactSheet{title: "All", columns: 4, cellW: 400, cellH: 330, scale: 1, ink: ink}, append(cells, stored...)
}

// Every example and every design of testdata has a cell of its own, in which all that
// is drawn stays, and the same designs give the same picture again.
func TestContactSheetShowsEveryDesign(t *testing.T) {
	sheet, designs := all(t)
	files, err := filepath.Glob("../testdata/designs/*.json")
	require.NoError(t, err)
	require.Len(t, designs, len(design.Examples())+len(files))
	drawn := 0
	for _, d := range designs {
		if d.problem != "" {
			assert.Empty(t, d.drawings, d.name)
			continue
		}
		drawn++
		require.GreaterOrEqual(t, len(d.drawings), 3, "%s: bent, flat and a sheet", d.name)
		assert.Equal(t, []string{"bent", "flat", "sheet1"}, []string{d.drawings[0].ID, d.drawings[1].ID, d.drawings[2].ID}, d.name)
	}
	require.Greater(t, drawn, len(design.Examples()), "designs of testdata that can be drawn")

	img, err := sheet.draw(designs)
	require.NoError(t, err)
	again, err := sheet.draw(designs)
	require.NoError(t, err)
	require.Equal(t, img, again)

	is := func(x, y float64, c color.RGBA) bool { return img.At(int(x), int(y)) == c }
	cells := sheet.cells(designs)
	require.Len(t, cells, len(designs)+1, "one for each, and the legend")
	seen := map[*pictured]bool{}
	for _, c := range cells {
		name := "the legend"
		if c.design != nil {
			require.False(t, seen[c.design])
			seen[c.design] = true
			name = c.design.name
		}
		ink := 0
		for x := c.x; x < c.x+sheet.cellW; x++ {
			for y := c.y; y < c.y+c.h; y++ {
				if is(x, y, sheet.ink["paper"]) {
					continue
				}
				ink++
				// The line above the name is the outermost.
				inside := x >= c.x+contactMargin-1 && x <= c.x+sheet.cellW-contactMargin+1 && y >= c.y+contactMargin-8 && y <= c.y+c.h-contactMargin+8
				require.True(t, inside, "%s: ink at %v, %v of its cell", name, x-c.x, y-c.y)
			}
		}
		require.Greater(t, ink, 400, name)
	}
}

// A drawing lies where its box and the scale put it: a panel of 100 x 40 at two units
// for a millimetre is 200 x 80 units, from the corner of the box that was asked for.
func TestDrawingIsInScale(t *testing.T) {
	sheet, _ := all(t)
	p, err := sheet.paper(300, 200)
	require.NoError(t, err)
	d := wire.Drawing{ID: "flat", Box: [4]float64{-10, -50, 120, 60}, Items: []wire.Item{{Role: "panel", To: 13}}}
	p.drawing(d, []float32{0, 0, 0, 1, 100, 0, 1, 100, -40, 1, 0, -40, 3}, 2, 20, 30)
	inside := sheet.ink.tint("wood", 0.28)
	x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for x := range 300 {
		for y := range 200 {
			if p.image.RGBAAt(x, y) == inside {
				x0, x1 = math.Min(x0, float64(x)), math.Max(x1, float64(x+1))
				y0, y1 = math.Min(y0, float64(y)), math.Max(y1, float64(y+1))
			}
		}
	}
	// 20 + 2 (0 - -10) = 40 to 240, 30 + 2 (-40 - -50) = 50 to 130; the line covers the edge.
	for _, c := range [][2]float64{{40, x0}, {240, x1}, {50, y0}, {130, y1}} {
		assert.InDelta(t, c[0], c[1], 1.01)
	}
}

// The stream of a drawing becomes the same path; SVG 1.1, 8.3, for the commands.
func TestOutlineReadsTheStream(t *testing.T) {
	stream := []float32{0, 1, 2, 1, 3, 4, 2, 5, 6, 7, 8, 9, 10, 0, 0, 0, 1, 4, 0, 1, 4, 3, 3}
	want := canvas.MustParseSVGPath("M1 2L3 4C5 6 7 8 9 10M0 0L4 0L4 3Z")
	assert.Equal(t, want.String(), outline(stream, canvas.Identity, false).String())
	assert.Equal(t, canvas.MustParseSVGPath("M0 0L4 0L4 3Z").String(), outline(stream, canvas.Identity, true).String())
}

func TestInkIsThePages(t *testing.T) {
	sheet, _ := all(t)
	assert.Equal(t, color.RGBA{0xFA, 0xF7, 0xF0, 255}, sheet.ink["paper"], "light paper, not dark")
	_, err := readInk(t.TempDir())
	assert.Error(t, err)
}

// The command writes both pictures, and the one that README.md shows is of today's
// examples: one that comes or goes changes its size.
func TestPicturesCommand(t *testing.T) {
	dir := t.TempDir()
	assert.ErrorContains(t, run([]string{"pictures"}), "pictures OUTDIR")
	require.NoError(t, run([]string{"pictures", dir}))
	var sizes [][2]int
	for _, file := range []string{filepath.Join(dir, contactName), filepath.Join(dir, examplesName), filepath.Join("..", "site", examplesName)} {
		data, err := os.ReadFile(file)
		require.NoError(t, err)
		c, err := png.DecodeConfig(bytes.NewReader(data))
		require.NoError(t, err)
		sizes = append(sizes, [2]int{c.Width, c.Height})
	}
	assert.Equal(t, sizes[1], sizes[2], "draw site/%s again: go run ./build pictures OUTDIR", examplesName)
}
