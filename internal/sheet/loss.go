package sheet

// loss tells what it costs that a moving part lies at a place in a nofit: 0 where it is
// free, inside the way out, as a length, times a scale that makes large parts stand and
// small ones move. The box of the nofit is cut in cells. A cell is free, full, or has the
// sides that cut it, zone by zone, so that free or not comes out exactly as the zones have
// it. The way out is kept at the nodes of the cells and runs evenly between.
type loss struct {
	box    bounds
	sx, sy float64 // cells for each mm
	n      int     // cells each way
	end    float64 // n
	cells  []int32 // row by row: free, full, or where its zones begin in cuts
	// Each zone of a cell is the sides that cut the cell, twice the index, the last one
	// with 1 added; after the last zone of a cell comes noZone.
	cuts  []int32
	sides []side
	way   []float32 // at the nodes, row by row
	first float64   // added to the way: a touch must never be nearly free
	scale float64
}

// What a cell is, besides the index of its zones.
const (
	free = int32(-1)
	full = int32(-2)
)

// noZone ends the zones of a cell.
const noZone = int32(-1)

// at returns the loss at a place.
func (t *loss) at(x, y float64) float64 {
	turned := lossTurn{loss: t}
	return turned.look(x, y)
}

// inside tells whether a place lies in one of the zones listed from c.
func (t *loss) inside(c int32, x, y float64) bool {
	for {
		r := t.cuts[c]
		if r == noZone {
			return false
		}
		s := &t.sides[r>>1]
		switch {
		case s.nx*x+s.ny*y >= s.c:
			for t.cuts[c]&1 == 0 {
				c++
			}
		case r&1 == 1:
			return true
		}
		c++
	}
}

// lossTurn is a table and the quarter turns that bring a place into it.
type lossTurn struct {
	*loss
	quarters uint8
}

// look returns the loss at a place before it is turned.
func (t *lossTurn) look(x, y float64) float64 {
	switch t.quarters {
	case 1:
		x, y = -y, x
	case 2:
		x, y = -x, -y
	case 3:
		x, y = y, -x
	}
	l := t.loss
	u, v := (x-l.box.x0)*l.sx, (y-l.box.y0)*l.sy
	if !(u >= 0 && v >= 0 && u < l.end && v < l.end) {
		return 0
	}
	i, j := int(u), int(v)
	if c := l.cells[j*l.n+i]; c == free || c >= 0 && !l.inside(c, x, y) {
		return 0
	}
	u, v = u-float64(i), v-float64(j)
	k := j*(l.n+1) + i
	low, high := l.way[k:k+2], l.way[k+l.n+1:k+l.n+3]
	a, b := float64(low[0]), float64(high[0])
	a += u * (float64(low[1]) - a)
	b += u * (float64(high[1]) - b)
	return (a + v*(b-a) + l.first) * l.scale
}
