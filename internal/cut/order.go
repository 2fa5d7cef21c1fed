package cut

import (
	"fmt"

	"springrib/internal/plane"
)

// Part is what is to be cut of one part, already in its place on the sheet.
//
// Strokes of Score come from the foot on, the pieces of one score line one after
// another. A closed stroke runs the way it is to be cut; Order chooses where it
// starts but never turns it round.
type Part struct {
	ID      string
	Strokes [4][]plane.Path // by Kind
}

// Setting is how a machine runs one kind of operation.
type Setting struct {
	Name   string  // what the person calls it; empty for Kind.Name
	Colour string  // "#rrggbb"; empty for Kind.Colour
	Passes int     // below 1 counts as 1
	Speed  float64 // mm/s; 0 when unknown
}

// Settings are the choices of Order. The zero value has the starting names and
// colours, one pass of everything, and the head resting at the lower left corner.
type Settings struct {
	Kinds [4]Setting  // by Kind
	Start plane.Point // where the head rests before the first operation
	// EveryThird takes the scores of a part in three sweeps of every third line, so
	// that no line is run beside one that is still hot.
	EveryThird bool
	// RepeatLayers makes an operation of n passes n operations of one pass each, so
	// that the whole layer cools between passes.
	RepeatLayers bool
}

// Order returns what is to be done on one sheet, in the order it is to be done: all
// scores, all marks, all inner cuts, all outer cuts, and within each with little
// travel. Every stroke given comes out once in each pass.
//
// A part that lies in a cut-out of another goes with the inner cuts, its own holes
// first, then its outline, then the cut-out: else the waste would take it along.
//
// Up to seven strokes of any shape, or a dozen lines, the travel is the least there
// is; beyond that it is what nearest neighbour, 2-opt and or-opt find. Kinds without strokes are left out.
func Order(parts []Part, s Settings) []Operation {
	var ops []Operation
	at := s.Start
	for _, k := range Kinds() {
		var strokes []Stroke
		for _, group := range groups(parts, k, s.EveryThird) {
			var run []Stroke
			run, at = shortest(group, at)
			strokes = append(strokes, run...)
		}
		if len(strokes) > 0 {
			ops = append(ops, operation(k, s.Kinds[k], strokes))
		}
	}
	return s.layers(ops)
}

// Unordered returns the same operations with their strokes as they are given, for a
// drawing that shows no order: the outline of a part in a cut-out stays an outer cut.
func Unordered(parts []Part, s Settings) []Operation {
	var ops []Operation
	for _, k := range Kinds() {
		var strokes []Stroke
		for _, p := range parts {
			for _, path := range p.Strokes[k] {
				if len(path.Segs) > 0 {
					strokes = append(strokes, Stroke{Part: p.ID, Path: path})
				}
			}
		}
		if len(strokes) > 0 {
			ops = append(ops, operation(k, s.Kinds[k], strokes))
		}
	}
	return s.layers(ops)
}

func (s Settings) layers(ops []Operation) []Operation {
	if s.RepeatLayers {
		return Repeated(ops)
	}
	return ops
}

func operation(k Kind, s Setting, strokes []Stroke) Operation {
	op := Operation{Kind: k, Name: s.Name, Colour: s.Colour, Passes: max(1, s.Passes), Speed: s.Speed, Strokes: strokes}
	if op.Name == "" {
		op.Name = k.Name()
	}
	if op.Colour == "" {
		op.Colour = k.Colour()
	}
	return op
}

// Repeated returns ops with each operation of n passes written out as n operations
// of one pass, "1 score pass 1 of 2" and so on. They share their strokes.
func Repeated(ops []Operation) []Operation {
	out := make([]Operation, 0, len(ops))
	for _, op := range ops {
		n := max(1, op.Passes)
		for pass := 1; pass <= n; pass++ {
			once := op
			once.Passes = 1
			if n > 1 {
				once.Name = fmt.Sprintf("%s pass %d of %d", op.Name, pass, n)
			}
			out = append(out, once)
		}
	}
	return out
}

// groups returns the strokes of one kind as lists of elements that must follow one
// another; within a list the order is free.
func groups(parts []Part, k Kind, everyThird bool) [][]element {
	switch k {
	case Score:
		return [][]element{scoreElements(parts, everyThird)}
	case Mark:
		return [][]element{strokeElements(parts, k, func(int) bool { return true })}
	}
	depths := nesting(parts)
	if k == Outer {
		return [][]element{strokeElements(parts, Outer, func(i int) bool { return depths[i] == 0 })}
	}
	deepest := 0
	for _, d := range depths {
		deepest = max(deepest, d)
	}
	var out [][]element
	for d := deepest; d >= 0; d-- {
		here := func(i int) bool { return depths[i] == d }
		out = append(out, strokeElements(parts, Inner, here))
		if d > 0 {
			out = append(out, strokeElements(parts, Outer, here))
		}
	}
	return out
}

func strokeElements(parts []Part, k Kind, wanted func(part int) bool) []element {
	var out []element
	for i, p := range parts {
		if !wanted(i) {
			continue
		}
		for _, path := range p.Strokes[k] {
			if len(path.Segs) > 0 {
				out = append(out, single(Stroke{Part: p.ID, Path: path}))
			}
		}
	}
	return out
}

func scoreElements(parts []Part, everyThird bool) []element {
	if !everyThird {
		return strokeElements(parts, Score, func(int) bool { return true })
	}
	var out []element
	for _, p := range parts {
		if lines := scoreLines(p); len(lines) > 0 {
			out = append(out, thirds(lines))
		}
	}
	return out
}

// nesting returns for each part how many cut-outs of other parts it lies in.
func nesting(parts []Part) []int {
	type hole struct {
		part int
		box  plane.Box
		path plane.Path
	}
	var holes []hole
	for i, p := range parts {
		for _, path := range p.Strokes[Inner] {
			if path.Closed {
				holes = append(holes, hole{i, path.Box(), path})
			}
		}
	}
	depths := make([]int, len(parts))
	for i, p := range parts {
		at, ok := somewhere(p)
		if !ok {
			continue
		}
		for _, h := range holes {
			if h.part != i && h.box.Contains(at) && h.path.Contains(at) {
				depths[i]++
			}
		}
	}
	return depths
}

// somewhere returns a point of p, of its outline if it has one.
func somewhere(p Part) (plane.Point, bool) {
	for _, k := range []Kind{Outer, Inner, Mark, Score} {
		for _, path := range p.Strokes[k] {
			if len(path.Segs) > 0 {
				return path.Segs[0].A, true
			}
		}
	}
	return plane.Point{}, false
}
