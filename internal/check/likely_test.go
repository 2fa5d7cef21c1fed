package check

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/plan"
)

// shade has as many scores as limits ask for and no more: about one in forty cracks.
func shade() design.Document {
	d := design.Examples()[0].Design
	d.Panel.Spacing, d.Panel.Count, d.Panel.Passes = "count", "80", "2"
	return d
}

func chanceOf(t *testing.T, d design.Document) (float64, []finding.Finding) {
	t.Helper()
	v, _ := design.Read(d)
	p := plan.Make(v)
	require.True(t, p.Drawn)
	var out []finding.Finding
	for _, f := range Run(&p) {
		if f.ID == "may-fail" || f.ID == "often-fails" {
			out = append(out, f)
		}
	}
	return p.Proof.Chance.Fail, out
}

func TestMoreThanFewMayFail(t *testing.T) {
	c, found := chanceOf(t, shade())
	require.Len(t, found, 1)
	f := found[0]
	assert.Equal(t, "may-fail", f.ID)
	assert.Equal(t, finding.Warn, f.Severity)
	assert.InDelta(t, 0.02, c, 0.012)
	assert.Equal(t, c, f.Numbers["chance"])
	assert.Less(t, f.Numbers["known"], c/10, "a strip that confirms would settle it")
	assert.Equal(t, "strips.readings", f.Place.Field)
	assert.Equal(t, finding.Free, f.Effect(), "who takes the chance may cut")

	require.NotEmpty(t, f.Remedies, "and a remedy does it without")
	d := shade()
	for path, text := range f.Remedies[0].Set {
		var ok bool
		d, ok = design.Set(d, path, text)
		require.True(t, ok)
	}
	c, found = chanceOf(t, d)
	assert.LessOrEqual(t, c, 0.01)
	assert.Empty(t, found)
}

// A design that more than a tenth of would fail is not called likely to hold.
func TestOftenFails(t *testing.T) {
	d := shade()
	d.Curve.Radius, d.Panel.Finish, d.Panel.Count = "74", "hidden", "90"
	c, found := chanceOf(t, d)
	require.Len(t, found, 1)
	assert.Equal(t, "often-fails", found[0].ID)
	assert.Greater(t, c, many)
}

// Where the spacing is chosen the scores are laid closer until few fail; who lets more fail
// gets fewer scores.
func TestScoresAreLaidForFewToFail(t *testing.T) {
	last := 1000
	for _, most := range []string{"0.4", "1", "5", "100"} {
		d := shade()
		d.Panel.Spacing, d.Panel.MayFail = "follow", most
		v, _ := design.Read(d)
		p := plan.Make(v)
		assert.LessOrEqual(t, p.Proof.Chance.Fail, v.Panel.MayFail/100, most)
		assert.LessOrEqual(t, p.ScoresCut(), last, most)
		last = p.ScoresCut()
		assert.Empty(t, mayFail(&p))
	}
	assert.Equal(t, 80, last)
}

// Bent strips are believed: the same design is sound once its sheet was tried.
func TestBentStripsSettleIt(t *testing.T) {
	d := shade()
	for range 3 {
		d.Strips.Readings = append(d.Strips.Readings,
			design.Reading{Kind: "bend", Stock: "mdf-3", Passes: "2", Spacing: "1", Value: "34", Verdict: "held"},
			design.Reading{Kind: "bend", Stock: "mdf-3", Passes: "2", Spacing: "1", Value: "28", Verdict: "broke"})
	}
	_, found := chanceOf(t, d)
	assert.Empty(t, found)
}
