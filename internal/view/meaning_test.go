package view

import (
	"encoding/base64"
	"encoding/json"
	"fmt"
	"math"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/wire"
)

func svg200(body string) string {
	return `<svg xmlns="http://www.w3.org/2000/svg" width="297mm" height="210mm" viewBox="0 0 297 210">` + body + `</svg>`
}

func dxfOf(header, entities string) string {
	lines := func(s string) string {
		out := ""
		for group := range strings.SplitSeq(s, ";") {
			if code, value, ok := strings.Cut(strings.TrimSpace(group), " "); ok {
				out += code + "\n" + value + "\n"
			}
		}
		return out
	}
	return lines("0 SECTION; 2 HEADER; "+header+"; 0 ENDSEC; 0 SECTION; 2 ENTITIES") + entities + lines("0 ENDSEC; 0 EOF")
}

// square is a closed polyline of 90 by 60 units in DXF.
const square = "0\nLWPOLYLINE\n8\nA\n70\n1\n10\n0\n20\n0\n10\n90\n20\n0\n10\n90\n20\n60\n10\n0\n20\n60\n"

func utf16LE(s, mark string) string {
	out := []byte(mark)
	for _, c := range utf16.Encode([]rune(s)) {
		out = append(out, byte(c), byte(c>>8))
	}
	return string(out)
}

