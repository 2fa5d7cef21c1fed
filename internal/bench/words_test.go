package bench_test

import (
	"fmt"
	"math"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/bench"
	"springrib/internal/check"
	"springrib/internal/design"
	"springrib/internal/plan"
)

var tools = []string{"laser", "router", "saw", "knife"}

// sheets are the stocks a panel is cut from, by what they are made of.
var sheets = []struct{ id, family string }{
	{"mdf-3", "wood"}, {"birch-4", "wood"}, {"basswood-1.5", "wood"}, {"acrylic-3", "plastic"}, {"greyboard-2", "paper"},
}

// situations are what a design may have besides tool and sheet.
var situations = []struct {
	name   string
	closed bool
	edit   func(d *design.Document)
}{
	{"open", false, func(*design.Document) {}},
	{"inch", false, func(d *design.Document) { inches(d); d.Rib.Quantity, d.Rib.Caul = "2", "yes" }},
	{"base", false, func(d *design.Document) {
		d.Rib.Foot, d.Base.Kind, d.Rib.Quantity, d.Panel.Quantity = "tenon", "row", "3", "2"
	}},
	{"base-inch", false, func(d *design.Document) { inches(d); d.Rib.Foot, d.Base.Kind, d.Panel.Quantity = "tenon", "ring", "4" }},
	{"round-face", false, func(d *design.Document) {
		d.Panel.ScoredFace, d.Panel.ShowFace, d.Strips.Which, d.Cut.Bridges = "round", "hollow", "all", "all"
	}},
	{"scored-face-shows", false, func(d *design.Document) { d.Panel.ShowFace = "hollow"; d.Rib.Foot = "stub" }},
	{"cradle-with-hole", false, func(d *design.Document) {
		d.Rib.Side = "round"
		d.Panel.Holes = []design.Hole{{Kind: "round", Along: "100", Across: "0", Width: "30"}}
		d.Rib.Places = []design.RibPlace{{Across: "-30"}, {Across: "30"}}
	}},
	{"band", true, func(d *design.Document) {
		d.Curve.Kind, d.Curve.BoxWidth, d.Curve.BoxHeight, d.Curve.Corner, d.Curve.Seam, d.Curve.Lap = "box", "400", "300", "140", "lap", "20"
		d.Rib.Quantity = "2"
	}},
	{"oval-round-face", true, func(d *design.Document) {
		d.Curve.Kind, d.Curve.BoxWidth, d.Curve.BoxHeight = "oval", "420", "320"
		d.Panel.ScoredFace, d.Panel.ShowFace, d.Rib.Caul, d.Cut.Bridges = "round", "round", "yes", "all"
	}},
}

func inches(d *design.Document) {
	d.Units = "in"
	d.Curve.Radius, d.Curve.Foot, d.Curve.Tip = "6", "0.8", "0.8"
	d.Panel.Width, d.Rib.FootDepth, d.Rib.TipDepth = "5", "1.2", "0.8"
	d.Machine.BedWidth, d.Machine.BedHeight = "40", "30"
}

func job(tool, sheet string) design.Document {
	d := design.Empty()
	d.Name, d.Revision = "Trial", "B"
	d.Machine.Tool, d.Sheet.Stock = tool, sheet
	d.Machine.BedWidth, d.Machine.BedHeight = "1000", "800"
	d.Curve.Radius, d.Curve.Angle, d.Curve.Foot, d.Curve.Tip = "150", "70", "20", "20"
	d.Panel.Width = "120"
	d.Rib.FootDepth, d.Rib.TipDepth = "30", "20"
	d.Strips.Which = "depth"
	return d
}

// made plans a design and writes its bench sheet.
func made(t testing.TB, d design.Document) (*plan.Plan, bench.Sheet) {
	t.Helper()
	v, _ := design.Read(d)
	p := plan.Make(v)
	require.True(t, p.Drawn, "%+v", p.Findings)
	return &p, bench.Make(&p, check.Run(&p))
}

