package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"

	"github.com/evanw/esbuild/pkg/api"
)

// unitTests runs the tests beside the page's sources under node's own runner. Names
// that hold one of only are run; all of them when only is empty.
func unitTests(root string, only []string) error {
	tests, err := findTests(filepath.Join(root, "site"), only)
	if err != nil {
		return err
	}
	if len(tests) == 0 {
		return errors.New("no *.test.ts fits")
	}
	dir, err := os.MkdirTemp("", "springrib-unit")
	if err != nil {
		return err
	}
	defer os.RemoveAll(dir)
	args := []string{"--test", "--enable-source-maps", "--test-reporter=spec"}
	for _, test := range tests {
		script, err := bundleTest(root, test)
		if err != nil {
			return err
		}
		name := strings.ReplaceAll(strings.TrimSuffix(test, ".ts"), string(filepath.Separator), "-") + ".mjs"
		file := filepath.Join(dir, name)
		if err := os.WriteFile(file, []byte(script), 0o644); err != nil {
			return err
		}
		args = append(args, file)
	}
	cmd := exec.Command("node", args...)
	out, err := cmd.CombinedOutput()
	if err != nil {
		return fmt.Errorf("the page's unit tests: %w\n%s", err, out)
	}
	fmt.Println(string(bytes.Join(closing.FindAll(out, -1), []byte("\n"))))
	return nil
}

// closing fits the closing lines of node's runner that tell how many tests ran.
var closing = regexp.MustCompile(`(?m)^\S+ (tests|pass|fail) \d+$`)

// findTests returns the tests under site that fit, as paths relative to it.
func findTests(site string, only []string) (tests []string, err error) {
	err = filepath.WalkDir(site, func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.Name() == "node_modules" {
			return fs.SkipDir
		}
		if strings.HasSuffix(path, ".test.ts") && fits(path, only) {
			name, err := filepath.Rel(site, path)
			tests = append(tests, name)
			return err
		}
		return nil
	})
	return tests, err
}

func fits(path string, only []string) bool {
	for _, o := range only {
		if strings.Contains(path, o) {
			return true
		}
	}
	return len(only) == 0
}

func bundleTest(root, test string) (string, error) {
	site := filepath.Join(root, "site")
	return esbuild(api.BuildOptions{
		AbsWorkingDir: site,
		EntryPoints:   []string{filepath.Join(site, test)},
		Bundle:        true,
		Format:        api.FormatESModule,
		Platform:      api.PlatformNode,
		Target:        target,
		Charset:       api.CharsetUTF8,
		Sourcemap:     api.SourceMapInline,
		Outdir:        site, // nothing is written there
		Plugins:       []api.Plugin{made{"worker": {"", api.LoaderText}, "core": {"{}", api.LoaderJSON}, "style": {"", api.LoaderText}}.plugin()},
	})
}
