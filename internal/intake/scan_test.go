package intake

import (
	"math"
	"math/rand"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"springrib/internal/plane"
)

func text(v float64) string { return strconv.FormatFloat(v, 'g', -1, 64) }

// Numbers by the grammar of SVG 1.1, section 8.3.9.
func TestScannerNumbers(t *testing.T) {
	for _, c := range []struct {
		text string
		want []float64
	}{
		{"1 2,3", []float64{1, 2, 3}},
		{"-1.5.5", []float64{-1.5, .5}},
		{"+.5-.25", []float64{.5, -.25}},
		{"1e2-3E-1", []float64{100, -.3}},
		{"1em", []float64{1}},
		{"1.", []float64{1}},
		{".", nil},
		{"-", nil},
		{"e5", nil},
		{"0x10", []float64{0}},
		{"1e", []float64{1}},
		{" , \t\n7", []float64{7}},
	} {
		s := scanner{text: c.text}
		var got []float64
		for {
			v, ok := s.number()
			if !ok {
				break
			}
			got = append(got, v)
		}
		require.Equal(t, c.want, got, c.text)
		require.False(t, s.huge, c.text)
	}
	for _, bad := range []string{"inf", "-Infinity", "NaN", "1e999", "-1e400"} {
		s := scanner{text: bad}
		_, ok := s.number()
		require.False(t, ok, bad)
		require.True(t, s.huge, bad)
	}
}

// Random elliptical arcs, sampled by the formulas of SVG 1.1, appendix F.6.5, written
// out the long way, lie on what is drawn.
func TestArcAgainstFormulas(t *testing.T) {
	rnd := rand.New(rand.NewSource(7))
	for range 200 {
		num := func() float64 { return float64(rnd.Intn(2001)-1000) / 10 }
		x1, y1, x2, y2 := num(), num(), num(), num()
		rx, ry, turn := 1+float64(rnd.Intn(80)), 1+float64(rnd.Intn(80)), num()
		large, sweep := rnd.Intn(2) == 1, rnd.Intn(2) == 1
		p := pen{m: plane.Identity(), room: 1000}
		p.moveTo(plane.Pt(x1, y1))
		p.svgArc(rx, ry, turn*math.Pi/180, large, sweep, plane.Pt(x2, y2))
		p.lift()
		require.Len(t, p.paths, 1)
		flat := p.paths[0].Flatten(accuracy)
		var last plane.Point
		length := 0.0
		const n = 100
		for i, q := range sampleArc(x1, y1, rx, ry, turn, large, sweep, x2, y2, n) {
			near := math.Inf(1)
			for k := 1; k < len(flat); k++ {
				near = math.Min(near, plane.LineDistance(q, flat[k-1], flat[k]))
			}
			require.LessOrEqual(t, near, 3*accuracy)
			if i > 0 {
				length += q.Dist(last)
			}
			last = q
		}
		require.InEpsilon(t, length, p.paths[0].Length(), 1e-3)
	}
}

func sampleArc(x1, y1, rx, ry, turn float64, large, sweep bool, x2, y2 float64, n int) []plane.Point {
	sin, cos := math.Sincos(turn * math.Pi / 180)
	dx, dy := (x1-x2)/2, (y1-y2)/2
	xp, yp := cos*dx+sin*dy, cos*dy-sin*dx
	if l := math.Sqrt(xp*xp/(rx*rx) + yp*yp/(ry*ry)); l > 1 {
		rx, ry = rx*l, ry*l
	}
	k := math.Sqrt(math.Max(0, (rx*rx*ry*ry-rx*rx*yp*yp-ry*ry*xp*xp)/(rx*rx*yp*yp+ry*ry*xp*xp)))
	if large == sweep {
		k = -k
	}
	cxp, cyp := k*rx*yp/ry, -k*ry*xp/rx
	cx, cy := cos*cxp-sin*cyp+(x1+x2)/2, sin*cxp+cos*cyp+(y1+y2)/2
	t1 := math.Atan2((yp-cyp)/ry, (xp-cxp)/rx)
	dt := math.Atan2((-yp-cyp)/ry, (-xp-cxp)/rx) - t1
	if sweep && dt < 0 {
		dt += 2 * math.Pi
	} else if !sweep && dt > 0 {
		dt -= 2 * math.Pi
	}
	var out []plane.Point
	for i := range n + 1 {
		s, c := math.Sincos(t1 + dt*float64(i)/float64(n))
		out = append(out, plane.Pt(cx+rx*c*cos-ry*s*sin, cy+rx*c*sin+ry*s*cos))
	}
	return out
}
