package design

import "slices"

// Condition says when a field is asked for: all of its terms must hold. None always holds.
type Condition []Term

// Term holds where the choice at Path has come to one of Values.
type Term struct {
	Path   string
	Values []string
	Or     []Term // it holds where one of these does, too
}

func is(path string, values ...string) Condition { return Condition{{Path: path, Values: values}} }

func (c Condition) and(path string, values ...string) Condition {
	return append(slices.Clip(c), Term{Path: path, Values: values})
}

// holds tells whether it holds for what lookup says of a path.
func (c Condition) holds(lookup func(path string) string) bool {
	for _, t := range c {
		if !t.holds(lookup) {
			return false
		}
	}
	return true
}

func (t *Term) holds(lookup func(path string) string) bool {
	return slices.Contains(t.Values, lookup(t.Path)) || slices.ContainsFunc(t.Or, func(o Term) bool { return o.holds(lookup) })
}
