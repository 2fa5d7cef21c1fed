package bridge_test

import (
	"encoding/json"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/view"
)

// Each field of each example gets figures from nothing to absurd, and each choice it
// offers. Every one of them must come to a plan or to findings with a sentence. (As
// wasm the second example is left out, for its time.)
func TestNothingTypedBreaksTheCore(t *testing.T) {
	controls, err := view.Core{}.Controls()
	require.NoError(t, err)
	examples := controls.Examples
	if runtime.GOARCH == "wasm" {
		examples = examples[:1]
	}
	for _, e := range examples {
		for _, c := range controls.Controls {
			texts := []string{"", "0.01", "100", "100000", "two"}
			for _, choice := range c.Choices {
				texts = append(texts, choice.Value)
			}
			for _, text := range texts {
				var doc map[string]any
				require.NoError(t, json.Unmarshal(e.Design, &doc))
				write(doc, c.Path, typed(c, text))
				design, err := json.Marshal(doc)
				require.NoError(t, err)
				t.Run(e.ID+" "+c.Path+" "+text, func(t *testing.T) {
					r := plan(t, design)
					assert.NotEmpty(t, r.Plan.Verdict.Sentence)
					if r.Plan.Drawn {
						assert.NotEmpty(t, r.Plan.Drawings)
					} else {
						assert.NotEmpty(t, r.Plan.Findings, "what can't be drawn says why")
					}
				})
			}
		}
	}
}
