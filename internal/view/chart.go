package view

import (
	"math"

	"springrib/internal/plane"
)

// chart is one panel of a drawing of readings: values over places, in a frame.
type chart struct {
	s         *sketch
	at        plane.Point // lower left corner, mm
	low, high float64     // of the values
	places    int
	write     func(float64) string
}

// The size of a chart, mm.
const (
	chartWidth, chartHeight = 80.0, 50.0
	chartGap                = 38.0
)

// newChart draws frame, scale and title; the scale has its ends and its middle.
func newChart(s *sketch, n int, title string, low, high float64, places int, write func(float64) string) chart {
	if !(high > low) {
		low, high = low-0.5, high+0.5
	}
	pad := 0.08 * (high - low)
	c := chart{s: s, at: plane.Pt(float64(n)*(chartWidth+chartGap), 0), low: low - pad, high: high + pad, places: max(1, places), write: write}
	o := c.at
	s.path("axis", "", plane.Open(o.Add(plane.Pt(0, chartHeight)), o, o.Add(plane.Pt(chartWidth, 0))))
	for _, v := range []float64{low, (low + high) / 2, high} {
		y := c.y(v)
		s.path("axis", "", plane.Open(plane.Pt(o.X-1.2, y), plane.Pt(o.X, y)))
		s.label(plane.Pt(o.X-2, y-1), "end", write(v), 0)
	}
	s.label(plane.Pt(o.X, chartHeight+5), "start", title, 0)
	return c
}

func (c chart) x(place float64) float64 {
	return c.at.X + chartWidth*(place+0.5)/float64(c.places)
}

func (c chart) y(v float64) float64 {
	return c.at.Y + chartHeight*math.Min(1, math.Max(0, (v-c.low)/(c.high-c.low)))
}

// name writes what stands at a place under the frame.
func (c chart) name(place int, text string) {
	c.s.label(plane.Pt(c.x(float64(place)), c.at.Y-5), "middle", text, 0)
}

// band draws a range over places from a to b.
func (c chart) band(role string, a, b, low, high float64) {
	c.s.path(role, "", plane.RectPath(plane.Box{Min: plane.Pt(c.x(a), c.y(low)), Max: plane.Pt(c.x(b), c.y(high))}))
}

// level draws a value over places from a to b.
func (c chart) level(role string, a, b, v float64) {
	c.s.path(role, "", plane.Open(plane.Pt(c.x(a), c.y(v)), plane.Pt(c.x(b), c.y(v))))
}

// whisker draws a range at one place.
func (c chart) whisker(place, low, high float64) {
	x := c.x(place)
	c.s.path("range", "", plane.Open(plane.Pt(x, c.y(low)), plane.Pt(x, c.y(high))),
		plane.Open(plane.Pt(x-1, c.y(low)), plane.Pt(x+1, c.y(low))), plane.Open(plane.Pt(x-1, c.y(high)), plane.Pt(x+1, c.y(high))))
}

// point marks a reading: a ring, or a cross where something broke.
func (c chart) point(place, v float64, broke bool) {
	p, r := plane.Pt(c.x(place), c.y(v)), 1.2
	if broke {
		c.s.path("point", "", plane.Open(p.Add(plane.Pt(-r, -r)), p.Add(plane.Pt(r, r))), plane.Open(p.Add(plane.Pt(-r, r)), p.Add(plane.Pt(r, -r))))
		return
	}
	var ring []plane.Point
	for i := range 12 {
		ring = append(ring, p.Add(plane.Dir(float64(i)*math.Pi/6).Mul(r)))
	}
	c.s.path("point", "", plane.Poly(ring...))
}
