package sheet

// compressing shortens what is used of the last sheet by small steps, each cut out at a
// random place, from the best layout so far.
type compressing struct {
	exploring
	from int64
}

// Shares of the length that compressing takes away, at first and at last.
const (
	compressFirst = 0.0005
	compressLast  = 0.00001
)

func (z *compressing) anew() { z.c = nil }

func (z *compressing) next(s *Search) *separation {
	b := &s.p.budget
	if z.until == 0 {
		z.from, z.until = b.spent, b.limit
	}
	for z.c != nil || z.begin(s) {
		z.c.restore(s.kept)
		z.c.width = z.length
		past := float64(b.spent-z.from) / float64(max(1, z.until-z.from))
		step := compressFirst + (compressLast-compressFirst)*past
		switch z.c.narrow(z.length*(1-step), s.p.random.Float64()*z.length) {
		case narrowed:
			return z.c.separate(z.until, 100, 5)
		case tooNarrow:
			return nil
		}
		z.c = nil // the sheet before is the last one now
	}
	return nil
}

func (z *compressing) ended(s *Search, apart bool) {
	if apart {
		z.length = s.p.length(z.c.sheets - 1)
		s.gain()
	}
	s.stuck = false
}
