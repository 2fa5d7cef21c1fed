package plan

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/learn"
)

// A depth strip moves the depth that is worked with, and not what was typed.
func TestLearnLeavesWhatWasAsked(t *testing.T) {
	d := ply()
	d.Strips.Readings = []design.Reading{{Kind: "skin", Passes: "1", Value: "2.5"}, {Kind: "skin", Passes: "1", Value: "2.5"}}
	d.Strips.Damp = true
	asked, _ := design.Read(d)
	same, _ := design.Read(d)
	v := asked
	got, said := learn.From(&v)
	assert.Equal(t, same, asked)
	require.NotNil(t, got.Learned)
	assert.Equal(t, 2, got.Learned.Skins[0].N)
	assert.NotEqual(t, asked.Machine.Depths[0], v.Machine.Depths[0])
	assert.NotEmpty(t, said, "that the air has turned")
}

// Nothing is written to what a person asked for, by any stage.
func TestNothingIsWrittenToWhatWasAsked(t *testing.T) {
	docs := []design.Document{ply(), shaped("sector", nil)}
	for _, e := range design.Examples() {
		docs = append(docs, e.Design)
	}
	scrap := archDesign() // whose outline crosses itself
	scrap.Cut.Scrap = []design.ScrapPoint{{X: "0", Y: "0"}, {X: "300", Y: "300"}, {X: "300", Y: "0"}, {X: "0", Y: "200"}}
	docs = append(docs, scrap)
	for _, d := range docs {
		asked, _ := design.Read(d)
		same, _ := design.Read(d)
		p := Make(asked)
		mend(&p)
		assert.Equal(t, same, asked, d.Name)
		assert.Equal(t, same, *p.Asked, d.Name)
	}
	p := must(t, scrap)
	assert.True(t, has(p, "scrap-crosses"))
	assert.Len(t, p.V.Cut.Scrap, 4)
}
