package unit

import (
	"testing"

	"github.com/stretchr/testify/assert"
)

func TestSeveral(t *testing.T) {
	for text, want := range map[string][]string{
		"1.2 2.0 2.35":     {"1.2", "2.0", "2.35"},
		"1.2; 2; 2,35":     {"1.2", "2", "2,35"},
		"1.2, 2, 2.35":     {"1.2", "2", "2.35"},
		"1.2 2.0 2.35 mm":  {"1.2 mm", "2.0 mm", "2.35 mm"},
		"1.2 2.0 2.35mm":   {"1.2 mm", "2.0 mm", "2.35mm"},
		"1/16 in; 3/32 in": {"1/16 in", "3/32 in"},
		"1 1/2; 2 1/4 in":  {"1 1/2 in", "2 1/4 in"},
		"2 1/4 in":         {"2 1/4 in"},
		"2,35":             {"2,35"},
		"1.2":              {"1.2"},
		"":                 {""},
		"1.2 two":          {"1.2 two"},
		"1.2;;2":           {"1.2", "2"},
		"; ;":              {"; ;"},
		"mm":               {"mm"},
	} {
		assert.Equal(t, want, Several(text, MM), text)
	}
}
