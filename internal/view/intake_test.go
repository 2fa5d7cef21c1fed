package view

import (
	"encoding/base64"
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/plane"
	"springrib/internal/wire"
)

// plateFile is an invented drawing: a plateFile with two holes and a mark, an edge drawn twice,
// and a loose line beside it.
const plateFile = `<svg xmlns="http://www.w3.org/2000/svg" width="240mm" height="120mm" viewBox="0 0 240 120" fill="none" stroke="#000">
  <g id="edge"><path d="M10 10H210V100H10Z"/><path d="M10 10H210V100H10Z"/>
  <circle cx="50" cy="55" r="12"/><circle cx="160" cy="55" r="9"/></g>
  <g id="words" stroke="#00f"><path d="M80 40L120 60"/></g>
  <g id="notes" stroke="#f00"><path d="M220 10L235 90"/></g></svg>`

func brought1(name, text string, edit func(in *wire.Intake)) wire.Intake {
	in := wire.Intake{Name: name, Base64: base64.StdEncoding.EncodeToString([]byte(text)), Card: "panel"}
	if edit != nil {
		edit(&in)
	}
	return in
}

func shownIntake(t *testing.T, in wire.Intake) wire.IntakeView {
	t.Helper()
	v, numbers, err := Core{}.Intake(raw(t, design.Empty()), in)
	require.NoError(t, err)
	at := 0
	for _, it := range v.Drawing.Items {
		require.Equal(t, at, it.From)
		at = it.To
		walk(t, v.Drawing, numbers[it.From:it.To])
	}
	for _, it := range v.Taken.Items {
		require.Equal(t, at, it.From)
		at = it.To
		walk(t, v.Taken, numbers[it.From:it.To])
	}
	require.Equal(t, len(numbers), at)
	return v
}

func taken(t *testing.T, in wire.Intake) design.Document {
	t.Helper()
	out, err := Core{}.Take(raw(t, design.Empty()), in)
	require.NoError(t, err)
	var doc design.Document
	require.NoError(t, json.Unmarshal(out, &doc))
	return doc
}

func TestIntakeTellsWhatTheDrawingHolds(t *testing.T) {
	v := shownIntake(t, brought1("plateFile <b>.svg", plateFile, nil))
	assert.Equal(t, "plateFile b .svg", v.Name)
	assert.Equal(t, "SVG, 225 by 90 mm", v.Size)
	assert.Nil(t, v.Units)
	var rows []string
	for _, r := range v.Rows {
		rows = append(rows, fmt.Sprintf("%s %s %s: %s, %d", r.Layer, r.Colour, r.Role, r.Text, len(r.Paths)))
	}
	assert.Equal(t, []string{
		"edge #000000 outline: a closed line, 200 by 90 mm, 1",
		"edge #000000 hole: 2 closed lines, 56.5 to 75.4 mm long, 2",
		"words #0000ff mark: an open line, 44.7 mm long, 1",
		"notes #ff0000 unused: an open line, 81.4 mm long, 1",
	}, rows)
	require.Len(t, v.Changes, 1)
	assert.Equal(t, "Drawn twice: one dropped.", v.Changes[0].Text)
	assert.True(t, v.Changes[0].Done && v.Changes[0].Key != "")
	assert.Equal(t, []string{v.Rows[0].Paths[0].ID}, v.Changes[0].Refs)
	assert.True(t, v.Ready)
	assert.Equal(t, "Takes an outline 200 mm long and 90 mm wide, 2 holes, 1 mark.", v.Sentence)
	roles := map[string]int{}
	for _, it := range v.Drawing.Items {
		roles[it.Role]++
	}
	assert.Equal(t, map[string]int{"panel": 1, "inner": 2, "mark": 1, "ghost": 1, "dimension": 2}, roles)
}