// Each class of drawing by what makes it mean something else than it seems to: the whole request
// takes it for what the one who drew it meant, or asks, or says in a sentence why not.
func TestMeaning(t *testing.T) {
	const panel = `<path id="p" fill="none" stroke="#000" d="M40 40H240V160H40Z"/><circle cx="80" cy="100" r="12" fill="none" stroke="#000"/>`
	for _, c := range []struct {
		name, file, card string
		ready            bool
		says             string // in the sentence
		found            string // id of a finding, if one must be there
	}{
		{name: "a white background as large as the page", file: svg200(`<rect width="297" height="210" fill="#fff"/>` + panel), ready: true, says: "outline 200 mm long and 120 mm wide, 1 hole", found: "intake-frame"},
		{name: "a frame drawn round the panel", file: svg200(`<rect x="10" y="10" width="277" height="190" fill="none" stroke="#000"/>` + panel), ready: true, says: "200 mm long and 120 mm wide, 1 hole", found: "intake-frame"},
		{name: "a frame in another colour", file: svg200(`<rect x="10" y="10" width="277" height="190" fill="none" stroke="#999"/><path fill="none" stroke="#000" d="M40 40H240V160H40Z"/>`), ready: true, says: "200 mm long and 120 mm wide", found: "intake-frame"},
		{name: "a double frame", file: svg200(`<rect x="5" y="5" width="287" height="200" fill="none" stroke="#000"/><rect x="10" y="10" width="277" height="190" fill="none" stroke="#000"/>` + panel), ready: true, says: "200 mm long and 120 mm wide, 1 hole", found: "intake-frame"},
		{name: "a rectangular panel with holes that fills the page", file: svg200(`<g fill="none" stroke="#000"><rect width="297" height="210"/><circle cx="80" cy="100" r="40"/><circle cx="200" cy="100" r="50"/></g>`), ready: true, says: "297 mm long and 210 mm wide, 2 holes"},
		{name: "a double line", file: svg200(`<g fill="none" stroke="#000"><rect x="40" y="40" width="200" height="120"/><rect x="41" y="41" width="198" height="118"/><circle cx="80" cy="100" r="12"/></g>`), says: "double line, 1 mm wide"},
		{name: "a traced stroke", file: svg200(`<path d="M40 40H240V160H40ZM42 42V158H238V42Z"/>`), says: "Say which edge is meant"},
		{name: "a ring that is wide enough to be one", file: svg200(`<g fill="none" stroke="#000"><circle cx="140" cy="100" r="90"/><circle cx="140" cy="100" r="70"/></g>`), ready: true, says: "180 mm wide, 1 hole"},
		{name: "a traced curve", card: "curve", file: svg200(`<path d="M20 150C100 20 200 20 280 150L279 151C200 22 100 22 21 151Z"/>`), says: "traced pen stroke"},
		{name: "ends that miss each other", file: svg200(`<g fill="none" stroke="#000"><path d="M40 40H240V160"/><path d="M240 160.4H40V40.3"/></g>`), says: "must be closed"},
		{name: "pieces in colours that nobody tells apart", file: svg200(`<g fill="none"><path stroke="#000000" d="M40 40H240V160"/><path stroke="#010203" d="M240 160H40V40"/></g>`), ready: true, says: "200 mm long"},
		{name: "pieces in two colours", file: svg200(`<g fill="none"><path stroke="#000" d="M40 40H240V160"/><path stroke="#f00" d="M240 160H40V40"/></g>`), says: "must be closed"},
		{name: "a bow-tie", file: svg200(`<path fill="none" stroke="#000" d="M40 40L240 160V40L40 160Z"/>`), says: "The outline crosses itself"},
		{name: "a bow-tie that leans", file: svg200(`<path fill="none" stroke="#000" d="M40 40L240 160V60L40 160Z"/>`), says: "The outline crosses itself"},
		{name: "feet and inches", file: dxfOf("9 $LUNITS; 70 4", square), ready: true, says: "2286 mm long and 1524 mm wide"},
		{name: "gigametres", file: dxfOf("9 $INSUNITS; 70 17", square), says: "Say how large the drawing is."},
		{name: "kilometres", file: dxfOf("9 $INSUNITS; 70 7", square), says: "Say how large the drawing is."},
		{name: "XML 1.1", file: `<?xml version="1.1" encoding="UTF-8"?>` + svg200(panel), ready: true, says: "200 mm long and 120 mm wide, 1 hole"},
		{name: "DXF in UTF-16", file: utf16LE(dxfOf("9 $INSUNITS; 70 4", square), "\xff\xfe"), ready: true, says: "90 mm long and 60 mm wide"},
		{name: "DXF in UTF-16 without a mark", file: utf16LE(dxfOf("9 $INSUNITS; 70 4", square), ""), ready: true, says: "90 mm long and 60 mm wide"},
		{name: "SVG in UTF-16 without a mark", file: utf16LE(svg200(panel), ""), ready: true, says: "200 mm long"},
		{name: "ASCII that declares another code page", file: `<?xml version="1.0" encoding="windows-1250"?>` + svg200(panel), ready: true, says: "200 mm long"},
		{name: "ASCII that declares a page of East Asia", file: `<?xml version="1.0" encoding="Shift_JIS"?>` + svg200(panel), ready: true, says: "200 mm long"},
		{name: "one bad figure in a shape", file: svg200(panel + `<circle cx="1e999" cy="5" r="3"/>`), ready: true, says: "200 mm long", found: "intake-far"},
		{name: "a unit of the window", file: svg200(panel + `<line x1="3vw" x2="9" stroke="red"/>`), ready: true, says: "200 mm long", found: "intake-shape-broken"},
		{name: "a unit that is none", file: svg200(panel + `<line x1="0A0" x2="9" stroke="red"/>`), ready: true, says: "200 mm long", found: "intake-shape-broken"},
		{name: "one bad figure in DXF", file: dxfOf("9 $INSUNITS; 70 4", "0\nLINE\n8\nA\n10\nfive\n"+square), ready: true, says: "90 mm long", found: "intake-shape-broken"},
		{name: "an outline of a tenth of a millimetre", file: svg200(`<path fill="none" stroke="#000" d="M40 40h.1v.1h-.1z"/>`), says: "Say how long it is to be"},
		{name: "a hole over the edge", file: svg200(`<g fill="none" stroke="#000"><path d="M40 40H240V160H40Z"/></g><circle id="h" cx="42" cy="100" r="1.995" fill="none" stroke="#000"/>`), says: "reaches the edge"},
		{name: "a curve that is straight", card: "curve", file: svg200(`<path fill="none" stroke="#000" d="M20 150H280"/>`), says: "The line is straight"},
		{name: "a noisy outline", file: svg200(`<path fill="none" stroke="#000" d="M40 40` + noise(30_000) + `L240 160H40Z"/>`), says: "too many corners"},
	} {
		t.Run(c.name, func(t *testing.T) {
			in := brought1("drawing", c.file, func(in *wire.Intake) {
				if c.card != "" {
					in.Card = c.card
				}
			})
			v := shownIntake(t, in)
			assert.Equal(t, c.ready, v.Ready, v.Sentence)
			assert.Contains(t, v.Sentence, c.says)
			ids := []string{}
			for _, f := range v.Findings {
				ids = append(ids, f.ID)
			}
			if c.found != "" {
				assert.Contains(t, ids, c.found)
			}
			requireReadyIsTrue(t, in, v)
		})
	}
}

// noise is a line across a panel that goes up and down at each step.
func noise(n int) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, "L%.3f %.3f", 40+200*float64(i)/float64(n), 40+math.Mod(float64(i*i)*0.754877666, 1))
	}
	return b.String()
}

// requireReadyIsTrue takes what is said to be ready and sees that the plan works with it, and
// that what isn't is refused with the same sentence.
func requireReadyIsTrue(t *testing.T, in wire.Intake, v wire.IntakeView) {
	t.Helper()
	body, err := Core{}.Take(raw(t, design.Empty()), in)
	if !v.Ready {
		require.EqualError(t, err, v.Sentence)
		return
	}
	require.NoError(t, err)
	var doc design.Document
	require.NoError(t, json.Unmarshal(body, &doc))
	shown, _ := show(t, doc)
	for _, f := range shown.Findings {
		if f.Place.Field == "panel.drawn" || f.Place.Field == "curve.drawn" || f.Place.Field == "panel.drawnLength" {
			assert.NotEqual(t, finding.Stop, f.Severity, f.Text)
		}
	}
}

