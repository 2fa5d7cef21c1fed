package form

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/plane"
	"springrib/internal/surface"
)

const (
	thick = 3.0
	deep  = 2.2
	wide  = 0.2
)

// bow is a strip of n equal folds, pitch apart, the first at the place first.
func bow(n int, first, pitch, theta, height float64) surface.Strip {
	var cs []surface.Crease
	for i := range n {
		cs = append(cs, surface.Crease{U: first + pitch*float64(i), Turn: theta, Height: height})
	}
	return surface.Cylinder(plane.Pt(0, 0), 0.4, true, cs, -50, 50)
}

// scored is a panel of 100 mm with 20 scores on the face away from the contact face, or
// on the contact face.
func scored(outline plane.Region, contact bool) Sheet {
	height := deep + 0.3*(thick-deep)
	if !contact {
		height = thick - height
	}
	return Sheet{
		Outline: outline, Strip: bow(20, 12, 4, 2*math.Pi/180, height),
		Thickness: thick, Depth: deep, Mouth: wide, Root: wide, Contact: contact,
	}
}

func rectangle() plane.Region {
	return plane.Region{Outer: plane.RectPath(plane.Box{Min: plane.Pt(0, -20), Max: plane.Pt(100, 20)})}
}

// shapes are outlines with everything that a slab can meet: ends square to the bend,
// points, arcs, holes, and a side that turns back.
func shapes() map[string]plane.Region {
	return map[string]plane.Region{
		"rectangle": rectangle(),
		"ellipse":   {Outer: plane.CirclePath(plane.Pt(0, 0), 1).Apply(plane.Affine{50, 0, 0, 25, 50, 0})},
		"diamond":   {Outer: plane.Poly(plane.Pt(0, 0), plane.Pt(50, -25), plane.Pt(100, 0), plane.Pt(50, 25))},
		"holes": {Outer: plane.RectPath(plane.Box{Min: plane.Pt(0, -20), Max: plane.Pt(100, 20)}), Holes: []plane.Path{
			plane.CirclePath(plane.Pt(30, 3), 8).Reverse(), plane.Poly(plane.Pt(61, -5), plane.Pt(61, 5), plane.Pt(73, 5), plane.Pt(73, -5)),
		}},
		"hook": {Outer: plane.Poly(plane.Pt(0, -20), plane.Pt(100, -20), plane.Pt(100, 20), plane.Pt(40, 20), plane.Pt(90, 0), plane.Pt(0, 10))},
	}
}

type triangle [3]surface.Vec

// triangles reads a run of places three at a time.
func triangles(xyz []float32) []triangle {
	var out []triangle
	at := func(i int) surface.Vec {
		return surface.Vec{X: float64(xyz[3*i]), Y: float64(xyz[3*i+1]), Z: float64(xyz[3*i+2])}
	}
	for i := 0; i+2 < len(xyz)/3; i += 3 {
		out = append(out, triangle{at(i), at(i + 1), at(i + 2)})
	}
	return out
}

func (t triangle) area() float64 { return t[1].Sub(t[0]).Cross(t[2].Sub(t[0])).Len() / 2 }

// level tells whether the triangle lies at one height.
func (t triangle) level(h float64) bool {
	return math.Abs(t[0].Z-h) < 1e-6 && math.Abs(t[1].Z-h) < 1e-6 && math.Abs(t[2].Z-h) < 1e-6
}