func TestTakePutsTheChoiceIntoTheDesign(t *testing.T) {
	in := brought1("plateFile.svg", plateFile, func(in *wire.Intake) {
		in.Lay = map[string]string{"panel.drawnLength": "300", "panel.drawnTurn": "180", "panel.drawnMirror": "true", "panel.along": "12", "name": "no field of it"}
	})
	doc := taken(t, in)
	assert.Equal(t, design.Drawn, doc.Panel.Shape)
	d := doc.Panel.Drawn
	assert.Equal(t, "plateFile.svg", d.Source)
	assert.Len(t, d.Holes, 2)
	assert.Len(t, d.Marks, 1)
	outline := plane.MustParse(d.Outline)
	assert.Len(t, outline.Segs, 4)
	assert.InDelta(t, 18000, math.Abs(outline.Area()), 1e-6)
	assert.InDelta(t, math.Pi*144, math.Abs(plane.MustParse(d.Holes[0]).Area()), 0.3)
	assert.Equal(t, "300", doc.Panel.DrawnLength)
	assert.True(t, doc.Panel.DrawnMirror)
	assert.Equal(t, "12", doc.Panel.Along)
	assert.Equal(t, design.Empty().Name, doc.Name)
	assert.Less(t, len(design.Save(doc)), 6000)

	v, _ := show(t, with(doc, map[string]string{"panel.along": "0", "panel.drawnLength": "", "curve.radius": "150", "curve.angle": "70"}))
	assert.True(t, v.Drawn, "%v", v.Findings)
}

func TestRolesAreThePersons(t *testing.T) {
	hole := ""
	v := shownIntake(t, brought1("plateFile.svg", plateFile, nil))
	for _, r := range v.Rows {
		if r.Role == "hole" {
			hole = r.Paths[0].ID
		}
	}
	v = shownIntake(t, brought1("plateFile.svg", plateFile, func(in *wire.Intake) {
		in.Roles = map[string]string{"row 3": "mark", hole: "unused", "row 99": "hole", "path x": "mark", "row 2": "nonsense"}
	}))
	assert.Equal(t, "mark", v.Rows[3].Role)
	assert.Equal(t, "", v.Rows[1].Role, "its paths differ")
	assert.Equal(t, "Takes an outline 200 mm long and 90 mm wide, 1 hole, 2 marks.", v.Sentence)
	for want, roles := range map[string]map[string]string{
		"Choose the outline":                {"row 0": "unused", "row 1": "unused"},
		"holes and no outline":              {"row 0": "unused", "row 3": "curve"},
		"3 lines are chosen as the outline": {"row 1": "outline"},
		"open by":                           {"row 0": "unused", "row 1": "unused", "row 2": "outline"},
		"lines are chosen as the curve":     {"row 2": "curve", "row 3": "curve"},
	} {
		in := brought1("plateFile.svg", plateFile, func(in *wire.Intake) { in.Roles = roles })
		v := shownIntake(t, in)
		assert.False(t, v.Ready, want)
		assert.Contains(t, v.Sentence, want)
		_, err := Core{}.Take(raw(t, design.Empty()), in)
		assert.ErrorContains(t, err, want)
	}
}

func TestIntakeAsksForTheUnit(t *testing.T) {
	bare := strings.Replace(plateFile, `width="240mm" height="120mm"`, "", 1)
	v := shownIntake(t, brought1("bare.svg", bare, nil))
	require.NotNil(t, v.Units)
	assert.False(t, v.Ready)
	assert.Equal(t, "Say how large the drawing is.", v.Sentence)
	sizes := map[string]float64{}
	for _, c := range v.Units.Choices {
		sizes[c.Size] = c.PerInch
	}
	assert.Contains(t, sizes, "225 by 90 mm")
	assert.Contains(t, sizes, "59.5 by 23.8 mm", "96 to an inch")
	v = shownIntake(t, brought1("bare.svg", bare, func(in *wire.Intake) { in.PerInch = 25.4 }))
	assert.True(t, v.Ready)
	assert.Equal(t, 25.4, v.Units.Chosen)
	assert.Equal(t, "SVG, 225 by 90 mm", v.Size)
	for _, odd := range []float64{-1, math.NaN(), math.Inf(1), 1e300} {
		shownIntake(t, brought1("bare.svg", bare, func(in *wire.Intake) { in.PerInch = odd }))
	}
}