// said is every text of a sheet but those of the findings, section by section.
func said(s bench.Sheet, without ...string) (out []string) {
	out = append(out, s.Title+".", s.Lead)
	for _, sec := range s.Sections {
		skip := sec.ID == "watch"
		for _, id := range without {
			skip = skip || sec.ID == id
		}
		if skip {
			continue
		}
		out = append(append(out, sec.Title+"."), sec.Lines...)
		for _, st := range sec.Steps {
			out = append(out, st.What+".", st.How)
		}
		if sec.Table != nil {
			for _, r := range append([][]string{sec.Table.Head}, sec.Table.Rows...) {
				out = append(out, strings.Trim(strings.Join(r, " | "), "| "))
			}
		}
		for _, f := range sec.Figures {
			out = append(out, f.Caption)
			for _, l := range f.Labels {
				out = append(out, l.Text)
			}
		}
	}
	return out
}

// banned are words that must not stand on the sheet of a case.
func banned(tool, family string, closed, closes, base bool, units string) map[string]string {
	out := map[string]string{"": `passs|\b1 passes|\b1 scores|NaN|Inf\b|%!|  |\.\.|birch-4|mdf-3|acrylic-3|\bformer`}
	ban := func(why, words string) { out[why] = words }
	if tool != "laser" {
		ban("only a laser has a beam, char and smoke", `(?i)\bchar\b|\bbeam|\blaser|\bsmoke|back-flash|fumes`)
	}
	if tool == "saw" || tool == "knife" {
		ban("nothing reads a cut file at a saw or a knife", `(?i)\boperation|colour in|in the files?\b|\bfeed\b|\bspeed\b|\bbed\b|machine time|sweeps`)
	} else {
		ban("a machine needs no fence and no rule", `(?i)\bfence|steel rule|by hand on the template|fret saw`)
	}
	if tool == "router" {
		ban("a router has no speed of a beam", `(?i)\bspeed\b|steel rule`)
	}
	if tool == "knife" {
		ban("a knife makes no chips", `(?i)\bchips|\bfence|brush the scores|spindle|cutter`)
	}
	if tool == "saw" {
		ban("a saw has no cutter", `(?i)\bcutter\b|knife`)
	}
	switch family {
	case "plastic":
		ban("plastic is no wood", `(?i)dust of mdf and wood|\bchar\b|water-based|sand and paint|\boil\b|stubs? of wood|crackle|thin glue`)
		if tool != "knife" {
			ban("no knife on plastic", `(?i)with a knife|\bknife\b`)
		}
	case "paper":
		ban("card is no wood", `(?i)dust of mdf and wood|water-based|tape over|solvent`)
	default:
		ban("wood is no plastic", `(?i)crazes|solvent|whiten|\bfilm on the (hollow|round)`)
	}
	if closed {
		ban("a band has no foot and no tip", `(?i)\bfoot\b|\btip\b|free end|\bspan\b`)
	} else {
		ban("an open panel has no seam and no former", `(?i)\bseam|all round`)
	}
	if !closes {
		ban("scores that open can't pinch", `(?i)pinch shut|from closing|mouth has`)
	}
	if !base {
		ban("no base was asked for", `(?i)stand the ribs in the base|tenon of|take tenons|base's`)
	}
	if units == "in" {
		ban("inches are asked for", `\d mm\b`)
		ban("a fit is in thousandths", `(tenons? of|slots? of|Kerf of|kerf of|deep in|skin in a sheet of|wide, cuts|score \d)[^.]*\d/\d+ in`)
	} else {
		ban("millimetres are asked for", `\d in\b[^ ]|\d in$`)
	}
	return out
}

