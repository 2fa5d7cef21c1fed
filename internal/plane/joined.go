package plane

// Joined is a curve of several sources one after the other. Whoever treats some kinds of
// source in a way of their own finds them in Parts.
type Joined struct {
	Closed bool
	Parts  []Source
}

// Join returns the parts one after the other as one curve, closed when loop is set.
// Each part must begin where the one before ends (Fit bridges a gap by a line).
func Join(loop bool, parts ...Source) Source { return Joined{loop, parts} }

// Loop reports whether j is closed.
func (j Joined) Loop() bool { return j.Closed }

// Stretches returns those of all parts.
func (j Joined) Stretches() []Stretch {
	var out []Stretch
	for _, p := range j.Parts {
		out = append(out, p.Stretches()...)
	}
	return out
}

// reversedSource is what Reversed returns.
type reversedSource struct{ of Source }

// Reversed returns src run backwards; a source may have a method Backwards that knows how.
func Reversed(src Source) Source {
	switch s := src.(type) {
	case Path:
		return s.Reverse()
	case reversedSource:
		return s.of
	case interface{ Backwards() Source }:
		return s.Backwards()
	}
	return reversedSource{src}
}

func (r reversedSource) Loop() bool { return r.of.Loop() }

func (r reversedSource) Stretches() []Stretch {
	in := r.of.Stretches()
	out := make([]Stretch, 0, len(in))
	for i := len(in) - 1; i >= 0; i-- {
		out = append(out, in[i].reversed())
	}
	return out
}

func (s Stretch) reversed() Stretch {
	out := Stretch{At: func(t float64) (p, d Point) {
		p, d = s.At(1 - t)
		return p, d.Mul(-1)
	}, Bend: func(t float64) Point { return s.Bend(1 - t) }}
	if s.Exact != nil {
		e := s.Exact.Reverse()
		out.Exact = &e
	}
	return out
}