func TestMendingIsShownAndCanBeLeft(t *testing.T) {
	gaps := `<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100" fill="none" stroke="#000">
	  <path d="M10 10H90V50"/><path d="M90 50.06V90H10V10.03"/></svg>`
	v := shownIntake(t, brought1("gaps.svg", gaps, nil))
	require.Len(t, v.Changes, 1)
	assert.Contains(t, v.Changes[0].Text, "2 pieces chained to a closed path")
	assert.True(t, v.Ready)
	left := shownIntake(t, brought1("gaps.svg", gaps, func(in *wire.Intake) { in.Leave = []string{v.Changes[0].Key} }))
	assert.False(t, left.Changes[0].Done)
	assert.False(t, left.Ready)
	narrow := shownIntake(t, brought1("gaps.svg", gaps, func(in *wire.Intake) { in.Gap = "0.01" }))
	assert.False(t, narrow.Ready)
	for _, text := range []string{"-1", "9 mm", "a hair"} {
		v := shownIntake(t, brought1("gaps.svg", gaps, func(in *wire.Intake) { in.Gap = text }))
		assert.NotEmpty(t, v.Gap.Problem, text)
		assert.False(t, v.Ready)
	}
}

func TestIntakeTakesACurve(t *testing.T) {
	line := `<svg xmlns="http://www.w3.org/2000/svg" width="400mm" height="200mm" viewBox="0 0 400 200"><path fill="none" stroke="#000" d="M20 150C100 20 250 20 380 150"/><rect x="5" y="5" width="390" height="190" fill="none" stroke="#999"/></svg>`
	in := brought1("side.svg", line, func(in *wire.Intake) { in.Card = "curve" })
	v := shownIntake(t, in)
	assert.Equal(t, "curve", v.Rows[0].Role)
	assert.Equal(t, "unused", v.Rows[1].Role)
	assert.Contains(t, v.Sentence, "Takes a curve")
	in.Lay = map[string]string{"curve.drawnLength": "500", "curve.drawnBack": "true"}
	doc := taken(t, in)
	assert.Equal(t, design.Drawn, doc.Curve.Kind)
	assert.Equal(t, design.Empty().Panel.Shape, doc.Panel.Shape)
	assert.Equal(t, "500", doc.Curve.DrawnLength)
	assert.True(t, doc.Curve.DrawnBack)
	assert.NotContains(t, string(design.Save(doc)), "<")
	in.Lay = map[string]string{"curve.drawnLength": "1/16"}
	v = shownIntake(t, in)
	assert.False(t, v.Ready)
	assert.NotEmpty(t, v.Fields["curve.drawnLength"].Problem)
}

func TestFilesThatAreRefusedAreRefusedInWords(t *testing.T) {
	for name, c := range map[string]struct{ text, says string }{
		"empty":     {"", "The file is empty."},
		"a letter":  {"Dear maker,", "neither SVG nor DXF"},
		"binary":    {"AutoCAD Binary DXF\r\n\x1a\x00", "binary DXF"},
		"cut short": {plateFile[:len(plateFile)/2], ""},
		"entities":  {`<!DOCTYPE svg [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;&a;&a;">]><svg xmlns="http://www.w3.org/2000/svg"><text>&b;</text></svg>`, ""},
		"a script":  {`<svg xmlns="http://www.w3.org/2000/svg" onload="alert(1)"><script>alert(2)</script></svg>`, ""},
	} {
		v, _, err := Core{}.Intake(raw(t, design.Empty()), brought1(name, c.text, nil))
		if err == nil {
			assert.False(t, v.Ready, name)
			continue
		}
		assert.Contains(t, err.Error(), c.says, name)
		assert.True(t, strings.HasSuffix(err.Error(), "."), err.Error())
	}
	in := brought1("long", "", nil)
	in.Base64 = strings.Repeat("A", base64.StdEncoding.EncodedLen(wire.MaxDrawing)+4)
	_, _, err := Core{}.Intake(raw(t, design.Empty()), in)
	assert.ErrorContains(t, err, "16 MB")
	in.Base64 = "*"
	_, err = Core{}.Take(raw(t, design.Empty()), in)
	assert.ErrorContains(t, err, "Open it again")
}

