package plan

import (
	"slices"

	"springrib/internal/chance"
	"springrib/internal/hinge"
	"springrib/internal/machine"
	"springrib/internal/score"
)

// Memory is what one plan found out that the next, of much the same design, asks for again.
// It changes no answer. One is for one plan at a time.
type Memory struct {
	laws score.Laws
	lots [mostLots]lotKnown
	next int // which of the lots is forgotten next
}

// mostLots is how many chances are remembered: more than the tries of one design.
const mostLots = 24

// lotKnown is all that the chance of a lot hangs on, and what it is.
type lotKnown struct {
	panel    chance.Panel // without its law and bends
	material hinge.Material
	bottom   machine.Bottom
	bends    [][]chance.Score
	is       chance.Chances
}

// chance returns the chance of a lot whose law is of that material.
func (m *Memory) chance(l Lot, material hinge.Material) chance.Chances {
	panel := l.panel()
	for _, k := range m.lots {
		if k.bends != nil && k.bottom == l.Setup.Bottom && k.material == material && sameBut(k.panel, panel) &&
			slices.EqualFunc(k.bends, l.Bends, slices.Equal) {
			return k.is
		}
	}
	is := chance.Either(panel)
	bends := panel.Bends
	panel.Law, panel.Bends = nil, nil
	m.lots[m.next] = lotKnown{panel, material, l.Setup.Bottom, bends, is}
	m.next = (m.next + 1) % mostLots
	return is
}

// sameBut tells that two panels are the same but for law and bends.
func sameBut(a, b chance.Panel) bool {
	return a.Thickness == b.Thickness && a.Setting == b.Setting && a.FromTable == b.FromTable && a.Apart == b.Apart &&
		a.Width == b.Width && a.Rupture == b.Rupture
}

// laws returns what was asked of the laws before, nil for nothing.
func (p *Plan) laws() *score.Laws {
	if p.memory == nil {
		return nil
	}
	return &p.memory.laws
}

// chanceOf returns the chance of a lot of this plan.
func (p *Plan) chanceOf(l Lot, material hinge.Material) chance.Chances {
	if p.memory == nil {
		return l.Chance()
	}
	return p.memory.chance(l, material)
}
