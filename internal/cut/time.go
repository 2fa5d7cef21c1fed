package cut

import (
	"math"

	"springrib/internal/plane"
)

// Machine is how fast a head moves. Zero means unknown or without limit.
type Machine struct {
	TravelSpeed  float64 // between strokes, mm/s; 0 takes the operation's own speed
	Acceleration float64 // along the path and across it, mm/s²; 0 is at once
}

// Timing is how long something takes and how far the head goes for it.
type Timing struct {
	Strokes, Travel            float64 // s
	StrokeLength, TravelLength float64 // mm, all passes
	StrokeCount                int     // strokes run, all passes
	Stops                      int     // at corners inside strokes
	Known                      bool    // every speed that Strokes needs was given
}

// Total returns the whole time in seconds.
func (t Timing) Total() float64 { return t.Strokes + t.Travel }

func (t *Timing) add(u Timing) {
	t.Strokes += u.Strokes
	t.Travel += u.Travel
	t.StrokeLength += u.StrokeLength
	t.TravelLength += u.TravelLength
	t.StrokeCount += u.StrokeCount
	t.Stops += u.Stops
	t.Known = t.Known && u.Known
}

// PartTiming is the timing of one part.
type PartTiming struct {
	Part string
	Timing
}

// Estimate is the time of a sheet, by operation and by part.
type Estimate struct {
	Operations []Timing     // as the operations
	Parts      []PartTiming // in the order the machine first comes to them
	All        Timing
}

// Times estimates how long ops take on m, the head starting at start: every stroke
// from rest to rest with the acceleration of m, stopping at corners and slowing in
// tight bends, and travel in straight lines in between. The travel to a stroke
// counts to its part. Operations of n passes are run whole, n times.
//
// Machines differ in how they blend corners and what they do at the end of a line,
// so take the result as within some tens of percent (common practice, no source).
func Times(ops []Operation, m Machine, start plane.Point) Estimate {
	est := Estimate{Operations: make([]Timing, len(ops)), All: Timing{Known: true}}
	index := map[string]int{}
	at := start
	for i, op := range ops {
		est.Operations[i].Known = true
		strokes := strokeTimings(op, m)
		for range max(1, op.Passes) {
			for k, s := range op.Strokes {
				t := strokes[k]
				t.TravelLength = at.Dist(s.Path.Start())
				t.Travel = m.travelTime(t.TravelLength, op.Speed)
				at = s.Path.End()
				est.Operations[i].add(t)
				est.All.add(t)
				n, ok := index[s.Part]
				if !ok {
					n = len(est.Parts)
					index[s.Part] = n
					est.Parts = append(est.Parts, PartTiming{s.Part, Timing{Known: true}})
				}
				est.Parts[n].add(t)
			}
		}
	}
	return est
}

func strokeTimings(op Operation, m Machine) []Timing {
	out := make([]Timing, len(op.Strokes))
	for i, s := range op.Strokes {
		t := Timing{StrokeLength: s.Path.Length(), Known: op.Speed > 0, StrokeCount: 1}
		if op.Speed > 0 {
			t.Strokes, t.Stops = runTime(s.Path, op.Speed, m.Acceleration)
		}
		out[i] = t
	}
	return out
}

func (m Machine) travelTime(l, speed float64) float64 {
	if m.TravelSpeed > 0 {
		speed = m.TravelSpeed
	}
	if speed <= 0 {
		return 0
	}
	return moveTime(l, speed, 0, 0, m.Acceleration)
}

// moveTime returns the seconds a straight move of l mm takes at speed v mm/s with
// acceleration a mm/s², from speed v0 to v1, neither above v. a = 0 is at once.
func moveTime(l, v, v0, v1, a float64) float64 {
	if a <= 0 {
		return l / v
	}
	peak := math.Min(v, math.Sqrt((2*a*l+v0*v0+v1*v1)/2))
	if peak == 0 {
		return 0
	}
	ramps := (2*peak*peak - v0*v0 - v1*v1) / (2 * a)
	return (2*peak-v0-v1)/a + math.Max(0, l-ramps)/peak
}

// cornerTurn is the change of direction, radians, at which a head is taken to stop:
// about 10 degrees (common practice, no source).
const cornerTurn = 0.175

// runTime returns the seconds one run of p takes from rest to rest, and how often
// it stops on the way. The speed of a bend of radius r is at most sqrt(a r), which
// keeps the acceleration across the path within a.
func runTime(p plane.Path, speed, a float64) (seconds float64, stops int) {
	if a <= 0 {
		return p.Length() / speed, 0
	}
	n := len(p.Segs)
	lengths, limits := make([]float64, n), make([]float64, n)
	nodes := make([]float64, n+1) // speed at the start of each segment, and at the end
	for i, s := range p.Segs {
		lengths[i] = s.Length()
		limits[i] = math.Min(speed, math.Sqrt(a/math.Max(tightest(s), 1e-12)))
		if i == 0 {
			continue
		}
		if isCorner(p.Segs[i-1], s) {
			stops++
		} else {
			nodes[i] = math.Min(limits[i-1], limits[i])
		}
	}
	for i := range n { // what can be reached, speeding up
		nodes[i+1] = math.Min(nodes[i+1], math.Sqrt(nodes[i]*nodes[i]+2*a*lengths[i]))
	}
	for i := n - 1; i >= 0; i-- { // and what can be stopped from
		nodes[i] = math.Min(nodes[i], math.Sqrt(nodes[i+1]*nodes[i+1]+2*a*lengths[i]))
	}
	for i, l := range lengths {
		seconds += moveTime(l, limits[i], nodes[i], nodes[i+1], a)
	}
	return seconds, stops
}

func isCorner(s, t plane.Segment) bool {
	u, v := s.Tangent(1), t.Tangent(0)
	return math.Abs(math.Atan2(u.Cross(v), u.Dot(v))) > cornerTurn
}

// tightest returns the largest curvature of s, 1/mm; of a cubic at nine places.
func tightest(s plane.Segment) float64 {
	switch s.Kind {
	case plane.Line:
		return 0
	case plane.Arc:
		return math.Abs(s.Curvature(0))
	}
	k := 0.0
	for i := range 9 {
		if c := math.Abs(s.Curvature(float64(i) / 8)); c > k {
			k = c
		}
	}
	return k
}
