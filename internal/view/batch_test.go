package view

import (
	"encoding/base64"
	"encoding/json"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/design"
	"springrib/internal/plan"
	"springrib/internal/sheet"
	"springrib/internal/wire"
)

// exampleOf returns one of the examples.
func exampleOf(t *testing.T, id string) design.Document {
	t.Helper()
	for _, e := range design.Examples() {
		if e.ID == id {
			return e.Design
		}
	}
	t.Fatal("no example " + id)
	return design.Document{}
}

func bytesOf(t *testing.T, f wire.FileBody) string {
	t.Helper()
	out, err := base64.StdEncoding.DecodeString(f.Base64)
	require.NoError(t, err)
	return string(out)
}

// A job of one design has that design's cut files, byte for byte.
func TestABatchOfOneIsTheDesign(t *testing.T) {
	for _, id := range []string{"dory-side", "lantern-case"} {
		d := exampleOf(t, id)
		out, err := New().Batch(design.Batch{Members: []design.Member{{Quantity: 1, Design: d}}}, nil)
		require.NoError(t, err)
		assert.Empty(t, out.Out)
		files := map[string]string{}
		for _, f := range out.Files {
			files[f.Name] = bytesOf(t, f)
		}
		v, _, err := New().Plan(raw(t, d), wire.Show{})
		require.NoError(t, err)
		n := 0
		for _, f := range v.Files {
			if !strings.HasSuffix(f.Name, ".svg") && !strings.HasSuffix(f.Name, ".dxf") {
				continue
			}
			one, err := New().File(raw(t, d), f.Name, nil)
			require.NoError(t, err)
			require.Contains(t, files, f.Name)
			assert.Equal(t, bytesOf(t, one), files[f.Name], f.Name)
			n++
		}
		assert.GreaterOrEqual(t, n, 3)
	}
}

// mixed is a job whose members differ in all that matters: shape, quantity, number of passes, stock,
// machine; one must not be cut at all, and one could not be read.
func mixed(t *testing.T) design.Batch {
	t.Helper()
	dory, arch, well, other, poison := exampleOf(t, "dory-side"), exampleOf(t, "boathouse-arch"), exampleOf(t, "skylight-well"), exampleOf(t, "dory-side"), exampleOf(t, "boathouse-arch")
	other.Machine.BedWidth = "900"
	poison.Rib.Stock = "pvc-3"
	arch.Rib.Stock = "birch-4"
	return design.Batch{Name: "Boat shed", Members: []design.Member{
		{Quantity: 2, Design: dory}, {Quantity: 3, Design: arch}, {Quantity: 1, Design: well},
		{Quantity: 1, Design: other}, {Quantity: 1, Design: poison}, {Quantity: 1, Problem: "This file is empty."},
	}}
}

// Every part of every member lies on one sheet, as often as it is wanted, and none on another; what must
// not be cut is left out with its reason, and the others go on.
func TestABatchLaysEveryPartOnce(t *testing.T) {
	b := gathered(mixed(t), new(plan.Memory), nil)
	for i, why := range []string{"", "", "", "another machine", "chlor", "empty"} {
		assert.Contains(t, b.members[i].out, why, b.members[i].letter)
		assert.Equal(t, why == "", b.members[i].out == "", "%s: %s", b.members[i].letter, b.members[i].out)
	}
	require.Empty(t, b.missing())
	placed := map[string]int{}
	for i := range b.lays {
		for g := range b.lays[i].Sheets {
			group := &b.lays[i].Sheets[g]
			assert.Empty(t, sheet.Verify(&group.Job, &group.Layout))
			for _, q := range group.Layout.Placed {
				placed[group.Parts[q.Piece].ID]++
				assert.Positive(t, b.sheetOf[i][g][q.Sheet])
			}
		}
	}
	want := map[string]int{"A-panel": 2, "B-panel": 3, "C-panel": 1}
	for _, m := range b.members[:3] {
		for id, n := range m.items {
			assert.Equal(t, n, placed[id], id)
			delete(placed, id)
			if w, ok := want[id]; ok {
				assert.Equal(t, w, n, id)
				delete(want, id)
			}
		}
	}
	assert.Empty(t, placed, "parts of nobody")
	assert.Empty(t, want, "parts that are missing")
	jobs := b.whole.plan.Lay.Jobs
	for i, j := range jobs {
		assert.Equal(t, [2]int{i + 1, len(jobs)}, [2]int{j.Sheet, j.Sheets})
	}
	stocks := map[string]bool{}
	for _, f := range b.whole.plan.Lay.Froms {
		stocks[f.Stock.ID] = true
	}
	assert.Equal(t, map[string]bool{"mdf-3": true, "birch-4": true}, stocks)
}

