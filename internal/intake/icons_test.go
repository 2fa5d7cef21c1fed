package intake

import (
	"bufio"
	"fmt"
	"image"
	"image/png"
	"io/fs"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"sort"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/plane"
)

const (
	iconSet    = "../../site/node_modules/@material-design-icons/svg"
	iconTable  = "../../testdata/intake/icons.tsv"
	iconCount  = 2000
	iconPixels = 400
)

// ink is what an icon covers of a square of iconPixels.
type ink struct {
	area float64
	box  [4]float64 // left, top, right, bottom
}

// 2,000 icons of the set cover, as they are read, what an independent rasteriser (librsvg,
// rsvg-convert) paints of them on a square of 400 pixels: their extents within a pixel, and
// their area within what a twentieth of a pixel along all edges and one whole pixel make, a
// tenth where several shapes lie together: along an edge that two of them share, a rasteriser
// lets the ground shine through both. The table holds what it painted; with -update it is made anew.
func TestIconsAgainstRasteriser(t *testing.T) {
	if _, err := os.Stat(iconSet); err != nil {
		t.Skip("The npm package of icons is not installed for the page; icons were not compared.")
	}
	if *update {
		paintIcons(t)
	}
	file, err := os.Open(iconTable)
	require.NoError(t, err)
	defer file.Close()
	n, worstBox, worstArea := 0, 0.0, 0.0
	for lines := bufio.NewScanner(file); lines.Scan(); n++ {
		var name string
		var want ink
		_, err := fmt.Sscan(lines.Text(), &name, &want.area, &want.box[0], &want.box[1], &want.box[2], &want.box[3])
		require.NoError(t, err)
		data, err := os.ReadFile(filepath.Join(iconSet, name))
		require.NoError(t, err)
		got, edge, shapes := inkOf(t, data)
		share := 0.05
		if shapes > 1 {
			share = 0.1
		}
		for i := range want.box {
			off := math.Abs(want.box[i] - got.box[i])
			assert.LessOrEqual(t, off, 1.0, "%s, side %d", name, i)
			worstBox = math.Max(worstBox, off)
		}
		off := math.Abs(want.area-got.area) / (share*edge + 1)
		assert.LessOrEqual(t, off, 1.0, "%s: area %.1f, painted %.1f", name, got.area, want.area)
		worstArea = math.Max(worstArea, off)
	}
	require.Equal(t, iconCount, n)
	t.Logf("%d icons; extents at most %.2f pixels off, areas %.2f of what is allowed", n, worstBox, worstArea)
}

// inkOf reads an icon and returns what it covers, the length of its edges in pixels, and of
// how many shapes it is. Its
// view box of 24 units is taken for 24 mm.
func inkOf(t *testing.T, data []byte) (out ink, edge float64, shapes int) {
	t.Helper()
	d, err := ReadSVG(data, Options{PerInch: 25.4})
	require.NoError(t, err)
	k := iconPixels / d.Page.H()
	byElement := map[int][][]plane.Point{}
	var order []int
	box := plane.EmptyBox()
	for _, it := range d.Items {
		if it.Fill == "" {
			continue
		}
		p := it.Path.Apply(plane.Affine{k, 0, 0, -k, 0, iconPixels})
		if _, ok := byElement[it.Element]; !ok {
			order = append(order, it.Element)
		}
		byElement[it.Element] = append(byElement[it.Element], append(p.Flatten(0.005), p.Start()))
		box, edge = box.Union(p.Box()), edge+p.Length()
	}
	const rows = 8 // to a pixel
	for row := range iconPixels * rows {
		y := (float64(row) + 0.5) / rows
		var spans [][2]float64
		for _, e := range order {
			spans = append(spans, spansAt(byElement[e], y)...)
		}
		out.area += covered(spans) / rows
	}
	out.box = [4]float64{box.Min.X, box.Min.Y, box.Max.X, box.Max.Y}
	for i := range out.box {
		out.box[i] = math.Max(0, math.Min(iconPixels, out.box[i]))
	}
	return out, edge, len(order)
}

// spansAt returns where a row lies inside, by the nonzero rule.
func spansAt(lines [][]plane.Point, y float64) (out [][2]float64) {
	type crossing struct {
		x    float64
		turn int
	}
	var cs []crossing
	for _, pts := range lines {
		for k := 1; k < len(pts); k++ {
			a, b := pts[k-1], pts[k]
			if (a.Y <= y) == (b.Y <= y) {
				continue
			}
			turn := 1
			if b.Y < a.Y {
				turn = -1
			}
			cs = append(cs, crossing{a.X + (b.X-a.X)*(y-a.Y)/(b.Y-a.Y), turn})
		}
	}
	sort.Slice(cs, func(i, j int) bool { return cs[i].x < cs[j].x })
	w := 0
	for i, c := range cs {
		if w != 0 {
			out = append(out, [2]float64{cs[i-1].x, c.x})
		}
		w += c.turn
	}
	return out
}

