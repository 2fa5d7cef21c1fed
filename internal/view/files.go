package view

import (
	"strconv"
	"strings"

	"springrib/internal/bridge"
	"springrib/internal/design"
	"springrib/internal/export"
)

// file is one finished file, written when asked for.
type file struct {
	name, media  string
	label, about string
	body         func() []byte
}

// baseName is the design's name and revision as a file name that any system takes.
func baseName(doc design.Document) string {
	name := doc.Name
	if doc.Revision != "" {
		name += " " + doc.Revision
	}
	var b strings.Builder
	for _, r := range strings.ToLower(name) {
		switch {
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			b.WriteRune(r)
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
		if b.Len() >= 60 {
			break
		}
	}
	if s := strings.Trim(b.String(), "-"); s != "" {
		return s
	}
	return "design"
}

// all lists every file of the plan. A design that must not be cut has none.
func (w worked) all() []file {
	if !w.plan.Drawn || w.refused() {
		return nil
	}
	var out []file
	base := baseName(w.doc)
	for i, j := range w.plan.Jobs {
		name := base + "-sheet-" + strconv.Itoa(i+1) + ".svg"
		out = append(out, file{
			name: name, media: "image/svg+xml",
			label: "Cut file, sheet " + strconv.Itoa(i+1) + " of " + strconv.Itoa(len(w.plan.Jobs)),
			about: "SVG in true size, one group an operation, in cutting order",
			body:  func() []byte { return export.SVG(j, export.SVGOptions{}) },
		})
	}
	return out
}

// refused tells whether some finding forbids a file for this machine.
func (w worked) refused() bool {
	for _, f := range w.findings {
		if f.ID == "must-not-laser" {
			return true
		}
	}
	return false
}

func (w worked) files() []bridge.FileView {
	var out []bridge.FileView
	for _, f := range w.all() {
		out = append(out, bridge.FileView{Name: f.name, Label: f.label, About: f.about})
	}
	return out
}