// The faces of the mesh have the areas that the outline has: the skin's face all of it,
// the scored face what the scores leave, and the bottoms of the scores the rest.
func TestMeshCoversTheOutline(t *testing.T) {
	for name, outline := range shapes() {
		for _, contact := range []bool{false, true} {
			s := scored(outline, contact)
			m := NewMesh(s)
			skin, cut, level := 0.0, thick, thick-deep
			if contact {
				skin, cut, level = thick, 0, deep
			}
			var onSkin, onCut, bottoms float64
			for _, tr := range append(triangles(m.Body.Flat), triangles(m.Slots.Flat)...) {
				switch {
				case tr.level(skin):
					onSkin += tr.area()
				case tr.level(cut):
					onCut += tr.area()
				case tr.level(level):
					bottoms += tr.area()
				}
			}
			area := outline.Area()
			assert.InDelta(t, area, onSkin, 0.02+2*flatness*outline.Outer.Length(), name)
			assert.InDelta(t, onSkin, onCut+bottoms, 1e-3*area, name)
			var lines float64
			for _, r := range s.Strip.Rulings {
				for _, sp := range outline.ClipLine(r.Flat[0], r.Flat[1]) {
					lines += sp.Len()
				}
			}
			assert.InDelta(t, lines*wide, bottoms, 0.01*lines*wide+0.01, name)
		}
	}
}

// Every place of the bent mesh is where the frame of its flat puts it, but for the mitre
// at a ruling; and there the flats before and after meet in one place.
func TestBentFlatsAreRigidAndMeet(t *testing.T) {
	for _, contact := range []bool{false, true} {
		s := scored(rectangle(), contact)
		m := NewMesh(s)
		frames := Fold(s.Strip)
		require.Len(t, m.Body.Ends, len(frames))
		meet := map[[3]float32][2][]float32{} // by flat place: as of the flat before, as of the flat after
		at, rigid := 0, 0
		for flat, end := range m.Body.Ends {
			for ; at < end; at++ {
				p, q := m.Body.Flat[3*at:3*at+3], m.Body.Bent[3*at:3*at+3]
				u := float64(p[0])
				first := flat > 0 && math.Abs(u-s.Strip.Rulings[flat-1].Flat[0].X) < 1e-5
				second := flat < len(s.Strip.Rulings) && math.Abs(u-s.Strip.Rulings[flat].Flat[0].X) < 1e-5
				want := frames[flat].At(u, float64(p[1]), float64(p[2]))
				off := want.Sub(surface.Vec{X: float64(q[0]), Y: float64(q[1]), Z: float64(q[2])}).Len()
				if !first && !second {
					require.Less(t, off, 1e-4)
					rigid++
					continue
				}
				require.Less(t, off, thick*math.Tan(math.Pi/180)+1e-4, "no mitre reaches further than half the fold over the thickness")
				key := [3]float32{p[0], p[1], p[2]}
				both := meet[key]
				if second {
					both[0] = q
				} else {
					both[1] = q
				}
				meet[key] = both
			}
		}
		assert.NotZero(t, rigid)
		met := 0
		for key, both := range meet {
			require.NotNil(t, both[0], "%v", key)
			require.NotNil(t, both[1], "%v", key)
			require.Equal(t, both[0], both[1], "to the last bit, or the gap shines through: %v", key)
			met++
		}
		assert.GreaterOrEqual(t, met, 20*2*2, "each ruling at two ends of the skin's two heights")
	}
}

// A score's mouth closes by what the fold turns at its distance from the pivot, and by
// nothing else: 2 (distance) tan(theta/2) along the bisector of the flats.
func TestMouthClosesByTheFold(t *testing.T) {
	s := scored(rectangle(), true) // scored on the hollow side
	s.Strip = bow(20, 12, 4, 2*math.Pi/180, deep+0.3)
	frames := Fold(s.Strip)
	for i, r := range s.Strip.Rulings {
		a := frames[i].At(r.Flat[0].X-wide/2, 0, 0)
		b := frames[i+1].At(r.Flat[0].X+wide/2, 0, 0)
		along := frames[i].U.Add(frames[i+1].U).Unit()
		gap := b.Sub(a).Dot(along)
		want := wide*math.Cos(r.Turn/2) - 2*r.Height[0]*math.Sin(r.Turn/2)
		assert.InDelta(t, want, gap, 1e-9)
	}
}

