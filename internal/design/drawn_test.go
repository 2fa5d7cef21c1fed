package design

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/finding"
)

func drawnDesign() Document {
	d := typedDesign()
	d.Panel.Shape = Drawn
	d.Panel.Drawn = Drawing{
		Source: "tray side.svg", Outline: "M 0 0 L 200 0 L 200 90 L 0 90 Z",
		Holes: []string{"M 20 20 L 20 30 L 30 30 Z"}, Marks: []string{"M 5 5 L 9 9", "M 6 5 L 10 9"},
	}
	return d
}

func stateOf(t *testing.T, d Document, path string) State {
	t.Helper()
	_, _, states := ReadStates(d)
	for _, s := range states {
		if s.Path == path {
			return s
		}
	}
	t.Fatal(path)
	return State{}
}

func TestDrawingIsReadWithItsPlace(t *testing.T) {
	d := drawnDesign()
	d.Panel.DrawnLength, d.Panel.DrawnTurn, d.Panel.DrawnMirror = "8 in", "-90", true
	v, found := Read(d)
	assert.Empty(t, found)
	assert.Equal(t, d.Panel.Drawn, v.Panel.Drawn.Drawing)
	assert.InDelta(t, 203.2, v.Panel.Drawn.Length.V, 1e-9)
	assert.InDelta(t, degrees(-90), v.Panel.Drawn.Turn, 1e-12)
	assert.True(t, v.Panel.Drawn.Mirror)
	assert.Equal(t, "the outline, 1 hole, 2 marks from tray side.svg", stateOf(t, d, "panel.drawn").Means)

	d.Curve.Kind, d.Curve.Drawn = Drawn, Drawing{Line: "M 0 0 L 9 9", Source: "rib.dxf"}
	assert.Equal(t, "a line from rib.dxf", stateOf(t, d, "curve.drawn").Means)
	d.Curve.DrawnBack = true
	v, _ = Read(d)
	assert.True(t, v.Curve.Drawn.Back)
	assert.Equal(t, "M 0 0 L 9 9", v.Curve.Drawn.Line)
}

func TestDrawingIsAskedFor(t *testing.T) {
	for path, d := range map[string]Document{
		"panel.drawn": {Panel: Panel{Shape: Drawn, Drawn: Drawing{Source: "x.svg", Line: "M 0 0 L 1 1"}}},
		"curve.drawn": {Curve: Curve{Kind: Drawn, Drawn: Drawing{Outline: "M 0 0 L 1 1 L 1 0 Z"}}},
	} {
		v, found := Read(d)
		assert.Contains(t, at(found, path), "Open a drawing")
		assert.NotEmpty(t, stateOf(t, d, path).Problem)
		assert.True(t, v.Panel.Drawn.IsZero() && v.Curve.Drawn.IsZero())
	}
	// Not where another shape is chosen.
	_, found := Read(Document{Panel: Panel{Shape: Rectangle, Width: "50"}, Curve: Curve{Kind: RadiusAngle, Radius: "90", Angle: "40"}})
	assert.Empty(t, at(found, "panel.drawn"))
}

// at returns the text of the stop at a field.
func at(found []finding.Finding, path string) string {
	for _, f := range found {
		if f.Place.Field == path && f.Severity == finding.Stop {
			return f.Text
		}
	}
	return ""
}

func TestDrawingTooLong(t *testing.T) {
	d := drawnDesign()
	d.Panel.Drawn.Marks = []string{"M 0 0" + strings.Repeat(" L 1 1", MaxDrawn/6)}
	v, found := Read(d)
	assert.Contains(t, at(found, "panel.drawn"), "too long")
	assert.True(t, v.Panel.Drawn.IsZero())
}

// A drawing survives saving and opening; a design without one is saved without a word of
// it; and units and copies leave it alone.
func TestDrawingIsKept(t *testing.T) {
	d := drawnDesign()
	d.Panel.DrawnLength = "203.2"
	back, notes, err := Open(Save(d))
	require.NoError(t, err)
	assert.Empty(t, notes)
	assert.Equal(t, d.Panel.Drawn, back.Panel.Drawn)
	assert.Equal(t, string(Save(d)), string(Save(back)))
	assert.NotContains(t, string(Save(typedDesign())), "drawn")

	in := Convert(d, "in")
	assert.Equal(t, d.Panel.Drawn, in.Panel.Drawn)
	assert.Equal(t, "8", in.Panel.DrawnLength)
	c := Clone(d)
	c.Panel.Drawn.Marks[0] = "M 1 1 L 2 2"
	assert.NotEqual(t, c.Panel.Drawn.Marks[0], d.Panel.Drawn.Marks[0])
}
