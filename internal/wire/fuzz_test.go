package wire_test

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"springrib/internal/view"
	"springrib/internal/wire"
)

// FuzzAnswer puts any request whatever to the real core. The reply must be JSON and
// hold either an error or what was asked for, never both; nothing may panic on the way,
// and drawings must lie in their arrays.
func FuzzAnswer(f *testing.F) {
	for _, s := range []string{
		"", "null", "[]", "{}", `{"id":1}`, `{"id":-1,"kind":"fields"}`, `{"kind":"plan","design":{"units":"in","sheet":{"readings":["3","1/8"]}}}`,
		`{"kind":"plan","design":null}`, `{"kind":"plan","design":[1e999]}`, `{"kind":"open","text":"{\"version\":99}"}`,
		`{"kind":"open","text":"\u0000\ud800"}`, `{"kind":"save","design":{}}`, `{"kind":"file","file":"../../x","design":{}}`, `{"id":1e400}`,
		`{"kind":"intake","design":{},"intake":{"name":"a.svg","base64":"PHN2Zz48cGF0aCBkPSJNMCAwSDkwVjUwWiIvPjwvc3ZnPg==","roles":{"path 0":"hole"},"lay":{"panel.drawnTurn":"9"}}}`,
		`{"kind":"take","design":{},"intake":{"base64":"PHN2Zz48cGF0aCBkPSJNMCAwSDkwVjUwWiIvPjwvc3ZnPg==","perInch":25.4}}`, `{"kind":"take","design":{}}`,
	} {
		f.Add([]byte(s))
	}
	for _, request := range examples(f) {
		f.Add(request)
	}
	f.Fuzz(func(t *testing.T, request []byte) {
		text, arrays := wire.Answer(view.Core{}, request)
		var r wire.Reply
		require.NoError(t, json.Unmarshal(text, &r))
		require.NotContains(t, r.Error, "Something broke inside")
		var members map[string]json.RawMessage
		require.NoError(t, json.Unmarshal(text, &members))
		require.Greater(t, len(members), 1, "an id alone answers nothing")
		if r.Error != "" {
			require.Len(t, members, 2)
		}
		if r.Intake != nil {
			require.Len(t, arrays, 1)
			checkDrawings(t, []wire.Drawing{r.Intake.Drawing, r.Intake.Taken}, [][]float32{arrays[0], arrays[0]})
			return
		}
		if r.Plan == nil {
			require.Empty(t, arrays)
			return
		}
		checkDrawings(t, r.Plan.Drawings, arrays)
	})
}

// examples asks for each example's plan as the page would, whole and with single
// fields made absurd.
func examples(f *testing.F) (requests [][]byte) {
	controls, err := view.Core{}.Controls()
	require.NoError(f, err)
	for _, e := range controls.Examples {
		request, err := json.Marshal(wire.Request{ID: 1, Kind: "plan", Design: e.Design})
		require.NoError(f, err)
		requests = append(requests, request)
		for _, absurd := range []string{"-1", "1e308", "0", "1/0", "9 ft"} {
			text := string(request)
			for _, field := range []string{"radius", "length", "kerf", "width", "count"} {
				before, after, ok := strings.Cut(text, `"`+field+`":"`)
				if !ok {
					continue
				}
				_, after, _ = strings.Cut(after, `"`)
				requests = append(requests, []byte(before+`"`+field+`":"`+absurd+`"`+after))
			}
		}
	}
	return requests
}

// FuzzTyped types any text into any two fields of an example and asks for the plan, the
// way a person gets to a design that nobody thought of.
func FuzzTyped(f *testing.F) {
	controls, err := view.Core{}.Controls()
	require.NoError(f, err)
	for i, text := range []string{"", "0", "-1", "1/16", "2 1/4 in", "6,35 mm", "1e308", "NaN", "0.0001", "100000", "over", "chain", "12 deg", "taper", "back"} {
		f.Add(uint8(i), uint16(7*i), text, uint16(11*i+3), "40")
	}
	f.Fuzz(func(t *testing.T, example uint8, field uint16, text string, other uint16, too string) {
		var doc map[string]any
		e := controls.Examples[int(example)%len(controls.Examples)]
		require.NoError(t, json.Unmarshal(e.Design, &doc))
		one, two := controls.Controls[int(field)%len(controls.Controls)], controls.Controls[int(other)%len(controls.Controls)]
		write(doc, one.Path, typed(one, text))
		write(doc, two.Path, typed(two, too))
		design, err := json.Marshal(doc)
		require.NoError(t, err)
		r := plan(t, design)
		if len(r.Plan.Files) == 0 {
			return
		}
		file := r.Plan.Files[int(field)%len(r.Plan.Files)]
		request, err := json.Marshal(wire.Request{Kind: "file", Design: design, File: file.Name})
		require.NoError(t, err)
		reply, _ := wire.Answer(view.Core{}, request)
		require.NotContains(t, string(reply), `"error"`, "a file that the plan lists can be had")
	})
}

// plan asks for a design's plan and checks that there is one.
func plan(t *testing.T, design []byte) (r wire.Reply) {
	t.Helper()
	request, err := json.Marshal(wire.Request{Kind: "plan", Design: design})
	require.NoError(t, err)
	reply, arrays := wire.Answer(view.Core{}, request)
	require.NoError(t, json.Unmarshal(reply, &r))
	require.Empty(t, r.Error)
	checkDrawings(t, r.Plan.Drawings, arrays)
	return r
}

// typed is what a control makes of a text.
func typed(c wire.Control, text string) any {
	switch c.Kind {
	case "check":
		return text == "true"
	case "lengths":
		return strings.Split(text, ";")
	case "rows":
		row := map[string]any{}
		for _, column := range c.Columns {
			write(row, column.Path, typed(column, text))
		}
		return []any{row, row}
	case "drawing":
		return map[string]any{"source": "drawn.svg", "outline": text, "line": text, "holes": []string{text}}
	}
	return text
}

// write puts a value at a dotted path.
func write(doc map[string]any, path string, value any) {
	name, rest, deeper := strings.Cut(path, ".")
	if !deeper {
		doc[name] = value
		return
	}
	below, ok := doc[name].(map[string]any)
	if !ok {
		below = map[string]any{}
		doc[name] = below
	}
	write(below, rest, value)
}

// operands is how many numbers follow each drawing command.
var operands = [...]int{2, 2, 6, 0}

func checkDrawings(t *testing.T, drawings []wire.Drawing, arrays [][]float32) {
	t.Helper()
	require.Len(t, arrays, len(drawings))
	for i, d := range drawings {
		for _, item := range d.Items {
			require.LessOrEqual(t, 0, item.From)
			require.LessOrEqual(t, item.From, item.To)
			require.LessOrEqual(t, item.To, len(arrays[i]))
			for at := item.From; at < item.To; {
				command := arrays[i][at]
				require.Contains(t, []float32{0, 1, 2, 3}, command, "%s at %d", d.ID, at)
				at += 1 + operands[int(command)]
				require.LessOrEqual(t, at, item.To, "%s: a command runs past its item", d.ID)
			}
		}
		for _, n := range arrays[i] {
			require.False(t, math.IsNaN(float64(n)) || math.IsInf(float64(n), 0), d.ID)
		}
	}
}
