package view

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/form"
	"springrib/internal/plane"
	"springrib/internal/surface"
	"springrib/internal/wire"
)

// inSpace returns a design's plan with its bodies.
func inSpace(t *testing.T, d design.Document) (wire.PlanView, wire.Space, [][]float32) {
	t.Helper()
	v, arrays, err := Core{}.Plan(raw(t, d), wire.Show{Kind: "space", Untried: true})
	require.NoError(t, err)
	require.True(t, v.Drawn, "%+v", v.Findings)
	require.NotNil(t, v.Space)
	require.Len(t, arrays, len(v.Drawings)+wire.SpaceArrays)
	require.Equal(t, len(v.Drawings), v.Space.First)
	return v, *v.Space, arrays[v.Space.First:]
}

func place(a []float32, i int) surface.Vec {
	return surface.Vec{X: float64(a[3*i]), Y: float64(a[3*i+1]), Z: float64(a[3*i+2])}
}

// What the page is told of the arrays fits them, for every kind of design.
func TestSpaceFitsItsArrays(t *testing.T) {
	for name, d := range bends() {
		v, s, a := inSpace(t, d)
		flats := s.Scores + 1
		w, cut := planned(d), 0 // a score that the panel doesn't reach folds, but nobody cuts it
		for _, f := range w.plan.Scores.Layout.Folds {
			spans := w.plan.Outline.Region.ClipLine(plane.Pt(f.U, 0), plane.Pt(f.U, 1))
			if slices.ContainsFunc(spans, func(s plane.Span) bool { return !s.Graze }) {
				cut++
			}
		}
		assert.Len(t, w.plan.Scores.Layout.Folds, s.Scores, name)
		assert.Len(t, v.Scores, cut, name)
		for i, ends := range [][]int{s.Body, s.Slots, s.Edges, s.Lines} {
			flat, bent := a[2*i], a[2*i+1]
			require.Len(t, ends, flats, name)
			require.Len(t, bent, len(flat), name)
			require.Equal(t, 3*ends[flats-1], len(flat), name)
			size := []int{3, 3, 2, 2}[i]
			for k, e := range ends {
				require.Zero(t, e%size, "a flat ends with a whole triangle or line")
				require.True(t, k == 0 || e >= ends[k-1])
			}
		}
		require.Len(t, a[8], 3*s.Scores)
		require.Len(t, a[9], 3*s.Scores)
		require.Len(t, a[10], 16*flats)
		require.Len(t, a[11], 7*s.Scores)
		last := s.Ribs[len(s.Ribs)-1]
		require.Equal(t, 3*last.Faces, len(a[12]))
		require.Equal(t, 3*last.Edges, len(a[13]))
		require.NotEmpty(t, a[12], name)
		for k := range 3 {
			require.Less(t, s.Bent[k], s.Bent[k+3])
			require.Less(t, s.Straight[k], s.Straight[k+3])
		}
		for _, run := range a {
			for _, n := range run {
				require.False(t, math.IsNaN(float64(n)) || math.IsInf(float64(n), 0), name)
			}
		}
	}
}

// carry puts a flat place where the page puts it: by the frame of the flat that is last
// to lie, turned about the next hinge by a share of its fold.
func carry(a [][]float32, folded int, share float64, p surface.Vec) surface.Vec {
	m := a[10][16*folded:]
	out := surface.Vec{
		X: float64(m[0])*p.X + float64(m[4])*p.Y + float64(m[8])*p.Z + float64(m[12]),
		Y: float64(m[1])*p.X + float64(m[5])*p.Y + float64(m[9])*p.Z + float64(m[13]),
		Z: float64(m[2])*p.X + float64(m[6])*p.Y + float64(m[10])*p.Z + float64(m[14]),
	}
	if share == 0 {
		return out
	}
	h := a[11][7*folded:]
	at := surface.Vec{X: float64(h[0]), Y: float64(h[1]), Z: float64(h[2])}
	axis := surface.Vec{X: float64(h[3]), Y: float64(h[4]), Z: float64(h[5])}
	c, s := math.Cos(float64(h[6])*share), math.Sin(float64(h[6])*share)
	v := out.Sub(at)
	return at.Add(v.Mul(c)).Add(axis.Cross(v).Mul(s)).Add(axis.Mul(axis.Dot(v) * (1 - c)))
}