// Every sentence fits the tool, the sheet and the shape, in either unit, and is short.
func TestWordsFollowTheTool(t *testing.T) {
	for _, tool := range tools {
		for _, sh := range sheets {
			for _, c := range situations {
				t.Run(tool+"/"+sh.id+"/"+c.name, func(t *testing.T) {
					d := job(tool, sh.id)
					c.edit(&d)
					p, s := made(t, d)
					strips := []string{"strips", "tongues", "closing", "bending", "kerf", "fitting"}
					own := strings.ReplaceAll(strings.Join(said(s, strips...), "\n"), "heat and smoke on cotton", "heat") // of glue
					own = regexp.MustCompile(`(MDF|plywood|acrylic|Greyboard) [\d.]+ mm`).ReplaceAllString(own, "$1")     // names of sheets
					all := strings.Join(said(s), "\n")
					for why, words := range banned(tool, sh.family, p.Section.Closed, p.Scores.Pinching.Score > 0, p.Base != nil, d.Units) {
						text := own
						if found := regexp.MustCompile(words).FindAllStringIndex(text, -1); len(found) > 0 {
							at := found[0]
							t.Errorf("%s: %q in …%s…", why, text[at[0]:at[1]], text[max(0, at[0]-60):min(len(text), at[1]+40)])
						}
					}
					for _, sentence := range sentences(all) {
						assert.LessOrEqual(t, len(strings.Fields(sentence)), 30, sentence)
						assert.NotContains(t, sentence, "!")
					}
					assert.Equal(t, c.closed, p.Section.Closed)
				})
			}
		}
	}
}

// sentences cuts a text at full stops before a space or a new line.
func sentences(text string) (out []string) {
	for _, line := range strings.Split(text, "\n") {
		out = append(out, regexp.MustCompile(`[.?] `).Split(line, -1)...)
	}
	return out
}

// The first page holds what may go wrong and the cautions of tool and sheets; the order of
// work comes after them, figures and numbers after that.
func TestWhatMayGoWrongStandsFirst(t *testing.T) {
	d := job("laser", "mdf-3")
	d.Curve.Radius, d.Machine.Depths, d.Rib.FootDepth, d.Rib.TipDepth = "16", []string{"1.2"}, "12", "6"
	p, s := made(t, d)
	var order []string
	for _, sec := range s.Sections {
		order = append(order, sec.ID)
	}
	assert.Equal(t, []string{"watch", "cautions", "steps", "parts", "machine", "basis", "trouble", "finish", "proof", "strips", "tongues"}, order)
	watch := s.Sections[0]
	spoken := 0
	for _, f := range check.Run(p) {
		if f.Severity == "note" {
			continue
		}
		spoken++
		text := fmt.Sprint(watch.Steps)
		assert.Contains(t, text, f.Text)
		for _, r := range f.Remedies {
			assert.Contains(t, text, r.Text)
		}
	}
	require.Positive(t, spoken, "this one has something against it")
	assert.Len(t, watch.Steps, spoken)
	assert.Equal(t, "Stop", watch.Steps[0].What)

	_, calm := made(t, design.Examples()[0].Design)
	assert.Contains(t, calm.Sections[0].Lines, "No warning stands against this design.")
}

// A sheet that only a rib or the base is cut from brings its cautions, and its name stands
// in the table of parts.
func TestCautionsOfAllSheets(t *testing.T) {
	d := job("laser", "mdf-3")
	d.Rib.Places = []design.RibPlace{{Across: "-30", Stock: "acrylic-3"}, {Across: "30", Stock: "birch-6"}}
	_, s := made(t, d)
	text := strings.Join(said(s), "\n")
	for _, want := range []string{"MDF dust", "Acrylic flares", "Glue lines burn", "Solvent cement", "Cast acrylic 3 mm", "Birch plywood 6 mm", "Scrape the rib's edge", "Ready the plastic rib's edge"} {
		assert.Contains(t, text, want)
	}
	d.Machine.Tool = "knife"
	_, s = made(t, d)
	text = strings.Join(said(s), "\n")
	assert.NotContains(t, text, "flares")
	assert.Contains(t, text, "crazes with time")
}

