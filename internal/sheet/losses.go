package sheet

import "math"

// losses are the tables of all pairs of kinds, made when first asked for. A table depends
// on the turn of one kind against the other only, but for quarter turns of both.
type losses struct {
	turns  []lossTurn
	index  []int32       // by kind that lies and kind that moves: in turns, 0 for none yet
	shared map[int]int32 // by what a table depends on
}

func newLosses(kinds int) losses {
	return losses{turns: make([]lossTurn, 1), index: make([]int32, kinds*kinds), shared: map[int]int32{}}
}

// loss returns the table for kind b that moves beside kind a that lies.
func (p *packer) loss(a, b int) *lossTurn {
	at := a*len(p.kinds) + b
	if p.losses.index[at] == 0 {
		p.losses.index[at] = p.newLossTurn(a, b)
	}
	return &p.losses.turns[p.losses.index[at]]
}

func (p *packer) newLossTurn(a, b int) int32 {
	swapped := a > b
	if swapped {
		a, b = b, a
	}
	ka, kb := p.kinds[a], p.kinds[b]
	key := (ka.shape*len(p.kinds)+kb.shape)*4 + (kb.quarters-ka.quarters)&3
	made := p.losses.shared[key]
	if made == 0 {
		made = int32(len(p.losses.turns))
		p.losses.shared[key] = made
		p.losses.turns = append(p.losses.turns, lossTurn{loss: p.newPairLoss(a, b)})
	}
	t := p.losses.turns[made]
	t.quarters = uint8(-ka.quarters & 3)
	if swapped {
		t.quarters ^= 2
	}
	p.losses.turns = append(p.losses.turns, t)
	return int32(len(p.losses.turns) - 1)
}

// newPairLoss makes the table of kinds a <= b, with a as it is before its quarter turns.
func (p *packer) newPairLoss(a, b int) *loss {
	ka, kb := p.kinds[a], p.kinds[b]
	var f *nofit
	if ka.quarters == 0 {
		f, _ = p.between(a, b)
	} else {
		f = newNofit(ka.turnedBack(ka.quarters), kb.turnedBack(ka.quarters), p.job.Gap)
		p.budget.spent += 20 * int64(len(f.zones))
	}
	n := pairCells
	if ka.holed || kb.holed {
		n = fineCells
	}
	p.budget.spent += tableWork + int64(n*len(f.zones))
	return newLoss(f, n, max(ka.size, kb.size), math.Sqrt(math.Sqrt(ka.hull*kb.hull)))
}

// tableWork is what the making of a table counts for, besides its zones.
const tableWork = 10_000

// border returns the table of where an item of kind k may not be on a bed of a typed
// outline; nil on a rectangle.
func (p *packer) border(bed, k int) *loss {
	if p.edges[bed] == nil {
		return nil
	}
	if p.borders[bed][k] == nil {
		f := p.wall(bed, k)
		p.budget.spent += tableWork + int64(fineCells*len(f.zones))
		p.borders[bed][k] = newLoss(f, fineCells, p.kinds[k].size, math.Sqrt(p.kinds[k].hull))
	}
	return p.borders[bed][k]
}
