package intake

import "springrib/internal/plane"

// Group is what a drawing holds on one layer in one colour, the way a person chooses
// from it.
type Group struct {
	Layer, Stroke, Fill string
	Items               []int // numbers of the items
	Closed              int   // how many of them are closed
	Length              float64
	Box                 plane.Box
}

// Groups sorts items by layer, line and filling, in the order they first come up.
func Groups(items []Item) []Group {
	type look struct{ layer, stroke, fill string }
	number := map[look]int{}
	var out []Group
	for i := range items {
		it := &items[i]
		k := look{it.Layer, it.Stroke, it.Fill}
		n, ok := number[k]
		if !ok {
			n = len(out)
			number[k] = n
			out = append(out, Group{Layer: it.Layer, Stroke: it.Stroke, Fill: it.Fill, Box: plane.EmptyBox()})
		}
		g := &out[n]
		g.Items = append(g.Items, i)
		g.Length += it.Length()
		g.Box = g.Box.Union(it.Box())
		if it.Path.Closed {
			g.Closed++
		}
	}
	return out
}
