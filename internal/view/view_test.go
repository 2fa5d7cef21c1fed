package view

import (
	"encoding/json"
	"encoding/xml"
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/plan"
	"springrib/internal/wire"
)

var update = flag.Bool("update", false, "rewrite the goldens")

func raw(t testing.TB, d design.Document) []byte {
	t.Helper()
	out, err := json.Marshal(d)
	require.NoError(t, err)
	return out
}

func show(t *testing.T, d design.Document) (wire.PlanView, [][]float32) {
	t.Helper()
	v, arrays, err := Core{}.Plan(raw(t, d), wire.Show{})
	require.NoError(t, err)
	return v, arrays
}

// untried is show without what would mend the findings, which takes longest.
func untried(t *testing.T, d design.Document) wire.PlanView {
	t.Helper()
	v, _, err := Core{}.Plan(raw(t, d), wire.Show{Untried: true})
	require.NoError(t, err)
	return v
}

// planned is work without what would mend the findings.
func planned(d design.Document) *worked { return workOut(d, wire.Show{}, new(plan.Memory)) }

// What each example says, in words: review of a change of mechanics is review of a diff
// of these files.
func TestExamplesInWords(t *testing.T) {
	known := map[string]bool{}
	for _, e := range design.Examples() {
		for _, units := range []string{"mm", "in"} {
			name := e.ID + "." + units + ".txt"
			known[name] = true
			v, _ := show(t, design.Convert(e.Design, units))
			var b strings.Builder
			fmt.Fprintf(&b, "%s: %s\n\n", v.Verdict.Word, v.Verdict.Sentence)
			for _, g := range v.Verdict.Gauges {
				fmt.Fprintf(&b, "%s: %s\n", g.Label, g.Text)
			}
			b.WriteString("\n")
			for _, c := range design.Cards() {
				fmt.Fprintf(&b, "%s: %s\n", c.Title, v.Cards[c.ID])
			}
			b.WriteString("\n")
			for _, n := range v.Numbers {
				fmt.Fprintf(&b, "%s: %s\n", n.Label, n.Text)
			}
			b.WriteString("\n")
			for _, f := range v.Findings {
				fmt.Fprintf(&b, "%s %s: %s\n", f.Severity, f.ID, f.Text)
			}
			b.WriteString("\n")
			for _, f := range v.Files {
				fmt.Fprintf(&b, "%s: %s\n", f.Name, f.Label)
			}
			golden(t, name, b.String())
		}
	}
	files, err := os.ReadDir(filepath.Join("testdata", "words"))
	require.NoError(t, err)
	for _, f := range files {
		assert.True(t, known[f.Name()], "%s belongs to no example", f.Name())
	}
}

func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", "words", name)
	if *update {
		require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
		require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
	}
	want, err := os.ReadFile(path)
	require.NoError(t, err)
	assert.Equal(t, string(want), got)
}

// Every stream is whole commands, inside its array, within the drawing's box.
func TestDrawingsAreWellFormed(t *testing.T) {
	for _, e := range design.Examples() {
		v, arrays := show(t, e.Design)
		require.Len(t, arrays, len(v.Drawings))
		for i, d := range v.Drawings {
			at := 0
			for _, it := range d.Items {
				require.Equal(t, at, it.From, "%s: items lie end to end", d.ID)
				at = it.To
				walk(t, d, arrays[i][it.From:it.To])
			}
			require.Equal(t, len(arrays[i]), at)
		}
	}
}

func walk(t *testing.T, d wire.Drawing, run []float32) {
	t.Helper()
	for i := 0; i < len(run); {
		n := map[float32]int{0: 2, 1: 2, 2: 6, 3: 0}
		count, ok := n[run[i]]
		require.True(t, ok, "command %v", run[i])
		for j := 0; j < count; j += 2 {
			x, y := float64(run[i+1+j]), float64(run[i+2+j])
			require.True(t, x >= d.Box[0]-30 && x <= d.Box[0]+d.Box[2]+30 && y >= d.Box[1]-30 && y <= d.Box[1]+d.Box[3]+30, "%s: (%v, %v)", d.ID, x, y)
		}
		i += 1 + count
	}
}

// Every score is in the list, in both drawings, under the same name.
func TestScoresAreEverywhere(t *testing.T) {
	for _, e := range design.Examples() {
		v, _ := show(t, e.Design)
		require.NotEmpty(t, v.Scores)
		for _, d := range v.Drawings[:2] {
			refs := map[string]bool{}
			for _, it := range d.Items {
				refs[it.Ref] = true
			}
			for _, s := range v.Scores {
				require.True(t, refs[scoreRef(s.N)], "%s in %s", scoreRef(s.N), d.ID)
			}
		}
	}
}

