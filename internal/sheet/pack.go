package sheet

// Watch is how a caller follows and ends a search. Both may be nil.
type Watch struct {
	// Stop is asked now and then, about every few milliseconds; true ends the search
	// with the best layout so far.
	Stop func() bool
	// Progress hears how much of the effort is spent, 0 to 1, and the best layout so
	// far: first when everything is laid for the first time, then at each gain.
	Progress func(done float64, best Layout)
}

// Good is the effort after which a job of some forty parts gains little more: about
// one and a half seconds of native code, or five in a page.
const Good int64 = 150_000_000

// Pack lays the pieces close together by their real outlines: as few sheets as it
// finds, and on the last of them as little of its length, from the left, as it
// finds, so that a whole piece is left over. Effort bounds the work in counted
// steps, not time, so that the same job gives the same layout everywhere unless
// Watch.Stop ends it; before the first layout that gives Rows.
func Pack(job Job, effort int64, watch Watch) Layout {
	job.demand()
	best, first := search(&job, effort, watch)
	if len(first.Placed) == 0 {
		return Rows(job)
	}
	for _, l := range []Layout{best, first} {
		if sound(&job, &l) {
			return l
		}
	}
	return Rows(job)
}

// search returns the best layout it finds, and the first: an empty one if it was
// stopped before everything was laid.
func search(job *Job, effort int64, watch Watch) (best, first Layout) {
	pinned, free, missing := job.sortOut()
	p := newPacker(job, pinned, free)
	p.budget = budget{limit: effort, stop: watch.Stop}
	left := p.fill(p.byArea())
	if p.budget.stopped {
		return best, first
	}
	found := func() {
		best = p.layout(missing, left)
		if watch.Progress != nil {
			watch.Progress(min(1, float64(p.budget.spent)/max(1, float64(effort))), best)
		}
	}
	found()
	first = best
	if len(p.items) <= searchLimit && p.lastSheet() >= 0 && !p.budget.over() {
		left = p.squeeze(left, func(now []int) { left = now; found() })
		p.gather(found)
		p.shrink(found)
	}
	p.rest()
	return p.layout(missing, left), first
}

// searchLimit is the most parts whose places are searched for beyond the first
// layout: the pairs' weights take 16 bytes for each two of them.
const searchLimit = 400

// sound reports whether Verify finds nothing wrong that the packer had a say in. It
// is there so that a slip in the packer costs material, never a part.
func sound(job *Job, l *Layout) bool {
	free := func(i int) bool {
		return i >= 0 && l.Placed[i].Copy >= len(job.Pieces[l.Placed[i].Piece].Pins)
	}
	for _, f := range Verify(job, l) {
		if f.A < 0 || free(f.A) || free(f.B) {
			return false
		}
	}
	return true
}

// layout returns where everything lies now.
func (p *packer) layout(missing []Missing, left []int) Layout {
	l := Layout{Placed: p.places(), Missing: append([]Missing(nil), missing...)}
	for _, i := range left {
		l.Missing = p.job.lose(l.Missing, p.items[i].piece, p.why(i))
	}
	l.order()
	l.summary(p.job)
	return l
}

// why tells why an item is not laid.
func (p *packer) why(i int) Why {
	for n := 0; p.job.bedOf(n) >= 0; n++ {
		b := p.job.bedOf(n)
		if _, _, ok := p.leftmost(i, n, nil); ok {
			return NoRoom
		}
		if p.job.Beds[b].Count == 0 {
			break
		}
	}
	return TooLarge
}
