package plan

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/coupon"
	"springrib/internal/cut"
	"springrib/internal/design"
	"springrib/internal/hinge"
	"springrib/internal/plane"
	"springrib/internal/sheet"
	"springrib/internal/state"
	"springrib/internal/strips"
)

// spots returns where the tongues of a layout lie: the middle of each outline by the
// spot that its label names.
func spots(s strips.Set) map[string][]plane.Point {
	out := map[string][]plane.Point{}
	for _, at := range s.Group.Layout.Placed {
		piece := s.Pieces[at.Piece]
		if piece.Spot != "" {
			out[piece.Spot] = append(out[piece.Spot], piece.Outline.Outer.Apply(at.Move()).Box().Centre())
		}
	}
	return out
}

// Depth strips lie where their labels say, on beds of many sizes, never one on another;
// a bed too small for it says so and has no figures of spots on its strips.
func TestDepthStripsLieOverTheBed(t *testing.T) {
	v := exampleValues(t)[0]
	v.Strips.Which = design.DepthStrip
	assert.False(t, v.Strips.Corners, "they lie together until the corners are asked for")
	v.Strips.Corners = true
	spread, cramped, across, fewer := 0, 0, 0, 0
	for _, bed := range [][2]float64{{600, 400}, {400, 600}, {300, 200}, {280, 180}, {200, 300}, {150, 320}, {1200, 900}, {150, 150}, {140, 90}, {280, 100}} {
		v.Machine.BedWidth, v.Machine.BedHeight = bed[0], bed[1]
		p := Make(v)
		s := p.TestStrips()
		assert.Empty(t, sheet.Verify(&s.Group.Job, &s.Group.Layout), "%v", bed)
		require.NotEqual(t, s.Spread, s.Cramped, "%v", bed)
		got := spots(s)
		if s.Cramped {
			cramped++
			assert.Empty(t, got, "%v: no tongue says where it was cut", bed)
			assert.Len(t, s.Pieces, 7)
			continue
		}
		spread++
		assert.Len(t, s.Pieces, 11)
		w, h := bed[0]/2, bed[1]/2
		for spot, sign := range map[string]plane.Point{"1": plane.Pt(-1, -1), "2": plane.Pt(1, -1), "3": plane.Pt(-1, 1), "4": plane.Pt(1, 1)} {
			require.Len(t, got[spot], 1)
			q := got[spot][0].Sub(plane.Pt(w, h))
			assert.Positive(t, q.X*sign.X, "%v spot %s", bed, spot)
			assert.Positive(t, q.Y*sign.Y, "%v spot %s", bed, spot)
			// No further from the corner than a tongue is long.
			assert.Less(t, math.Hypot(w-math.Abs(q.X), h-math.Abs(q.Y)), 90.0, "%v spot %s", bed, spot)
		}
		if len(got["5"]) < 6 {
			fewer++
			assert.Len(t, got["5"], 2, "those of the design's passes")
		}
		mean := plane.Point{}
		for _, q := range got["5"] {
			mean = mean.Add(q.Mul(1 / float64(len(got["5"]))))
			assert.Less(t, q.Dist(plane.Pt(w, h)), 140.0)
		}
		assert.Less(t, mean.Dist(plane.Pt(w, h)), 1.0, "%v: they lie about the middle", bed)
		for _, at := range s.Group.Layout.Placed {
			if s.Pieces[at.Piece].Spot == "1" && at.Turn != 0 {
				across++
			}
		}
	}
	t.Logf("%d beds spread, %d of them across, %d with fewer at the centre, %d too small", spread, across, fewer, cramped)
	assert.Positive(t, across)
	assert.Positive(t, fewer)
	assert.Equal(t, 2, cramped)
}

// The label ends in the figure of the spot, which is marked like the rest of it; all in
// one place there is none, and no more tongues than need be.
func TestSpotsAreLabelled(t *testing.T) {
	v := exampleValues(t)[0]
	v.Strips.Which = design.DepthStrip
	v.Strips.Corners = true
	p := Make(v)
	strokes := func(s coupon.Strip) (n int) {
		for _, w := range s.Work {
			if w.Kind == cut.Mark {
				n++
			}
		}
		return n
	}
	by := map[string]coupon.Strip{}
	for _, s := range p.TestStrips().Pieces {
		by[s.ID] = s
	}
	v.Strips.Corners = false
	q := Make(v)
	plain := q.TestStrips()
	assert.False(t, plain.Spread || plain.Cramped)
	for _, s := range plain.Pieces {
		assert.Empty(t, s.Spot)
		if s.Passes == 0 {
			assert.Contains(t, by, s.ID, "the tongue without scores is the same")
			continue
		}
		five, ok := by[s.ID+"-5"]
		require.True(t, ok, s.ID)
		assert.Equal(t, strokes(s)+1, strokes(five), "one stroke more: a 5")
	}
	// A saw's table has no corners.
	d := design.Examples()[0].Design
	d.Machine.Tool, d.Machine.Depths, d.Strips.Where = "saw", []string{"0.8"}, design.Corners
	saw, _ := design.Read(d)
	assert.False(t, saw.Strips.Corners)
}

