package plan

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/learn"
	"springrib/internal/section"
	"springrib/internal/unit"
)

// The line is made of its figures alone. An arc of span c and rise h has the radius
// (c^2/4 + h^2)/(2h) (any table of circular segments), straights at its ends lengthen it, a
// line through points runs through them, and one that crosses itself is told.
func TestLineFromFigures(t *testing.T) {
	c := &design.CurveValues{Kind: design.SpanRise, Span: 100, Rise: 20, Foot: 10, Tip: 5}
	got, said, ok := section.Line(c, unit.MM)
	require.True(t, ok, "%+v", said)
	r := (100.0*100/4 + 20*20) / (2 * 20)
	k, _ := got.Tightest()
	assert.InDelta(t, r, 1/k, 1e-9)
	assert.InDelta(t, 2*math.Asin(50/r)*r+15, got.Length(), 1e-9)

	c = &design.CurveValues{Kind: design.Points, Points: [][2]float64{{0, 0}, {60, 30}, {120, 0}}, PointRows: []int{0, 1, 2}}
	got, said, ok = section.Line(c, unit.MM)
	require.True(t, ok, "%+v", said)
	near := math.Inf(1)
	for i := range 1001 {
		p := got.At(got.Length() * float64(i) / 1000).P
		near = math.Min(near, math.Hypot(p.X-60, p.Y-30))
	}
	assert.Less(t, near, 0.1)

	c = &design.CurveValues{Kind: design.LengthRadius, Radius: 20, Length: 20 * 7} // more than once round
	_, said, ok = section.Line(c, unit.Inch)
	require.False(t, ok)
	require.Len(t, said, 1)
	assert.Equal(t, "curve-crosses", said[0].ID)
	assert.Equal(t, "curve.radius", said[0].Place.Field)

	_, said, ok = section.Line(&design.CurveValues{Kind: design.Chain}, unit.MM)
	require.False(t, ok)
	assert.Equal(t, "curve-empty", said[0].ID)
}

// A depth strip moves the depth that is worked with, and not what was typed.
func TestLearnLeavesWhatWasAsked(t *testing.T) {
	d := ply()
	d.Strips.Readings = []design.Reading{{Kind: "skin", Passes: "1", Value: "2.5"}, {Kind: "skin", Passes: "1", Value: "2.5"}}
	d.Strips.Damp = true
	asked, _ := design.Read(d)
	same, _ := design.Read(d)
	v := asked
	got, said := learn.From(&v)
	assert.Equal(t, same, asked)
	require.NotNil(t, got.Learned)
	assert.Equal(t, 2, got.Learned.Skins[0].N)
	assert.NotEqual(t, asked.Machine.Depths[0], v.Machine.Depths[0])
	assert.NotEmpty(t, said, "that the air has turned")
}

// Nothing is written to what a person asked for, by any stage.
func TestNothingIsWrittenToWhatWasAsked(t *testing.T) {
	docs := []design.Document{ply(), shaped("sector", nil)}
	for _, e := range design.Examples() {
		docs = append(docs, e.Design)
	}
	scrap := archDesign() // whose outline crosses itself
	scrap.Cut.Scrap = []design.ScrapPoint{{X: "0", Y: "0"}, {X: "300", Y: "300"}, {X: "300", Y: "0"}, {X: "0", Y: "200"}}
	docs = append(docs, scrap)
	for _, d := range docs {
		asked, _ := design.Read(d)
		same, _ := design.Read(d)
		p := Make(asked)
		mend(&p)
		assert.Equal(t, same, asked, d.Name)
		assert.Equal(t, same, *p.Asked, d.Name)
	}
	p := must(t, scrap)
	assert.True(t, has(p, "scrap-crosses"))
	assert.Len(t, p.V.Cut.Scrap, 4)
}
