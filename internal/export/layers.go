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
	colour  rgb
	strokes []cut.Stroke
}

// layers returns the groups of a file in cutting order. With repeat, an operation
// of n passes becomes n layers one after another.
func layers(job cut.Job, repeat bool) []layer {
	var out []layer
	used := map[string]int{}
	for _, op := range job.Operations {
		if len(op.Strokes) == 0 {
			continue
		}
		passes := 1
		if repeat {
			passes = max(1, op.Passes)
		}
		for pass := 1; pass <= passes; pass++ {
			l := layer{id: op.Kind.String(), title: cleanName(op.Name), kind: op.Kind, colour: operationColour(op), strokes: op.Strokes}
			if l.title == "" {
				l.title = op.Kind.String()
			}
			if passes > 1 {
				l.id = fmt.Sprintf("%s-pass-%d", l.id, pass)
				l.title = fmt.Sprintf("%s, pass %d of %d", l.title, pass, passes)
			}
			used[l.id]++
			if n := used[l.id]; n > 1 {
				l.id = fmt.Sprintf("%s-again-%d", l.id, n)
			}
			out = append(out, l)
		}
	}
	return out
}
