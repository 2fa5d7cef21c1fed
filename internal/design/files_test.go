package design

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"springrib/internal/finding"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// trouble is what must come of a file in testdata/designs: an error, or findings as
// "id path", first those of the file, then those of its fields.
type trouble struct {
	err   *Trouble
	found []string
}

func refused(t Trouble) trouble     { return trouble{err: &t} }
func finds(found ...string) trouble { return trouble{found: found} }
func troubles() map[string]trouble {
	return map[string]trouble{
		"half-written-fraction":   finds("field-unreadable curve.radius"),
		"bare-fraction-in-mm":     finds("field-unreadable curve.radius", "field-unreadable panel.width"),
		"inch-fractions":          finds(),
		"newer-version":           refused(Newer),
		"no-version":              refused(NotDesign),
		"cut-short":               refused(CutShort),
		"not-json":                refused(NotJSON),
		"other-json":              refused(NotDesign),
		"empty-file":              refused(Nothing),
		"nested-deep":             refused(TooDeep),
		"wrong-types":             finds("file-type sheet.readings", "file-type panel.tipRound", "file-type rib"),
		"twice-and-unknown":       finds("file-unknown flavour", "file-twice curve.radius", "file-unknown curve.wobble", "file-unknown cut.operations.engrave", "file-twice cut.operations.score"),
		"readings-in-inches":      finds("thickness-odd sheet.readings", "field-range machine.depths.0", "field-range machine.depths.1"),
		"reading-stands-out":      finds("readings-scatter sheet.readings"),
		"depths-of-each-pass":     finds("field-order machine.depths.1"),
		"deeper-than-the-sheet":   finds("field-range machine.depths.1"),
		"absurd-figures":          finds("field-unreadable curve.radius", "field-range curve.angle", "field-unreadable curve.foot", "field-unreadable curve.tip", "field-unreadable panel.width", "field-unreadable panel.quantity", "field-range panel.passes", "field-unreadable panel.standOff", "field-range panel.strainSafe", "field-range rib.thickness", "field-unreadable rib.footDepth", "field-unreadable rib.e"),
		"first-bend-back":         finds("first-bend curve.pieces"),
		"chain-without-bend":      finds("field-missing curve.pieces"),
		"longer-than-its-circle":  finds("field-range curve.length"),
		"colours-alike":           finds("field-unreadable cut.operations.mark.colour", "colours-alike cut.operations.outer.colour"),
		"own-sheet-unmeasured":    finds("field-missing sheet.readings", "field-missing sheet.ownKind"),
		"own-plastic-unknown":     finds(),
		"unknown-choices":         finds("field-unreadable units", "field-unreadable sheet.stock", "field-unreadable curve.line"),
		"nothing-but-a-name":      finds("field-missing curve.radius", "field-missing curve.angle", "field-missing panel.width"),
		"rubbish-where-not-asked": finds(),
	}
}

func named(fs []finding.Finding) []string {
	out := []string{}
	for _, f := range fs {
		out = append(out, f.ID+" "+f.Place.Field)
	}
	return out
}

func TestTroublesomeFiles(t *testing.T) {
	files, err := filepath.Glob("../../testdata/designs/*.json")
	require.NoError(t, err)
	want := troubles()
	assert.Len(t, files, len(want))
	for _, file := range files {
		name := strings.TrimSuffix(filepath.Base(file), ".json")
		t.Run(name, func(t *testing.T) {
			w, ok := want[name]
			require.True(t, ok, "no test says what must come of it")
			text, err := os.ReadFile(file)
			require.NoError(t, err)
			doc, notes, err := Open(text)
			if w.err != nil {
				var fe *FileError
				require.True(t, errors.As(err, &fe))
				assert.Equal(t, *w.err, fe.Trouble, fe.Text)
				assert.NotEmpty(t, fe.Error())
				return
			}
			require.NoError(t, err)
			v, found := Read(doc)
			assert.ElementsMatch(t, append([]string{}, w.found...), named(append(notes, found...)))
			sound(t, v)
			mended(t, doc, found)
		})
	}
}

// mended presses the first remedy of each finding and checks that it is gone.
func mended(t *testing.T, doc Document, found []finding.Finding) {
	for _, f := range found {
		for _, rem := range f.Remedies {
			fixed := doc
			for path, text := range rem.Set {
				var ok bool
				fixed, ok = Set(fixed, path, text)
				require.True(t, ok, "%s: %s", f.ID, path)
			}
			_, after := Read(fixed)
			for _, g := range after {
				assert.False(t, g.ID == f.ID && g.Place == f.Place, "%q does not mend %s", rem.Text, f.Text)
			}
		}
	}
}

