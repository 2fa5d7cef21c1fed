package view

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/wire"
)

func drawingOf(v wire.PlanView, id string) *wire.Drawing {
	for i := range v.Drawings {
		if v.Drawings[i].ID == id {
			return &v.Drawings[i]
		}
	}
	return nil
}

func numberOf(v wire.PlanView, id string) string {
	for _, n := range v.Numbers {
		if n.ID == id {
			return n.Text
		}
	}
	return ""
}

// An invented afternoon at the bench: a snapped tongue, two bent strips and a cut.
func taught() design.Document {
	d := design.Examples()[0].Design
	d.Strips.Readings = []design.Reading{
		{Kind: "skin", Passes: "2", Value: "0.74", Date: "2 March"},
		{Kind: "bend", Passes: "2", Spacing: "2.4", Value: "60", Verdict: "held"},
		{Kind: "bend", Passes: "2", Spacing: "2.4", Value: "48", Verdict: "broke"},
		{Kind: "kerf", Value: "0.22"},
	}
	return d
}

func TestStripsAreDrawnAndListed(t *testing.T) {
	d := design.Examples()[0].Design
	v, _ := show(t, d)
	require.NotNil(t, drawingOf(v, "strips1"))
	assert.Nil(t, drawingOf(v, "readings"), "nothing was read yet")
	var first wire.FileView
	for _, f := range v.Files {
		if f.Label == "Test strips, to cut first" {
			first = f
		}
	}
	body, err := Core{}.File(raw(t, d), first.Name, nil)
	require.NoError(t, err)
	for _, pass := range []string{"pass 1", "pass 2", "pass 3"} {
		assert.Contains(t, string(bodyOf(t, body)), pass)
	}
	d.Strips.Which = design.NoStrips
	v, _ = show(t, d)
	assert.Nil(t, drawingOf(v, "strips1"))
	for _, f := range v.Files {
		assert.NotContains(t, f.Label, "to cut first")
	}
	d.Strips.Which, d.Machine.Tool, d.Machine.Depths = design.DepthStrip, "saw", []string{"0.8"}
	v, _ = show(t, d)
	for _, f := range v.Files {
		if strings.Contains(f.Label, "to cut first") {
			assert.True(t, strings.HasSuffix(f.Name, ".pdf"))
		}
	}
}

// What strips said is told where it counts: on the card, at the fields it replaces, in
// what the numbers rest on, and in a picture of points, fit and range.
func TestReadingsAreTold(t *testing.T) {
	d := taught()
	v, _ := show(t, d)
	assert.Contains(t, v.Cards["strips"], "4 readings")
	assert.Contains(t, v.Cards["strips"], "of skin after two passes")
	assert.Contains(t, v.Cards["strips"], "cracks at")
	for _, path := range []string{"machine.depths", "machine.kerf", "sheet.strainLimit"} {
		assert.Contains(t, v.Fields[path].Means, "strips say", path)
	}
	assert.Empty(t, v.Fields["machine.scoreWidth"].Means)
	assert.Equal(t, "test strips for depth and the strain that cracks it; handbook values for width of the score and stiffness", numberOf(v, "basis"))
	draw := drawingOf(v, "readings")
	require.NotNil(t, draw)
	roles := map[string]int{}
	for _, it := range draw.Items {
		roles[it.Role]++
	}
	assert.Equal(t, 3, roles["point"], "a skin, one that held and one that broke")
	assert.GreaterOrEqual(t, roles["fit"], 2)
	assert.GreaterOrEqual(t, roles["range"], 2)

	plain, _ := show(t, design.Examples()[0].Design)
	assert.NotEqual(t, numberOf(plain, "cracking"), numberOf(v, "cracking"))
	assert.Equal(t, "handbook values, nothing tested yet", numberOf(plain, "basis"))
}

// Ranges stand beside their figures, with what they come from most.
func TestRangesAreSaid(t *testing.T) {
	v, _ := show(t, design.Examples()[0].Design)
	assert.Regexp(t, `^0\.\d\d \(0\.\d\d-0\.\d\d\)$`, numberOf(v, "cracking"))
	assert.Regexp(t, `^0\.\d\d \(0\.\d\d-0\.\d\d\)$`, numberOf(v, "pinching"))
	assert.Regexp(t, `^[\d.]+ k?g \([\d.]+( g)?-[\d.]+( kg)?\)$`, numberOf(v, "force"))
	for _, n := range v.Numbers {
		if n.ID == "force" {
			assert.Contains(t, n.Help, "Depth ±0.08 mm makes ")
			assert.Contains(t, n.Help, " % of this range")
		}
	}
	for _, g := range v.Verdict.Gauges[:2] {
		assert.Less(t, g.Low, g.Value)
		assert.Greater(t, g.High, g.Value)
	}
}