// A saw has its fence on paper: every setting with both its scores where the panel is the
// same from both ends, and every score from one edge where it is not.
func TestFencePositions(t *testing.T) {
	section := func(s bench.Sheet) bench.Section {
		for _, sec := range s.Sections {
			if sec.ID == "positions" {
				return sec
			}
		}
		return bench.Section{}
	}
	cells := func(sec bench.Section) (out [][]string) {
		for half := range 2 {
			for _, r := range sec.Table.Rows {
				if r[3*half] != "" {
					out = append(out, r[3*half:3*half+3])
				}
			}
		}
		return out
	}
	d := job("saw", "mdf-6")
	p, s := made(t, d)
	sec := section(s)
	rows := cells(sec)
	n := p.ScoresCut()
	assert.Len(t, rows, (n+1)/2, "each setting cuts two")
	assert.Contains(t, sec.Lines[2], "end for end")
	for i, r := range rows {
		from, fence := p.Scores.Layout.Folds[i].U-p.Outline.From, p.Scores.Layout.Folds[i].U-p.Outline.From-p.V.Machine.ScoreWidth/2
		assert.Equal(t, []string{fmt.Sprint(i + 1), number(from), number(fence)}, r)
		assert.InDelta(t, p.Outline.Length-from, p.Scores.Layout.Folds[n-1-i].U-p.Outline.From, 0.05, "its twin from the other end")
	}
	d.Curve.Foot = "60"
	p, s = made(t, d)
	assert.Len(t, cells(section(s)), p.ScoresCut(), "not the same from both ends")
	assert.NotContains(t, strings.Join(section(s).Lines, " "), "end for end")
	_, s = made(t, job("laser", "mdf-6"))
	assert.Empty(t, section(s).ID)
}

func number(v float64) string {
	s := strings.TrimRight(fmt.Sprintf("%.2f", v), "0")
	return strings.TrimSuffix(s, ".")
}

// The profile is to be laid on only where it is printed in true size; else its scale is
// named and the file that has it whole.
func TestTheProfileIsHonest(t *testing.T) {
	for _, c := range []struct {
		radius string
		scale  float64
	}{{"80", 1}, {"150", 1}, {"190", 2}, {"900", 10}} {
		d := job("laser", "mdf-3")
		d.Curve.Radius = c.radius
		p, s := made(t, d)
		for _, sec := range s.Sections {
			if sec.ID != "proof" {
				continue
			}
			text := strings.Join(sec.Lines, "\n")
			f := sec.Figures[0]
			assert.Equal(t, c.scale, f.Scale, c.radius)
			assert.Equal(t, c.scale == 1, bench.InTrueSize(p))
			box := f.Box(0)
			assert.LessOrEqual(t, box.W()/f.Scale, 180.0)
			_, span, _ := bench.Profile(p)
			assert.Equal(t, number(math.Round(span*10)/10)+" mm", f.Labels[2].Text, "its length to check it by")
			if c.scale == 1 {
				assert.Contains(t, text, "Hold the piece against this profile")
				continue
			}
			assert.NotContains(t, text, "Hold the piece against this profile")
			assert.Contains(t, text, fmt.Sprintf("1:%g", c.scale))
			assert.Contains(t, text, bench.ProfileFile)
		}
	}
}

// Figures have the words that the steps use: foot, tip, scored face, rib lines, glue.
func TestFiguresAreNamed(t *testing.T) {
	labels := func(d design.Document) map[string]string {
		_, s := made(t, d)
		out := map[string]string{}
		for _, sec := range s.Sections {
			for _, f := range sec.Figures {
				out[f.ID] += f.Caption
				for _, l := range f.Labels {
					out[f.ID] += "\n" + l.Text
				}
			}
		}
		return out
	}
	d := job("laser", "mdf-3")
	d.Rib.Quantity, d.Rib.Foot, d.Base.Kind, d.Rib.Caul = "2", "tenon", "row", "yes"
	got := labels(d)
	for id, words := range map[string][]string{
		"part-panel": {"scored face up", "foot edge", "tip", "rib 1 line"}, "part-rib1": {"foot", "tip", "glue"},
		"together": {"scored face", "glued here", "foot", "tip"}, "part-base": {"slot"}, "part-caul": {"pressed on"},
		"profile": {"foot", "tip"}, "strips-tongues": {"held down", "table's edge", "weight"},
	} {
		for _, w := range words {
			assert.Contains(t, got[id], w, id)
		}
	}
	d.Panel.ScoredFace = "round"
	assert.Contains(t, labels(d)["part-panel"], "other face", "a line that is ruled by hand lies on the other face")
}

