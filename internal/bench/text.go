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
		out[len(out)-1].take(line, w.fill)
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

// take adds a line, a step, or more of the last of them. The line is taken apart before its
// figures are filled in: what a person named may hold any of these signs.
func (s *Section) take(line string, fill func(string) string) {
	more, goes := strings.CutPrefix(line, "+ ")
	parts := strings.Split(line, " | ")
	switch {
	case goes && len(s.Steps) > 0:
		last := &s.Steps[len(s.Steps)-1]
		last.How = join(last.How, fill(more))
	case goes:
		last := &s.Lines[len(s.Lines)-1]
		*last = join(*last, fill(more))
	case len(parts) == 3:
		s.Steps = append(s.Steps, Step{parts[0], fill(parts[1]), fill(parts[2])})
	default:
		s.Lines = append(s.Lines, fill(line))
	}
}

func join(text, more string) string {
	if text == "" || strings.HasPrefix(more, ",") || strings.HasPrefix(more, ".") {
		return text + more
	}
	return text + " " + more
}

// fill puts figures in their places. A figure is not looked into: it may be a name that a
// person gave.
func (w *writer) fill(text string) string {
	out := ""
	for {
		before, rest, ok := strings.Cut(text, "{")
		if !ok {
			return out + text
		}
		name, after, _ := strings.Cut(rest, "}")
		value, known := w.figures[name]
		if !known {
			panic("bench: no figure " + name)
		}
		out, text = out+before+value, after
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
