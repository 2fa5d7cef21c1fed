package sheet

import (
	"math"
	"math/rand/v2"
	"sort"

	"springrib/internal/plane"
)

// item is one copy that the packer moves about.
type item struct {
	copyOf
	kinds []int // the kinds it may be laid as
	fixed bool  // pinned
	area  float64
	lie
}

// lie is how an item lies.
type lie struct {
	kind  int
	sheet int // -1 while it is not laid
	at    plane.Point
}

// packer holds a job as the search sees it.
type packer struct {
	job     *Job
	kinds   []*kind
	pairs   []*nofit // by kind fixed and kind moving, fixed <= moving; nil until asked for
	walls   [][]*nofit
	rooms   []plane.Box // by bed
	edges   []*kind     // by bed: what lies around it; nil for a rectangle
	losses  losses
	borders [][]*loss // as walls
	items   []item
	turned  [][]int // by piece: its kinds

	random    *rand.Rand
	budget    budget
	uncounted bool // what is made now is paid for when the search itself asks for it
}

// budget counts the work done, so that a search ends at the same
// place on every machine.
type budget struct {
	spent, limit int64
}

// over reports whether the search should end.
func (b *budget) over() bool { return b.spent >= b.limit }

func newPacker(job *Job, pinned []Placed, free []copyOf, seed uint64) *packer {
	p := &packer{job: job, random: rand.New(rand.NewPCG(0x5eed, 0x9ac4+seed))}
	p.turned = make([][]int, len(job.Pieces))
	least := p.least(free)
	solids := make([]*solid, len(job.Pieces))
	want := func(piece int) *solid {
		if solids[piece] == nil {
			solids[piece] = newSolid(&job.Pieces[piece], job.CutOuts, least)
		}
		return solids[piece]
	}
	add := func(piece int, turn float64) {
		k := newKind(&job.Pieces[piece], want(piece), turn, job.Gap)
		k.piece = piece
		k.alike(p.kinds)
		p.kinds = append(p.kinds, k)
	}
	for i := range job.Beds {
		p.rooms = append(p.rooms, job.Beds[i].room())
		p.edges = append(p.edges, surround(&job.Beds[i]))
	}
	for _, l := range pinned {
		piece := &job.Pieces[l.Piece]
		add(l.Piece, l.Turn)
		p.items = append(p.items, item{copyOf{l.Piece, l.Copy}, nil, true, piece.Outline.Area(), lie{len(p.kinds) - 1, l.Sheet, l.at()}})
	}
	for _, c := range free {
		piece := &job.Pieces[c.piece]
		if p.turned[c.piece] == nil {
			for _, t := range piece.turns() {
				p.turned[c.piece] = append(p.turned[c.piece], len(p.kinds))
				add(c.piece, t)
			}
		}
		p.items = append(p.items, item{c, p.turned[c.piece], false, piece.Outline.Area(), lie{p.turned[c.piece][0], -1, plane.Point{}}})
	}
	p.pairs = make([]*nofit, len(p.kinds)*len(p.kinds))
	p.losses = newLosses(len(p.kinds))
	for range job.Beds {
		p.walls = append(p.walls, make([]*nofit, len(p.kinds)))
		p.borders = append(p.borders, make([]*loss, len(p.kinds)))
	}
	return p
}

// least returns the smallest hole, across, in which any free part could lie.
func (p *packer) least(free []copyOf) float64 {
	least, last := math.Inf(1), -1
	for _, c := range free {
		if c.piece == last {
			continue
		}
		last = c.piece
		for _, t := range p.job.Pieces[c.piece].turns() {
			b := p.job.Pieces[c.piece].extents(plane.Rotate(t))
			least = math.Min(least, math.Min(b.W(), b.H()))
		}
	}
	return least + 2*p.job.Gap
}

// surround returns what lies round a bed of a typed outline as something to keep
// clear of.
func surround(b *Bed) *kind {
	if b.rectangle() {
		return nil
	}
	paths := b.Outline.Paths()
	rings, slack := coarse(paths)
	box := b.Outline.Box().Grow(1)
	frame := plane.RectPath(box).Flatten(0)
	return &kind{body: decompose(append(rings, frame[:4]), 4*partLimit), slack: slack}
}

// pair makes the nofit of kinds a <= b.
func (p *packer) pair(a, b int) *nofit {
	f := newNofit(p.kinds[a], p.kinds[b], p.job.Gap)
	p.pairs[a*len(p.kinds)+b] = f
	return f
}

// wall returns where an item of kind k may not be on a bed of a typed outline; nil
// on a rectangle.
func (p *packer) wall(bed, k int) *nofit {
	e := p.edges[bed]
	if e == nil {
		return nil
	}
	f := p.walls[bed][k]
	if f == nil {
		f = &nofit{}
		d := p.job.Beds[bed].Margin + e.slack + p.kinds[k].slack
		f.add(e.body, p.kinds[k].body, d)
		f.add(e.body, p.kinds[k].reach, d)
		f.sort()
		p.walls[bed][k] = f
	}
	return f
}

// span returns where the origin of an item of kind k may be so that its box stays in
// the room of a bed, no farther right than width from the room's left edge.
func (p *packer) span(bed, k int, width float64) (plane.Box, bool) {
	r, b := p.rooms[bed], p.kinds[k].box
	right := math.Min(r.Max.X, r.Min.X+width)
	s := plane.Box{Min: r.Min.Sub(b.Min), Max: plane.Pt(right, r.Max.Y).Sub(b.Max)}
	if s.Max.X < s.Min.X && s.Max.X > s.Min.X-touch {
		s.Max.X = s.Min.X
	}
	if s.Max.Y < s.Min.Y && s.Max.Y > s.Min.Y-touch {
		s.Max.Y = s.Min.Y
	}
	return s, s.Min.X <= s.Max.X && s.Min.Y <= s.Max.Y
}

// on lists the items of a sheet.
func (p *packer) on(sheet int) []int {
	var out []int
	for i := range p.items {
		if p.items[i].sheet == sheet {
			out = append(out, i)
		}
	}
	return out
}

// lies returns how the items lie, in out where that is large enough.
func (p *packer) lies(out []lie) []lie {
	out = out[:0]
	for i := range p.items {
		out = append(out, p.items[i].lie)
	}
	return out
}

// lieAt puts the items where they lay.
func (p *packer) lieAt(lies []lie) {
	for i := range lies {
		p.items[i].lie = lies[i]
	}
}

// places returns where everything lies now.
func (p *packer) places() []Placed {
	var out []Placed
	for i := range p.items {
		if it := &p.items[i]; it.sheet >= 0 {
			out = append(out, Placed{it.piece, it.copy, Place{it.sheet, it.at.X, it.at.Y, p.kinds[it.kind].turn}})
		}
	}
	return out
}

// byArea lists the free items, large ones first.
func (p *packer) byArea() []int {
	var out []int
	for i := range p.items {
		if !p.items[i].fixed {
			out = append(out, i)
		}
	}
	sort.SliceStable(out, func(i, j int) bool { return p.items[out[i]].area > p.items[out[j]].area })
	return out
}