// On which side of the middle a rib line lies as one looks at the face that meets the rib:
// worked out by hand for the four ways of scoring. With the foot edge toward you, a place
// that is positive across lies to the left as seen from the show face (flat coordinates:
// u away from you, v to the left).
func TestRibLinesLieOnTheirSide(t *testing.T) {
	for _, c := range []struct{ scored, show, side string }{
		// The rib is on the hollow side and so meets the hollow face.
		{"hollow", "round", "right"}, {"hollow", "hollow", "left"}, {"round", "round", "right"}, {"round", "hollow", "left"},
	} {
		d := job("laser", "mdf-3")
		d.Panel.ScoredFace, d.Panel.ShowFace = c.scored, c.show
		d.Rib.Places = []design.RibPlace{{Across: "30"}}
		_, s := made(t, d)
		for _, sec := range s.Sections {
			if sec.ID == "lines" {
				assert.Equal(t, "30 mm to the "+c.side, sec.Table.Rows[0][1], "%+v", c)
			}
		}
	}
}

// Test strips explain themselves: each kind is drawn, read, written and entered by the
// names that the form has.
func TestStripsExplainThemselves(t *testing.T) {
	d := job("laser", "mdf-3")
	d.Strips.Which = "all"
	p, s := made(t, d)
	names := map[string]bool{}
	readings, _ := design.At("strips.readings")
	for _, f := range readings.Columns {
		names[f.Label] = true
		for _, c := range f.Choices {
			names[c.Label] = true
		}
	}
	kinds := map[string]bool{}
	first := true
	for _, sec := range s.Sections {
		switch sec.ID {
		case "strips":
			assert.True(t, sec.NewPage)
			assert.Contains(t, strings.Join(sec.Lines, " "), "“Test strips”")
		case "tongues", "closing", "bending", "kerf", "fitting":
			kinds[sec.ID] = true
			require.NotNil(t, sec.Table)
			assert.True(t, sec.Table.Ruled)
			empty := 0
			for _, r := range sec.Table.Rows {
				require.Len(t, r, len(sec.Table.Head))
				for _, c := range r {
					if c == "" {
						empty++
					}
				}
			}
			assert.GreaterOrEqual(t, empty, len(sec.Table.Rows), "a place to write for every row of %s", sec.ID)
			require.NotEmpty(t, sec.Figures)
			assert.NotEmpty(t, sec.Figures[0].Strokes)
			last := sec.Steps[len(sec.Steps)-1]
			assert.Equal(t, "enter", last.ID)
			for _, m := range regexp.MustCompile(`“([^”]+)”`).FindAllStringSubmatch(last.How, -1) {
				assert.True(t, names[m[1]], "%s: the form has no %q", sec.ID, m[1])
			}
		default:
			assert.True(t, first, "%s stands after the strips", sec.ID)
			continue
		}
		first = false
	}
	assert.Len(t, kinds, 5)
	tongues := 0
	strips := p.TestStrips()
	for _, piece := range strips.Pieces {
		if weights := strips.Weights(piece); len(weights) == 2 {
			tongues++
		}
	}
	assert.Equal(t, 7, tongues)
	d.Strips.Which = "none"
	_, s = made(t, d)
	for _, sec := range s.Sections {
		assert.False(t, sec.NewPage, sec.ID)
	}
}
