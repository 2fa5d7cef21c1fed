package main

import (
	"bytes"
	"image"
	"image/draw"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/export"
	"springrib/internal/plan"
	"springrib/internal/plane"
)

// Each example's SVG, drawn by librsvg, reaches as far as the plan says: within 0.1 mm
// at ten pixels a millimetre, the stroke's own width taken off.
func TestPictureOfEveryExample(t *testing.T) {
	tool, err := exec.LookPath("rsvg-convert")
	if err != nil {
		t.Skip("rsvg-convert is not here (package librsvg2-bin): the pictures are not checked")
	}
	const perMM = 10
	for _, e := range design.Examples() {
		v, _ := design.Read(e.Design)
		p := plan.Make(v)
		require.True(t, p.Drawn, e.ID)
		for i, j := range p.Lay.Jobs {
			want := plane.EmptyBox()
			for _, o := range j.Operations {
				for _, s := range o.Strokes {
					want = want.Union(s.Path.Box())
				}
			}
			file := filepath.Join(t.TempDir(), e.ID+strconv.Itoa(i)+".svg")
			require.NoError(t, os.WriteFile(file, export.SVG(j, export.SVGOptions{}), 0o644))
			out, err := exec.Command(tool, "-w", strconv.Itoa(int(j.Width*perMM)), "-b", "white", file).Output()
			require.NoError(t, err)
			img, err := png.Decode(bytes.NewReader(out))
			require.NoError(t, err)
			got := plane.EmptyBox()
			flat := image.NewGray(img.Bounds())
			draw.Draw(flat, flat.Bounds(), img, image.Point{}, draw.Src)
			for y := range flat.Bounds().Dy() {
				for x, grey := range flat.Pix[y*flat.Stride : y*flat.Stride+flat.Bounds().Dx()] {
					if grey < 240 {
						// a pixel's middle, back to mm with Y up
						got = got.Add(plane.Pt((float64(x)+0.5)/perMM, j.Height-(float64(y)+0.5)/perMM))
					}
				}
			}
			assert.InDelta(t, want.Min.X, got.Min.X, 0.1, e.ID)
			assert.InDelta(t, want.Min.Y, got.Min.Y, 0.1, e.ID)
			assert.InDelta(t, want.Max.X, got.Max.X, 0.1, e.ID)
			assert.InDelta(t, want.Max.Y, got.Max.Y, 0.1, e.ID)
		}
	}
}
