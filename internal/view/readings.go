package view

import (
	"math"
	"strconv"
	"strings"

	"springrib/internal/coupon"
	"springrib/internal/solve"
	"springrib/internal/unit"
)

// readings draws what strips said: points as read, what they come to, and the range that
// nine in ten lie in. ok is false without anything to draw.
func (w *worked) readings() (s *sketch, ok bool) {
	l := w.plan.Readings.Learned
	if l == nil {
		return nil, false
	}
	s = newSketch("readings", "What the strips said")
	n := 0
	for _, draw := range []func(*sketch, int) bool{w.skinChart, w.bedChart, w.tongueChart, w.bendChart} {
		if draw(s, n) {
			n++
		}
	}
	return s, n > 0
}

func (w *worked) lengths() func(float64) string {
	return func(v float64) string { return unit.LengthFine(v, w.plan.V.Units) }
}

// skinChart has the skin after each number of passes, as typed and as learned.
func (w *worked) skinChart(s *sketch, n int) bool {
	l, was := w.plan.Readings.Learned, w.plan.Readings.Believed
	low, high, any := math.Inf(1), math.Inf(-1), false
	take := func(m coupon.Measured) {
		low, high = math.Min(low, m.Value-1.645*m.Sigma), math.Max(high, m.Value+1.645*m.Sigma)
	}
	for i, h := range l.Skins {
		if h.N == 0 {
			continue
		}
		any = true
		take(h)
		if i < len(was.Skins) {
			take(was.Skins[i])
		}
	}
	if !any {
		return false
	}
	c := newChart(s, n, "Skin left after passes", math.Max(0, low), high, len(l.Skins), w.lengths())
	for i, h := range l.Skins {
		c.name(i, strconv.Itoa(i+1))
		x := float64(i)
		if i < len(was.Skins) {
			b := was.Skins[i]
			c.band("guess", x-0.35, x+0.35, b.Value-1.645*b.Sigma, b.Value+1.645*b.Sigma)
		}
		if h.N == 0 {
			continue
		}
		c.whisker(x, h.Value-1.645*h.Sigma, h.Value+1.645*h.Sigma)
		c.level("fit", x-0.3, x+0.3, h.Value)
	}
	for _, r := range w.plan.V.Strips.Readings {
		if r.Kind == string(coupon.KindSkin) && !r.Bad && r.Passes >= 1 && r.Passes <= len(l.Skins) {
			c.point(float64(r.Passes-1)+0.12, r.Value, false)
		}
	}
	return true
}

// bedChart has how much more skin each spot of the bed leaves than all together, and the
// range that the plan counts with.
func (w *worked) bedChart(s *sketch, n int) bool {
	l := w.plan.Readings.Learned
	if len(l.Spots) == 0 {
		return false
	}
	half := 0.0
	if l.OverBed.N > 0 {
		half = w.plan.V.Machine.DepthSpread
	}
	most := half
	for _, p := range l.Spots {
		most = math.Max(most, math.Abs(p.More)+1.645*p.Sigma)
	}
	c := newChart(s, n, "More skin at each spot of the bed", -most, most, len(l.Spots), w.lengths())
	end := float64(len(l.Spots)) - 0.5
	if half > 0 {
		c.band("range", -0.5, end, -half, half)
	}
	c.level("fit", -0.5, end, 0)
	for i, p := range l.Spots {
		name := p.Spot // the figure of the label, as the drawing of the sheet has it
		if name == "" {
			name = "no spot"
		}
		c.name(i, name)
		c.whisker(float64(i), p.More-1.645*p.Sigma, p.More+1.645*p.Sigma)
		c.point(float64(i), p.More, false)
	}
	return true
}

// tongueChart has every tongue's stiffness over what the fit makes of it.
func (w *worked) tongueChart(s *sketch, n int) bool {
	ts := w.plan.Readings.Learned.Tongues
	if len(ts) == 0 {
		return false
	}
	most := 0.05
	for _, t := range ts {
		most = math.Max(most, math.Abs(t.EI/t.Fitted-1)+1.645*t.SigmaLn)
	}
	c := newChart(s, n, "Tongues over the fit", 1-most, 1+most, len(ts), unit.Ratio)
	c.level("fit", -0.5, float64(len(ts))-0.5, 1)
	for i, t := range ts {
		name := "plain"
		if t.Passes > 0 {
			name = strconv.Itoa(t.Passes) + " / " + strings.TrimSuffix(unit.LengthFine(t.Spacing, w.plan.V.Units), " "+w.plan.V.Units.String())
		}
		c.name(i, name)
		v := t.EI / t.Fitted
		c.whisker(float64(i), v*(1-1.645*t.SigmaLn), v*(1+1.645*t.SigmaLn))
		c.point(float64(i), v, false)
	}
	return true
}

// bendChart has the strain of every strip bent round a gauge, and the limit.
func (w *worked) bendChart(s *sketch, n int) bool {
	l, was := w.plan.Readings.Learned, w.plan.Readings.Believed
	if len(l.Bends) == 0 {
		return false
	}
	spread := func(m coupon.Measured) (float64, float64) {
		k := solve.Exp(1.645 * m.Sigma)
		return m.Value / k, m.Value * k
	}
	low, high := spread(l.Rupture)
	b0, b1 := spread(was.Rupture)
	low, high = math.Min(low, b0), math.Max(high, b1)
	for _, b := range l.Bends {
		low, high = math.Min(low, b.Strain), math.Max(high, b.Strain)
	}
	end := float64(len(l.Bends)) - 0.5
	c := newChart(s, n, "Rings held, crosses broke", low, high, len(l.Bends), unit.Percent)
	c.band("guess", -0.5, end, b0, b1)
	a, z := spread(l.Rupture)
	c.band("range", -0.5, end, a, z)
	c.level("fit", -0.5, end, l.Rupture.Value)
	for i, b := range l.Bends {
		c.name(i, "R "+strings.TrimSuffix(unit.Length(b.Radius, w.plan.V.Units), " "+w.plan.V.Units.String()))
		c.point(float64(i), b.Strain, b.Broke)
	}
	return true
}
