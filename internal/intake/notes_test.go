package intake

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"

	"springrib/internal/finding"
)

// Each kind of note has an id of its own, a severity, and room for one count; that of other
// entities is told with their kinds.
func TestEveryNoteIsTold(t *testing.T) {
	ids := map[string]note{}
	for k := range noteKinds {
		var all notes
		if k == noteOtherEntity {
			all.other("BODY")
		} else {
			all.add(k, 3)
		}
		got := all.findings()
		if !assert.Len(t, got, 1, "note %d", k) {
			continue
		}
		f := got[0]
		assert.True(t, strings.HasPrefix(f.ID, "intake-"), f.ID)
		assert.NotContains(t, ids, f.ID)
		ids[f.ID] = k
		assert.Contains(t, []finding.Severity{finding.Stop, finding.Warn, finding.Note}, f.Severity, f.ID)
		assert.NotContains(t, f.Text, "%", f.ID)
		assert.Equal(t, k == noteEmpty, f.Severity == finding.Stop, f.ID)
	}
	assert.Len(t, ids, int(noteKinds))
}
