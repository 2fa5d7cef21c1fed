package export

import (
	"bytes"
	"image"
	_ "image/png"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"
)

// Programs of other people that read our files. A test that needs one that is not
// there is skipped and says what would have to be installed.

func needs(t *testing.T, program, debianPackage string) string {
	t.Helper()
	path, err := exec.LookPath(program)
	if err != nil {
		t.Skipf("%s is not here; on Debian, apt-get install %s to run this check", program, debianPackage)
	}
	return path
}

// run runs a program on data saved as a file and returns its standard output.
// "FILE" in args stands for that file's path.
func run(t *testing.T, program, name string, data []byte, args ...string) []byte {
	t.Helper()
	file := filepath.Join(t.TempDir(), name)
	require.NoError(t, os.WriteFile(file, data, 0o644))
	for i := range args {
		if args[i] == "FILE" {
			args[i] = file
		}
	}
	var stderr bytes.Buffer
	cmd := exec.Command(program, args...)
	cmd.Stderr = &stderr
	out, err := cmd.Output()
	require.NoError(t, err, "%s: %s", program, stderr.String())
	return out
}

func rasterise(t *testing.T, program string, svg []byte, args ...string) image.Image {
	t.Helper()
	path := needs(t, program, "librsvg2-bin")
	img, _, err := image.Decode(bytes.NewReader(run(t, path, "job.svg", svg, append(args, "FILE")...)))
	require.NoError(t, err)
	return img
}

// zoomFor returns the zoom at which a renderer of 96 pixels an inch gives perMM
// pixels a millimetre.
func zoomFor(perMM float64) string { return strconv.FormatFloat(perMM*25.4/96, 'f', -1, 64) }

// inkBox returns the box of all pixels that are not near white.
func inkBox(img image.Image) image.Rectangle {
	box := image.Rectangle{}
	b := img.Bounds()
	for y := b.Min.Y; y < b.Max.Y; y++ {
		for x := b.Min.X; x < b.Max.X; x++ {
			r, g, bl, _ := img.At(x, y).RGBA()
			if min(r, g, bl) < 0xE000 {
				box = box.Union(image.Rect(x, y, x+1, y+1))
			}
		}
	}
	return box
}
