// Command build makes everything that leaves this repository, from one clone:
//
//	build                        dist/ for any static server, and dist/springrib.html
//	build serve [-addr ADDRESS]  the same, then serves dist/ on this machine
//	build files DESIGN OUTDIR    the files of a design, computed natively; ends with status 3
//	                             where a stop withholds those of the parts. Several designs, or a
//	                             saved job of them, are cut together
//	build sizes                  what was built, against its budgets
//	build messages               site/messages.ts from the Go types
//	build faces                  site/print, the typeface of the PDFs, from its package
//	build unit                   the page's own unit tests under node
//	build reference              the law against a finite-element solver, run here; with "layers"
//	                             "cones" or "stops" a table of testdata/reference, solved anew
//	build law                    the law's constants fitted again from the stored finite elements
//	build figures                the figures of the house: lines, comments, branches, what is dead
//	build dead                   functions that neither program reaches; fails when there are any
//	build pictures OUTDIR        every example and every design in testdata, as contact sheets
//	build sentences              every sentence that a person can meet, with an example of each
//	build picture                the README's picture, site/picture.png, of the page as built
//	build packing [SECONDS...]   how densely public strip-packing instances are packed in 10 and 60 s
//	build pieces                 pieces of fitted curves beside two general-purpose libraries
//
// Run it with "go run ./build" from anywhere inside the repository.
package main

import (
	"errors"
	"flag"
	"fmt"
	"os"
	"path/filepath"
)

func main() {
	if err := run(os.Args[1:]); err != nil {
		fmt.Fprintln(os.Stderr, "build:", err)
		os.Exit(status(err))
	}
}

// status is what the program ends with: 3 where files of a stopped design were withheld.
// "go run" prints it and ends with 1 itself.
func status(err error) int {
	if errors.As(err, new(withheldError)) {
		return 3
	}
	return 1
}

func run(args []string) error {
	command := ""
	if len(args) > 0 && args[0] != "" && args[0][0] != '-' {
		command, args = args[0], args[1:]
	}
	flags := flag.NewFlagSet("build "+command, flag.ContinueOnError)
	out := flags.String("out", "dist", "folder to build into, from the root of the repository")
	addr := flags.String("addr", "127.0.0.1:8377", "loopback address to serve on; another port is taken when it is in use")
	quick := flags.Bool("quick", false, "leave out what only measures: brotli")
	if err := flags.Parse(args); err != nil {
		return err
	}
	root, err := findRoot()
	if err != nil {
		return err
	}
	dist := *out
	if !filepath.IsAbs(dist) {
		dist = filepath.Join(root, dist)
	}
	switch command {
	case "":
		return buildAll(root, dist, *quick)
	case "serve":
		return serve(root, dist, *addr)
	case "files":
		if flags.NArg() < 2 {
			return errors.New("files takes a design, several, or a job, and a folder: files DESIGN.json OUTDIR")
		}
		return writeAny(flags.Args()[:flags.NArg()-1], flags.Arg(flags.NArg()-1))
	case "sizes":
		return printSizes(os.Stdout, dist, *quick)
	case "reference":
		return reference(os.Stdout, flags.Arg(0))
	case "law":
		return printLaw(root, os.Stdout)
	case "dead":
		return printDead(root, os.Stdout)
	case "figures":
		return printFigures(root, os.Stdout)
	case "picture":
		return takePicture(root)
	case "sentences":
		return printSentences(root, os.Stdout)
	case "packing":
		return printPacking(os.Stdout, flags.Args())
	case "pieces":
		return printPieces(root, os.Stdout)
	case "pictures":
		if flags.NArg() != 1 {
			return errors.New("pictures takes a folder: pictures OUTDIR")
		}
		return writePictures(root, flags.Arg(0))
	case "faces":
		return writePrinted(root)
	case "messages":
		return writeMessages(root)
	case "unit":
		return unitTests(root, flags.Args())
	}
	return fmt.Errorf("there is no command %q; see the comment at the top of build/main.go", command)
}

// findRoot returns the folder of go.mod, at or above the working directory.
func findRoot() (string, error) {
	dir, err := os.Getwd()
	for err == nil {
		if _, e := os.Stat(filepath.Join(dir, "go.mod")); e == nil {
			return dir, nil
		}
		up := filepath.Dir(dir)
		if up == dir {
			return "", errors.New("run this inside the repository: no go.mod here or above")
		}
		dir = up
	}
	return "", err
}
