package sheet

// Good is the effort after which a job of some forty parts gains little more in a short
// wait: about one and a half seconds of native code, or five in a page.
const Good int64 = 150_000_000

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