// Bent as the page bends it, every place of the panel that is no mitre comes to where
// the bent arrays have it once all before it is folded; and at any share the straight
// part lies as form folds the strip so far.
func TestTheMotionOfThePageEndsInTheBentPanel(t *testing.T) {
	for name, d := range bends() {
		_, s, a := inSpace(t, d)
		at := 0
		for flat, end := range s.Body {
			for ; at < end; at += 7 {
				off := carry(a, flat, 0, place(a[0], at)).Sub(place(a[1], at)).Len()
				require.Less(t, off, 0.2, "%s: no mitre is longer than that", name)
			}
		}
		doc, err := document(raw(t, d))
		require.NoError(t, err)
		w := planned(doc)
		for _, share := range []float64{0.2, 0.55, 0.93} {
			folded := share * float64(s.Scores)
			k := int(folded)
			frames := form.Partly(w.strip(), folded)
			p := place(a[0], s.Body[len(s.Body)-1]-1)
			want := frames[len(frames)-1].At(p.X, p.Y, p.Z)
			require.Less(t, carry(a, k, folded-float64(k), p).Sub(want).Len(), 0.01, name)
		}
	}
}

// Looked at from outside, with the foot to the left, the face that shows is seen as its
// outline was given, whichever side it is and wherever the rib sits.
func TestTheShowFaceIsNotMirrored(t *testing.T) {
	for _, show := range []string{design.Hollow, design.Round} {
		for _, side := range []string{design.Hollow, design.Round} {
			d := bends()["polygon with holes, two ribs"]
			d.Panel.ShowFace, d.Rib.Side = show, side
			d.Panel.ScoredFace = side
			doc, err := document(raw(t, d))
			require.NoError(t, err)
			w := planned(doc)
			f := w.strip().Start
			outward := f.N
			if show == side {
				outward = f.N.Mul(-1) // the contact face
			}
			assert.InDelta(t, 1, f.U.Cross(f.V).Dot(outward), 1e-12, "%s %s", show, side)
		}
	}
}

// Ribs stand where they are given, across the panel.
func TestRibsStandInTheirPlaces(t *testing.T) {
	_, s, a := inSpace(t, bends()["ribs at places, panel set off"])
	require.Len(t, s.Ribs, 2)
	from := 0
	for i, want := range []float64{-20, 25} {
		lo, hi := math.Inf(1), math.Inf(-1)
		for k := from; k < s.Ribs[i].Faces; k++ {
			z := place(a[12], k).Z
			lo, hi = math.Min(lo, z), math.Max(hi, z)
		}
		from = s.Ribs[i].Faces
		assert.InDelta(t, want, math.Abs((lo+hi)/2)*math.Copysign(1, want), 1e-4)
		assert.InDelta(t, 3.01, hi-lo, 1e-4, "as thick as the sheet")
	}
}

// onBase is a design whose ribs stand in a base by tenons.
func onBase(kind string) design.Document {
	d := bends()["ribs at places, panel set off"]
	d.Rib.Foot = design.Tenon
	d.Base.Kind = kind
	d.Panel.Quantity = "3"
	d.Panel.Along = ""
	return d
}