// What is asked of a double line: each answer gives the edge that it names, and the hole stays
// a hole; answered twice, it is the last answer that counts.
func TestWhichEdgeOfADoubleLine(t *testing.T) {
	file := svg200(`<g fill="none" stroke="#000"><rect x="40" y="40" width="200" height="120"/><rect x="41" y="41" width="198" height="118"/><circle cx="80" cy="100" r="12"/></g>`)
	for edge, says := range map[string]string{
		"outer": "Takes an outline 200 mm long and 120 mm wide, 1 hole.",
		"inner": "Takes an outline 198 mm long and 118 mm wide, 1 hole.",
		"both":  "Takes an outline 200 mm long and 120 mm wide, 1 hole, 1 mark.",
	} {
		v := shownIntake(t, brought1("double.svg", file, func(in *wire.Intake) { in.Edge = edge }))
		require.NotNil(t, v.Edges)
		assert.Equal(t, edge, v.Edges.Chosen)
		assert.Equal(t, says, v.Sentence)
		assert.True(t, v.Ready)
	}
	v := shownIntake(t, brought1("double.svg", file, func(in *wire.Intake) { in.Roles = map[string]string{"path 1": "mark"} }))
	assert.True(t, v.Ready, "the person said what the other line is: "+v.Sentence)
}

// Ends that nearly meet are told with their distance and the gap that joins them, which does;
// pressed twice it changes nothing more. Where the two are drawn differently that is said.
func TestNearMissesSayWhatClosesThem(t *testing.T) {
	file := svg200(`<g fill="none" stroke="#000"><path d="M40 40H240V160"/><path d="M240 160.4H40V40.3"/></g>`)
	for units, gap := range map[string]string{"mm": "0.4 mm", "in": "0.016 in"} {
		doc := design.Empty()
		doc.Units = units
		v, _, err := Core{}.Intake(raw(t, doc), brought1("miss.svg", file, nil))
		require.NoError(t, err)
		require.Len(t, v.Changes, 2)
		for _, c := range v.Changes {
			assert.Contains(t, c.Text, "apart stay open")
			assert.NotEmpty(t, c.Gap)
		}
		in := brought1("miss.svg", file, func(in *wire.Intake) { in.Gap = v.Changes[0].Gap })
		then, _, err := Core{}.Intake(raw(t, doc), in)
		require.NoError(t, err)
		assert.True(t, then.Ready, "%s: %s (%s)", v.Changes[0].Gap, then.Sentence, gap)
		for _, c := range then.Changes {
			assert.Empty(t, c.Gap)
		}
	}
	apart := shownIntake(t, brought1("two.svg", svg200(`<g fill="none"><path stroke="#000" d="M40 40H240V160"/><path stroke="#f00" d="M240 160H40V40"/></g>`), nil))
	require.Len(t, apart.Changes, 2)
	assert.Contains(t, apart.Changes[0].Text, "on two layers or in two colours")
	assert.Empty(t, apart.Changes[0].Gap)
}

// What is taken is drawn in the place of what was read, and differences are lit.
func TestTakenStandsBesideWhatWasRead(t *testing.T) {
	v, numbers, err := Core{}.Intake(raw(t, design.Empty()), brought1("gaps.svg",
		svg200(`<g fill="none" stroke="#000"><path d="M40 40H240V160"/><path d="M240 160.06H40V40"/><circle cx="80" cy="100" r="12"/><path d="M250 20L290 30"/></g>`), nil))
	require.NoError(t, err)
	require.True(t, v.Ready, v.Sentence)
	assert.Equal(t, v.Drawing.Box, v.Taken.Box)
	roles := func(d wire.Drawing) map[string]int {
		out := map[string]int{}
		for _, it := range d.Items {
			out[it.Role]++
			require.LessOrEqual(t, it.To, len(numbers))
		}
		return out
	}
	assert.Equal(t, map[string]int{"panel": 1, "inner": 1, "ghost": 1, "dimension": 2}, roles(v.Drawing))
	assert.Equal(t, map[string]int{"panel": 1, "inner": 1, "lit": 1}, roles(v.Taken))
}

// A file as long as the page takes goes through the whole request.
func TestAFileOfTheLargestSizeIsRead(t *testing.T) {
	if testing.Short() {
		t.Skip("A file of 16 MB is tried only without -short.")
	}
	file := svg200(`<path fill="none" stroke="#000" d="M40 40H240V160H40Z"/>`)
	file += strings.Repeat(" ", wire.MaxDrawing-len(file))
	request, err := json.Marshal(wire.Request{ID: 1, Kind: "intake", Design: raw(t, design.Empty()),
		Intake: &wire.Intake{Card: "panel", Base64: base64.StdEncoding.EncodeToString([]byte(file))}})
	require.NoError(t, err)
	reply, _ := wire.Answer(Core{}, request)
	assert.Contains(t, said(t, reply), "Takes an outline 200 mm long")
}
