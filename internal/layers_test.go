// Package internal holds the rules that all rooms of the core keep, as tests.
package internal

import (
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"sort"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// graph is what each room may import of the others, from the ground up: a room stands
// on rooms of earlier lines only. Every import is listed here, and nothing else is.
const graph = `
unit:
solve:
plane:   solve
fit:     plane solve
offset:  fit plane solve
finding: unit
stock:   solve
machine:
design:  finding machine solve stock unit
hinge:   solve
curve:   plane solve
surface: plane
skin:    curve plane solve surface
state:   design hinge machine solve stock
chance:  hinge solve
score:   curve hinge plane solve
form:    curve plane surface
intake:  finding fit plane
cut:     plane
part:    curve cut fit offset plane solve stock surface
coupon:  cut finding hinge part plane solve stock unit
learn:   coupon design finding machine solve state stock
brace:   plane
sheet:   finding plane unit
export:  cut plane unit
lay:     cut design finding machine offset part plane sheet stock unit
strips:  coupon cut design lay plane sheet state
section: curve design finding offset plane skin state surface unit
outline: curve design finding fit part plane score solve
stand:   curve design finding part plane surface
support: brace design finding outline part plane score section solve state unit
plan:    brace chance curve design export finding fit form hinge lay learn machine outline part plane score section solve stand state stock strips support surface unit
remedy:  coupon curve design finding lay machine part plan plane score section stand stock support unit
check:   chance cut design finding hinge lay machine plan plane remedy stock support unit
bench:   chance coupon cut design finding machine part plan plane stock strips support unit
wire:    design finding
view:    bench chance check coupon curve cut design export finding fit form hinge intake lay machine outline plan plane section sheet solve state stock strips support surface unit wire
trial:   design
shapes:  plane solve
`

// outside is what rooms may import from elsewhere, by the first parts of the path,
// besides pure packages of Go's library. What bans_test.go says of their members holds
// all the same.
const outside = `
intake: golang.org/x/image/colornames
sheet:  math/rand/v2
trial:  math/rand/v2
`

// barred are packages of Go's library that the core does without: it asks no file, no
// clock and no page, and gives the same answer twice.
var barred = []string{"syscall", "os", "time", "net", "math/rand", "crypto/rand", "runtime", "plugin", "log"}

const prefix = "springrib/internal/"

// table reads lines of "name: words".
func table(t *testing.T, text string) (names []string, words map[string][]string) {
	t.Helper()
	words = map[string][]string{}
	for _, line := range strings.Split(strings.TrimSpace(text), "\n") {
		name, rest, ok := strings.Cut(line, ":")
		require.True(t, ok, "a line without a colon: %q", line)
		require.NotContains(t, words, name, "two lines for one room")
		names = append(names, name)
		words[name] = strings.Fields(rest)
	}
	return names, words
}

// source is one file of the core that is not a test.
type source struct {
	room, file string
	imports    []string
}

// sources returns the files of all rooms, in the order of their names.
func sources(t *testing.T) (files []source) {
	t.Helper()
	err := filepath.WalkDir(".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
			return err
		}
		file, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		s := source{room: path.Dir(filepath.ToSlash(name)), file: name}
		for _, i := range file.Imports {
			p, err := strconv.Unquote(i.Path.Value)
			if err != nil {
				return err
			}
			s.imports = append(s.imports, p)
		}
		files = append(files, s)
		return nil
	})
	require.NoError(t, err)
	require.NotEmpty(t, files)
	return files
}

func TestRoomsImportWhatTheGraphSays(t *testing.T) {
	names, want := table(t, graph)
	have := map[string]map[string]bool{}
	for _, s := range sources(t) {
		if have[s.room] == nil {
			have[s.room] = map[string]bool{}
		}
		for _, i := range s.imports {
			if room, ok := strings.CutPrefix(i, prefix); ok {
				have[s.room][room] = true
			}
		}
	}
	for _, room := range names {
		require.Contains(t, have, room, "the graph has a room that the house has not")
		var list []string
		for i := range have[room] {
			list = append(list, i)
		}
		sort.Strings(list)
		sort.Strings(want[room])
		t.Logf("%-8s %s", room+":", strings.Join(list, " ")) // to copy when the test fails
		assert.Equal(t, strings.Join(want[room], " "), strings.Join(list, " "), "what %s imports; the graph is on the left", room)
		delete(have, room)
	}
	for room := range have {
		t.Errorf("internal/%s is not in the graph", room)
	}
}

