package section

import "math"

// Foot returns the length of the straight before the first bend.
func (c *Section) Foot() float64 {
	for _, st := range c.Edge.Stretches() {
		if st.Sign != 0 {
			return st.Start
		}
	}
	return c.Edge.Length()
}

// LastBend returns the arc length where the last bend ends, 0 when there is none.
func (c *Section) LastBend() float64 {
	end := 0.0
	for _, st := range c.Edge.Stretches() {
		if st.Sign != 0 {
			end = st.End
		}
	}
	return end
}

// Tip returns the length of the straight after the last bend.
func (c *Section) Tip() float64 {
	return c.Edge.Length() - c.LastBend()
}

// Bent returns the length of the edge that is curved.
func (c *Section) Bent() float64 {
	l := 0.0
	for _, st := range c.Edge.Stretches() {
		if st.Sign != 0 {
			l += st.End - st.Start
		}
	}
	return l
}

// CurvatureBefore returns the curvature of the edge at arc length s or, on a straight,
// at the end of the last bend before it.
func (c *Section) CurvatureBefore(s float64) float64 {
	k := 0.0
	for _, st := range c.Edge.Stretches() {
		if st.Start >= s-1e-9 {
			break
		}
		if st.Sign != 0 {
			k = math.Abs(st.Shape.Kappa(math.Min(s, st.End) - st.Start))
		}
	}
	return k
}

// CurvatureAfter returns the same of the first bend from s on.
func (c *Section) CurvatureAfter(s float64) float64 {
	for _, st := range c.Edge.Stretches() {
		if st.End > s+1e-9 && st.Sign != 0 {
			return math.Abs(st.Shape.Kappa(math.Max(s, st.Start) - st.Start))
		}
	}
	return 0
}