// The tenons of the ribs go through the slots of the base, and the base lies square
// under the foot.
func TestTheBaseLiesUnderTheRibs(t *testing.T) {
	for _, kind := range []string{design.RowBase, design.RingBase} {
		for _, side := range []string{design.Hollow, design.Round} {
			d := onBase(kind)
			d.Rib.Side, d.Panel.ScoredFace = side, side
			doc, err := document(raw(t, d))
			require.NoError(t, err)
			w := planned(doc)
			require.NotNil(t, w.plan.Base, "%+v", w.findings)
			base, ok := w.base()
			require.True(t, ok)
			through := 0
			for _, b := range w.plates() {
				if b.ref == "base" {
					continue
				}
				for _, loop := range form.Outlines(b.outline) {
					for _, q := range loop {
						for _, h := range []float64{b.h0, b.h1} {
							v := b.frame.At(q.X, q.Y, h).Sub(base.frame.Origin)
							if v.Dot(base.frame.N) > -1e-6 {
								continue
							}
							at := plane.Pt(v.Dot(base.frame.U), v.Dot(base.frame.V))
							assert.False(t, base.outline.Contains(at), "%s %s: a tenon in the wood of the base at %v", kind, side, at)
							assert.True(t, base.outline.Outer.Contains(at))
							through++
						}
					}
				}
			}
			assert.GreaterOrEqual(t, through, 2*2*2, "two corners of two tenons, both sides")
			assert.InDelta(t, 0, base.frame.N.Dot(w.strip().Start.N), 1e-9)
		}
	}
}

// carried16 is a place carried by the k-th matrix of an array, column by column.
func carried16(a []float32, k int, p surface.Vec) surface.Vec {
	m := a[16*k:]
	return surface.Vec{
		X: float64(m[0])*p.X + float64(m[4])*p.Y + float64(m[8])*p.Z + float64(m[12]),
		Y: float64(m[1])*p.X + float64(m[5])*p.Y + float64(m[9])*p.Z + float64(m[13]),
		Z: float64(m[2])*p.X + float64(m[6])*p.Y + float64(m[10])*p.Z + float64(m[14]),
	}
}

// Every panel of a base stands in slots of its own: what of its ribs lies below the
// base's face lies in a slot, and no slot is left empty.
func TestEveryPanelStandsInTheBase(t *testing.T) {
	for kind, panels := range map[string]int{design.RowBase: 3, design.RingBase: 3, design.PlacesBase: 2} {
		for _, side := range []string{design.Hollow, design.Round} {
			d := onBase(kind)
			d.Rib.Side, d.Panel.ScoredFace = side, side
			d.Base.Places = []design.BasePlace{{X: "0", Y: "0"}, {X: "90", Y: "140", Turn: "115"}}
			doc, err := document(raw(t, d))
			require.NoError(t, err)
			w := planned(doc)
			base, ok := w.base()
			require.True(t, ok, "%+v", w.findings)
			_, s, a := inSpace(t, d)
			require.Len(t, a[14], 16*(panels-1), kind)
			require.Equal(t, 2, s.Own)
			require.Equal(t, "base", s.Ribs[s.Own].Ref)
			filled := map[int]bool{}
			for k := -1; k < panels-1; k++ {
				for i := range s.Ribs[s.Own-1].Faces {
					q := place(a[12], i)
					if k >= 0 {
						q = carried16(a[14], k, q)
					}
					v := q.Sub(base.frame.Origin)
					if v.Dot(base.frame.N) > -1e-3 {
						continue
					}
					at, found := plane.Pt(v.Dot(base.frame.U), v.Dot(base.frame.V)), false
					for h, hole := range base.outline.Holes {
						if hole.Reverse().Contains(at) || hole.Contains(at) {
							filled[h], found = true, true
						}
					}
					require.True(t, found, "%s %s: panel %d has a tenon in no slot, at %v", kind, side, k+2, at)
				}
			}
			assert.Len(t, filled, 2*panels, "%s %s", kind, side)
		}
	}
}

// A panel carried to its place keeps its shape and hand.
func TestPanelsAreCarriedAsTheyAre(t *testing.T) {
	_, _, a := inSpace(t, onBase(design.RingBase))
	o := surface.Vec{}
	for k := range len(a[14]) / 16 {
		x := carried16(a[14], k, surface.Vec{X: 1}).Sub(carried16(a[14], k, o))
		y := carried16(a[14], k, surface.Vec{Y: 1}).Sub(carried16(a[14], k, o))
		z := carried16(a[14], k, surface.Vec{Z: 1}).Sub(carried16(a[14], k, o))
		assert.InDelta(t, 1, x.Cross(y).Dot(z), 1e-4)
		for _, pair := range [][2]surface.Vec{{x, y}, {y, z}, {z, x}} {
			assert.InDelta(t, 0, pair[0].Dot(pair[1]), 1e-4)
			assert.InDelta(t, 1, pair[0].Len(), 1e-4)
		}
	}
	_, s, a := inSpace(t, bends()["ribs at places, panel set off"])
	assert.Empty(t, a[14], "no base, no others")
	assert.Equal(t, len(s.Ribs), s.Own)
}

