package bridge_test

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"springrib/internal/bridge"
	"springrib/internal/view"
)

// FuzzAnswer puts any request whatever to the real core. The reply must be JSON and
// hold either an error or what was asked for, never both; nothing may panic on the way,
// and drawings must lie in their arrays.
func FuzzAnswer(f *testing.F) {
	for _, s := range []string{
		"", "null", "[]", "{}", `{"id":1}`, `{"id":-1,"kind":"fields"}`, `{"kind":"plan","design":{"units":"in","sheet":{"readings":["3","1/8"]}}}`,
		`{"kind":"plan","design":null}`, `{"kind":"plan","design":[1e999]}`, `{"kind":"open","text":"{\"version\":99}"}`,
		`{"kind":"open","text":"\u0000\ud800"}`, `{"kind":"save","design":{}}`, `{"kind":"file","file":"../../x","design":{}}`, `{"id":1e400}`,
	} {
		f.Add([]byte(s))
	}
	for _, request := range examples(f) {
		f.Add(request)
	}
	f.Fuzz(func(t *testing.T, request []byte) {
		text, arrays := bridge.Answer(view.Core{}, request)
		var r bridge.Reply
		require.NoError(t, json.Unmarshal(text, &r))
		require.NotContains(t, r.Error, "Something broke inside")
		var members map[string]json.RawMessage
		require.NoError(t, json.Unmarshal(text, &members))
		require.Greater(t, len(members), 1, "an id alone answers nothing")
		if r.Error != "" {
			require.Len(t, members, 2)
		}
		if r.Plan == nil {
			require.Empty(t, arrays)
			return
		}
		checkDrawings(t, r.Plan.Drawings, arrays)
	})
}

// examples asks for each example's plan as the page would, whole and with single
// fields made absurd.
func examples(f *testing.F) (requests [][]byte) {
	controls, err := view.Core{}.Controls()
	require.NoError(f, err)
	for _, e := range controls.Examples {
		request, err := json.Marshal(bridge.Request{ID: 1, Kind: "plan", Design: e.Design})
		require.NoError(f, err)
		requests = append(requests, request)
		for _, absurd := range []string{"-1", "1e308", "0", "1/0", "9 ft"} {
			text := string(request)
			for _, field := range []string{"radius", "length", "kerf", "width", "count"} {
				before, after, ok := strings.Cut(text, `"`+field+`":"`)
				if !ok {
					continue
				}
				_, after, _ = strings.Cut(after, `"`)
				requests = append(requests, []byte(before+`"`+field+`":"`+absurd+`"`+after))
			}
		}
	}
	return requests
}

// operands is how many numbers follow each drawing command.
var operands = [...]int{2, 2, 6, 0}

func checkDrawings(t *testing.T, drawings []bridge.Drawing, arrays [][]float32) {
	t.Helper()
	require.Len(t, arrays, len(drawings))
	for i, d := range drawings {
		for _, item := range d.Items {
			require.LessOrEqual(t, 0, item.From)
			require.LessOrEqual(t, item.From, item.To)
			require.LessOrEqual(t, item.To, len(arrays[i]))
			for at := item.From; at < item.To; {
				command := arrays[i][at]
				require.Contains(t, []float32{0, 1, 2, 3}, command, "%s at %d", d.ID, at)
				at += 1 + operands[int(command)]
				require.LessOrEqual(t, at, item.To, "%s: a command runs past its item", d.ID)
			}
		}
		for _, n := range arrays[i] {
			require.False(t, math.IsNaN(float64(n)) || math.IsInf(float64(n), 0), d.ID)
		}
	}
}