// A drawing of thousands of small paths is shown by its rows, and one with hundreds of
// layers by the first of them.
func TestCrowdedDrawings(t *testing.T) {
	var b strings.Builder
	b.WriteString(`<svg xmlns="http://www.w3.org/2000/svg" width="400mm" height="400mm" viewBox="0 0 400 400" fill="none" stroke="#000">`)
	b.WriteString(`<rect width="399" height="399"/>`)
	for i := range 2500 {
		fmt.Fprintf(&b, `<g id="layer%d"><circle cx="%d" cy="%d" r="2"/></g>`, i%400, 5+i%50*7, 5+i/50*7)
	}
	b.WriteString(`</svg>`)
	v := shownIntake(t, brought1("mesh.svg", b.String(), nil))
	assert.Len(t, v.Rows, maxRows)
	assert.LessOrEqual(t, len(v.Drawing.Items), maxRows+2)
	assert.Equal(t, "all other layers", v.Rows[maxRows-1].Layer)
	assert.True(t, v.Ready)
}

// A file that holds one closed line alone, brought to the curve's card, is wrapped all
// round; the person says where the seam lies, and the page shows a girth and a seam.
func TestAClosedLineIsWrapped(t *testing.T) {
	const oval = `<svg xmlns="http://www.w3.org/2000/svg" width="340mm" height="260mm" viewBox="0 0 340 260"><ellipse cx="170" cy="130" rx="160" ry="120" fill="none" stroke="black"/></svg>`
	in := brought1("oval.svg", oval, func(in *wire.Intake) { in.Card = "curve" })
	v := shownIntake(t, in)
	require.True(t, v.Ready, v.Sentence)
	assert.Equal(t, "curve", v.Rows[0].Role)
	assert.Contains(t, v.Sentence, "a closed curve to wrap")
	paths := []string{}
	for _, c := range v.Controls {
		paths = append(paths, c.Path)
	}
	assert.Contains(t, paths, "curve.drawnSeam")
	assert.NotContains(t, paths, "curve.drawnBack")
	in.Lay = map[string]string{"curve.drawnSeam": "30"}
	body, err := Core{}.Take(raw(t, design.Examples()[0].Design), in)
	require.NoError(t, err)
	var doc design.Document
	require.NoError(t, json.Unmarshal(body, &doc))
	assert.Equal(t, "drawn-round", doc.Curve.Kind)
	assert.Equal(t, "30", doc.Curve.DrawnSeam)
	doc.Panel.Shape, doc.Panel.Length, doc.Panel.Finish, doc.Machine.BedWidth = "rectangle", "", "any", "1200"
	shown, _ := show(t, doc)
	require.True(t, shown.Drawn, "%+v", shown.Findings)
	assert.Contains(t, shown.Cards["curve"], "All round a line drawn elsewhere, from oval.svg")
	found := false
	for _, f := range shown.Findings {
		found = found || f.ID == "seam"
	}
	assert.True(t, found, "the girth and what is left to trim")
	two := strings.Replace(oval, "<ellipse", `<rect x="1" y="1" width="5" height="5" fill="none" stroke="black"/><ellipse`, 1)
	assert.False(t, shownIntake(t, brought1("two.svg", two, func(in *wire.Intake) { in.Card = "curve" })).Ready, "of two the person says which")
}