func TestNearScoresAreMarkedInRuns(t *testing.T) {
	d := bends()["radius and angle"]
	d.Panel.Spacing, d.Panel.Count = design.FixedCount, "14"
	v, s, _ := inSpace(t, d)
	near := map[int]bool{}
	for _, sc := range v.Scores {
		near[sc.N] = sc.Near
	}
	marked := map[int]bool{}
	for _, m := range s.Marks {
		assert.False(t, near[m.First-1], "a run is as long as it can be")
		assert.False(t, near[m.Last+1])
		assert.GreaterOrEqual(t, m.At, m.First)
		assert.LessOrEqual(t, m.At, m.Last)
		assert.NotEmpty(t, m.Text)
		for n := m.First; n <= m.Last; n++ {
			marked[n] = true
		}
	}
	assert.NotEmpty(t, s.Marks)
	for n, is := range near {
		assert.Equal(t, is, marked[n])
	}
	_, calm, _ := inSpace(t, bends()["span and rise"])
	assert.Empty(t, calm.Marks)
}

// The isometric drawing shows the same panel: lengths along X, Y and Z in one scale (ISO
// 5456-3, axonometric representations, isometric axonometry), bent so far as is asked.
func TestIsometric(t *testing.T) {
	o, x, y, z := seen(surface.Vec{}), seen(surface.Vec{X: 1}), seen(surface.Vec{Y: 1}), seen(surface.Vec{Z: 1})
	for _, p := range []plane.Point{x, y, z} {
		assert.InDelta(t, 1, p.Dist(o), 1e-12)
	}
	for _, pair := range [][2]plane.Point{{x, y}, {y, z}, {z, x}} {
		assert.InDelta(t, -0.5, pair[0].Dot(pair[1]), 1e-12, "the axes are 120 degrees apart")
	}
	for name, d := range bends() {
		var before []float32
		for _, share := range []float64{0, 0.5, 1} {
			v, arrays, err := Core{}.Plan(raw(t, d), wire.Show{Kind: "isometric", Folded: share, Untried: true})
			require.NoError(t, err)
			dr := v.Drawings[len(v.Drawings)-1]
			require.Equal(t, "isometric", dr.ID)
			roles, scores := map[string]bool{}, 0
			for _, it := range dr.Items {
				roles[it.Role] = true
				if it.Role == "score" {
					scores++
				}
			}
			for _, r := range []string{"face", "flank", "plate", "wall"} {
				assert.True(t, roles[r], "%s has no %s", name, r)
			}
			assert.LessOrEqual(t, scores, len(v.Scores))
			now := arrays[len(arrays)-1]
			assert.NotEqual(t, len(before) == len(now) && same(before, now), true, "%s at %v", name, share)
			before = now
		}
	}
}

// Where there is no WebGL every panel of a base is drawn too.
func TestIsometricHasEveryPanel(t *testing.T) {
	count := func(d design.Document, role string) int {
		v, _, err := Core{}.Plan(raw(t, d), wire.Show{Kind: "isometric", Folded: 0.6, Untried: true})
		require.NoError(t, err)
		n := 0
		for _, it := range v.Drawings[len(v.Drawings)-1].Items {
			if it.Role == role {
				n++
			}
		}
		return n
	}
	for _, kind := range []string{design.RowBase, design.RingBase} {
		d := onBase(kind)
		d.Panel.Quantity = "1"
		one := count(d, "plate")
		require.Equal(t, 3, one, "two ribs and the base")
		d.Panel.Quantity = "3"
		assert.Equal(t, 7, count(d, "plate"), kind)
		assert.Greater(t, count(d, "face"), 60)
	}
}

func same(a, b []float32) bool {
	for i := range a {
		if a[i] != b[i] {
			return false
		}
	}
	return true
}
