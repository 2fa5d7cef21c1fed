package plan

import (
	"math"
	"sort"

	"springrib/internal/design"
	"springrib/internal/hinge"
	"springrib/internal/score"
	"springrib/internal/state"
)

// uses returns how near the worst fold comes to cracking and to pinching, nominally
// and at both ends of the range (see swing), which are found at that fold.
func (p *Plan) uses(l score.Layout, passes int) (cracking, pinching Use) {
	_, rupture := p.scoring().At(passes, state.Moved{})
	cracking = Use{Allowed: p.strainAllowed(rupture) / rupture}
	pinching = Use{Allowed: 1 / p.V.Panel.ClosingSafe}
	w := p.V.Machine.ScoreWidth
	first := 0
	first, l.Folds = p.covered(l.Folds)
	for i, f := range l.Folds {
		cracking.take(first+i+1, f.State.Strain/rupture)
		if f.Closing {
			pinching.take(first+i+1, shut(f.State, w))
		}
	}
	closing := []score.Layout{l} // at either end of the scores
	worstAt := 0
	if p.Ruled() {
		law, _ := p.scoring().At(passes, state.Moved{})
		other, use := spreadOut(l, law), Use{}
		for i, f := range other.Folds {
			if f.Closing {
				use.take(first+i+1, shut(f.State, w))
			}
		}
		closing = append(closing, other)
		if use.Value > pinching.Value {
			worstAt, pinching.Value, pinching.Score = 1, use.Value, use.Score
		}
	}
	if cracking.Score == 0 {
		return cracking, pinching
	}
	figures := []state.Figure{crackAt(l.Folds[cracking.Score-1-first])}
	if pinching.Score > 0 {
		figures = append(figures, pinchAt(closing[worstAt].Folds[pinching.Score-1-first]))
	}
	s := p.scoring().Swings(passes, figures...)
	p.span(&cracking, []score.Layout{l}, passes, s[0], strained, false)
	if pinching.Score > 0 {
		p.span(&pinching, closing, passes, s[1], closed, true)
	}
	return cracking, pinching
}

// spreadOut returns the layout as it is at the other end of its scores, where they lie further apart
// and fold by the same.
func spreadOut(l score.Layout, law hinge.Law) score.Layout {
	l.Folds = append([]score.Fold(nil), l.Folds...)
	for i := range l.Folds {
		f := &l.Folds[i]
		q := math.Max(1, f.Wider)
		f.Left, f.Right = q*f.Left, q*f.Right
		if i > 0 && alike(f, &l.Folds[i-1]) {
			f.State = l.Folds[i-1].State
			continue
		}
		f.State = law.Fold(math.Abs(f.Theta), f.Left, f.Right, false)
	}
	return l
}

// strainAllowed is the nominal strain that the skin may be held at: what cracks it over the
// factor, and for a plastic no more than it may be held at for good at the low end of that.
// A limit for good is a design figure: it has its factor in it.
func (p *Plan) strainAllowed(rupture float64) float64 {
	allowed := rupture / p.V.Panel.StrainSafe
	if held := p.V.Sheet.Stock.Sustained; held.Given() {
		allowed = math.Min(allowed, held.Bad())
	}
	return allowed
}

// covered returns the folds that the panel can reach, by its typed ends, and how many
// come before them: the others are never cut.
func (p *Plan) covered(folds []score.Fold) (before int, out []score.Fold) {
	v := p.V.Panel
	if v.Seen || v.Shape == design.Sector {
		return 0, folds
	}
	from, to := v.Along, math.Inf(1)
	switch {
	case v.Shape == design.Polygon:
		from, to = math.Inf(1), math.Inf(-1)
		for _, c := range v.Corners {
			from, to = math.Min(from, v.Along+c.Along), math.Max(to, v.Along+c.Along)
		}
	case v.Length.OK:
		to = v.Along + v.Length.V
	}
	a := sort.Search(len(folds), func(i int) bool { return folds[i].U >= from })
	b := sort.Search(len(folds), func(i int) bool { return folds[i].U > to })
	return a, folds[a:max(a, b)]
}

// span fills in the ends of a use.
func (p *Plan) span(u *Use, ls []score.Layout, passes int, s state.Swing, value valuer, closing bool) {
	at := func(x state.Moved) float64 {
		law, rupture := p.scoring().At(passes, x)
		out := 0.0
		for _, l := range ls {
			out = math.Max(out, worst(l, law, value(law, rupture), closing))
		}
		return out
	}
	u.Low, u.Bad = math.Min(s.Below()*at(s.Down), u.Value), math.Max(at(s.Up), u.Value)
}

// valuer turns a state of sheet and machine into what is read off a fold in it.
type valuer func(hinge.Law, float64) func(hinge.FoldState) float64

func strained(_ hinge.Law, rupture float64) func(hinge.FoldState) float64 {
	return func(s hinge.FoldState) float64 { return s.Strain / rupture }
}

func closed(law hinge.Law, _ float64) func(hinge.FoldState) float64 {
	return func(s hinge.FoldState) float64 { return shut(s, law.Score().Width) }
}

// worst returns the greatest value of the folds in another state of sheet and machine.
// Folds like the one before them are passed over.
func worst(l score.Layout, law hinge.Law, value func(hinge.FoldState) float64, closing bool) float64 {
	out := 0.0
	var last *score.Fold
	known, side := 0.0, hinge.Side{} // one score's land on the right is the next one's on the left
	beside := func(p float64) hinge.Side {
		if p != known {
			known, side = p, law.Beside(p)
		}
		return side
	}
	for i := range l.Folds {
		f := &l.Folds[i]
		if closing && !f.Closing || last != nil && alike(f, last) {
			continue
		}
		last = f
		a := beside(f.Left)
		if v := value(law.FoldBetween(math.Abs(f.Theta), a, beside(f.Right), false)); v > out {
			out = v
		}
	}
	return out
}

// crackAt is how near a fold comes to cracking, as a figure.
func crackAt(f score.Fold) state.Figure {
	return func(l hinge.Law, rupture float64) float64 {
		return l.Fold(math.Abs(f.Theta), f.Left, f.Right, false).Strain / rupture
	}
}

// pinchAt is how near a fold comes to pinching, as a figure.
func pinchAt(f score.Fold) state.Figure {
	return func(l hinge.Law, _ float64) float64 {
		return shut(l.Fold(math.Abs(f.Theta), f.Left, f.Right, false), l.Score().Width)
	}
}

// alike tells that two folds answer the same in any state, to 1e-9.
func alike(a, b *score.Fold) bool {
	near := func(x, y float64) bool { return x == y || x-y <= 1e-9*y && y-x <= 1e-9*x } // of which one may be infinite
	return a.Closing == b.Closing && near(math.Abs(a.Theta), math.Abs(b.Theta)) && near(a.Left, b.Left) && near(a.Right, b.Right)
}

// shut returns how much of the mouth is closed, 1 when it is shut.
func shut(s hinge.FoldState, w float64) float64 { return 1 - s.MouthGap/w }

func (u *Use) take(n int, value float64) {
	if value > u.Value || u.Score == 0 {
		u.Value, u.Score = value, n
	}
}
