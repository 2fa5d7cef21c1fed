package design

import (
	"strings"

	"springrib/internal/unit"
)

// rows reads a list of like things. A row in which nothing is typed is none yet.
func (r *reader) rows(f Field) {
	st := State{Path: f.Path, Shown: f.When.holds(r.lookup)}
	at := len(r.states)
	r.states = append(r.states, st)
	if !st.Shown {
		return
	}
	n := rowCount(r.doc, f.Path)
	if n > maxList {
		r.stop("field-range", f.Path, f.Label+": "+unit.Decimal(float64(n), 0)+" are too many. "+unit.Decimal(maxList, 0)+" are read.")
		n = maxList
	}
	for i := range n {
		if r.typedIn(f, i) {
			f.row(&r.v, i)
			r.columns(f, index(f.Path, i))
		}
	}
	if f.whole != nil {
		f.whole(r, &st)
		r.states[at] = st
	}
}

// typedIn tells whether a row holds anything but choices.
func (r *reader) typedIn(f Field, i int) bool {
	for _, c := range f.Columns {
		if c.Kind == Choose {
			continue
		}
		if text := r.texts[index(f.Path, i)+"."+c.Path]; strings.TrimSpace(text) != "" {
			return true
		}
	}
	return false
}

// columns reads the fields of the row at path. Their conditions ask about the row.
func (r *reader) columns(f Field, path string) {
	for _, c := range f.Columns {
		c.When = within(path, c.When)
		c.Path = path + "." + c.Path
		r.field(c)
	}
}

// within turns a condition on fields of a row into one on those of the row at path.
func within(path string, when Condition) Condition {
	out := make(Condition, len(when))
	for i, t := range when {
		out[i] = Term{path + "." + t.Path, t.Values}
	}
	return out
}

// last returns the row that is being read.
func last[T any](rows []T) *T { return &rows[len(rows)-1] }
