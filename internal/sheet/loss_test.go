package sheet

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/plane"
)

// zoned tells whether d lies in a zone of the nofit of two kinds.
func zoned(p *packer, a, b int, d plane.Point) float64 {
	f, sign := p.between(a, b)
	return f.depth(d.Mul(sign))
}

// A table says free exactly where the zones do, whichever kind lies, at any quarter turn.
func TestLossIsFreeWhereTheZonesAre(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 7))
	inside, outside := 0, 0
	for range 12 {
		job := randomJob(r)
		job.Pieces[0].Turns = []float64{0, math.Pi / 2, math.Pi, -math.Pi / 2, 0.3, 0.3 + math.Pi/2}
		pinned, free, _ := job.sortOut()
		p := newPacker(&job, pinned, free, 0)
		p.budget.limit = math.MaxInt64
		for range 200 {
			a, b := r.IntN(len(p.kinds)), r.IntN(len(p.kinds))
			f, sign := p.between(a, b)
			look := p.loss(a, b)
			for range 50 {
				d := plane.Pt(between(r, f.box.x0-1, f.box.x1+1), between(r, f.box.y0-1, f.box.y1+1)).Mul(sign)
				deep := zoned(p, a, b, d)
				if deep > 0 && deep < 1e-8 {
					continue // rounding decides
				}
				require.Equal(t, deep > 0, look.look(d.X, d.Y) > 0, "kinds %d and %d at %v: %g deep", a, b, d, deep)
				if deep > 0 {
					inside++
				} else {
					outside++
				}
			}
		}
	}
	assert.Greater(t, inside, 20_000)
	assert.Greater(t, outside, 20_000)
}

// Within the nofit the loss changes no faster than the way out does: one for each mm, times
// the square root of two for running evenly between nodes, and the scale.
func TestLossIsEven(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 8))
	steps := 0
	for range 10 {
		job := randomJob(r)
		pinned, free, _ := job.sortOut()
		p := newPacker(&job, pinned, free, 0)
		p.budget.limit = math.MaxInt64
		for range 100 {
			a, b := r.IntN(len(p.kinds)), r.IntN(len(p.kinds))
			f, sign := p.between(a, b)
			look := p.loss(a, b)
			for range 50 {
				d := plane.Pt(between(r, f.box.x0, f.box.x1), between(r, f.box.y0, f.box.y1)).Mul(sign)
				e := d.Add(plane.Dir(between(r, 0, 2*math.Pi)).Mul(between(r, 0, 0.5)))
				if u, v := look.look(d.X, d.Y), look.look(e.X, e.Y); u > 0 && v > 0 {
					steps++
					require.LessOrEqual(t, math.Abs(u-v), 1.4143*look.scale*d.Dist(e)+1e-4*look.scale)
				}
			}
		}
	}
	assert.Greater(t, steps, 10_000)
}

// wayOut against the nearest node that is out, sought one by one.
func TestWayOut(t *testing.T) {
	r := rand.New(rand.NewPCG(7, 9))
	for range 20 {
		const n = 17
		in := make([]bool, n*n)
		for j := 1; j < n-1; j++ {
			for i := 1; i < n-1; i++ {
				in[j*n+i] = r.IntN(20) > 0
			}
		}
		dx, dy := between(r, 0.5, 2), between(r, 0.5, 2)
		got := wayOut(in, n, dx, dy)
		for k := range got {
			best := math.Inf(1)
			for q := range in {
				if !in[q] {
					best = min(best, math.Hypot(float64(k%n-q%n)*dx, float64(k/n-q/n)*dy))
				}
			}
			require.InDelta(t, best, got[k], 1e-5)
		}
	}
}

// BenchmarkLoss makes the tables of mixed parts.
func BenchmarkLoss(b *testing.B) {
	job := mixed([]float64{0, math.Pi})
	pinned, free, _ := job.sortOut()
	p := newPacker(&job, pinned, free, 0)
	n, bytes := 0, 0
	for b.Loop() {
		t := p.newPairLoss(n%40, 40+n%40)
		bytes += 4*len(t.cells) + 4*len(t.cuts) + 24*len(t.sides) + 4*len(t.way)
		n++
	}
	b.ReportMetric(float64(bytes)/float64(n), "bytes")
}
