package wire

import (
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/finding"
)

// fake is a Core whose plan is a function of the test.
type fake struct {
	Waiting
	plan func(design []byte) (PlanView, [][]float32, error)
}

func (f fake) Plan(d []byte, _ Show) (PlanView, [][]float32, error) { return f.plan(d) }

// ask sends one request and reads the reply, which must be JSON whatever happened.
func ask(t *testing.T, core Core, request string) (Reply, [][]float32) {
	t.Helper()
	text, arrays := Answer(core, []byte(request))
	var r Reply
	require.NoError(t, json.Unmarshal(text, &r), "%s", text)
	return r, arrays
}

// set names the members of r that are set.
func set(t *testing.T, r Reply) []string {
	t.Helper()
	text, err := json.Marshal(r)
	require.NoError(t, err)
	var m map[string]json.RawMessage
	require.NoError(t, json.Unmarshal(text, &m))
	var names []string
	for _, n := range []string{"error", "controls", "plan", "design", "findings", "file", "set"} {
		if _, ok := m[n]; ok {
			names = append(names, n)
		}
	}
	return names
}

func TestEachKindSetsItsOwnMembers(t *testing.T) {
	for _, c := range []struct {
		request string
		want    []string
	}{
		{`{"id":1,"kind":"fields"}`, []string{"controls"}},
		{`{"id":2,"kind":"plan","design":{"name":"box"}}`, []string{"plan"}},
		{`{"id":3,"kind":"open","text":"{\"name\":\"box\"}"}`, []string{"design"}},
		{`{"id":10,"kind":"convert","text":"in","design":{"units":"mm","curve":{"radius":"50.8"}}}`, []string{"design"}},
		{`{"id":11,"kind":"convert","text":"ells","design":{}}`, []string{"error"}},
		{`{"id":12,"kind":"convert","text":"mm","design":[]}`, []string{"error"}},
		{`{"id":13,"kind":"machine","design":{},"text":"{}"}`, []string{"design"}},
		{`{"id":14,"kind":"pack","design":{},"effort":1000}`, []string{"design"}},
		{`{"id":4,"kind":"save","design":{}}`, []string{"file"}},
		{`{"id":5,"kind":"file","design":{},"file":"none"}`, []string{"error"}},
		{`{"id":6,"kind":"dance"}`, []string{"error"}},
		{`{"id":7}`, []string{"error"}},
		{`{"id":8,"kind":"plan"}`, []string{"error"}},
		{`{"id":9,"kind":"open","text":"{"}`, []string{"error"}},
	} {
		r, _ := ask(t, Waiting{}, c.request)
		assert.Equal(t, c.want, set(t, r), c.request)
		assert.NotZero(t, r.ID, c.request)
	}
}

func TestReplyHasTheIDOfItsRequest(t *testing.T) {
	r, _ := ask(t, Waiting{}, `{"id":40961,"kind":"fields"}`)
	assert.Equal(t, 40961, r.ID)
	r, _ = ask(t, Waiting{}, `{"id":40962,"kind":"file"}`)
	assert.Equal(t, 40962, r.ID)
}

// The inch is 25.4 mm exactly: international yard and pound agreement of 1959.
func TestConvertSaysTheSameLengthInOtherUnits(t *testing.T) {
	r, _ := ask(t, Waiting{}, `{"kind":"convert","text":"in","design":{"units":"mm","curve":{"kind":"radius-angle","radius":"50.8"}}}`)
	var doc struct {
		Units string
		Curve struct{ Radius string }
	}
	require.NoError(t, json.Unmarshal(r.Design, &doc))
	assert.Equal(t, "in", doc.Units)
	assert.Regexp(t, `^2( in)?$`, doc.Curve.Radius)
}

