package main

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Nobody should have to read a sentence twice: none has more than 30 words, and none has
// words that only those who wrote it understand.
func TestSentencesAreShortAndPlain(t *testing.T) {
	root, err := findRoot()
	require.NoError(t, err)
	c, err := sentences(root, trialDesigns)
	require.NoError(t, err)
	places := map[string]bool{}
	for _, s := range c.all {
		kind, _, _ := strings.Cut(s.where, " ")
		places[kind] = true
		texts, counts := words(s.text)
		for i, n := range counts {
			assert.LessOrEqual(t, n, mostWords, "%s: %s", s.where, texts[i])
		}
		for _, hard := range []string{"bad end of what is known", "kerfs pinch", "on the net section", "numbers of passes", "%!", "The rib 1 "} {
			assert.NotContains(t, s.text, hard, s.where)
		}
		assert.NotRegexp(t, `!|(^|[^0-9.,/])1 (passes|scores|bridges|pieces|holes|readings)\b`, s.text, s.where)
	}
	for _, kind := range []string{"findings", "cards", "card", "fields", "bench", "page", "source", "cautions", "verdict", "files", "errors"} {
		assert.True(t, places[kind], "nothing of the %s is told", kind)
	}
	assert.Greater(t, len(c.all), 1000)
}

// Words are counted sentence by sentence; a point within a figure ends none.
func TestWordsOfASentence(t *testing.T) {
	texts, counts := words("Score 3 folds 1.63°; satin hides up to 1.5°. Lay it - so - flat (or not). Is it?")
	assert.Equal(t, []string{"Score 3 folds 1.63°; satin hides up to 1.5°.", "Lay it - so - flat (or not).", "Is it?"}, texts)
	assert.Equal(t, []int{9, 6, 2}, counts)
}

// What stands between the tags of the page's templates is found, with their gaps.
func TestTextsOfThePage(t *testing.T) {
	source := "const a = html`<p aria-label=\"The bent panel\">There are ${n ? html`<b>no files yet</b>` : 'so many files'} here.</p>`; // not this one\n"
	assert.ElementsMatch(t, []string{"There are … here.", "no files yet", "so many files", "The bent panel"}, pageTexts(source))
}

// mostWords is the longest that a sentence for a person may be.
const mostWords = 30

var ends = regexp.MustCompile(`[.?!]["”)\]]*(\s|$)| \| |\] `)

// words returns the sentences of a text, and of each how many words it has: what stands
// between blanks and has a letter or a figure.
func words(text string) (out []string, counts []int) {
	for text != "" {
		end := len(text)
		if at := ends.FindStringIndex(text); at != nil {
			end = at[1]
		}
		one := strings.TrimSpace(text[:end])
		n := 0
		for _, w := range strings.Fields(one) {
			if strings.ContainsFunc(w, func(r rune) bool {
				return r >= '0' && r <= '9' || r >= 'A' && r <= 'Z' || r >= 'a' && r <= 'z' || r == '…'
			}) {
				n++
			}
		}
		out, counts = append(out, one), append(counts, n)
		text = text[end:]
	}
	return out, counts
}
