package main

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
)

// budget is the most bytes that something may have; 0 is no limit.
type budget struct{ raw, gzip, brotli int }

// row is one line of the sizes: a file of dist and what it may weigh.
type row struct {
	name, pattern string
	budget        budget
}

// rows lists what is measured. The budgets keep the way to the first drawing short on
// a slow line and the single file small enough to send by mail; one that is passed
// fails the build. (The core was 5.2 MB, 1.1 MB by brotli, while it drew arcs and wrote
// one kind of file; reading foreign drawings, packing, strips and all file formats cost
// the rest.)
func rows() []row {
	return []row{
		{"core", "core-*.wasm.gz", budget{raw: 10_950_000, brotli: 2_050_000}},
		{"script", "page-*.js", budget{gzip: 60_000}},
		{"early", "early-*.js", budget{}},
		{"scene", "scene-*.js", budget{}},
		{"things", "things-*.js", budget{}},
		{"print", "print-*.js", budget{}},
		{"offline", offlineName, budget{}},
		{"embed", "embed-" + hashPattern + ".js", budget{gzip: 60_000}},
		{"style", "page-*.css", budget{}},
		{"regular", "regular-*.woff2", budget{raw: 15_000}},
		{"medium", "medium-*.woff2", budget{raw: 15_000}},
		{"bold", "bold-*.woff2", budget{raw: 15_000}},
		{"page", "index.html", budget{}},
		{"single file", singleName, budget{raw: 4_200_000}},
	}
}

// mayMiss tells whether a dist may do without a row: what is not of the page itself.
func (r row) mayMiss() bool {
	if r.name == "offline" || r.name == "embed" || r.name == "early" {
		return true
	}
	for _, name := range laterParts {
		if r.name == name {
			return true
		}
	}
	return false
}

// printSizes prints the sizes of what dist holds and fails when one is over budget.
// Brotli is measured only, as a server would send it; quick leaves it out, for it
// takes most of the time of a build.
func printSizes(out io.Writer, dist string, quick bool) error {
	var over []string
	fmt.Fprintf(out, "%-12s %10s %10s %10s   budget\n", "bytes", "raw", "gzip", "brotli")
	for _, row := range rows() {
		if names, err := filepath.Glob(filepath.Join(dist, row.pattern)); err == nil && len(names) == 0 && row.mayMiss() {
			continue
		}
		size, err := measure(dist, row.pattern, quick || row.budget.brotli == 0)
		if err != nil {
			return err
		}
		fmt.Fprintf(out, "%-12s %10s %10s %10s   %s\n", row.name, figure(size.raw), figure(size.gzip), figure(size.brotli), row.budget.text())
		over = append(over, row.budget.passed(row.name, size)...)
	}
	if over != nil {
		return errors.New("over budget: " + strings.Join(over, "; "))
	}
	return nil
}

// measure returns the sizes of the one file that fits pattern. A file that is shipped
// gzipped counts as what it holds.
func measure(dist, pattern string, noBrotli bool) (size budget, err error) {
	names, err := filepath.Glob(filepath.Join(dist, pattern))
	if err != nil {
		return size, err
	}
	if len(names) != 1 {
		return size, fmt.Errorf("%s holds %d files %s instead of one; build first", dist, len(names), pattern)
	}
	raw, err := os.ReadFile(names[0])
	if err != nil {
		return size, err
	}
	if strings.HasSuffix(names[0], ".gz") {
		if raw, err = unpack(raw); err != nil {
			return size, err
		}
	}
	packed, err := pack(raw)
	if err != nil {
		return size, err
	}
	size = budget{raw: len(raw), gzip: len(packed)}
	if !noBrotli {
		size.brotli, err = brotliSize(raw)
	}
	return size, err
}

// brotliSize asks node, which has brotli built in, with the window that the command brotli
// takes by itself for files of this size.
func brotliSize(raw []byte) (int, error) {
	const script = `const z = require("zlib"), c = z.constants, d = require("fs").readFileSync(0);
console.log(z.brotliCompressSync(d, {params: {[c.BROTLI_PARAM_QUALITY]: 11, [c.BROTLI_PARAM_LGWIN]: 24, [c.BROTLI_PARAM_SIZE_HINT]: d.length}}).length)`
	cmd := exec.Command("node", "-e", script)
	cmd.Stdin = bytes.NewReader(raw)
	cmd.Stderr = os.Stderr
	out, err := cmd.Output()
	if err != nil {
		return 0, fmt.Errorf("measuring brotli with node: %w", err)
	}
	return strconv.Atoi(strings.TrimSpace(string(out)))
}

// passed names the limits of b that size is over.
func (b budget) passed(name string, size budget) (over []string) {
	for _, l := range []struct {
		kind        string
		have, limit int
	}{{"raw", size.raw, b.raw}, {"gzip", size.gzip, b.gzip}, {"brotli", size.brotli, b.brotli}} {
		if l.limit > 0 && l.have > l.limit {
			over = append(over, fmt.Sprintf("%s has %d bytes %s, at most %d are allowed", name, l.have, l.kind, l.limit))
		}
	}
	return over
}

func (b budget) text() string {
	var parts []string
	for _, l := range []struct {
		kind  string
		limit int
	}{{"raw", b.raw}, {"gzip", b.gzip}, {"brotli", b.brotli}} {
		if l.limit > 0 {
			parts = append(parts, fmt.Sprintf("%s %d", l.kind, l.limit))
		}
	}
	return strings.Join(parts, ", ")
}

func figure(n int) string {
	if n == 0 {
		return "-"
	}
	return strconv.Itoa(n)
}
