package view

import (
	"encoding/json"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/wire"
)

// absurd is what somebody may type where a figure or a choice is meant.
var absurd = [...]string{"", "-1", "0", "0.0001", "7", "100000", "1e308", "NaN", "1/0", "9 ft", "12 deg", "true", "chain", "rubbish \x00<b>&\u2028", strings.Repeat("8", 400)}

// spoiled calls back with every example with every field, and every column of a list's
// first row, set to every absurd text; every stride-th of them.
func spoiled(stride int, each func(name string, d design.Document)) {
	n := 0
	for _, e := range design.Examples() {
		for _, f := range design.Fields() {
			paths := []string{f.Path}
			switch f.Kind {
			case design.Rows:
				paths = nil
				for _, c := range f.Columns {
					paths = append(paths, f.Path+".0."+c.Path)
				}
			case design.Lengths:
				paths[0] += ".0"
			}
			for _, path := range paths {
				for _, text := range absurd {
					if n++; n%stride != 0 {
						continue
					}
					if d, ok := design.Set(e.Design, path, text); ok {
						each(e.ID+" "+path+" "+short(text), d)
					}
				}
			}
		}
	}
}

func short(text string) string { return text[:min(len(text), 20)] }

// everywhere asks of a design all that the page can: its plan with the view in space or
// the isometric one, and every file at once.
func everywhere(t *testing.T, name string, d design.Document, n int) {
	t.Helper()
	in, err := json.Marshal(d)
	require.NoError(t, err)
	kinds := []wire.Show{{Kind: "space"}, {Kind: "isometric", Folded: 0.4}}
	core := New() // its files are of the plan that it showed
	v, arrays, err := core.Plan(in, kinds[n%2])
	require.NoError(t, err, name)
	require.True(t, v.Drawn || finding.Worst(v.Findings) == finding.Stop, name)
	for _, a := range arrays {
		for _, x := range a {
			require.False(t, math.IsNaN(float64(x)) || math.IsInf(float64(x), 0), name)
		}
	}
	if len(v.Files) == 0 {
		return
	}
	whole := v.Files[len(v.Files)-1]
	body, err := core.File(in, whole.Name, nil)
	require.NoError(t, err, name)
	require.NotEmpty(t, body.Base64, name)
}

// Whatever is typed into one field of an example, the plan, the views and the files come.
func TestAbsurdTextsEverywhere(t *testing.T) {
	stride := 97 // prime to the number of texts: in time each field meets each of them
	if testing.Short() {
		stride = 499
	}
	n := 0
	spoiled(stride, func(name string, d design.Document) {
		everywhere(t, name, d, n)
		n++
	})
	require.Greater(t, n, 20)
}

// Open takes any text: it is a design, or an error in words, and a design can be planned.
func TestOpenTakesAnyText(t *testing.T) {
	good := string(design.Save(design.Examples()[0].Design))
	texts := []string{"", " ", "null", "[]", "0", "\"springrib\"", "{", "{}", "\xff\xfe{}", "\ufeff" + good, good + good, good[:len(good)/2], good + "\x00",
		strings.Repeat("[", 100000), strings.Repeat(`{"curve":`, 100000), `{"format":"other","version":1}`, `{"version":1e99}`, `{"version":-1}`, `{"version":"1"}`,
		strings.Replace(good, `"version":`, `"version":9`, 1), strings.Replace(good, `"version":`, `"version":null,"was":`, 1),
		strings.ReplaceAll(good, `"mm"`, `"furlong"`), strings.ReplaceAll(good, `"laser"`, `{"a":[1]}`), strings.ReplaceAll(good, `:"`, `:1,"x":"`),
		strings.ReplaceAll(good, "}", "},"), strings.ReplaceAll(good, `"`, `'`), "<svg/>", "%PDF-1.4", "PK\x03\x04", "0\nSECTION\n2\nHEADER",
		strings.Replace(good, `"name":`, `"name":"`+strings.Repeat("é", 1<<20)+`","was":`, 1)}
	for i := 0; i < len(good); i += 37 {
		texts = append(texts, good[:i]+"\x00"+good[i+1:], good[:i]+good[i+1:])
	}
	opened, refused := 0, 0
	for i, text := range texts {
		out, _, err := Core{}.Open(text)
		if err != nil {
			require.NotEmpty(t, err.Error())
			require.Less(t, len(err.Error()), 2000, "text %d", i)
			refused++
			continue
		}
		opened++
		require.True(t, json.Valid(out), "text %d", i)
		if i%9 == 0 {
			_, _, err = Core{}.Plan(out, wire.Show{})
			require.NoError(t, err, "text %d", i)
		}
	}
	require.Greater(t, opened, 20)
	require.Greater(t, refused, 20)
}