// A slot that narrows to its bottom slopes between the two widths: no wall stands
// upright, and the slopes fill what lies between.
func TestNarrowingSlotsSlope(t *testing.T) {
	s := scored(rectangle(), false)
	s.Root = wide / 4
	m := NewMesh(s)
	var slopes float64
	for _, tr := range triangles(m.Slots.Flat) {
		n := tr[1].Sub(tr[0]).Cross(tr[2].Sub(tr[0])).Unit()
		require.Greater(t, math.Abs(n.Z), 1e-3, "nothing upright in a slot")
		if !tr.level(thick - deep) {
			slopes += tr.area()
		}
	}
	slant := math.Hypot(deep, (wide-wide/4)/2)
	assert.InDelta(t, 20*2*40*slant, slopes, 0.01)
}

// Mouths wider than the land leave no land standing, and nothing comes out twice.
func TestMouthsThatMeet(t *testing.T) {
	s := scored(rectangle(), false)
	s.Mouth, s.Root = 9, 9
	m := NewMesh(s)
	var cut float64
	for _, tr := range append(triangles(m.Body.Flat), triangles(m.Slots.Flat)...) {
		if tr.level(thick) {
			cut += tr.area()
		}
	}
	// Only before the first and after the last score is there any: 12-4.5 and 12-4.5... of
	// 40 mm, the last score lying at 88.
	assert.InDelta(t, 40*((12-4.5)+(12-4.5)), cut, 0.01)
}

func TestMeshOfAPanelThatStaysFlat(t *testing.T) {
	s := scored(rectangle(), false)
	s.Strip.Rulings = nil
	m := NewMesh(s)
	require.Len(t, m.Body.Ends, 1)
	assert.Empty(t, m.Slots.Flat)
	assert.Empty(t, m.Scores.Flat)
	total := 0.0
	for _, tr := range triangles(m.Body.Bent) {
		total += tr.area()
	}
	assert.InDelta(t, 2*(100*40+100*thick+40*thick), total, 0.01, "a plain box")
}

// The outline is drawn once on each face: lines on the skin's face are as long as it.
func TestEdgesFollowTheOutline(t *testing.T) {
	for name, outline := range shapes() {
		m := NewMesh(scored(outline, false))
		var long float64
		e := m.Edges.Flat
		for i := 0; i+5 < len(e); i += 6 {
			if e[i+2] == 0 && e[i+5] == 0 {
				long += math.Hypot(float64(e[i+3]-e[i]), float64(e[i+4]-e[i+1]))
			}
		}
		want := outline.Outer.Length()
		for _, h := range outline.Holes {
			want += h.Length()
		}
		assert.InDelta(t, want, long, 0.002*want, name)
	}
}

func TestPrismIsTheOutlineRaised(t *testing.T) {
	for name, outline := range shapes() {
		p := NewPrism(outline, Section(), -2, 4)
		var caps, walls float64
		for _, tr := range triangles(p.Faces) {
			if tr.level(-2) || tr.level(4) {
				caps += tr.area()
			} else {
				walls += tr.area()
			}
		}
		around := outline.Outer.Length()
		for _, h := range outline.Holes {
			around += h.Length()
		}
		assert.InDelta(t, 2*outline.Area(), caps, 0.04+4*flatness*around, name)
		assert.InDelta(t, 6*around, walls, 0.002*6*around, name)
		assert.NotEmpty(t, p.Edges)
	}
}

// A part that lies some other way is the same body, carried there.
func TestPrismLiesAsItsFrameSays(t *testing.T) {
	f := surface.Frame{Origin: surface.Vec{X: 5, Y: -3, Z: 2}, U: surface.Vec{Z: 1}, V: surface.Vec{X: 0.6, Y: 0.8}, N: surface.Vec{X: -0.8, Y: 0.6}}
	a, b := NewPrism(rectangle(), Section(), 1, 3), NewPrism(rectangle(), f, 1, 3)
	require.Len(t, b.Faces, len(a.Faces))
	for i := 0; i < len(a.Faces); i += 3 {
		want := f.At(float64(a.Faces[i]), float64(a.Faces[i+1]), float64(a.Faces[i+2]))
		got := surface.Vec{X: float64(b.Faces[i]), Y: float64(b.Faces[i+1]), Z: float64(b.Faces[i+2])}
		require.Less(t, want.Sub(got).Len(), 1e-4)
	}
}
