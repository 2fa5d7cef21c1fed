package stock

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
)

// A stock's name says what it is and how thick, as its id does: that is what a person picks
// from, and what the bench sheet calls the part's sheet.
func TestNamesSayKindAndThickness(t *testing.T) {
	seen := map[string]string{}
	for _, s := range All() {
		kind, thick, ok := strings.Cut(s.ID, "-")
		assert.True(t, ok, s.ID)
		assert.Contains(t, strings.ToLower(s.Name), kind, s.ID)
		assert.Contains(t, s.Name, fmt.Sprintf(" %g mm", s.Thickness.Value), s.ID)
		assert.Equal(t, fmt.Sprint(s.Thickness.Value), thick, s.ID)
		assert.Equal(t, strings.ToUpper(s.Name[:1]), s.Name[:1], "a name begins with a capital: %s", s.Name)
		assert.NotContains(t, seen, s.Name)
		seen[s.Name] = s.ID
	}
	assert.Len(t, seen, 10)
}
