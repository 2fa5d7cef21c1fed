//go:build !js

package intake

import (
	"math/rand"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/tdewolff/canvas"

	"springrib/internal/plane"
)

// Random path data gives the same curve as the path reader of a general-purpose
// drawing library (tdewolff/canvas, ParseSVGPath): each subpath, point by point.
func TestPathDataAgainstCanvas(t *testing.T) {
	rnd := rand.New(rand.NewSource(5))
	for range 2000 {
		data := randomPathData(rnd)
		ref, err := canvas.ParseSVGPath(data)
		require.NoError(t, err, data)
		p := pen{m: plane.Identity(), room: 1000}
		ok, huge := drawPathData(data, &p)
		require.True(t, ok && !huge && !p.bad, data)
		var want []*canvas.Path
		for _, s := range ref.Split() {
			if s.Length() > 1e-9 {
				want = append(want, s)
			}
		}
		require.Len(t, p.paths, len(want), data)
		for i, w := range want {
			requireSameCurve(t, w, p.paths[i], data)
		}
	}
}

// requireSameCurve compares ends and boxes. Lengths would prove more, but the
// library's are off by several percent where a cubic turns sharply; the icon corpus
// compares those with another library.
func requireSameCurve(t *testing.T, want *canvas.Path, got plane.Path, data string) {
	t.Helper()
	s, e := want.StartPos(), want.Pos()
	require.InDelta(t, 0, plane.Pt(s.X, s.Y).Dist(got.Start()), 1e-6, data)
	require.InDelta(t, 0, plane.Pt(e.X, e.Y).Dist(got.End()), 1e-6, data)
	require.Equal(t, want.Closed(), got.Closed, data)
	b, g := want.Bounds(), got.Box()
	size := g.W() + g.H()
	require.InDelta(t, 0, plane.Pt(b.X0, b.Y0).Dist(g.Min), 2e-3*size, data)
	require.InDelta(t, 0, plane.Pt(b.X1, b.Y1).Dist(g.Max), 2e-3*size, data)
}

func randomPathData(rnd *rand.Rand) string {
	var b strings.Builder
	num := func() string { return text(float64(rnd.Intn(4001)-2000) / 40) }
	write := func(cmd byte, n int) {
		if rnd.Intn(2) == 0 {
			cmd |= 0x20
		}
		b.WriteByte(cmd)
		for i := range n {
			if i > 0 {
				b.WriteByte(" ,"[rnd.Intn(2)])
			}
			b.WriteString(num())
		}
	}
	write('M', 2)
	var last byte
	for range 1 + rnd.Intn(8) {
		cmd := "MLHVCSQTAZ"[rnd.Intn(10)]
		if cmd == last && (cmd == 'H' || cmd == 'V') {
			continue // the library loses a line that runs back over the last one
		}
		last = cmd
		switch cmd {
		case 'A':
			b.WriteByte(cmd | byte(rnd.Intn(2)<<5))
			// Circles only: the library's boxes of turned ellipses are wrong;
			// TestArcAgainstFormulas covers those.
			r := text(1 + float64(rnd.Intn(50)))
			b.WriteString(r + " " + r + " " + num() + " " +
				strconv.Itoa(rnd.Intn(2)) + strconv.Itoa(rnd.Intn(2)) + num() + " " + num())
		case 'Z':
			write(cmd, 0)
			write('M', 2)
		default:
			write(cmd, count(cmd))
		}
	}
	return b.String()
}
