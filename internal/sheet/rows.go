package sheet

import (
	"math"
	"slices"
	"sort"

	"springrib/internal/plane"
)

// touch is how much two lengths may fall short of each other in mm and still count
// as equal: a part exactly as wide as the room fits.
const touch = 1e-7

// Rows lays the pieces by their boxes, in their order, in rows from the lower left
// corner, each at the first of its turns that fits on an empty sheet. It is quick,
// keeps like parts together, and wastes material; pinned copies stay and the rows
// step round them.
func Rows(job Job) Layout {
	job.demand()
	pinned, free, missing := job.sortOut()
	r := rows{job: &job, from: make([]int, len(job.Pieces))}
	for _, p := range pinned {
		body, reach := job.Pieces[p.Piece].boxes(p.Move())
		s := r.sheet(p.Sheet)
		s.taken = append(s.taken, boxes{body, reach})
		s.row = len(s.taken) // what is pinned is no part of a row
	}
	l := Layout{Placed: pinned, Missing: missing}
	for _, c := range free {
		place, why := r.lay(c.piece)
		if why != "" {
			l.Missing = job.lose(l.Missing, c.piece, why)
			continue
		}
		l.Placed = append(l.Placed, Placed{c.piece, c.copy, place})
	}
	l.order()
	l.summary(&job)
	return l
}

// order sorts the placed copies by piece and copy.
func (l *Layout) order() {
	sort.SliceStable(l.Placed, func(i, j int) bool {
		a, b := &l.Placed[i], &l.Placed[j]
		if a.Piece != b.Piece {
			return a.Piece < b.Piece
		}
		return a.Copy < b.Copy
	})
}

// boxes are the boxes of a part: its outline, and all its tool paths.
type boxes struct{ body, reach plane.Box }

func (b boxes) shift(d plane.Point) boxes {
	return boxes{plane.Box{Min: b.body.Min.Add(d), Max: b.body.Max.Add(d)}, plane.Box{Min: b.reach.Min.Add(d), Max: b.reach.Max.Add(d)}}
}

// clash reports whether a and b keep less than gap between them, as boxes.
func (b boxes) clash(c boxes, gap float64) bool {
	near := func(p, q plane.Box) bool {
		return p.Min.X < q.Max.X+gap-touch && q.Min.X < p.Max.X+gap-touch &&
			p.Min.Y < q.Max.Y+gap-touch && q.Min.Y < p.Max.Y+gap-touch
	}
	return near(b.body, c.reach) || near(b.reach, c.body)
}

// right returns how far b must move in X to lie to the right of c.
func (b boxes) right(c boxes, gap float64) float64 {
	return gap + math.Max(c.body.Max.X-b.reach.Min.X, c.reach.Max.X-b.body.Min.X)
}

// above returns how far b must move in Y to lie above c.
func (b boxes) above(c boxes, gap float64) float64 {
	return gap + math.Max(c.body.Max.Y-b.reach.Min.Y, c.reach.Max.Y-b.body.Min.Y)
}

// rows is the state of Rows.
type rows struct {
	job    *Job
	sheets []*rowSheet
	from   []int // by piece: sheets before this one have no room for it
}

// rowSheet is one sheet in work. The parts of the row under way are taken[row:].
type rowSheet struct {
	bed   *Bed
	room  plane.Box
	taken []boxes
	row   int
	at    plane.Point // lower left corner of the next box
}

// sheet returns sheet n, which must be within what the beds give.
func (r *rows) sheet(n int) *rowSheet {
	for len(r.sheets) <= n {
		b := &r.job.Beds[r.job.bedOf(len(r.sheets))]
		s := &rowSheet{bed: b, room: b.room()}
		s.at = s.room.Min
		r.sheets = append(r.sheets, s)
	}
	return r.sheets[n]
}

// lay finds a place for one more copy of a piece.
func (r *rows) lay(piece int) (Place, Why) {
	p := &r.job.Pieces[piece]
	why := TooLarge
	for n := r.from[piece]; r.job.bedOf(n) >= 0; n++ {
		s := r.sheet(n)
		turn, ok := s.turn(p)
		if !ok {
			if s.bed.Count == 0 {
				break // all that follow are the same
			}
			continue
		}
		why = NoRoom
		if at, ok := s.lay(p, turn, r.job.Gap); ok {
			r.from[piece] = n
			return Place{n, at.X, at.Y, turn}, ""
		}
	}
	r.from[piece] = MaxSheets
	if r.fitsSomewhere(p) {
		why = NoRoom
	}
	return Place{}, why
}

func (r *rows) fitsSomewhere(p *Piece) bool {
	return slices.ContainsFunc(r.sheets, func(s *rowSheet) bool { _, ok := s.turn(p); return ok })
}

// turn returns the first turn of p at which its box fits in the room.
func (s *rowSheet) turn(p *Piece) (float64, bool) {
	for _, t := range p.turns() {
		b := p.extents(plane.Rotate(t))
		if b.W() <= s.room.W()+touch && b.H() <= s.room.H()+touch {
			return t, true
		}
	}
	return 0, false
}

// lay tries the row under way, then new rows above it. Nothing changes on a failure.
func (s *rowSheet) lay(p *Piece, turn, gap float64) (plane.Point, bool) {
	body, reach := p.boxes(plane.Rotate(turn))
	home := boxes{body, reach}
	row, at := s.row, s.at
	for {
		d, ok := s.along(p, turn, home, at, gap)
		if ok {
			s.row = row
			b := home.shift(d)
			s.taken = append(s.taken, b)
			s.at = plane.Pt(b.body.Max.X, at.Y) // overruns may share the gap
			return d, true
		}
		up := home.shift(at.Sub(reach.Min))
		rise := touch
		if row == len(s.taken) {
			rise = s.step(s.room.H())
		}
		for _, c := range s.taken[row:] {
			rise = math.Max(rise, up.above(c, gap))
		}
		row = len(s.taken)
		at = plane.Pt(s.room.Min.X, at.Y+rise)
		if at.Y+reach.H() > s.room.Max.Y+touch {
			return plane.Point{}, false
		}
	}
}

// step is how far a part moves on where no box says how far it must. Rectangles
// need it only to pass pins.
func (s *rowSheet) step(length float64) float64 { return math.Max(length/64, 1) }

// along moves home to at and on to the right until it is free; ok is false at the
// end of the row. It returns the shift of the part.
func (s *rowSheet) along(p *Piece, turn float64, home boxes, at plane.Point, gap float64) (plane.Point, bool) {
	d := at.Sub(home.reach.Min)
	for {
		b := home.shift(d)
		if b.reach.Max.X > s.room.Max.X+touch || b.reach.Max.Y > s.room.Max.Y+touch {
			return d, false
		}
		i := slices.IndexFunc(s.taken, func(c boxes) bool { return b.clash(c, gap) })
		switch {
		case i >= 0:
			d.X += math.Max(b.right(s.taken[i], gap), touch)
		case !s.bed.rectangle() && !onBed(p, Place{X: d.X, Y: d.Y, Turn: turn}, s.bed):
			d.X += s.step(s.room.W())
		default:
			return d, true
		}
	}
}
