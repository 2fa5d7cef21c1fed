package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestMessagesOfThePageAreThoseOfTheCore(t *testing.T) {
	assert.NoError(t, checkMessages(".."))
}

// room makes a repository of two packages with this source in the first.
func room(t *testing.T, source string) string {
	t.Helper()
	root := t.TempDir()
	for dir, text := range map[string]string{
		"internal/wire": "package wire\n" + source,
		"internal/finding": `package finding
// Severity orders.
type Severity string
// The severities.
const (
	Stop Severity = "stop"
	Note Severity = "note"
)
type Finding struct {
	Severity Severity ` + "`json:\"severity\"`" + `
}
`,
	} {
		require.NoError(t, os.MkdirAll(filepath.Join(root, dir), 0o755))
		require.NoError(t, os.WriteFile(filepath.Join(root, dir, "a.go"), []byte(text), 0o644))
	}
	return root
}

func TestMessages(t *testing.T) {
	got, err := messages(room(t, `
// MaxRequest is the most.
const MaxRequest = 8 << 10

const hidden = 3

// Request asks.
//
// More of it.
type Request struct {
	ID   int             `+"`json:\"id\"`"+`
	Doc  json.RawMessage `+"`json:\"doc,omitempty\"`"+`  // as it came
	Pair [2]float64      `+"`json:\"pair\"`"+`
}

type Reply struct {
	// Findings are all.
	Findings []finding.Finding  `+"`json:\"findings\"`"+`
	Number   *Number            `+"`json:\"number,omitempty\"`"+`
	By       map[string][]Number `+"`json:\"by\"`"+`
}

type Number struct {
	Good bool `+"`json:\"good\"`"+`
}

type Unused struct{}
`))
	require.NoError(t, err)
	assert.Equal(t, `// Made from the Go types of internal/wire by: go run ./build messages
// Change those, not this file.

/** MaxRequest is the most. */
export const maxRequest = 8192;

/**
 * Request asks.
 *
 * More of it.
 */
export interface Request {
  id: number;
  /** as it came */
  doc?: unknown;
  pair: [number, number];
}

export interface Reply {
  /** Findings are all. */
  findings: Finding[];
  number?: NumberView;
  by: Record<string, NumberView[]>;
}

export interface Finding {
  severity: Severity;
}

export interface NumberView {
  good: boolean;
}

/** Severity orders. */
export type Severity = 'stop' | 'note';
`, string(got))
}

func TestMessagesRefuseWhatThePageCouldNotRead(t *testing.T) {
	for member, why := range map[string]string{
		"ID int": "json tag", "A, B int `json:\"a\"`": "one name", "C chan int `json:\"c\"`": "no TypeScript",
		"D [n]int `json:\"d\"`": "plain number", "E Missing `json:\"e\"`": "no type Missing", "F float64 `json:\",omitempty\"`": "no json name",
	} {
		_, err := messages(room(t, "type Request struct { "+member+" }\ntype Reply struct {}\n"))
		assert.ErrorContains(t, err, why, member)
	}
}
