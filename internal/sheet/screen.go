package sheet

import "springrib/internal/plane"

// screen tells quickly which boxes may meet a box. It is cut in columns and rows; of each
// it has, as bits by item, those that end before it and those that begin after it.
type screen struct {
	x, y   float64 // where it begins
	sx, sy float64 // strips for each mm
	words  int     // of bits for all items
	// Strip by strip: boxes that end left of the column, begin right of it, end below the
	// row, begin above it. What is not on the sheet ends left of all.
	left, right, below, above []uint64
}

// strips is how many columns and rows a screen has.
const strips = 32

func newScreen(items int, room plane.Box) *screen {
	n := (items + 63) / 64
	s := &screen{x: room.Min.X, y: room.Min.Y, sx: strips / max(room.W(), touch), sy: strips / max(room.H(), touch), words: n}
	for _, bits := range []*[]uint64{&s.left, &s.right, &s.below, &s.above} {
		*bits = make([]uint64, strips*n)
	}
	for i := range s.left {
		s.left[i] = ^uint64(0)
	}
	return s
}

// stripOf returns the strip that holds a coordinate, from the screen's edge times scale.
func stripOf(x float64) int {
	switch {
	case x < 1:
		return 0
	case x < strips-1:
		return int(x)
	}
	return strips - 1
}

// put notes where item i is.
func (s *screen) put(i int, b *bounds) {
	x0, x1 := stripOf((b.x0-s.x)*s.sx), stripOf((b.x1-s.x)*s.sx)
	y0, y1 := stripOf((b.y0-s.y)*s.sy), stripOf((b.y1-s.y)*s.sy)
	bit := uint64(1) << (i & 63)
	for k, at := 0, i>>6; k < strips; k, at = k+1, at+s.words {
		set(&s.left[at], bit, x1 < k)
		set(&s.right[at], bit, x0 > k)
		set(&s.below[at], bit, y1 < k)
		set(&s.above[at], bit, y0 > k)
	}
}

// remove notes that item i is elsewhere.
func (s *screen) remove(i int) {
	for k := range strips {
		s.left[k*s.words+i>>6] |= 1 << (i & 63)
	}
}

func set(word *uint64, bit uint64, on bool) {
	if *word &^= bit; on {
		*word |= bit
	}
}
