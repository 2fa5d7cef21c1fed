package view

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/wire"
)

// workedJob is a job from the first verdict to the last, as its maker sees it.
type workedJob struct {
	*testing.T
	design.Document
}

// says checks the verdict, a part of its sentence, and the findings it must have.
func (j *workedJob) says(severity, part string, ids ...string) {
	j.Helper()
	r, _, err := New().Plan(raw(j.T, j.Document), wire.Show{})
	require.NoError(j, err)
	assert.Equal(j, severity, r.Verdict.Severity, r.Verdict.Sentence)
	assert.Contains(j, r.Verdict.Sentence, part)
	var found []string
	for _, f := range r.Findings {
		found = append(found, f.ID)
	}
	for _, id := range ids {
		assert.Contains(j, found, id)
	}
	if severity == "sound" {
		assert.Equal(j, "free", work(j.Document).release().effect.String())
	}
}

// reads writes readings of test strips down.
func (j *workedJob) reads(readings ...design.Reading) {
	j.Strips.Readings = append(j.Strips.Readings, readings...)
}

// skins are those of one strip, each measured.
func (j *workedJob) skins(passes string, values ...string) {
	for _, v := range values {
		j.reads(design.Reading{Kind: "skin", Passes: passes, Value: v})
	}
}

// bends are two strips that held round a gauge and two that broke round a smaller one.
func (j *workedJob) bends(passes, spacing, held, broke string) {
	for range 2 {
		j.reads(design.Reading{Kind: "bend", Passes: passes, Spacing: spacing, Value: held, Verdict: "held"},
			design.Reading{Kind: "bend", Passes: passes, Spacing: spacing, Value: broke, Verdict: "broke"})
	}
}

func newJob(t *testing.T, name, stock, tool string, thickness ...string) *workedJob {
	j := &workedJob{t, design.Empty()}
	j.Name, j.Sheet.Stock, j.Machine.Tool, j.Sheet.Readings = name, stock, tool, thickness
	j.Panel.Finish = "any"
	return j
}

// A reading hood of 3 mm MDF, scored by a laser whose depths were only guessed: the
// handbook's strain is used up. One set of strips settles depth, width and strain. Invented.
func TestWorkedJobByLaser(t *testing.T) {
	j := newJob(t, "Reading hood", "mdf-3", "laser", "3.01", "3.03", "3.00", "3.02", "3.01")
	j.Machine.Depths = []string{"1.2", "2.1", "2.5"}
	j.Curve.Radius, j.Curve.Angle, j.Curve.Foot, j.Curve.Tip = "80", "120", "25", "25"
	j.Panel.Width, j.Panel.Spacing, j.Panel.Count, j.Panel.Passes = "120", "count", "64", "2"
	j.Rib.FootDepth, j.Rib.TipDepth, j.Rib.Quantity = "30", "15", "2"
	j.says("warn", "Score 2 strains the skin to 0.67 of what cracks it", "strain-over", "not-measured")

	j.bends("2", "1.2", "36", "28")
	j.skins("2", "0.86", "0.88", "0.87", "0.85", "0.88")
	j.reads(design.Reading{Kind: "closing", Passes: "2", Spacing: "1.2", Count: "24", Turn: "118"})
	j.says("sound", "1 panel in 450 would fail. It reaches 0.51 of cracking and 0.39 of pinching, with 64 scores in two passes.")
}

// A bench end of 6 mm MDF, kerfed on a table saw: 1 panel in 11 would crack as far as the
// handbook knows, and what is least known is the strain. Bent strips and five skins of one
// strip make it sound. Invented.
func TestWorkedJobBySaw(t *testing.T) {
	j := newJob(t, "Bench end", "mdf-6", "saw", "6.02", "6.05", "6.00", "6.03", "6.02")
	j.Curve.Radius, j.Curve.Angle, j.Curve.Foot, j.Curve.Tip = "170", "80", "60", "60"
	j.Panel.Width, j.Panel.Spacing, j.Panel.Count = "200", "count", "30"
	j.Rib.FootDepth, j.Rib.TipDepth, j.Rib.Quantity = "60", "30", "2"
	j.says("warn", "About 1 panel in 11 would crack on its way to the rib. Most of that is not knowing when this sheet breaks", "may-fail")

	j.bends("1", "4", "75", "55")
	j.skins("1", "1.70", "1.74", "1.71", "1.69", "1.72")
	j.says("sound", "with 30 scores in one pass.")
}

// A tight box corner that is refused until its strips are read: the mouths as typed pinch
// shut. A width strip tells that they are wider; then the strain of the handbook is in the
// way, then how unlike the scores are. Each strip answers what the verdict asks. Invented.
func TestWorkedJobRefusedUntilItsStripsAreRead(t *testing.T) {
	j := newJob(t, "Quay box", "mdf-3", "laser", "3.01", "3.03", "3.00", "3.02", "3.01")
	j.Machine.Depths, j.Machine.ScoreWidth = []string{"1.2", "2.1", "2.5"}, "0.13"
	j.Curve.Radius, j.Curve.Angle, j.Curve.Foot, j.Curve.Tip = "32", "90", "40", "40"
	j.Panel.Width, j.Panel.Spacing, j.Panel.Pitch, j.Panel.Passes = "80", "pitch", "1.4", "3"
	j.Rib.FootDepth, j.Rib.TipDepth, j.Rib.Quantity = "25", "15", "2"
	j.says("stop", "In the worst case these scores pinch shut", "kerf-pinches")
	assert.Equal(t, "marked", work(j.Document).release().effect.String(), "the files say that they are not to be trusted")

	for _, turn := range []string{"92", "94", "93"} {
		j.reads(design.Reading{Kind: "closing", Passes: "3", Spacing: "1.4", Count: "20", Turn: turn})
	}
	j.says("warn", "Neither the spacing that you set works", "strain-over")

	j.bends("3", "0.9", "12", "10")
	j.says("warn", "About 1 panel in 8 would pinch shut on its way to the rib. Most of that comes from scores of unequal depth.", "often-fails")

	j.skins("3", "0.49", "0.51", "0.50", "0.51", "0.49")
	j.says("sound", "with 39 scores in three passes.")
}
