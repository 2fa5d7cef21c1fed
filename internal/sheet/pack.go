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
	s := NewSearch(job, effort, 0)
	s.p.budget.stop = watch.Stop
	gains := 0
	for more, steps := true, int64(0); more; steps = watchEvery {
		more = s.Run(steps)
		if s.gains > gains && watch.Progress != nil {
			gains = s.gains
			watch.Progress(s.Done(), s.Best())
		}
	}
	return s.Best()
}

// watchEvery is after how many steps a gain is told at the latest.
const watchEvery = 2_000_000

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
