package intake

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"springrib/internal/finding"
	"springrib/internal/plane"
)

// sheet100 puts body on a sheet of 100 x 100 mm with coordinates in mm, Y down from
// its top as SVG has it.
func sheet100(body string) string {
	return `<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" width="100mm" height="100mm" viewBox="0 0 100 100">` + body + `</svg>`
}

func mustSVG(t *testing.T, text string) Drawing {
	t.Helper()
	d, err := ReadSVG([]byte(text), Options{})
	require.NoError(t, err)
	return d
}

// outlines reads shapes written as plane texts, one a line.
func outlines(t *testing.T, text string) []plane.Path {
	t.Helper()
	var out []plane.Path
	for line := range strings.SplitSeq(text, "\n") {
		if line = strings.TrimSpace(line); line != "" {
			p, err := plane.Parse(line)
			require.NoError(t, err, line)
			out = append(out, p)
		}
	}
	return out
}

// drawn makes items of shapes written as plane texts, one a line.
func drawn(t *testing.T, text string) []Item {
	t.Helper()
	var out []Item
	for i, p := range outlines(t, text) {
		out = append(out, Item{Layer: "0", Stroke: "#000000", Source: "path", Element: i + 1, Path: p})
	}
	return out
}

// requirePaths compares paths piece by piece.
func requirePaths(t *testing.T, want string, got []Item, within float64) {
	t.Helper()
	paths := outlines(t, want)
	texts := ""
	for _, it := range got {
		texts += it.Path.String() + "\n"
	}
	require.Len(t, got, len(paths), texts)
	for i, w := range paths {
		g := got[i].Path
		about := fmt.Sprintf("item %d\nwant %s\ngot  %s", i, w.String(), g.String())
		require.Equal(t, w.Closed, g.Closed, about)
		require.Len(t, g.Segs, len(w.Segs), about)
		for k, s := range w.Segs {
			require.Equal(t, s.Kind, g.Segs[k].Kind, about)
			for _, f := range []float64{0, 0.25, 0.5, 1} {
				require.InDelta(t, 0, s.Point(f).Dist(g.Segs[k].Point(f)), within, about)
			}
		}
	}
}

// requireSound checks what every reader promises of its paths: finite, chained
// without gaps, closed ones closed.
func requireSound(t testing.TB, items []Item) {
	t.Helper()
	for _, it := range items {
		p := it.Path
		require.NotEmpty(t, p.Segs)
		for i, s := range p.Segs {
			require.True(t, finite(s.A, s.B, s.C, s.D))
			if i > 0 {
				require.Equal(t, p.Segs[i-1].B, s.A)
			}
		}
		if p.Closed {
			require.Equal(t, p.Start(), p.End())
		}
		for _, name := range []string{it.Layer, it.Name, it.Source} {
			require.LessOrEqual(t, len([]rune(name)), maxName)
			require.NotContains(t, name, "<")
		}
	}
}

func ids(fs []finding.Finding) []string {
	var out []string
	for _, f := range fs {
		out = append(out, f.ID)
	}
	return out
}

// noted returns the count of a finding, 0 without it.
func noted(fs []finding.Finding, id string) float64 {
	for _, f := range fs {
		if f.ID == id {
			return f.Numbers["count"]
		}
	}
	return 0
}

func requireRefused(t *testing.T, err error, id string) {
	t.Helper()
	var fe *FileError
	require.ErrorAs(t, err, &fe)
	require.Equal(t, id, fe.ID, fe.Text)
	require.NotEmpty(t, fe.Text)
	require.LessOrEqual(t, len(fe.Text), 250)
}

// moved returns the items under m. Closed paths keep their sense of travel, also when m
// mirrors.
func moved(items []Item, m plane.Affine) []Item {
	out := make([]Item, len(items))
	for i, it := range items {
		it.Path = it.Path.Apply(m)
		if m.Det() < 0 && it.Path.Closed {
			it.Path = it.Path.Reverse()
		}
		it.box, it.length = plane.Box{}, 0
		out[i] = it
	}
	return out
}

// compact is Compact of a path on its own.
func compact(p plane.Path, tolerance float64) (plane.Path, bool) {
	return (&Compactor{}).Compact(p, tolerance)
}