// covered returns the length of the union of spans, between the sides of the square.
func covered(spans [][2]float64) float64 {
	slices.SortFunc(spans, func(a, b [2]float64) int {
		switch {
		case a[0] < b[0]:
			return -1
		case a[0] > b[0]:
			return 1
		}
		return 0
	})
	sum, to := 0.0, 0.0
	for _, s := range spans {
		lo, hi := math.Max(s[0], to), math.Min(s[1], iconPixels)
		if hi > lo {
			sum += hi - lo
			to = hi
		}
	}
	return sum
}

var opacity = regexp.MustCompile(` (fill-)?opacity="[^"]*"`)

// paintIcons lets the rasteriser paint the icons, twenty to a picture, and writes the table.
// Icons with the even-odd rule or clipping are passed over, which outlines don't keep.
func paintIcons(t *testing.T) {
	t.Helper()
	var names []string
	require.NoError(t, filepath.WalkDir(iconSet, func(path string, e fs.DirEntry, err error) error {
		if err != nil || e.IsDir() || !strings.HasSuffix(path, ".svg") {
			return err
		}
		data, err := os.ReadFile(path)
		if s := string(data); !strings.Contains(s, "evenodd") && !strings.Contains(s, "clip") && strings.Contains(s, `viewBox="0 0 24 24"`) {
			name, _ := filepath.Rel(iconSet, path)
			names = append(names, name)
		}
		return err
	}))
	sort.Strings(names)
	require.GreaterOrEqual(t, len(names), iconCount)
	chosen := make([]string, iconCount)
	for i := range chosen {
		chosen[i] = names[i*len(names)/iconCount]
	}
	const across, down = 5, 4
	var table strings.Builder
	for lo := 0; lo < iconCount; lo += across * down {
		batch := chosen[lo : lo+across*down]
		var sheet strings.Builder
		fmt.Fprintf(&sheet, `<svg xmlns="http://www.w3.org/2000/svg" width="%d" height="%d">`, across*iconPixels, down*iconPixels)
		for i, name := range batch {
			data, err := os.ReadFile(filepath.Join(iconSet, name))
			require.NoError(t, err)
			one := opacity.ReplaceAllString(string(data), "")
			at := strings.Index(one, "<svg") + len("<svg")
			head, rest, _ := strings.Cut(one[at:], ">")
			head = regexp.MustCompile(` (width|height)="[^"]*"`).ReplaceAllString(head, "")
			fmt.Fprintf(&sheet, `<svg x="%d" y="%d" width="%d" height="%d"%s>%s`, i%across*iconPixels, i/across*iconPixels, iconPixels, iconPixels, head, rest)
		}
		sheet.WriteString("</svg>")
		cmd := exec.Command("rsvg-convert", "-f", "png")
		cmd.Stdin = strings.NewReader(sheet.String())
		out, err := cmd.StdoutPipe()
		require.NoError(t, err)
		require.NoError(t, cmd.Start())
		picture, err := png.Decode(out)
		require.NoError(t, err)
		require.NoError(t, cmd.Wait())
		for i, name := range batch {
			k := painted(picture.(*image.NRGBA), i%across*iconPixels, i/across*iconPixels)
			fmt.Fprintf(&table, "%s\t%.1f\t%.2f\t%.2f\t%.2f\t%.2f\n", name, k.area, k.box[0], k.box[1], k.box[2], k.box[3])
		}
	}
	require.NoError(t, os.WriteFile(iconTable, []byte(table.String()), 0o644))
}

// painted measures the icon at a corner of a picture: pixels covered by part count by that part.
func painted(p *image.NRGBA, x0, y0 int) ink {
	out := ink{box: [4]float64{iconPixels, iconPixels, 0, 0}}
	columns, rows := make([]float64, iconPixels), make([]float64, iconPixels)
	for y := range iconPixels {
		for x := range iconPixels {
			a := float64(p.Pix[p.PixOffset(x0+x, y0+y)+3]) / 255
			out.area += a
			columns[x], rows[y] = math.Max(columns[x], a), math.Max(rows[y], a)
		}
	}
	ends := func(part []float64) (lo, hi float64) {
		lo, hi = iconPixels, 0
		for i, a := range part {
			if a > 0.02 {
				lo = math.Min(lo, float64(i)+1-a)
				hi = float64(i) + a
			}
		}
		return lo, hi
	}
	out.box[0], out.box[2] = ends(columns)
	out.box[1], out.box[3] = ends(rows)
	return out
}