// Each listed file can be had, is well-formed, and is the same twice.
func TestFiles(t *testing.T) {
	for _, e := range design.Examples() {
		v, _ := show(t, e.Design)
		require.NotEmpty(t, v.Files)
		for _, f := range v.Files {
			a, err := Core{}.File(raw(t, e.Design), f.Name, nil)
			require.NoError(t, err)
			b, err := Core{}.File(raw(t, e.Design), f.Name, nil)
			require.NoError(t, err)
			assert.Equal(t, a, b)
			if strings.HasSuffix(f.Name, ".svg") {
				require.NoError(t, xml.Unmarshal(bodyOf(t, a), new(struct {
					XMLName xml.Name `xml:"svg"`
				})))
			}
		}
		_, err := Core{}.File(raw(t, e.Design), "nothing.svg", nil)
		assert.Error(t, err)
	}
}

func TestNoFileForWhatMustNotBeLasered(t *testing.T) {
	d := design.Examples()[0].Design
	d.Sheet.Stock = "pvc-3"
	v, _ := show(t, d)
	for _, f := range v.Files {
		assert.NotRegexp(t, `\.(svg|dxf|png|csv)$|template|strips`, f.Name)
	}
	assert.Equal(t, "stop", v.Verdict.Severity)
	require.Len(t, v.Withheld, 1)
	assert.Equal(t, v.Verdict.Sentence, v.Withheld[0])
}

func TestNothingTypedYet(t *testing.T) {
	v, arrays := show(t, design.Empty())
	assert.False(t, v.Drawn)
	assert.Empty(t, arrays)
	assert.Equal(t, "Not yet", v.Verdict.Word)
	assert.NotEmpty(t, v.Fields["curve.radius"].Problem)
	assert.Equal(t, "field-missing", v.Findings[0].ID)
}

func TestVerdictFollowsTheFindings(t *testing.T) {
	for _, e := range design.Examples() {
		d := e.Design
		v, _ := show(t, d)
		worst := finding.Worst(v.Findings)
		assert.Equal(t, worst == finding.Stop, v.Verdict.Severity == "stop")
		d.Panel.Spacing, d.Panel.Count = "count", "7" // a cone takes no fewer than six
		v, _ = show(t, d)
		assert.Equal(t, "stop", v.Verdict.Severity)
		assert.Equal(t, "Do not cut", v.Verdict.Word)
	}
}

func TestSaveAndOpen(t *testing.T) {
	for _, e := range design.Examples() {
		f, err := Core{}.Save(raw(t, e.Design))
		require.NoError(t, err)
		back, found, err := Core{}.Open(string(bodyOf(t, f)))
		require.NoError(t, err)
		assert.Empty(t, found)
		assert.JSONEq(t, string(raw(t, e.Design)), string(back))
	}
}

// Names of files hold nothing of a path, whatever the design is called.
func TestNamesOfFilesAreTame(t *testing.T) {
	for _, typed := range []string{"Harbour lamp", "../../etc/passwd", "CON\x00<script>", "", "日本", "a/b\\c:d", strings.Repeat("x", 500)} {
		d := design.Examples()[0].Design
		d.Name = typed
		v, _ := show(t, d)
		require.NotEmpty(t, v.Files)
		for _, f := range v.Files {
			assert.NotContains(t, f.Name, "/")
			assert.NotContains(t, f.Name, "\\")
			assert.NotContains(t, f.Name, "..")
			assert.Less(t, len(f.Name), 200)
		}
	}
}

func TestReportHoldsThePlan(t *testing.T) {
	d := design.Examples()[0].Design
	out, err := Core{}.Report(raw(t, d))
	require.NoError(t, err)
	var r struct {
		Drawn  bool
		Scores []struct{ U, Fold float64 }
		Panel  struct{ Length float64 }
		Ribs   []struct{ Outline []string }
		Fit    struct{ EndMiss float64 }
	}
	require.NoError(t, json.Unmarshal(out, &r))
	v, _ := show(t, d)
	require.Len(t, r.Scores, len(v.Scores))
	for i, s := range v.Scores {
		assert.InDelta(t, s.U, r.Scores[i].U, 1e-6)
	}
	assert.Less(t, r.Fit.EndMiss, 0.02)
	assert.Greater(t, r.Panel.Length, 200.0)
	assert.NotEmpty(t, r.Ribs[0].Outline)
	_, err = Core{}.Report(raw(t, design.Empty()))
	assert.NoError(t, err, "also of a design that can't be drawn")
}

func FuzzPlan(f *testing.F) {
	for _, e := range design.Examples() {
		out, _ := json.Marshal(e.Design)
		f.Add(out)
	}
	f.Fuzz(func(t *testing.T, in []byte) {
		v, arrays, err := Core{}.Plan(in, wire.Show{})
		if err == nil && len(arrays) != len(v.Drawings) {
			t.Fatal("drawings without numbers")
		}
	})
}

// The examples as they are planned when something is typed, and while something is held.
func BenchmarkPlan(b *testing.B) {
	for _, e := range design.Examples() {
		in, err := json.Marshal(e.Design)
		require.NoError(b, err)
		for name, show := range map[string]wire.Show{"whole": {}, "brief": {Brief: true}, "held": {Brief: true, Held: true}} {
			b.Run(e.ID+"/"+name, func(b *testing.B) {
				b.ReportAllocs()
				for b.Loop() {
					if _, _, err := (Core{}).Plan(in, show); err != nil {
						b.Fatal(err)
					}
				}
			})
		}
	}
}

