package cut

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/plane"
)

// restTime is moveTime from rest to rest: v/a + l/v when it reaches v, which needs
// l >= v²/a, and 2 sqrt(l/a) when it does not.
func restTime(l, v, a float64) float64 { return moveTime(l, v, 0, 0, a) }

// travel is the length of all moves between strokes of one pass of each operation.
func travel(ops []Operation, start plane.Point) float64 {
	l, at := 0.0, start
	for _, op := range ops {
		for _, s := range op.Strokes {
			l += at.Dist(s.Path.Start())
			at = s.Path.End()
		}
	}
	return l
}

// The trapezoid and the triangle of uniformly accelerated motion, by hand.
func TestMoveTime(t *testing.T) {
	assert.InDelta(t, 0.08+2, restTime(240, 120, 1500), 1e-12)              // v/a + l/v
	assert.InDelta(t, 2*math.Sqrt(6.0/1500), restTime(6, 120, 1500), 1e-12) // never reaches 120
	assert.InDelta(t, 2*0.08, restTime(9.6, 120, 1500), 1e-12)              // just reaches it
	assert.InDelta(t, 2.0, restTime(240, 120, 0), 1e-12)                    // at once
	assert.Zero(t, restTime(0, 120, 1500))
	assert.InDelta(t, restTime(100, 80, 900), moveTime(50, 80, 0, 80, 900)+moveTime(50, 80, 80, 0, 900), 1e-12)
}

func TestOverrunOfTheWorkedExample(t *testing.T) {
	assert.InDelta(t, 4.8, Overrun(120, 1500), 1e-12)
	assert.InDelta(t, 9.6, FullSpeedLength(120, 1500), 1e-12)
	assert.Zero(t, Overrun(0, 1500))
	assert.Zero(t, Overrun(120, 0))
	// A head that starts an overrun before the edge has its speed at the edge.
	assert.InDelta(t, 120, math.Sqrt(2*1500*Overrun(120, 1500)), 1e-9)
}

// simulated walks a path in steps of 2 µm, first capping the speed of each step by
// what is ahead, then by what was reached, with nothing of runTime's segments.
func simulated(p plane.Path, speed, a float64) float64 {
	const ds = 0.002
	var limit []float64
	for i, s := range p.Segs {
		n := int(math.Ceil(s.Length() / ds))
		for k := range n {
			v := speed
			if c := math.Abs(s.Curvature((float64(k) + 0.5) / float64(n))); c > 0 {
				v = math.Min(v, math.Sqrt(a/c))
			}
			if k == 0 && (i == 0 || isCorner(p.Segs[i-1], s)) {
				v = 0
			}
			limit = append(limit, v)
		}
	}
	limit = append(limit, 0)
	for i := len(limit) - 2; i >= 0; i-- {
		limit[i] = math.Min(limit[i], math.Sqrt(limit[i+1]*limit[i+1]+2*a*ds))
	}
	t := 0.0
	for i := 1; i < len(limit); i++ {
		limit[i] = math.Min(limit[i], math.Sqrt(limit[i-1]*limit[i-1]+2*a*ds))
		t += 2 * ds / (limit[i] + limit[i-1])
	}
	return t
}

func TestRunTimeAgainstASimulation(t *testing.T) {
	for _, text := range []string{
		"M 0 0 L 100 0",
		"M 0 0 L 3 0",
		"M 0 0 L 50 0 L 50 30",
		"M 0 0 L 40 0 L 80 1",
		"M 0 0 L 40 0 A 5 0 1 45 5 L 45 60",
		"M 0 0 A 0.8 0 1 1.6 0 A 0.8 0 1 0 0",
		"M 0 0 A 60 0 1 120 0 A 60 0 1 0 0",
	} {
		p := plane.MustParse(text)
		got, _ := runTime(p, 120, 1500)
		assert.InEpsilon(t, simulated(p, 120, 1500), got, 0.004, text)
	}
}

