package main

import (
	"fmt"
	"os"

	"springrib/internal/design"
	"springrib/internal/view"
)

// writeAny writes the files of one design, or of several that are cut together: their own files, or a
// job that holds them.
func writeAny(paths []string, dir string) error {
	if len(paths) > 1 {
		b, err := gather(paths)
		if err != nil {
			return err
		}
		return writeBatch(b, dir)
	}
	text, err := os.ReadFile(paths[0])
	if err != nil {
		return err
	}
	if !design.IsBatch(text) {
		return writeFiles(paths[0], dir)
	}
	b, err := design.OpenBatch(text)
	if err != nil {
		return fmt.Errorf("%s: %w", paths[0], err)
	}
	return writeBatch(b, dir)
}

// gather makes a job of design files, one of each.
func gather(paths []string) (design.Batch, error) {
	var b design.Batch
	for _, path := range paths {
		text, err := os.ReadFile(path)
		if err != nil {
			return b, err
		}
		doc, _, err := design.Open(text)
		if err != nil {
			return b, fmt.Errorf("%s: %w", path, err)
		}
		b.Members = append(b.Members, design.Member{Quantity: 1, Design: doc})
	}
	return b, nil
}

// writeBatch writes what leaves of a job. Where a design is left out it writes the others and returns
// a withheldError.
func writeBatch(b design.Batch, dir string) error {
	faces, err := readPrinted()
	if err != nil {
		return err
	}
	out, err := view.New().Batch(b, faces)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return err
	}
	for _, f := range out.Files {
		if err := writeBody(dir, f); err != nil {
			return err
		}
	}
	for _, said := range out.Said {
		fmt.Println(said)
	}
	if len(out.Out) > 0 {
		return withheldError{because: out.Out, some: true}
	}
	return nil
}