func TestRoomsStandOnEarlierOnes(t *testing.T) {
	names, words := table(t, graph)
	built := map[string]bool{}
	for _, room := range names {
		for _, w := range words[room] {
			assert.True(t, built[w], "%s stands on %s, which comes no earlier", room, w)
		}
		built[room] = true
	}
}

// The guide lists every room, and each below those that it imports.
func TestTheGuideListsRoomsFromTheGroundUp(t *testing.T) {
	guide, err := os.ReadFile("../DEVELOPERS.md")
	require.NoError(t, err)
	_, list, ok := strings.Cut(string(guide), "\n## The rooms\n")
	require.True(t, ok)
	list, _, _ = strings.Cut(list, "\n## ")
	names, words := table(t, graph)
	listed := map[string]bool{}
	for _, m := range regexp.MustCompile("(?m)^\\| `([a-z]+)` \\|").FindAllStringSubmatch(list, -1) {
		for _, w := range words[m[1]] {
			assert.True(t, listed[w], "%s is listed above %s, which it imports", m[1], w)
		}
		listed[m[1]] = true
	}
	for _, n := range names {
		assert.True(t, listed[n], "the guide does not list %s", n)
	}
}

// aside are the rooms that no program is made of: nothing of them is reached, and the
// search for dead functions does not see them.
const aside = `
trial: for tests alone
shapes: for tests alone
`

func TestEveryRoomButThoseAsideIsLivedIn(t *testing.T) {
	names, words := table(t, graph)
	_, apart := table(t, aside)
	used := map[string]bool{"view": true} // which wasm and build call
	for i := len(names) - 1; i >= 0; i-- {
		assert.Equal(t, apart[names[i]] == nil, used[names[i]], names[i])
		for _, w := range words[names[i]] {
			used[w] = used[w] || used[names[i]]
		}
	}
}

func TestHouseIsOneLevel(t *testing.T) {
	for _, s := range sources(t) {
		assert.NotContains(t, s.room, "/", s.file)
		assert.NotEqual(t, ".", s.room, s.file)
	}
}

func TestCoreAsksNothingOfTheWorld(t *testing.T) {
	_, allowed := table(t, outside)
	for _, s := range sources(t) {
		for _, i := range s.imports {
			assert.Empty(t, objection(i, allowed[s.room]), s.file)
		}
	}
}

// objection says what is wrong with an import of the core, or nothing.
func objection(imported string, allowed []string) string {
	if strings.HasPrefix(imported, prefix) {
		return ""
	}
	if within(imported, allowed) {
		return ""
	}
	if host, _, _ := strings.Cut(imported, "/"); strings.Contains(host, ".") {
		return imported + " is not for this room"
	}
	if within(imported, barred) {
		return imported + " reaches out of the core"
	}
	return ""
}

// within tells whether a path is one of roots or below it.
func within(imported string, roots []string) bool {
	for _, r := range roots {
		if imported == r || strings.HasPrefix(imported, r+"/") {
			return true
		}
	}
	return false
}

func TestObjections(t *testing.T) {
	canvas := []string{"github.com/tdewolff/canvas"}
	for _, c := range []struct {
		imported string
		allowed  []string
		fine     bool
	}{
		{"math", nil, true}, {"encoding/json", nil, true}, {"springrib/internal/plane", nil, true},
		{"os", nil, false}, {"os/exec", nil, false}, {"syscall/js", nil, false}, {"time", nil, false}, {"net/http", nil, false},
		{"math/rand/v2", nil, false}, {"github.com/tdewolff/canvas", nil, false}, {"github.com/tdewolff/canvas", canvas, true},
		{"github.com/tdewolff/canvas/text", canvas, true}, {"github.com/tdewolff/canvassing", canvas, false},
	} {
		assert.Equal(t, c.fine, objection(c.imported, c.allowed) == "", c.imported)
	}
}
