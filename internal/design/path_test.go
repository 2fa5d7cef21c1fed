package design

import (
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// All texts at once are those that Get tells one by one, and a path that is not among
// them is empty or nowhere.
func TestTextsAreThoseOfGet(t *testing.T) {
	docs := []Document{Empty()}
	for _, e := range Examples() {
		docs = append(docs, e.Design)
	}
	full := Examples()[0].Design
	full.Curve.Points = []Point{{X: "1", Y: "2"}, {X: "3"}}
	full.Panel.Holes = []Hole{{Kind: "slot", Along: "4"}}
	full.Cut.Operations = map[string]Operation{"mark": {Name: "pencil", Passes: "2"}}
	for _, d := range append(docs, full) {
		texts := textsOf(&d)
		require.NotEmpty(t, texts)
		for path, text := range texts {
			got, ok := Get(d, path)
			assert.True(t, ok, path)
			assert.Equal(t, got, text, path)
		}
		for _, f := range Fields() {
			got, _ := Get(d, f.Path)
			if f.Kind == Check && got == "false" {
				got = "" // not ticked is not typed
			}
			assert.Equal(t, got, texts[f.Path], f.Path)
		}
	}
	texts := textsOf(&full)
	assert.Equal(t, "3", texts["curve.points.1.x"])
	assert.Equal(t, "pencil", texts["cut.operations.mark.name"])
	assert.Equal(t, "true", textsOf(&Document{Panel: Panel{TipRound: true}})["panel.tipRound"])
}
