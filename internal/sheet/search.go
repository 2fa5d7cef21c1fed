package sheet

// Search lays the parts of a job close together by their real outlines: on as few sheets as
// it finds, and on the last of them on as little of its length, from the left, as it finds,
// so that a whole piece is left over. It begins by laying everything, then betters that until
// its effort is spent; what it found best is there at any time.
//
// Effort is counted in steps of work, not in time: the same job, effort and seed give the same
// layout on every machine, natively and as wasm. About 1e8 steps are a second of native code on
// the machine this was written on, and three to four in a page.
type Search struct {
	job     *Job
	p       *packer
	missing []Missing
	left    []int // items that found no room
	effort  int64

	phases  []phase // those that are left; nil before everything is laid
	attempt *separation
	kept    []lie // where everything lay at best: the last gain
	gains   int
	stuck   bool // attempts fail
	state   state
}

// state is how far a Search is.
type state int

const (
	unlaid    state = iota // nothing is laid yet
	bettering              // everything that has room is laid
	settled                // nothing more will come
)

// phase is a way to better a layout by attempts, one after another. In each, items are
// moved until they lie apart.
type phase interface {
	// next prepares an attempt, or returns nil when there is none to make.
	next(s *Search) *separation
	// ended hears whether they lie apart, as they do now, or not.
	ended(s *Search, apart bool)
	// anew forgets what was: a better layout came from elsewhere.
	anew()
}

// NewSearch returns the search for a close layout of a job, with so much effort in
// counted steps. Another seed finds another layout, as a rule about as good.
func NewSearch(job Job, effort int64, seed uint64) *Search {
	job.demand()
	pinned, free, missing := job.sortOut()
	s := &Search{job: &job, p: newPacker(&job, pinned, free, seed), missing: missing, effort: max(effort, 0)}
	s.p.budget.limit = s.effort
	return s
}

// Run goes on for about so many steps and reports whether there is more to do. How the
// work is cut in runs changes nothing of what comes out.
func (s *Search) Run(steps int64) bool {
	if s.state == unlaid {
		s.lay()
	}
	b := &s.p.budget
	for until := b.spent + min(steps, s.effort); s.state == bettering && (b.spent < until || b.over()); {
		s.step()
	}
	return s.state == bettering
}

// lay puts everything on sheets, part by part.
func (s *Search) lay() {
	s.left = s.p.fill(s.p.byArea())
	s.laid()
}

// laid goes on from where everything lies now.
func (s *Search) laid() {
	s.state = bettering
	s.gain()
	s.phases = nil
	if len(s.p.items) <= searchLimit && s.p.lastSheet() >= 0 {
		s.phases = []phase{&squeezing{k: len(s.left) - 1}, &gathering{}, &exploring{}, &compressing{}}
	}
}

// step does a round of an attempt, or begins one.
func (s *Search) step() {
	if s.attempt == nil {
		for s.attempt == nil && len(s.phases) > 0 && !s.p.budget.over() {
			if s.attempt = s.phases[0].next(s); s.attempt == nil {
				s.phases = s.phases[1:]
			}
		}
		if s.attempt == nil {
			s.state = settled
		}
		return
	}
	if over, apart := s.attempt.round(); over {
		s.attempt = nil
		s.phases[0].ended(s, apart)
	}
}

// gain keeps a better arrangement: the one that there is now.
func (s *Search) gain() {
	s.kept = s.p.lies(s.kept)
	s.gains++
}

// Done returns the share of the effort that is spent, 0 to 1.
func (s *Search) Done() float64 {
	if s.state == settled || s.effort == 0 {
		return 1
	}
	return min(1, float64(s.p.budget.spent)/float64(s.effort))
}

// Gains counts the layouts of which each was better than the one before.
func (s *Search) Gains() int { return s.gains }

// Best returns the best layout so far, checked by Verify; before the first that of Rows.
func (s *Search) Best() Layout {
	if s.gains > 0 {
		for _, rest := range []bool{true, false} {
			if l := s.layout(rest); sound(s.job, &l) {
				return l
			}
		}
	}
	return Rows(*s.job)
}

// layout returns the layout that was kept; at rest, when asked, each part as far down and
// left as it goes. It leaves the search as it is, and what it costs is not counted: else
// asking would change what comes.
func (s *Search) layout(rest bool) Layout {
	p := s.p
	now, spent := p.lies(nil), p.budget.spent
	p.lieAt(s.kept)
	p.uncounted = true
	if rest {
		p.rest()
	}
	l := p.layout(s.missing, s.left)
	p.lieAt(now)
	p.uncounted, p.budget.spent = false, spent
	return l
}

// Take goes on from a layout found elsewhere, when it is sound and much better than the
// best so far, or any better while the search is stuck, or before it began. It reports
// whether it does.
func (s *Search) Take(l Layout) bool {
	if s.state == settled || !sound(s.job, &l) || !s.worth(&l) {
		return false
	}
	s.takeOver(&l)
	if s.state == unlaid {
		s.laid()
		return true
	}
	s.attempt = nil
	s.gain()
	for _, f := range s.phases {
		f.anew()
	}
	return true
}

// leastGain is a length in mm that comes from rounding alone when a layout is written and read.
const leastGain = 0.001

// worth tells whether a layout is enough better than what there is.
func (s *Search) worth(l *Layout) bool {
	if s.state == unlaid {
		return true
	}
	now := s.layout(false)
	if len(now.Placed) != len(l.Placed) || len(now.Sheets) != len(l.Sheets) || len(l.Sheets) == 0 {
		return Closer(*l, now)
	}
	n := len(l.Sheets) - 1
	enough := now.Sheets[n].Length - leastGain
	if !s.stuck {
		enough *= 0.995
	}
	return l.Sheets[n].Length < enough
}

// takeOver puts the items as they lie in a layout.
func (s *Search) takeOver(l *Layout) {
	s.left = nil
	for _, i := range s.p.byArea() {
		it := &s.p.items[i]
		it.sheet = -1
		for k := range l.Placed {
			if q := &l.Placed[k]; q.Piece == it.piece && q.Copy == it.copy {
				for _, kind := range it.kinds {
					if s.p.kinds[kind].turn == q.Turn {
						it.lie = lie{kind, q.Sheet, q.at()}
					}
				}
			}
		}
		if it.sheet < 0 {
			s.left = append(s.left, i)
		}
	}
}

// Closer tells whether a lays more than b, or the same on fewer sheets, or on as many
// with more left of the last.
func Closer(a, b Layout) bool {
	if len(a.Placed) != len(b.Placed) {
		return len(a.Placed) > len(b.Placed)
	}
	if len(a.Sheets) != len(b.Sheets) {
		return len(a.Sheets) < len(b.Sheets)
	}
	n := len(a.Sheets)
	return n > 0 && a.Sheets[n-1].Length < b.Sheets[n-1].Length
}
