package intake

import (
	"math"

	"springrib/internal/plane"
)

// cell is a square of a grid; group keeps apart what is never compared.
type cell struct{ group, x, y int64 }

func gridCell(p plane.Point, size float64) cell {
	return cell{0, int64(math.Floor(p.X / size)), int64(math.Floor(p.Y / size))}
}

// grid keeps numbers by cell, without a slice for each.
type grid struct {
	last map[cell]int32 // place in entries, the one kept last
	list []gridEntry
}

type gridEntry struct{ number, before int32 }

func newGrid(n int) *grid {
	return &grid{last: make(map[cell]int32, n), list: make([]gridEntry, 0, n)}
}

func (g *grid) add(c cell, number int32) {
	before, ok := g.last[c]
	if !ok {
		before = -1
	}
	g.last[c] = int32(len(g.list))
	g.list = append(g.list, gridEntry{number, before})
}

// in appends what is kept in a cell to out, the last first, until it has most of them.
func (g *grid) in(out []int32, c cell, most int) []int32 {
	at, ok := g.last[c]
	for ok && at >= 0 && len(out) < most {
		out = append(out, g.list[at].number)
		at = g.list[at].before
	}
	return out
}

// round appends what is kept in a cell and those about it, its own first.
func (g *grid) round(out []int32, c cell, most int) []int32 {
	out = g.in(out, c, most)
	for dx := int64(-1); dx <= 1; dx++ {
		for dy := int64(-1); dy <= 1; dy++ {
			if dx != 0 || dy != 0 {
				out = g.in(out, cell{c.group, c.x + dx, c.y + dy}, most)
			}
		}
	}
	return out
}