func TestArraysGoWithTheirDrawings(t *testing.T) {
	r, arrays := ask(t, Waiting{}, `{"id":1,"kind":"plan","design":{"name":"box"}}`)
	require.Len(t, r.Plan.Drawings, 1)
	require.Len(t, arrays, 1)
	assert.Equal(t, r.Plan.Drawings[0].Items[0].To, len(arrays[0]))
}

func TestWhatCannotBeReadIsRefusedInWords(t *testing.T) {
	for _, request := range []string{"", "{", "null x", `{"id":"one"}`, `[1,2]`, "\xff\xfe", strings.Repeat("[", 100_000)} {
		r, arrays := ask(t, Waiting{}, request)
		assert.Equal(t, []string{"error"}, set(t, r))
		assert.Nil(t, arrays)
		assert.Contains(t, r.Error, "your design is kept")
	}
}

func TestALongRequestIsRefusedUnread(t *testing.T) {
	for _, room := range []int{MaxDesign, MaxRequest} {
		long := []byte(`{"id":1,"kind":"open","text":"` + strings.Repeat("a", room) + `"}`)
		text, _ := Answer(Waiting{}, long)
		assert.Contains(t, string(text), "at most 8 MB can be read")
		assert.Less(t, len(text), 300)
	}
}

func TestAPanicBecomesASentence(t *testing.T) {
	for name, f := range map[string]func([]byte) (PlanView, [][]float32, error){
		"named":    func([]byte) (PlanView, [][]float32, error) { panic("land of negative width") },
		"error":    func([]byte) (PlanView, [][]float32, error) { panic(errors.New("no bracket")) },
		"index":    func(d []byte) (PlanView, [][]float32, error) { _ = d[len(d)]; return PlanView{}, nil, nil },
		"nil":      func([]byte) (PlanView, [][]float32, error) { var p *PlanView; return *p, nil, nil },
		"mismatch": func([]byte) (PlanView, [][]float32, error) { return PlanView{}, [][]float32{{1}}, nil },
		"NaN": func([]byte) (PlanView, [][]float32, error) {
			return PlanView{Scores: []ScoreView{{U: math.NaN()}}}, nil, nil
		},
		"long": func([]byte) (PlanView, [][]float32, error) { panic(strings.Repeat("\xffé", 5000)) },
	} {
		r, arrays := ask(t, fake{plan: f}, `{"id":12,"kind":"plan","design":{}}`)
		assert.Equal(t, []string{"error"}, set(t, r), name)
		assert.Equal(t, 12, r.ID, name)
		assert.Nil(t, arrays, name)
		assert.Contains(t, r.Error, "Something broke inside", name)
		assert.Contains(t, r.Error, "Your design is safe", name)
		assert.Less(t, len(r.Error), 1000, name)
		assert.True(t, utf8.ValidString(r.Error), name)
	}
}

func TestListsAreNeverNull(t *testing.T) {
	at := 3.0
	view := PlanView{
		Drawings: []Drawing{{ID: "flat"}},
		Findings: []finding.Finding{{ID: "x", Place: finding.Place{At: &at}, Remedies: []finding.Remedy{{Text: "do"}}}},
	}
	core := fake{plan: func([]byte) (PlanView, [][]float32, error) { return view, [][]float32{nil}, nil }}
	for _, request := range []string{`{"kind":"plan","design":{}}`, `{"kind":"save","design":{}}`} {
		text, _ := Answer(core, []byte(request))
		assert.NotContains(t, string(text), "null", request)
	}
	text, _ := Answer(core, []byte(`{"kind":"plan","design":{}}`))
	for _, want := range []string{`"scores":[]`, `"files":[]`, `"cautions":[]`, `"items":[]`, `"labels":[]`, `"gauges":[]`, `"cards":{}`, `"fields":{}`, `"at":3`} {
		assert.Contains(t, string(text), want)
	}
	assert.NotContains(t, string(text), `"set"`, "what is empty and may be left out stays out")
	assert.Nil(t, view.Scores, "the core's own value is not written to")
}