// What one member sets of its cuts gives way to the first one's, and that is said.
func TestTheCutsOfABatchAreThoseOfTheFirst(t *testing.T) {
	a, b := exampleOf(t, "dory-side"), exampleOf(t, "dory-side")
	b.Cut.Gap = "9"
	j := gathered(design.Batch{Members: []design.Member{{Quantity: 1, Design: a}, {Quantity: 1, Design: b}}}, new(plan.Memory), nil)
	assert.Empty(t, j.members[0].notes)
	require.Len(t, j.members[1].notes, 1)
	assert.Contains(t, j.members[1].notes[0], "are those of A for all")
	assert.Empty(t, j.members[1].out)
}

// A stranger finds on the bench sheet which part is which, how many, from which sheet, and who is left
// out; each member's own steps follow.
func TestTheBenchSheetOfABatch(t *testing.T) {
	b := gathered(mixed(t), new(plan.Memory), nil)
	rows := b.list().Table.Rows
	text := make([]string, len(rows))
	for i, r := range rows {
		text[i] = strings.Join(r, " | ")
	}
	all := strings.Join(text, "\n")
	assert.Contains(t, all, "A panel | Dory side | 2 | MDF 3 mm, 3.02 mm | ")
	assert.Contains(t, all, "B rib 1 | Boathouse arch | 3 | Birch plywood 4 mm, ")
	assert.NotContains(t, all, "D ", "left out")
	out := strings.Join(b.leftOut().Lines, "\n")
	assert.Contains(t, out, "C, Skylight well: Its scores take 3 passes, those of A 2. It is laid on sheets of its own.")
	assert.Contains(t, out, "D, Dory side is left out: It is set to another machine than A.")
	names := 0
	for _, f := range b.maps().Figures {
		names += len(f.Labels)
	}
	total := 0
	for _, m := range b.members[:3] {
		for _, n := range m.items {
			total += n
		}
	}
	assert.Equal(t, total, names, "every copy has its name on a map")
}

// A job is saved and opened again with all its designs; one that could not be read is kept as it was.
func TestABatchIsSavedWhole(t *testing.T) {
	text := `{"format": "springrib job", "version": 1, "name": "Two", "members": [{"quantity": 2, "design": ` + string(design.Save(exampleOf(t, "dory-side"))) +
		`}, {"design": {"format": "springrib design", "version": 99, "kept": "as it was"}}]}`
	b, err := design.OpenBatch([]byte(text))
	require.NoError(t, err)
	require.Len(t, b.Members, 2)
	assert.Equal(t, 2, b.Members[0].Quantity)
	assert.Equal(t, exampleOf(t, "dory-side").Curve, b.Members[0].Design.Curve)
	assert.Contains(t, b.Members[1].Problem, "version 99")
	again := design.SaveBatch(b)
	assert.Contains(t, string(again), "as it was")
	twice, err := design.OpenBatch(again)
	require.NoError(t, err)
	assert.JSONEq(t, string(again), string(design.SaveBatch(twice)))
	for _, c := range []struct{ text, says string }{
		{"", "empty"}, {text[:len(text)/2], "cut short"}, {`{"format":"springrib design","version":1}`, "not a job"},
		{`{"format":"springrib job","version":7}`, "version 7"}, {`{"format":"springrib job"}`, "which version"},
		{`{"format":"springrib job","version":1,"members":[` + strings.Repeat(`{"design":{}},`, 60) + `{"design":{}}]}`, "61 designs"},
	} {
		_, err := design.OpenBatch([]byte(c.text))
		var file *design.FileError
		require.ErrorAs(t, err, &file, c.says)
		assert.Contains(t, err.Error(), c.says)
	}
}

func FuzzOpenBatch(f *testing.F) {
	doc, _ := json.Marshal(design.Examples()[0].Design)
	f.Add([]byte(`{"format":"springrib job","version":1,"members":[{"quantity":2,"design":` + string(doc) + `}]}`))
	f.Add([]byte(`{"format":"springrib job","version":1,"members":[{"quantity":-2,"design":null},{"design":[]}]}`))
	f.Fuzz(func(t *testing.T, in []byte) {
		b, err := design.OpenBatch(in)
		if err != nil {
			return
		}
		again, err := design.OpenBatch(design.SaveBatch(b))
		require.NoError(t, err)
		require.Len(t, again.Members, len(b.Members))
	})
}
