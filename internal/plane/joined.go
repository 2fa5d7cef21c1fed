package plane

// joinedSource is what Join returns.
type joinedSource struct {
	loop  bool
	parts []Source
}

// Join returns the parts one after the other as one curve, closed when loop is set.
// Each part must begin where the one before ends (Fit bridges a gap by a line).
func Join(loop bool, parts ...Source) Source { return joinedSource{loop, parts} }

func (j joinedSource) Loop() bool { return j.loop }

func (j joinedSource) Stretches() []Stretch {
	var out []Stretch
	for _, p := range j.parts {
		out = append(out, p.Stretches()...)
	}
	return out
}

// samples keeps what is special about each part, such as points.
func (j joinedSource) samples(tol float64, n int) []sampled {
	var out []sampled
	for _, p := range j.parts {
		out = append(out, samplesOf(p, tol, n)...)
	}
	return out
}

// reversedSource is what Reversed returns.
type reversedSource struct{ of Source }

// Reversed returns src run backwards.
func Reversed(src Source) Source {
	switch s := src.(type) {
	case Path:
		return s.Reverse()
	case reversedSource:
		return s.of
	case pointsSource:
		back := make([]Point, len(s.pts))
		for i, p := range s.pts {
			back[len(back)-1-i] = p
		}
		return pointsSource{back, s.closed}
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
