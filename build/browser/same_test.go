package browser

import (
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/view"
	"springrib/internal/wire"
)

// asked is what came back of a question put through the page's own worker.
type asked struct {
	Reply   json.RawMessage `json:"reply"`
	Streams [][]float32     `json:"streams"`
}

// askPage puts a question to the core in the page.
func askPage(p *Page, q wire.Request) asked {
	p.t.Helper()
	text, err := json.Marshal(q)
	p.must(err)
	return Eval[asked](p, state+`.asked.core.ask(`+string(text)+`).then((a) => ({ reply: { ...a.reply, id: 0 }, streams: a.streams.map((s) => [...s]) }))`)
}

// filing keeps the plan of the design whose files are asked for, as the core of a page does.
var filing = view.New()

// askHere puts a question to the same core, compiled for this machine.
func askHere(t *testing.T, q wire.Request) asked {
	t.Helper()
	text, err := json.Marshal(q)
	require.NoError(t, err)
	core := view.Core{}
	if q.Kind == "file" {
		core = filing
	}
	reply, streams := wire.Answer(core, text)
	return asked{reply, streams}
}

// Every figure, drawing and file must be the same in the browser and natively, to the
// last bit: a count that flips between the two would be a panel that does not fit.
func TestTheCoreAnswersTheSameInTheBrowserAsNatively(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	controls, err := view.Core{}.Controls()
	require.NoError(t, err)
	designs := map[string]json.RawMessage{"empty": controls.Empty}
	for _, e := range controls.Examples {
		designs[e.ID] = e.Design
	}
	names, err := filepath.Glob("../../testdata/designs/*.json")
	require.NoError(t, err)
	require.NotEmpty(t, names)
	for _, name := range names {
		text, err := os.ReadFile(name)
		require.NoError(t, err)
		q := wire.Request{Kind: "open", Text: string(text)}
		here := askHere(t, q)
		assert.JSONEq(t, string(here.Reply), string(askPage(p, q).Reply), name)
		var r wire.Reply
		require.NoError(t, json.Unmarshal(here.Reply, &r))
		if r.Design != nil {
			designs[filepath.Base(name)] = r.Design
		}
	}
	for name, design := range designs {
		q := wire.Request{Kind: "plan", Design: design}
		here, there := askHere(t, q), askPage(p, q)
		assert.JSONEq(t, string(here.Reply), string(there.Reply), name)
		assert.Equal(t, len(here.Streams), len(there.Streams), name)
		for i := range here.Streams {
			assert.Equal(t, here.Streams[i], there.Streams[i], name)
		}
		var r wire.Reply
		require.NoError(t, json.Unmarshal(here.Reply, &r))
		for _, f := range r.Plan.Files {
			q := wire.Request{Kind: "file", Design: design, File: f.Name}
			assert.JSONEq(t, string(askHere(t, q).Reply), string(askPage(p, q).Reply), "%s of %s", f.Name, name)
		}
	}
}
