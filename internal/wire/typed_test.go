package wire_test

import (
	"encoding/json"
	"runtime"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/view"
)

// Each field of the first example gets figures from nothing to absurd, and each choice
// it offers. Every one of them must come to a plan or to findings with a sentence. The
// other examples, and all as wasm, get the absurd alone, for the time it takes.
func TestNothingTypedBreaksTheCore(t *testing.T) {
	controls, err := view.Core{}.Controls()
	require.NoError(t, err)
	for i, e := range controls.Examples {
		for _, c := range controls.Controls {
			texts := []string{"100000"}
			if i == 0 && runtime.GOARCH != "wasm" {
				texts = append(texts, "", "0.01", "two")
				for _, choice := range c.Choices {
					texts = append(texts, choice.Value)
				}
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
