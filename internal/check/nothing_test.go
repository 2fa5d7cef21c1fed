package check

import (
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/plan"
	"springrib/internal/remedy"
)

func nothing(t *testing.T, d design.Document) (plan.Plan, []finding.Finding) {
	t.Helper()
	v, found := design.Read(d)
	require.NotEqual(t, finding.Stop, finding.Worst(found), "%+v", found)
	p := plan.Make(v)
	return p, NothingWorks(d, &p)
}

// Where nothing works one finding names the limit that binds, and every change that it
// offers, clicked, gives a plan that is sound.
func TestNothingWorks(t *testing.T) {
	offered := map[string]int{}
	for _, c := range []struct {
		name string
		out  plan.Reason
		edit func(d *design.Document)
	}{
		{"too tight an arc", plan.Cracks, func(d *design.Document) { d.Curve.Radius = "22"; d.Rib.FootDepth, d.Rib.TipDepth = "10", "8" }},
		{"shallow scores", plan.Cracks, func(d *design.Document) { d.Curve.Radius = "60"; d.Machine.Depths = []string{"0.5", "0.9"} }},
		{"a narrow score", plan.Pinches, func(d *design.Document) {
			d.Curve.Radius = "45"
			d.Machine.ScoreWidth, d.Machine.WidthSpread = "0.06", "0.01"
		}},
		{"too great a rise", plan.Cracks, func(d *design.Document) {
			d.Curve.Kind, d.Curve.Span, d.Curve.Rise = "span-rise", "50", "20"
			d.Rib.FootDepth, d.Rib.TipDepth = "10", "8"
		}},
		{"one tight bend of a row", plan.Cracks, func(d *design.Document) {
			d.Curve.Kind = "chain"
			d.Curve.Pieces = []design.Piece{{Turn: "over", Length: "40", Radius: "100"}, {Turn: "over", Length: "15", Radius: "18"}}
			d.Rib.FootDepth, d.Rib.TipDepth = "10", "8"
		}},
		{"a box with tight corners", plan.Cracks, func(d *design.Document) {
			d.Curve.Kind, d.Curve.BoxWidth, d.Curve.BoxHeight, d.Curve.Corner = "box", "200", "160", "15"
		}},
		{"gloss on a tight bend", plan.FoldsVisible, func(d *design.Document) { d.Curve.Radius, d.Panel.Finish, d.Panel.MinLand = "60", "gloss", "1.2" }},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := sound()
			c.edit(&d)
			p, fs := nothing(t, d)
			require.Len(t, fs, 1)
			f := fs[0]
			assert.Equal(t, "nothing-works", f.ID)
			assert.Equal(t, c.out, p.Nearest().Out)
			assert.Equal(t, float64(p.Nearest().Passes), f.Numbers["passes"])
			assert.Equal(t, p.Nearest().Over(), f.Numbers["over"])
			assert.NotEmpty(t, f.Remedies)
			for _, r := range f.Remedies {
				mended := d
				for path, text := range r.Set {
					var ok bool
					mended, ok = design.Set(mended, path, text)
					require.True(t, ok, path)
				}
				p, again := nothing(t, mended)
				assert.Empty(t, again, r.Text)
				assert.True(t, p.Drawn && p.Try().Sound(), "%s: %s", r.Text, p.Try().Out)
				offered[strings.Fields(r.Text)[0]]++
			}
		})
	}
	t.Log(offered)
	for _, word := range []string{"Score", "Bend", "Let", "Take", "Round"} {
		assert.Greater(t, offered[word], 0, word)
	}
}

// What one number of passes can do, or the person's own count is to blame for, is no
// such case.
func TestSomethingWorks(t *testing.T) {
	for _, edit := range []func(d *design.Document){
		func(d *design.Document) {},
		func(d *design.Document) { d.Panel.Passes = "1" },
		func(d *design.Document) { d.Panel.Spacing, d.Panel.Count = "count", "8" },
	} {
		d := sound()
		edit(&d)
		_, fs := nothing(t, d)
		assert.Empty(t, fs)
	}
}

func BenchmarkNothingWorks(b *testing.B) {
	d := sound()
	d.Curve.Radius, d.Rib.FootDepth, d.Rib.TipDepth = "22", "10", "8"
	v, _ := design.Read(d)
	p := plan.Make(v)
	for b.Loop() {
		NothingWorks(d, &p)
	}
}

// A search among ten thousand scores ends early, by a count of scores and not by a clock,
// and says so; what it offers still works. One of a hundred scores ends by itself.
func TestTheSearchIsBounded(t *testing.T) {
	d := sound()
	d.Curve.Kind, d.Panel.MinLand, d.Machine.Depths = design.Chain, "1", []string{"1.2"}
	for i := range 60 {
		d.Curve.Pieces = append(d.Curve.Pieces, design.Piece{Turn: []string{"over", "back"}[i%2], Length: "200", Radius: fixed(75 + float64(i/2))})
	}
	p, fs := nothing(t, d)
	require.Greater(t, len(p.Scores.Layout.Folds), 10000)
	require.Len(t, fs, 1)
	_, short := remedy.Search(d, &p)
	assert.True(t, short)
	assert.NotEmpty(t, fs[0].Remedies)
	for _, r := range fs[0].Remedies {
		v, _ := design.Read(apply(t, d, r))
		q := plan.Make(v)
		assert.True(t, q.Drawn && q.Try().Sound(), r.Text)
	}
	d.Curve.Kind, d.Curve.Radius, d.Curve.Angle = design.RadiusAngle, "40", "90"
	p, fs = nothing(t, d)
	require.Len(t, fs, 1)
	_, short = remedy.Search(d, &p)
	assert.False(t, short)
}

// What is refused unlaid would be refused laid.
func TestWorkableAgreesWithThePlan(t *testing.T) {
	r := rand.New(rand.NewPCG(93, 94))
	sounds := map[bool]int{}
	for range 150 {
		d := troubled(r)
		d.Panel.Passes = "auto"
		v, found := design.Read(d)
		if finding.Worst(found) == finding.Stop {
			continue
		}
		p := new(plan.Memory).Alone(v)
		if len(p.Scores.Tries) == 0 {
			continue
		}
		any := false
		for _, try := range p.Scores.Tries {
			any = any || try.Sound()
		}
		got, _ := remedy.Workable(&v, nil)
		assert.Equal(t, any, got, typed(d))
		sounds[got]++
	}
	assert.Greater(t, sounds[true], 10)
	assert.Greater(t, sounds[false], 10)
}

// A number of scores that does not work, where no other would either, is told with what
// would do once the spacing is left open.
func TestNoSpacingWorks(t *testing.T) {
	d := sound()
	d.Curve.Radius, d.Rib.FootDepth, d.Rib.TipDepth = "22", "10", "8"
	for _, spacing := range []string{design.FixedCount, design.FixedPitch} {
		d.Panel.Spacing, d.Panel.Count, d.Panel.Pitch = spacing, "12", "2"
		p, fs := nothing(t, d)
		require.True(t, p.Drawn)
		require.Len(t, fs, 1, spacing)
		assert.Equal(t, "nothing-works", fs[0].ID)
		require.NotEmpty(t, fs[0].Remedies)
		for _, r := range fs[0].Remedies {
			v, _ := design.Read(apply(t, d, r))
			q := plan.Make(v)
			assert.True(t, q.Drawn && q.Try().Sound(), r.Text)
		}
	}
}
