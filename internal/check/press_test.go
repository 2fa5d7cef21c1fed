package check

import (
	"runtime"
	"strings"
	"sync"
	"testing"

	"github.com/stretchr/testify/assert"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/plan"
	"springrib/internal/trial"
)

// found is what speaks of a design, without what would mend it.
func judgedOf(d design.Document) (drawn bool, found []finding.Finding) {
	v, found := design.Read(d)
	if finding.Worst(found) == finding.Stop {
		return false, found
	}
	p := plan.Make(v)
	return p.Drawn, append(found, Judged(&p)...)
}

// Every remedy of random designs, pressed once, mends its finding, brings no stop, loses no
// drawn design, and brings a warning only where it said so.
func TestAPressBringsNothingNew(t *testing.T) {
	designs := 500
	if testing.Short() || runtime.GOARCH == "wasm" {
		designs = 20
	}
	var lock sync.Mutex
	pressed, followed, named, without := 0, 0, 0, map[string]int{}
	press := func(seed uint64) {
		d := trial.Design(seed)
		if _, found := design.Read(d); finding.Worst(found) == finding.Stop {
			return // nothing is planned of it, so all that its plan says would be new
		}
		before := tell(d)
		had := map[string]bool{}
		for _, f := range before.findings {
			had[string(f.Severity)+" "+f.ID+" "+f.Place.Field] = true
		}
		for _, f := range before.findings {
			n := 0
			for _, r := range f.Remedies {
				if len(r.Set) == 0 {
					continue
				}
				n++
				drawn, after := judgedOf(apply(t, d, r))
				lock.Lock()
				pressed++
				if len(r.Set) > 2 {
					followed++
				}
				if r.Then != "" {
					named++
				}
				assert.False(t, before.drawn && !drawn, "seed %d: %q loses the drawing", seed, r.Text)
				for _, g := range after {
					same := g.ID == f.ID && g.Place.Field == f.Place.Field && (g.Place.Part == f.Place.Part || f.Place.Field != "machine.kerf")
					assert.False(t, same, "seed %d: %q %v leaves %s at %q: %s", seed, r.Text, r.Set, f.ID, f.Place.Field, g.Text)
					if !had[string(g.Severity)+" "+g.ID+" "+g.Place.Field] {
						assert.NotEqual(t, finding.Stop, g.Severity, "seed %d: %q for %s brings %s: %s", seed, r.Text, f.ID, g.ID, g.Text)
						if g.Severity == finding.Warn {
							assert.Contains(t, wordsOf(r.Then), wordsOf(firstOf(g.Text)), "seed %d: %q for %s", seed, r.Text, f.ID)
						}
					}
				}
				lock.Unlock()
			}
			if n == 0 && f.Severity != finding.Note {
				lock.Lock()
				without[f.ID]++
				lock.Unlock()
			}
		}
	}
	seeds := make(chan uint64)
	var wait sync.WaitGroup
	for range runtime.GOMAXPROCS(0) {
		wait.Go(func() {
			for s := range seeds {
				press(s)
			}
		})
	}
	for s := 1; s <= designs; s++ {
		seeds <- uint64(s)
	}
	close(seeds)
	wait.Wait()
	t.Log("pressed", pressed, "of several changes", followed, "with a warning named", named, "findings without", without)
	assert.Greater(t, pressed, designs/4)
}

// wordsOf is a text without its figures, which are a little others where a plan is only drafted.
func wordsOf(text string) string {
	return strings.Map(func(r rune) rune {
		if r >= '0' && r <= '9' {
			return -1
		}
		return r
	}, text)
}

func firstOf(text string) string {
	for i := range len(text) - 1 {
		if text[i:i+2] == ". " {
			return text[:i+1]
		}
	}
	return text
}
