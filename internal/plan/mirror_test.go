package plan

import (
	"math/rand/v2"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/finding"
)

// planned returns a design's plan where it comes to one.
func planned(d design.Document) (Plan, bool) {
	v, found := design.Read(d)
	if finding.Worst(found) == finding.Stop {
		return Plan{}, false
	}
	p := Make(v)
	return p, p.Drawn
}

// same holds two plans to the same choice of passes and the same scores, at places that
// at maps from the one to the other.
func same(t *testing.T, p, q Plan, at func(u float64) float64, msg string) {
	t.Helper()
	require.Equal(t, p.Try().Passes, q.Try().Passes, msg)
	require.Len(t, q.Scores.Layout.Folds, len(p.Scores.Layout.Folds), msg)
	n := len(p.Scores.Layout.Folds)
	for i, f := range p.Scores.Layout.Folds {
		j := i
		if at(1) < at(0) {
			j = n - 1 - i
		}
		g := q.Scores.Layout.Folds[j]
		assert.InDelta(t, at(f.U), g.U, 1e-6, msg)
		assert.InDelta(t, f.Theta, g.Theta, 1e-9, msg)
		assert.InDelta(t, f.D, g.D, 1e-9, msg)
	}
	assert.InDelta(t, p.Scores.Cracking.Value, q.Scores.Cracking.Value, 1e-7, msg)
	assert.InDelta(t, p.Scores.Pinching.Value, q.Scores.Pinching.Value, 1e-7, msg)
}

func negated(text string) string {
	if v, err := strconv.ParseFloat(text, 64); err == nil && v != 0 {
		return strconv.FormatFloat(-v, 'f', -1, 64)
	}
	return text
}

// acrossTwin returns a design with its outline, holes and ribs turned over about the
// middle line.
func acrossTwin(d design.Document) design.Document {
	d = design.Clone(d)
	p := &d.Panel
	p.Across = negated(p.Across)
	for i := range p.Corners {
		p.Corners[i].Across = negated(p.Corners[i].Across)
	}
	slices.Reverse(p.Corners)
	for i := range p.Holes {
		p.Holes[i].Across, p.Holes[i].Turn = negated(p.Holes[i].Across), negated(p.Holes[i].Turn)
	}
	for i := range d.Rib.Places {
		d.Rib.Places[i].Across = negated(d.Rib.Places[i].Across)
	}
	return d
}

// A design turned over about its middle line has the same scores, each running over the
// mirror image of where it ran, and the same ribs at mirrored places.
func TestTwinAcross(t *testing.T) {
	r := rand.New(rand.NewPCG(101, 102))
	for done := 0; done < 60; {
		d := randomDesign(r)
		if d.Curve.Kind == "box" || d.Curve.Kind == "oval" {
			continue
		}
		d = randomOutline(r, d)
		p, ok := planned(d)
		q, too := planned(acrossTwin(d))
		require.Equal(t, ok, too, "%+v", d)
		if !ok {
			continue
		}
		done++
		msg := d.Curve.Kind + " " + d.Panel.Shape
		same(t, p, q, func(u float64) float64 { return u }, msg)
		assert.InDelta(t, p.Outline.From, q.Outline.From, 1e-6, msg)
		assert.InDelta(t, p.Outline.To, q.Outline.To, 1e-6, msg)
		require.Len(t, q.Panel.Flat.Segments, len(p.Panel.Flat.Segments), msg)
		// What one score runs over is listed along it, so within a score the order turns.
		lows := func(p Plan, sign float64) map[int][]float64 {
			out := map[int][]float64{}
			for _, s := range p.Panel.Flat.Segments {
				out[s.Score] = append(out[s.Score], sign*s.A.Y, sign*s.B.Y)
			}
			for _, ys := range out {
				slices.Sort(ys)
			}
			return out
		}
		a, b := lows(p, 1), lows(q, -1)
		for n := range a {
			require.Len(t, b[n], len(a[n]), msg)
			for i := range a[n] {
				assert.InDelta(t, a[n][i], b[n][i], 0.02, "%s score %d", msg, n) // twice what outlines are fitted to
			}
		}
		require.Len(t, q.Supports.All, len(p.Supports.All), msg)
		for i, s := range p.Supports.All {
			o := q.Supports.All[len(q.Supports.All)-1-i]
			assert.InDelta(t, s.Across, -o.Across, 1e-9, msg)
			assert.InDelta(t, s.Task.Start, o.Task.Start, 0.05, msg)
			assert.InDelta(t, s.Task.End, o.Task.End, 0.05, msg)
		}
	}
}

// row is a random row of bends.
func row(r *rand.Rand) design.Document {
	d := randomDesign(r)
	for d.Curve.Kind != "chain" {
		d = randomDesign(r)
	}
	d.Curve.Foot, d.Curve.Tip = f(30*r.Float64()), f(30*r.Float64())
	if r.IntN(4) == 0 {
		d.Curve.Foot = "0"
	}
	return d
}

// A row of bends that turns the other way throughout is the mirror image: what was
// hollow is, and all else stays.
func TestTwinTurnedTheOtherWay(t *testing.T) {
	r := rand.New(rand.NewPCG(103, 104))
	for done := 0; done < 60; {
		d := row(r)
		w := design.Clone(d)
		for i := range w.Curve.Pieces {
			if other := map[string]string{"over": "back", "back": "over"}[w.Curve.Pieces[i].Turn]; other != "" {
				w.Curve.Pieces[i].Turn = other
			}
		}
		p, ok := planned(d)
		q, too := planned(w)
		require.Equal(t, ok, too, "%+v", d)
		if !ok {
			continue
		}
		done++
		assert.Equal(t, p.Section.PanelLeft, q.Section.PanelLeft, "the first bend is drawn turning right, whatever it is called")
		same(t, p, q, func(u float64) float64 { return u }, "the other way")
		assert.InDelta(t, p.Strength.Hold.Rib.Movement, q.Strength.Hold.Rib.Movement, 1e-6*(1+p.Strength.Hold.Rib.Movement))
	}
}

// A row of bends from its other end has the same scores counted from there, where its
// first and its last bend go the same way, so that hollow means the same side.
func TestTwinFromTheOtherEnd(t *testing.T) {
	r := rand.New(rand.NewPCG(105, 106))
	for done := 0; done < 60; {
		d := row(r)
		var turns []string
		for _, pc := range d.Curve.Pieces {
			if pc.Turn != "straight" {
				turns = append(turns, pc.Turn)
			}
		}
		if turns[0] != turns[len(turns)-1] {
			continue
		}
		w := design.Clone(d)
		slices.Reverse(w.Curve.Pieces)
		w.Curve.Foot, w.Curve.Tip = d.Curve.Tip, d.Curve.Foot
		p, ok := planned(d)
		if ok { // a rib tapers from its foot, so that another number of passes may be softer on it
			w.Panel.Passes = strconv.Itoa(p.Try().Passes)
		}
		q, too := planned(w)
		if !ok || !too { // a rib tapers from its foot, so that one may be too deep
			continue
		}
		done++
		length := p.Scores.Layout.Length
		require.InDelta(t, length, q.Scores.Layout.Length, 1e-6, "%+v %s %+v", d.Curve, d.Rib.Side, d.Panel)
		same(t, p, q, func(u float64) float64 { return length - u }, "from the other end")
	}
}