func TestRunTimeDoesNotDependOnHowALineIsCut(t *testing.T) {
	r := rand.New(rand.NewPCG(9, 9))
	for range 50 {
		l, v, a := 1+200*r.Float64(), 10+200*r.Float64(), 100+3000*r.Float64()
		var pts []plane.Point
		for x := 0.0; x < l; x += 0.5 + 20*r.Float64() {
			pts = append(pts, plane.Pt(x, 0))
		}
		got, stops := runTime(plane.Open(append(pts, plane.Pt(l, 0))...), v, a)
		assert.Zero(t, stops)
		assert.InEpsilon(t, restTime(l, v, a), got, 1e-9)
	}
}

func TestRunTimeStopsAtCorners(t *testing.T) {
	p := plane.RectPath(plane.BoxOf(plane.Pt(0, 0), plane.Pt(40, 25)))
	got, stops := runTime(p, 30, 800)
	assert.Equal(t, 3, stops)
	assert.InDelta(t, 2*restTime(40, 30, 800)+2*restTime(25, 30, 800), got, 1e-9)
}

func TestTimesAddUp(t *testing.T) {
	s := Settings{}
	for k := range s.Kinds {
		s.Kinds[k] = Setting{Passes: 1 + k%2, Speed: 100 - 20*float64(k)}
	}
	m := Machine{TravelSpeed: 300, Acceleration: 1500}
	parts := sheetOf(6, 12)
	ops := Order(parts, s)
	est := Times(ops, m, plane.Point{})
	require.Len(t, est.Operations, 4)
	require.Len(t, est.Parts, 6)
	var byOp, byPart Timing
	for _, o := range est.Operations {
		byOp.add(o)
	}
	for _, p := range est.Parts {
		byPart.add(p.Timing)
	}
	assert.InDelta(t, est.All.Total(), byOp.Total(), 1e-9)
	assert.InDelta(t, est.All.Total(), byPart.Total(), 1e-9)
	assert.InDelta(t, est.All.StrokeLength, byPart.StrokeLength, 1e-6)
	assert.True(t, est.All.Known)
	// The scores are straight: their time is known in closed form.
	n := float64(len(ops[0].Strokes))
	assert.InDelta(t, n*restTime(58, 100, 1500), est.Operations[0].Strokes, 1e-9)
	// Written out pass by pass it is the same work.
	again := Times(Repeated(ops), m, plane.Point{})
	assert.InDelta(t, est.All.Total(), again.All.Total(), 1e-9)
	assert.Equal(t, est.Operations[1].StrokeCount, 12)
}

func TestTimesOfUnknownSpeeds(t *testing.T) {
	ops := Order(sheetOf(1, 5), Settings{})
	est := Times(ops, Machine{TravelSpeed: 200}, plane.Point{})
	assert.False(t, est.All.Known)
	assert.Zero(t, est.All.Strokes)
	assert.Positive(t, est.All.Travel)
	assert.InDelta(t, travel(ops, plane.Point{})/200, est.All.Travel, 1e-9)
}

func TestHotLines(t *testing.T) {
	op := Operation{Kind: Score, Speed: 120, Strokes: []Stroke{
		{"panel", openLine(plane.Pt(0, 0), plane.Pt(0, 9.5))},
		{"panel", openLine(plane.Pt(0, 0), plane.Pt(0, 9.6))},
		{"tip", openLine(plane.Pt(0, 0), plane.Pt(0, 5))},
		{"panel", openLine(plane.Pt(0, 0), plane.Pt(0, 2.4))},
	}}
	hot := HotLines([]Operation{op}, 1500)
	require.Len(t, hot, 3)
	assert.Equal(t, 0, hot[0].Stroke)
	assert.InDelta(t, 60, hot[2].Reached, 1e-9) // sqrt(2.4 * 1500)
	assert.Empty(t, HotLines([]Operation{op}, 0))
	op.Kind = Outer
	assert.Empty(t, HotLines([]Operation{op}, 1500))
}
