package view

import (
	"strings"

	"springrib/internal/cut"
	"springrib/internal/design"
	"springrib/internal/export"
	"springrib/internal/finding"
)

// release is what of a design's files may leave, by its findings, and what they say.
type release struct {
	effect  finding.Effect
	because []finding.Finding // that have it
	marks   string            // what is wrong, in a few words
}

func (w *worked) release() release {
	effect, because := finding.Gravest(w.findings)
	return release{effect, because, finding.Marks(w.findings)}
}

// withheld are the sentences of what keeps files of the parts from leaving.
func (r release) withheld() []string {
	var out []string
	if r.effect >= finding.Withheld {
		for _, f := range r.because {
			out = append(out, f.Text)
		}
	}
	return out
}

// mark is what the name of a file about the parts begins with.
func (r release) mark() string {
	switch {
	case r.effect >= finding.Withheld:
		return "Do not cut"
	case r.marks != "":
		return "Not sound: " + r.marks
	}
	return ""
}

// warning is the first line of the bench sheet, "" for none.
func (r release) warning() string {
	lead := map[finding.Effect]string{finding.Marked: "Not sound. ", finding.Withheld: "Do not cut. ", finding.Barred: "Do not cut. "}[r.effect]
	if lead == "" {
		return ""
	}
	var texts []string
	for _, f := range r.because {
		texts = append(texts, f.Text)
	}
	return lead + strings.Join(texts, " ")
}

// name names a file about the parts.
func (w *worked) name(what, ext string) string {
	return export.FileName(export.Name{Mark: w.release().mark(), Design: w.doc.Name, Revision: w.doc.Revision, What: what, Ext: ext})
}

// sheetName names a file of one sheet.
func (w *worked) sheetName(j cut.Job, what, ext string) string {
	return export.FileName(export.Name{Mark: w.release().mark(), Design: w.doc.Name, Revision: w.doc.Revision,
		Sheet: j.Sheet, Sheets: j.Sheets, What: what, Ext: ext})
}

// plainName names a file that says nothing of the parts.
func plainName(doc design.Document, what, ext string) string {
	return export.FileName(export.Name{Design: doc.Name, Revision: doc.Revision, What: what, Ext: ext})
}
