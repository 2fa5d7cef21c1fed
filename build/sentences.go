package main

import (
	"encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"

	"springrib/internal/design"
	"springrib/internal/finding"
	"springrib/internal/trial"
	"springrib/internal/wire"
)

// trialDesigns is how many random designs are asked for what they make the core say, and
// trialSheets how many of them for their bench sheet.
const (
	trialDesigns = 120
	trialSheets  = 4
)

// spoken is one text that a person can meet, and where. Of texts that differ by their
// figures alone the first stands for all.
type spoken struct{ where, text string }

// collection gathers what is said, each once but for its figures.
type collection struct {
	all  []spoken
	seen map[string]bool
}

var figures = regexp.MustCompile(`[0-9][-0-9.,/ ]*((mm|in|cm|lb|oz|kg|g|N|°|%)\b ?)?|“[^”]*”`)

func (c *collection) say(where, text string) {
	text = strings.Join(strings.Fields(text), " ")
	key := where + " " + strings.ReplaceAll(figures.ReplaceAllString(text, "#"), " ", "")
	if c.seen == nil {
		c.seen = map[string]bool{}
	}
	if text == "" || c.seen[key] {
		return
	}
	c.seen[key] = true
	c.all = append(c.all, spoken{where, text})
}

// printSentences prints every text that a person can meet, place by place.
func printSentences(root string, w io.Writer) error {
	c, err := sentences(root, trialDesigns)
	if err != nil {
		return err
	}
	slices.SortStableFunc(c.all, func(a, b spoken) int { return strings.Compare(a.where, b.where) })
	last := ""
	for _, s := range c.all {
		if s.where != last {
			fmt.Fprintf(w, "\n== %s\n", s.where)
			last = s.where
		}
		fmt.Fprintln(w, s.text)
	}
	return nil
}

// sentences collects what the core says of every example, thing and design of testdata, and
// of designs at random; then what stands in the sources and was not met so, with "…" where
// a figure or a name goes.
func sentences(root string, random int) (collection, error) {
	var c collection
	if err := c.form(); err != nil {
		return c, err
	}
	for _, e := range design.Examples() {
		if err := c.asked(e.Design, true); err != nil {
			return c, err
		}
	}
	for _, t := range design.Things() {
		c.say("new", t.Says)
		for _, f := range t.Fields {
			c.say("new", f.Label)
		}
		if err := c.asked(t.Design, true); err != nil {
			return c, err
		}
	}
	kept, err := filepath.Glob(filepath.Join(root, "testdata/designs/*.json"))
	if err != nil {
		return c, err
	}
	for _, name := range kept {
		text, err := os.ReadFile(name)
		if err != nil {
			return c, err
		}
		c.opened(string(text))
	}
	for seed := range random {
		if err := c.asked(trial.Design(uint64(seed)), seed < trialSheets); err != nil {
			return c, err
		}
	}
	return c, c.sources(root)
}

// ask asks the core for what it says, and nothing where it says why it can't.
func (c *collection) ask(q wire.Request) (r wire.Reply, err error) {
	reply, _, err := answered(q)
	if err != nil {
		c.say("errors", err.Error())
		return r, nil
	}
	return r, json.Unmarshal(reply, &r)
}

// form has the cards, and every field with its help, its choices and what stands for an empty one.
func (c *collection) form() error {
	r, err := c.ask(wire.Request{Kind: "fields"})
	if err != nil || r.Controls == nil {
		return err
	}
	for _, card := range r.Controls.Cards {
		c.say("cards", card.Title+": "+card.Help)
	}
	for _, e := range r.Controls.Examples {
		c.say("examples", e.About)
	}
	var walk func(fields []wire.Control)
	walk = func(fields []wire.Control) {
		for _, f := range fields {
			text := f.Label + ": " + f.Help
			for i, ch := range f.Choices {
				if i == 0 {
					text += " ["
				} else {
					text += " | "
				}
				text += ch.Label
			}
			if len(f.Choices) > 0 {
				text += "]"
			}
			c.say("fields "+f.Card, text)
			walk(f.Columns)
		}
	}
	walk(r.Controls.Controls)
	return nil
}

func (c *collection) opened(text string) {
	r, err := c.ask(wire.Request{Kind: "open", Text: text})
	if err != nil {
		return
	}
	c.found(r.Findings)
	if len(r.Design) > 0 {
		var d design.Document
		if json.Unmarshal(r.Design, &d) == nil {
			_ = c.asked(d, false)
		}
	}
}

func (c *collection) found(fs []finding.Finding) {
	for _, f := range fs {
		c.say("findings "+string(f.Severity)+" "+f.ID, f.Text)
		for _, r := range f.Remedies {
			c.say("findings "+string(f.Severity)+" "+f.ID, "["+strings.TrimSpace(r.Text+"] "+r.Then))
		}
	}
}

// asked takes what is said of a design; sheet asks for its bench sheet as well.
func (c *collection) asked(d design.Document, sheet bool) error {
	raw, err := json.Marshal(d)
	if err != nil {
		return err
	}
	r, err := c.ask(wire.Request{Kind: "plan", Design: raw})
	if err != nil || r.Plan == nil {
		return err
	}
	p := r.Plan
	c.found(p.Findings)
	if p.Verdict.Severity == "sound" {
		c.say("verdict", p.Verdict.Word+". "+p.Verdict.Sentence) // others say what the first finding does
	}
	for _, g := range p.Verdict.Gauges {
		c.say("gauges", g.Label+": "+g.Text)
	}
	for _, id := range []string{"sheet", "machine", "strips", "curve", "panel", "rib", "cut"} {
		c.say("card "+id, p.Cards[id])
	}
	for _, path := range sorted(p.Fields) {
		f := p.Fields[path]
		c.say("fields if left empty", f.Default)
		c.say("fields in doubt", f.Problem)
		c.say("fields as understood", f.Means)
	}
	for _, n := range p.Numbers {
		c.say("figures "+n.Label, n.Text+". "+n.Help)
	}
	for _, o := range p.Options.Rows {
		c.say("passes", o.Out)
	}
	for _, f := range p.Files {
		if c.say("files", f.About); f.About == "" {
			c.say("files", f.Label)
		}
	}
	for _, t := range append(p.Withheld, p.Cautions...) {
		c.say("cautions", t)
	}
	if !sheet || !p.Drawn {
		return nil
	}
	return c.sheet(raw)
}

func (c *collection) sheet(raw json.RawMessage) error {
	r, err := c.ask(wire.Request{Kind: "bench", Design: raw})
	if err != nil || r.Bench == nil {
		return err
	}
	var b map[string]any
	text, err := json.Marshal(r.Bench)
	if err != nil {
		return err
	}
	if err := json.Unmarshal(text, &b); err != nil {
		return err
	}
	c.strings("bench sheet", b)
	return nil
}

// strings takes every text of a message that is more than a word.
func (c *collection) strings(where string, v any) {
	switch v := v.(type) {
	case string:
		if strings.Contains(v, " ") && !strings.HasPrefix(v, "M ") {
			c.say(where, v)
		}
	case []any:
		for _, one := range v {
			c.strings(where, one)
		}
	case map[string]any:
		for _, k := range sorted(v) {
			c.strings(where, v[k])
		}
	}
}

func sorted[V any](m map[string]V) []string {
	var keys []string
	for k := range m {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	return keys
}
