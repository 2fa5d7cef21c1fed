package design

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func knownSheet() Document {
	d := typedDesign()
	d.Sheet.Stock, d.Sheet.Readings, d.Sheet.Batch = "birch-4", []string{"3.9", "3.92"}, "May"
	d.Machine.Setting = "80 W, slow"
	d.Strips.Readings = []Reading{
		{Kind: "skin", Value: "0.8", Passes: "2"},
		{Kind: "bend", Value: "40", Verdict: "held", Passes: "2", Spacing: "2", Setting: "40 W", Batch: "March"},
		{Kind: "skin", Value: "0.5", Passes: "2", Stock: "MDF 3 mm"},
		{},
	}
	return d
}

// A stock's file takes the sheet and its readings into another design, where they keep
// belonging to their sheet, setting and batch.
func TestAStockTravels(t *testing.T) {
	text := SaveStock(knownSheet())
	other := typedDesign()
	other.Strips.Readings = []Reading{{Kind: "kerf", Value: "0.2"}}
	got, notes, err := OpenStock(other, text)
	require.NoError(t, err)
	assert.Empty(t, notes)
	assert.Equal(t, knownSheet().Sheet, got.Sheet)
	assert.Equal(t, other.Machine, got.Machine)
	require.Len(t, got.Strips.Readings, 3, "its own, and the two of this sheet")
	a, b := got.Strips.Readings[1], got.Strips.Readings[2]
	assert.Equal(t, []string{"Birch plywood 4 mm", "80 W, slow", "May"}, []string{a.Stock, a.Setting, a.Batch})
	assert.Equal(t, []string{"40 W", "March"}, []string{b.Setting, b.Batch})
	again, _, err := OpenStock(got, text)
	require.NoError(t, err)
	assert.Equal(t, got, again, "nothing comes in twice")
	assert.Len(t, other.Strips.Readings, 1, "what was given stays as it was")

	in := Convert(typedDesign(), "in")
	inch, _, err := OpenStock(in, text)
	require.NoError(t, err)
	v, _ := Read(got)
	w, _ := Read(inch)
	assert.InDelta(t, v.Sheet.T, w.Sheet.T, 3e-5)
	assert.InDelta(t, v.Strips.Readings[1].Value, w.Strips.Readings[0].Value, 3e-5)
}

func TestWhatIsNoStock(t *testing.T) {
	d := knownSheet()
	for text, want := range map[string]Trouble{
		"": Nothing, "{": CutShort, "[]": NotDesign, string(Save(d)): NotDesign, string(SaveMachine(d)): NotDesign, `{"format":"springrib stock"}`: NotDesign,
		`{"format":"springrib stock","version":9}`: Newer, strings.Repeat("[", 40): TooDeep, "no": NotJSON,
	} {
		got, _, err := OpenStock(d, []byte(text))
		var e *FileError
		require.True(t, errors.As(err, &e), text)
		assert.Equal(t, want, e.Trouble, text)
		assert.Equal(t, d, got)
	}
	_, notes, err := OpenStock(d, []byte(`{"format":"springrib stock","version":1,"sheet":{"stock":7,"colour":"red"},"readings":[{"kind":true},3]}`))
	require.NoError(t, err)
	assert.NotEmpty(t, notes)
}

func FuzzOpenStock(f *testing.F) {
	f.Add(SaveStock(knownSheet()))
	f.Add([]byte(`{"format":"springrib stock","version":1,"units":"in","sheet":{"readings":[1,null]},"readings":[{"kind":"sag","load":12}]}`))
	f.Fuzz(func(t *testing.T, text []byte) {
		got, _, err := OpenStock(Empty(), text)
		if err != nil {
			return
		}
		v, _ := Read(got)
		sound(t, v)
		again, _, err := OpenStock(got, SaveStock(got))
		require.NoError(t, err)
		require.Equal(t, string(Save(Document{Sheet: got.Sheet})), string(Save(Document{Sheet: again.Sheet})))
	})
}