// A sheet saved from one design and opened into another brings what its strips said.
func TestASheetTravelsWithItsReadings(t *testing.T) {
	d := taught()
	v, _ := show(t, d)
	var name string
	for _, f := range v.Files {
		if f.Label == "Sheet and its readings" {
			name = f.Name
		}
	}
	file, err := Core{}.File(raw(t, d), name, nil)
	require.NoError(t, err)
	out, found, err := Core{}.Stock(raw(t, design.Examples()[0].Design), string(bodyOf(t, file)))
	require.NoError(t, err)
	assert.Empty(t, found)
	w, _, err := Core{}.Plan(out, wire.Show{})
	require.NoError(t, err)
	assert.Equal(t, v.Numbers, w.Numbers)
	_, _, err = Core{}.Stock(raw(t, d), "{}")
	assert.Error(t, err)
}

// The strips of a bed are told by their place in the drawing, and what they said of the
// bed at the fields, on the card and in a chart; so is the clearance of slots.
func TestTheBedIsTold(t *testing.T) {
	d := design.Examples()[0].Design
	v, _ := show(t, d)
	require.NotNil(t, drawingOf(v, "strips1"))
	for _, l := range drawingOf(v, "strips1").Labels {
		assert.NotContains(t, l.Text, "cut at", "they lie together until the corners are asked for")
	}
	d.Strips.Where = design.Corners
	v, _ = show(t, d)
	drawing := drawingOf(v, "strips1")
	require.NotNil(t, drawing)
	labels := ""
	for _, l := range drawing.Labels {
		labels += l.Text + "\n"
	}
	for _, want := range []string{"cut at 1: lower left", "cut at 2: lower right", "cut at 3: upper left", "cut at 4: upper right", "cut at 5: the centre"} {
		assert.Contains(t, labels, want)
	}
	d.Machine.BedWidth, d.Machine.BedHeight = "140", "90"
	v, _ = show(t, d)
	assert.Contains(t, v.Fields["strips.where"].Means, "no room")

	d = design.Examples()[0].Design
	d.Machine.DepthSpread = "0.08"
	d.Rib.Foot, d.Base.Kind = "tenon", "row"
	for spot, skin := range map[string]string{"1": "0.70", "2": "0.90", "3": "0.70", "4": "0.90", "5": "0.80"} {
		d.Strips.Readings = append(d.Strips.Readings, design.Reading{Kind: "skin", Passes: "2", Value: skin, Spot: spot})
	}
	d.Strips.Readings = append(d.Strips.Readings, design.Reading{Kind: "fit", Value: "0.05", Verdict: "good"})
	v, _ = show(t, d)
	assert.Contains(t, v.Fields["machine.depthSpread"].Means, "over the bed")
	assert.Contains(t, v.Cards["strips"], "over the bed")
	assert.Equal(t, "0.05 mm, from your fit strip", v.Fields["rib.fit"].Means)
	chart := drawingOf(v, "readings")
	require.NotNil(t, chart)
	labels = ""
	for _, l := range chart.Labels {
		labels += l.Text + "\n"
	}
	assert.Contains(t, labels, "More skin at each spot of the bed")
	for _, spot := range []string{"1", "2", "3", "4", "5"} {
		assert.Contains(t, strings.Split(labels, "\n"), spot)
	}
	worked := work(d)
	sheet := worked.bench()
	lines := ""
	for _, s := range sheet.Sections {
		lines += strings.Join(s.Lines, "\n") + "\n"
	}
	assert.Contains(t, lines, "from strips cut at 5 places")
	assert.Contains(t, lines, "Slots of the base: 0.05 mm wider than the rib, from your fit strip.")
	d.Rib.Fit = "0.2"
	v, _ = show(t, d)
	assert.Contains(t, v.Fields["rib.fit"].Means, "your fit strip says 0.05 mm")
}