// What is drawn first, and while something is held, says the same as the whole plan.
func TestABriefPlanSaysTheSame(t *testing.T) {
	core := New()
	designs := bends()
	for _, e := range design.Examples() {
		designs[e.ID] = e.Design
	}
	for name, d := range designs {
		whole, _, err := core.Plan(raw(t, d), wire.Show{})
		require.NoError(t, err)
		for _, show := range []wire.Show{{Brief: true}, {Brief: true, Held: true}} {
			brief, _, err := core.Plan(raw(t, d), show)
			require.NoError(t, err)
			assert.Equal(t, whole.Verdict.Sentence, brief.Verdict.Sentence, name)
			for i, g := range whole.Verdict.Gauges { // an outline given as seen is fitted, which they see
				assert.InDelta(t, g.Value, brief.Verdict.Gauges[i].Value, 1e-6, name)
				assert.InDelta(t, g.High, brief.Verdict.Gauges[i].High, 1e-6, name)
			}
			assert.Equal(t, whole.Numbers, brief.Numbers, name)
			for _, row := range whole.Options.Rows { // the others are told as surely as the chosen one only by the whole plan
				if row.Chosen {
					assert.Contains(t, brief.Options.Rows, row, name)
				}
			}
			assert.Equal(t, whole.Cards, brief.Cards, name)
			if show.Held { // nothing works out what would do while a hand moves
				continue
			}
			require.Len(t, brief.Findings, len(whole.Findings), name)
			for i, f := range whole.Findings {
				assert.Equal(t, [2]string{f.ID, f.Text}, [2]string{brief.Findings[i].ID, brief.Findings[i].Text}, name)
			}
		}
	}
}

// A panel between two sections says how it stands on its ribs; another says nothing of that.
func TestReportOfASkin(t *testing.T) {
	for _, e := range design.Examples() {
		out, err := Core{}.Report(raw(t, e.Design))
		require.NoError(t, err)
		var r struct {
			Ribs []struct{}
			Skin *ReportSkin
		}
		require.NoError(t, json.Unmarshal(out, &r))
		if far := e.Design.Curve.Far; far == "" {
			assert.Nil(t, r.Skin, e.ID)
			continue
		}
		require.NotNil(t, r.Skin, e.ID)
		assert.NotEmpty(t, r.Skin.Ribs, e.ID)
		last := r.Skin.Ribs[len(r.Skin.Ribs)-1]
		assert.InDelta(t, float64(r.Skin.Apart), float64(last.Height), 5, "%s: the last rib stands at the far end", e.ID)
		assert.Greater(t, float64(r.Skin.Slant), 45.0, e.ID)
	}
}

// The handles of the far section: its radius follows its crown, its size the crown of one that is
// scaled, its sides those of a box or an oval, and its middle moves it.
func TestPullsOfTheFarSection(t *testing.T) {
	core := New()
	arc := design.Examples()[0].Design
	for _, e := range design.Examples() {
		if e.ID == "boathouse-arch" {
			arc = e.Design
		}
	}
	scaled, box := arc, arc
	scaled.Curve.Far, scaled.Curve.FarScale = design.Scaled, "80 %"
	box.Curve.Kind, box.Curve.BoxWidth, box.Curve.BoxHeight, box.Curve.Corner = design.Box, "200", "160", "60"
	box.Curve.Far, box.Curve.FarWidth, box.Curve.FarHeight = design.Oval, "170", "150"
	for _, c := range []struct {
		name, handle string
		design       design.Document
		dx, dy       float64
		want         map[string]string
	}{
		{"radius", "far-crown", arc, 0, -8, nil},
		{"scale", "far-crown", scaled, 0, -8, nil},
		{"moved", "far-move", box, 7, -3, map[string]string{"curve.farRight": "7", "curve.farUp": "3"}},
		{"width", "far-width", box, 5, 0, map[string]string{"curve.farWidth": "180"}},
		{"height", "far-height", box, 0, -4, map[string]string{"curve.farHeight": "158"}},
	} {
		in := raw(t, c.design)
		find := func(in []byte) wire.Handle {
			v, _, err := core.Plan(in, wire.Show{})
			require.NoError(t, err)
			for _, d := range v.Drawings {
				for _, h := range d.Handles {
					if h.ID == c.handle {
						return h
					}
				}
			}
			t.Fatalf("%s: no handle %s", c.name, c.handle)
			return wire.Handle{}
		}
		h := find(in)
		set, changed, err := core.Drag(in, wire.Drag{Handle: c.handle, X: h.X + c.dx, Y: h.Y + c.dy, Fine: true})
		require.NoError(t, err)
		for path, want := range c.want {
			assert.Equal(t, want, set[path], c.name)
		}
		now := find(changed)
		assert.InDelta(t, h.X+c.dx, now.X, 0.06, c.name)
		assert.InDelta(t, h.Y+c.dy, now.Y, 0.06, c.name)
	}
}
