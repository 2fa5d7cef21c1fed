package browser

import (
	"bytes"
	"encoding/base64"
	"encoding/json"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/bridge"
	"springrib/internal/view"
)

// asked is what came back of a question put through the page's own worker.
type asked struct {
	Reply   json.RawMessage `json:"reply"`
	Streams [][]float32     `json:"streams"`
}

// askPage puts a question to the core in the page.
func askPage(p *Page, q bridge.Request) asked {
	p.t.Helper()
	text, err := json.Marshal(q)
	p.must(err)
	return Eval[asked](p, state+`.core.ask(`+string(text)+`).then((a) => ({ reply: { ...a.reply, id: 0 }, streams: a.streams.map((s) => [...s]) }))`)
}

// askHere puts a question to the same core, compiled for this machine.
func askHere(t *testing.T, q bridge.Request) asked {
	t.Helper()
	text, err := json.Marshal(q)
	require.NoError(t, err)
	reply, streams := bridge.Answer(view.Core{}, text)
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
		q := bridge.Request{Kind: "open", Text: string(text)}
		here := askHere(t, q)
		assert.JSONEq(t, string(here.Reply), string(askPage(p, q).Reply), name)
		var r bridge.Reply
		require.NoError(t, json.Unmarshal(here.Reply, &r))
		if r.Design != nil {
			designs[filepath.Base(name)] = r.Design
		}
	}
	for name, design := range designs {
		q := bridge.Request{Kind: "plan", Design: design}
		here, there := askHere(t, q), askPage(p, q)
		assert.JSONEq(t, string(here.Reply), string(there.Reply), name)
		assert.Equal(t, len(here.Streams), len(there.Streams), name)
		for i := range here.Streams {
			assert.Equal(t, here.Streams[i], there.Streams[i], name)
		}
		var r bridge.Reply
		require.NoError(t, json.Unmarshal(here.Reply, &r))
		for _, f := range r.Plan.Files {
			q := bridge.Request{Kind: "file", Design: design, File: f.Name}
			assert.JSONEq(t, string(askHere(t, q).Reply), string(askPage(p, q).Reply), "%s of %s", f.Name, name)
		}
	}
}

// What a person saves is, byte for byte, what the core writes natively: every file of every
// example, by its button.
func TestEveryDownloadIsTheNativeFile(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	controls, err := view.Core{}.Controls()
	require.NoError(t, err)
	var accents map[string]any // letters that not every format writes as UTF-8
	require.NoError(t, json.Unmarshal(controls.Examples[0].Design, &accents))
	accents["name"] = "Außenleuchte für den Kai"
	text, err := json.Marshal(accents)
	require.NoError(t, err)
	for _, e := range append(controls.Examples, bridge.Example{ID: "accents", Design: text}) {
		doc := e.Design
		Eval[Void](p, state+`.become(`+string(doc)+`, '`+e.ID+`')`)
		p.Wait(settled + ` && ` + state + `.plan.files.length > 0 && !` + state + `.plan.partial`)
		core := view.New()
		plan, _, err := core.Plan(doc, bridge.Show{})
		require.NoError(t, err)
		require.NotEmpty(t, plan.Files, e.ID)
		for _, f := range plan.Files {
			native, err := core.File(doc, f.Name)
			require.NoError(t, err)
			want := []byte(native.Text)
			if native.Base64 != "" {
				want, err = base64.StdEncoding.DecodeString(native.Base64)
				require.NoError(t, err)
			}
			require.NotEmpty(t, want, f.Name)
			name, got := p.Download(func() { p.Press(f.Label) })
			assert.Equal(t, f.Name, name)
			assert.True(t, bytes.Equal(want, got), "%s of %s: %d bytes natively, %d from the page", f.Name, e.ID, len(want), len(got))
		}
	}
}
