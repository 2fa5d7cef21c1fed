package design

import (
	"errors"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func settled() Document {
	d := Examples()[0].Design
	d.Machine.BedWidth, d.Machine.Speed = "580", "110"
	d.Cut.HourPrice, d.Cut.SheetPrice, d.Cut.Gap, d.Cut.RepeatLayers = "24", "9", "4", true
	d.Cut.Operations = map[string]Operation{"score": {Name: "first", Colour: "#112233", Passes: "2", Speed: "90"}}
	d.Cut.Pins = []Pin{{Part: "panel", X: "10", Y: "10"}}
	return d
}

func TestSettingsGoIntoAnotherDesign(t *testing.T) {
	d := settled()
	text := SaveMachine(d)
	other := Examples()[1].Design
	other.Cut.Scrap, other.Cut.SheetPrice = []ScrapPoint{{X: "1", Y: "2"}}, "30"
	got, notes, err := OpenMachine(other, text)
	require.NoError(t, err)
	assert.Empty(t, notes)
	assert.Equal(t, d.Machine, got.Machine)
	assert.Equal(t, d.Cut.Operations, got.Cut.Operations)
	assert.Equal(t, []string{"24", "4", "30"}, []string{got.Cut.HourPrice, got.Cut.Gap, got.Cut.SheetPrice})
	assert.Equal(t, other.Cut.Scrap, got.Cut.Scrap, "how this design lies is its own")
	assert.Empty(t, got.Cut.Pins)
	got.Machine, got.Cut = other.Machine, other.Cut
	assert.Equal(t, other, got, "nothing else changes")
	assert.Equal(t, text, SaveMachine(func() Document { d, _, _ := OpenMachine(Empty(), text); return d }()), "opening and saving again changes nothing")
}

// The inch is 25.4 mm exactly: international yard and pound agreement of 1959.
func TestSettingsComeInTheDesignsUnit(t *testing.T) {
	d := settled()
	other := Empty()
	other.Units = "in"
	got, _, err := OpenMachine(other, SaveMachine(d))
	require.NoError(t, err)
	was, _ := Read(d)
	now, _ := Read(got)
	assert.InDelta(t, was.Machine.BedWidth, now.Machine.BedWidth, 1e-4)
	assert.InDelta(t, was.Machine.Speed, now.Machine.Speed, 1e-4)
	assert.InDelta(t, was.Cut.Gap, now.Cut.Gap, 1e-4)
	assert.NotEqual(t, d.Machine.BedWidth, got.Machine.BedWidth)
}

func TestSettingsThatAreNone(t *testing.T) {
	d := settled()
	for text, trouble := range map[string]Trouble{
		"": Nothing, "{": CutShort, "[]": NotDesign, string(Save(d)): NotDesign, `{"format":"springrib machine"}`: NotDesign,
		`{"format":"springrib machine","version":9}`: Newer, strings.Repeat("[", 40): TooDeep, "no": NotJSON,
	} {
		got, _, err := OpenMachine(d, []byte(text))
		var e *FileError
		require.True(t, errors.As(err, &e), "%q", text)
		assert.Equal(t, trouble, e.Trouble, "%q", text)
		assert.Equal(t, d, got, "the design stays")
	}
	_, notes, err := OpenMachine(d, []byte(`{"format":"springrib machine","version":1,"machine":{"tool":7,"lens":"2 in"},"sheet":{}}`))
	require.NoError(t, err)
	assert.Len(t, notes, 2)
}

func FuzzOpenMachine(f *testing.F) {
	f.Add(SaveMachine(settled()))
	f.Add([]byte(`{"format":"springrib machine","version":1,"units":"in","machine":{"depths":[1,null]},"cut":{"operations":{"score":{}}}}`))
	f.Fuzz(func(t *testing.T, text []byte) {
		got, _, err := OpenMachine(Empty(), text)
		if err != nil {
			return
		}
		again, _, err := OpenMachine(Empty(), SaveMachine(got))
		require.NoError(t, err)
		require.Equal(t, string(SaveMachine(got)), string(SaveMachine(again)))
		Read(got)
	})
}
