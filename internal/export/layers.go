package export

import (
	"fmt"

	"springrib/internal/cut"
)

// layer is one group of a file: an operation, or one pass of it.
type layer struct {
	id      string // unique in the file, ASCII letters, digits and hyphens
	title   string // as the person typed it, cleaned, and the pass if it is one of several
	kind    cut.Kind
	colour  RGB
	strokes []cut.Stroke
}

// titleOf is the name of op, cleaned, or that of its kind where nothing is left.
func titleOf(op cut.Operation) string {
	if s := cleanName(op.Name); s != "" {
		return s
	}
	return op.Kind.Name()
}

// layers returns the groups of a file in cutting order. With repeat, an operation
// of n passes becomes n layers one after another.
func layers(job cut.Job, repeat bool) []layer {
	ops := job.Operations
	if repeat {
		ops = cut.Repeated(ops)
	}
	var out []layer
	used := map[cut.Kind]int{}
	for _, op := range ops {
		if len(op.Strokes) == 0 {
			continue
		}
		l := layer{id: op.Kind.String(), title: titleOf(op), kind: op.Kind, colour: operationColour(op), strokes: op.Strokes}
		used[op.Kind]++
		if n := used[op.Kind]; n > 1 {
			l.id = fmt.Sprintf("%s-%d", l.id, n)
		}
		out = append(out, l)
	}
	return out
}
