package plan

import (
	"springrib/internal/cut"
	"springrib/internal/form"
	"springrib/internal/plane"
	"springrib/internal/surface"
)

// Corner returns where fold i breaks the bent panel at height h over the contact face:
// off its pivot along the bisector of the two flats.
func (p *Plan) Corner(i int, h float64) plane.Point {
	f := p.Layout.Folds[i]
	a, b := p.Layout.Flats[i].Dir, p.Layout.Flats[i+1].Dir
	n := plane.Dir((a + b) / 2).Left()
	if !p.PanelLeft {
		n = n.Mul(-1)
	}
	return f.Pivot.Add(n.Mul((h - f.D) / plane.Dir((b-a)/2).X))
}

// Face returns the corners of the bent panel's face at height h over the contact face,
// from its foot edge to its tip.
func (p *Plan) Face(h float64) []plane.Point {
	frames := form.Fold(p.Strip)
	on := func(v surface.Vec) plane.Point { return plane.Pt(v.X, v.Y) }
	first := 0
	for first < len(p.Layout.Folds) && p.Layout.Folds[first].U <= p.From {
		first++
	}
	out := []plane.Point{on(frames[first].At(p.From, 0, h))}
	last := first
	for last < len(p.Layout.Folds) && p.Layout.Folds[last].U < p.To {
		out = append(out, p.Corner(last, h))
		last++
	}
	return append(out, on(frames[last].At(p.To, 0, h)))
}

// Operations returns the operations that occur in any of the jobs, in cutting order.
func (p *Plan) Operations() []cut.Operation {
	var out []cut.Operation
	for _, k := range cut.Kinds() {
		for _, j := range p.Jobs {
			done := false
			for _, o := range j.Operations {
				if o.Kind == k && !done {
					out, done = append(out, o), true
				}
			}
			if done {
				break
			}
		}
	}
	return out
}
