package main

import (
	"encoding/base64"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"springrib/internal/view"
	"springrib/internal/wire"
)

// reportName is the file that holds every number of the plan.
const reportName = "report.json"

// withheldError says that files of the parts were withheld, and why.
type withheldError struct {
	because []string
	some    bool // others were written
}

func (e withheldError) Error() string {
	what := "no cut files were written"
	if e.some {
		what = "not all of it was written"
	}
	return what + ". Mend this first: " + strings.Join(e.because, " ")
}

// writeFiles writes the files that the page would offer for a design, the design itself,
// and reportName. It asks the same core in the same words as the page does; the report
// alone is not among the page's files. Where files of the parts are withheld it writes the
// others and returns a withheldError.
func writeFiles(design, dir string) error {
	text, err := os.ReadFile(design)
	if err != nil {
		return err
	}
	opened, err := ask(wire.Request{Kind: "open", Text: string(text)})
	if err != nil {
		return fmt.Errorf("%s: %w", design, err)
	}
	planned, err := ask(wire.Request{Kind: "plan", Design: opened.Design, Untried: true})
	if err != nil {
		return fmt.Errorf("%s: %w", design, err)
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	report, err := view.Core{}.Report(opened.Design)
	if err != nil {
		return err
	}
	if err := write(dir, reportName, report); err != nil {
		return err
	}
	saved, err := ask(wire.Request{Kind: "save", Design: opened.Design})
	if err != nil {
		return err
	}
	if err := writeBody(dir, *saved.File); err != nil {
		return err
	}
	faces, err := readPrinted()
	if err != nil {
		return err
	}
	for _, f := range planned.Plan.Files {
		r, err := ask(wire.Request{Kind: "file", Design: opened.Design, File: f.Name, Faces: faces})
		if err != nil {
			return fmt.Errorf("%s: %w", f.Name, err)
		}
		if err := writeBody(dir, *r.File); err != nil {
			return err
		}
	}
	for _, f := range append(opened.Findings, planned.Plan.Findings...) {
		fmt.Printf("%s %s: %s\n", f.Severity, f.ID, f.Text)
	}
	fmt.Println(planned.Plan.Verdict.Sentence)
	if because := planned.Plan.Withheld; len(because) > 0 {
		return withheldError{because: because}
	}
	return nil
}

// ask puts one request to the core, as the page's worker does.
func ask(q wire.Request) (r wire.Reply, err error) {
	request, err := json.Marshal(q)
	if err != nil {
		return r, err
	}
	reply, _ := wire.Answer(view.New(), request)
	if err := json.Unmarshal(reply, &r); err != nil {
		return r, err
	}
	if r.Error != "" {
		return r, errors.New(r.Error)
	}
	return r, nil
}

func writeBody(dir string, f wire.FileBody) error {
	content, err := base64.StdEncoding.DecodeString(f.Base64)
	if err != nil {
		return err
	}
	return write(dir, f.Name, content)
}

// write writes one file and says so. A name never leads out of dir.
func write(dir, name string, content []byte) error {
	if name != filepath.Base(name) || name == "." || name == ".." {
		return fmt.Errorf("%q is no name for a file", name)
	}
	path := filepath.Join(dir, name)
	fmt.Println(path)
	return os.WriteFile(path, content, 0o644)
}
