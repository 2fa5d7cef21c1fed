package bench

import (
	_ "embed"
	"strings"
)

// sheetText holds every sentence of the sheet, a line each:
//
//	== id | Title                  begins a section
//	[facts] text                   a line of it
//	[facts] id | What | How        a step
//	[facts] + text                 goes on with the line or step before
//
// A line counts where all its facts hold: "!a" where a does not, "a/b" where one of them
// does. {name} stands for a figure. A fact or figure that facts.go does not know panics.
//
//go:embed sheet.txt
var sheetText string

// sections writes the sections of the sheet with the facts of this design, or one alone.
func (w *writer) sections(alone string) []Section {
	var out []Section
	skip := false
	for _, line := range strings.Split(sheetText, "\n") {
		if line == "" {
			continue
		}
		if head, ok := strings.CutPrefix(line, "== "); ok {
			id, title, _ := strings.Cut(head, " | ")
			if skip = alone != "" && id != alone; !skip {
				out = append(out, Section{ID: id, Title: title})
			}
			continue
		}
		if skip {
			continue
		}
		if rest, ok := strings.CutPrefix(line, "["); ok {
			facts, text, _ := strings.Cut(rest, "] ")
			if !w.hold(facts) {
				continue
			}
			line = text
		}
		out[len(out)-1].take(w.fill(line))
	}
	return out
}

// hold tells whether all facts of a line do.
func (w *writer) hold(facts string) bool {
	for _, f := range strings.Fields(facts) {
		any := false
		for _, one := range strings.Split(f, "/") {
			name, not := strings.CutPrefix(one, "!")
			any = any || w.is(name) != not
		}
		if !any {
			return false
		}
	}
	return true
}

// take adds a line, a step, or more of the last of them.
func (s *Section) take(text string) {
	more, goes := strings.CutPrefix(text, "+ ")
	parts := strings.Split(text, " | ")
	switch {
	case goes && len(s.Steps) > 0:
		last := &s.Steps[len(s.Steps)-1]
		last.How = join(last.How, more)
	case goes:
		last := &s.Lines[len(s.Lines)-1]
		*last = join(*last, more)
	case len(parts) == 3:
		s.Steps = append(s.Steps, Step{parts[0], parts[1], parts[2]})
	default:
		s.Lines = append(s.Lines, text)
	}
}

func join(text, more string) string {
	if text == "" || strings.HasPrefix(more, ",") || strings.HasPrefix(more, ".") {
		return text + more
	}
	return text + " " + more
}

// fill puts figures in their places.
func (w *writer) fill(text string) string {
	for {
		before, rest, ok := strings.Cut(text, "{")
		if !ok {
			return text
		}
		name, after, _ := strings.Cut(rest, "}")
		value, known := w.figures[name]
		if !known {
			panic("bench: no figure " + name)
		}
		text = before + value + after
	}
}

// is tells whether a fact holds.
func (w *writer) is(name string) bool {
	holds, known := w.facts[name]
	if !known {
		panic("bench: no fact " + name)
	}
	return holds
}