func TestWrongTypesAreLeftEmptyOrTakenAsText(t *testing.T) {
	text, err := os.ReadFile("../../testdata/designs/wrong-types.json")
	require.NoError(t, err)
	doc, _, err := Open(text)
	require.NoError(t, err)
	assert.Equal(t, "120.5", doc.Curve.Radius, "a plain number is as good as its text")
	assert.Empty(t, doc.Sheet.Readings)
	assert.Equal(t, []string{"1.3", "", "2.2"}, doc.Machine.Depths)
	v, _ := Read(doc)
	assert.Equal(t, []float64{1.3, 2.2}, v.Machine.Depths)
}

func TestTheLastOfTwoCounts(t *testing.T) {
	text, err := os.ReadFile("../../testdata/designs/twice-and-unknown.json")
	require.NoError(t, err)
	doc, _, err := Open(text)
	require.NoError(t, err)
	assert.Equal(t, "120", doc.Curve.Radius)
	assert.Equal(t, map[string]Operation{"score": {Colour: "#112233"}}, doc.Cut.Operations)
}

func TestHugeFileIsRefusedUnread(t *testing.T) {
	_, _, err := Open(make([]byte, 50<<20))
	var fe *FileError
	require.ErrorAs(t, err, &fe)
	assert.Equal(t, TooLarge, fe.Trouble)
}

func TestEveryCutOfAFileIsRefusedOrWhole(t *testing.T) {
	text := Save(Examples()[0].Design)
	for n := 0; n < len(text)-2; n += 3 {
		_, _, err := Open(text[:n])
		var fe *FileError
		require.ErrorAs(t, err, &fe, "%d bytes", n)
		if n > 0 {
			assert.Equal(t, CutShort, fe.Trouble, "%d bytes: %s", n, fe.Text)
		}
	}
	_, _, err := Open(append(text, "{}"...))
	assert.Error(t, err, "something after the end")
	_, _, err = Open(append([]byte("\xef\xbb\xbf"), text...))
	assert.NoError(t, err, "a byte order mark")
	_, _, err = Open([]byte("\x89PNG\r\n\x1a\n\x00\x00"))
	assert.ErrorContains(t, err, "not a design")
}

func TestNotesAreBounded(t *testing.T) {
	many := `{"format":"springrib design","version":1` + strings.Repeat(`,"x":1`, 10000) + `}`
	_, notes, err := Open([]byte(many))
	require.NoError(t, err)
	assert.Len(t, notes, maxNotes)
}

func TestSaveIsAFixedPoint(t *testing.T) {
	docs := []Document{{}, Empty(), {Name: "a<b>&\u2028\xff\\ufffd", Cut: Cut{Operations: map[string]Operation{"outer": {Name: "o"}, "zzz": {}, "score": {}}}}}
	for _, e := range Examples() {
		docs = append(docs, e.Design)
	}
	for _, d := range docs {
		once := Save(d)
		doc, notes, err := Open(once)
		require.NoError(t, err)
		assert.Empty(t, notes)
		assert.Equal(t, string(once), string(Save(doc)))
		assert.True(t, strings.HasSuffix(string(once), "}\n"))
	}
	for _, e := range Examples() {
		doc, _, err := Open(Save(e.Design))
		require.NoError(t, err)
		doc.Curve.Pieces, doc.Cut.Operations = e.Design.Curve.Pieces, e.Design.Cut.Operations
		assert.Equal(t, e.Design, doc, "nothing typed is lost")
	}
}

func FuzzOpen(f *testing.F) {
	// Short seeds: the fuzzer spends its time on shrinking long ones.
	for _, s := range []string{"", "{", "[]", `{"format":"springrib design","version":1,"curve":{"radius":"9","kind":"chain"},"sheet":{"readings":["3"]}}`, `{"format":"springrib design","version":1,"curve":{"pieces":[{}]}}`, `{"format":"springrib design","version":1e0}`, `{"format":"springrib design","version":1,"cut":{"operations":{"score":{"name":1}}}}`, "{\"format\":\"springrib design\",\"version\":1,\"name\":\"\\ud800\"}"} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		doc, _, err := Open(text)
		if err != nil {
			var fe *FileError
			if !errors.As(err, &fe) || fe.Text == "" {
				t.Fatalf("unhelpful error %v", err)
			}
			return
		}
		once := Save(doc)
		again, _, err := Open(once)
		if err != nil || string(Save(again)) != string(once) {
			t.Fatalf("not a fixed point: %v\n%s\n%s", err, once, Save(again))
		}
		v, _ := Read(doc)
		sound(t, v)
		for _, to := range []string{"in", "mm"} {
			w, _ := Read(Convert(doc, to))
			sound(t, w)
		}
	})
}
