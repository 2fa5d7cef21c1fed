package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
)

// singleName is the page that works opened from disk.
const singleName = "springrib.html"

// buildAll makes dist/, reports its sizes and fails when one is over its budget.
func buildAll(root, dist string, quick bool) error {
	if err := makeDist(root, dist); err != nil {
		return err
	}
	return printSizes(os.Stdout, dist, quick)
}

// makeDist makes dist/ without measuring it.
func makeDist(root, dist string) error {
	if err := checkMessages(root); err != nil {
		return err
	}
	p, err := gatherPieces(root)
	if err != nil {
		return err
	}
	files, err := servedPage(p)
	if err != nil {
		return err
	}
	if err := addOffline(root, files); err != nil {
		return err
	}
	if err := addEmbed(root, p, files); err != nil {
		return err
	}
	if files[singleName], err = singlePage(p); err != nil {
		return err
	}
	return replaceDist(dist, files)
}

func gatherPieces(root string) (p pieces, err error) {
	template, err := os.ReadFile(filepath.Join(root, "site", "index.html"))
	if err != nil {
		return p, err
	}
	p.template = string(template)
	if _, err := os.Stat(filepath.Join(root, "site", "node_modules", "lit")); err != nil {
		return p, fmt.Errorf("the page's packages are not installed; run: npm ci --prefix site")
	}
	if p.style, err = bundleStyle(root); err != nil {
		return p, err
	}
	if p.faces, err = cutTypeface(root); err != nil {
		return p, err
	}
	if p.licence, err = typefaceLicence(root); err != nil {
		return p, err
	}
	if p.worker, err = bundleWorker(root); err != nil {
		return p, err
	}
	if p.early, err = bundleEarly(root, p.worker); err != nil {
		return p, err
	}
	if p.script, err = bundlePage(root); err != nil {
		return p, err
	}
	if p.first, err = makeFirst(); err != nil {
		return p, err
	}
	things, err := makeThings()
	if err != nil {
		return p, err
	}
	if p.later, err = bundleLater(root, things); err != nil {
		return p, err
	}
	wasm, err := compileCore(root)
	if err != nil {
		return p, err
	}
	p.core, err = pack(wasm)
	return p, err
}

// hashPattern fits the hash in the name of a file that is named by its content.
var hashPattern = strings.Repeat("[0-9a-f]", 16)

// replaceDist writes files and removes those of an earlier build, and nothing else.
func replaceDist(dist string, files map[string][]byte) error {
	if err := os.MkdirAll(dist, 0o755); err != nil {
		return err
	}
	for _, kind := range []string{"css", "js", "wasm.gz", "woff2"} {
		old, err := filepath.Glob(filepath.Join(dist, "*-"+hashPattern+"."+kind))
		if err != nil {
			return err
		}
		for _, name := range old {
			if _, still := files[filepath.Base(name)]; still {
				continue
			}
			if err := os.Remove(name); err != nil {
				return err
			}
		}
	}
	for name, content := range files {
		if err := os.WriteFile(filepath.Join(dist, name), content, 0o644); err != nil {
			return err
		}
	}
	return nil
}