// tilted types the readings of a bed whose right side leaves more skin by tilt and the
// left side less: tongues hang by the law and the elastica.
func tilted(d *design.Document, tilt float64) {
	truth := hinge.Material{E: 3300, NuXY: .3, NuXZ: .3, EZ: .08 * 3300, GXZ: .06 * 3300, Narrow: true}
	add := func(spot string, passes int, p, skin float64, loads ...float64) {
		ei, weight := 12*truth.E*27/12, 750e-9*9.80665*3*12
		if passes > 0 {
			ei = 12 * hinge.New(truth, hinge.Score{Thickness: 3, Depth: 3 - skin, Width: .2}).Stiffness(p)
			weight *= 1 - (3-skin)*.2/(3*p)
		}
		for _, g := range loads {
			r := design.Reading{Kind: "sag", Load: f(g), Value: f(coupon.Tongue{Length: 80, Weight: weight}.Bend(ei, g*9.80665e-3).Drop), Spot: spot}
			if passes > 0 {
				r.Passes, r.Spacing = "2", f(p)
			}
			d.Strips.Readings = append(d.Strips.Readings, r)
		}
	}
	add("", 0, 0, 0, 100, 300)
	add("5", 2, .9, .8, 10, 30)
	add("5", 2, 2.4, .8, 20, 60)
	for spot, side := range map[string]float64{"lower left": -1, "2": 1, "3": -1, "Upper right": 1} {
		add(spot, 2, .9, .8+side*tilt, 10, 30)
	}
}

// Readings typed in with the spot on the label, or in words, give the ranges the spread
// over this bed: wide on one that hangs, narrow on a level one, whatever was typed.
func TestRangesCountWithTheBed(t *testing.T) {
	d := design.Empty()
	d.Sheet.Readings = []string{"3.00", "3.01", "3.00", "2.99", "3.00"}
	d.Machine.Depths, d.Machine.ScoreWidth, d.Machine.DepthSpread = []string{"1.2", "2.1", "2.5"}, "0.2", "0.08"
	d.Curve.Radius, d.Curve.Angle, d.Panel.Width, d.Panel.Passes = "150", "90", "80", "2"
	plan := func(tilt float64) Plan {
		e := d
		e.Strips.Readings = nil
		tilted(&e, tilt)
		v, found := design.Read(e)
		require.Empty(t, found)
		p := Make(v)
		require.True(t, p.Drawn)
		require.Equal(t, 5, p.Readings.Learned.OverBed.N, "five spots, two of them in words")
		return p
	}
	level, hung := plan(0), plan(.1)
	assert.InDelta(t, .02, level.V.Machine.DepthSpread, .005, "no less than along one line")
	assert.InDelta(t, state.NineInTen*.1, hung.V.Machine.DepthSpread, .02)
	assert.InDelta(t, .8, hung.V.Sheet.T-hung.V.Machine.Depths[1], .03, "the mean over the bed")
	assert.Greater(t, hung.V.Machine.Spread(2), 2*level.V.Machine.Spread(2))
	width := func(r state.Range) float64 { return r.High - r.Low }
	share := func(r state.Range) float64 {
		for _, c := range r.From {
			if c.Of == state.Depth {
				return c.Share
			}
		}
		return 0
	}
	assert.Greater(t, share(hung.Proof.Ranges.Cracking), 1.5*share(level.Proof.Ranges.Cracking))
	assert.Greater(t, width(hung.Proof.Ranges.Force), 1.15*width(level.Proof.Ranges.Force), "much of it is the stiffness of the sheet")
	assert.Equal(t, state.Depth, hung.Proof.Ranges.Force.From[0].Of, "it comes from the depth more than from anything else")
	assert.True(t, said(hung, coupon.IDUneven))
	assert.False(t, said(level, coupon.IDUneven))
}

// A fit strip typed in slot by slot is what the base's slots are cut to, to the
// hundredth, unless a clearance was written by hand.
func TestSlotsFitAsTheStripSays(t *testing.T) {
	d := design.Examples()[0].Design
	d.Rib.Foot, d.Base.Kind = "tenon", "row"
	slots := func() (Plan, float64, float64) {
		v, found := design.Read(d)
		require.Empty(t, found)
		p := Make(v)
		require.NotNil(t, p.Base)
		s := p.Base.Slots[0]
		return p, s.Width - v.Rib.Thickness, s.Length - p.Supports.All[0].Task.Stub.Width
	}
	_, w, l := slots()
	assert.InDelta(t, .1, w, 1e-9, "a laser's usual clearance")
	assert.InDelta(t, .1, l, 1e-9)
	for i, verdict := range []string{"tight", "tight", "good", "good", "loose", "loose", "loose"} {
		d.Strips.Readings = append(d.Strips.Readings, design.Reading{Kind: "fit", Value: f(-.2 + .1*float64(i)), Verdict: verdict})
	}
	p, w, l := slots()
	assert.InDelta(t, .05, w, 1e-9, "the mean of 0.0 and 0.1")
	assert.InDelta(t, .05, l, 1e-9)
	// As cut: the slot's own path, grown by half a kerf on both sides, is thickness and clearance.
	found := false
	for _, work := range p.Base.Work {
		if work.Kind == cut.Inner {
			found = true
			b := work.Path.Box()
			assert.InDelta(t, p.V.Rib.Thickness+.05-p.V.Machine.Kerf, math.Min(b.W(), b.H()), .011)
		}
	}
	assert.True(t, found)
	d.Strips.Readings = d.Strips.Readings[:2:2]
	d.Strips.Readings = append(d.Strips.Readings, design.Reading{Kind: "fit", Value: ".2", Verdict: "loose"})
	_, w, _ = slots()
	assert.InDelta(t, .05, w, 1e-9, "half way from tight at -0.1 to loose at 0.2")
	d.Rib.Fit = "0.15"
	_, w, _ = slots()
	assert.InDelta(t, .15, w, 1e-9, "as typed")
}
