package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"github.com/evanw/esbuild/pkg/api"
)

// target is the oldest syntax the bundles may use. DecompressionStream, which the page
// needs anyway, is younger than it in every browser.
const target = api.ES2022

// bundleWorker bundles the core's worker into one classic script.
func bundleWorker(root string) (string, error) {
	loader, err := wasmExec()
	if err != nil {
		return "", err
	}
	return bundle(root, "worker.ts", "", made{"wasm_exec": {string(loader), api.LoaderJS}})
}

// bundleEarly bundles the script that comes first, with the worker's source inside it as text.
func bundleEarly(root, worker string) (string, error) {
	return bundle(root, "early.ts", "", made{"worker": {worker, api.LoaderText}})
}

// bundlePage bundles the page's script.
func bundlePage(root string) (string, error) { return bundle(root, "main.ts", "", nil) }

// laterParts are the parts of the page that are loaded when first shown: each is a
// folder of the site with a main.ts, a script of its own, and what main.ts exports is
// what loadPart of load.ts gives.
var laterParts = [...]string{"scene", "things", "print"}

// bundleLater bundles the later parts that the site has, by name. things is what stands on the shelf of a new design, as JSON.
func bundleLater(root, things string) (map[string]string, error) {
	parts := map[string]string{}
	faces, err := readPrinted()
	if err != nil {
		return nil, err
	}
	for _, name := range laterParts {
		entry := filepath.Join(name, "main.ts")
		if _, err := os.Stat(filepath.Join(root, "site", entry)); err != nil {
			continue
		}
		text, err := bundle(root, entry, partGlobal(name), made{"things": {things, api.LoaderJSON}, "faces": {string(faces), api.LoaderJSON}})
		if err != nil {
			return nil, err
		}
		parts[name] = text
	}
	return parts, nil
}

// partGlobal is the global that holds a later part once it is loaded: springribScene.
func partGlobal(name string) string {
	return "springrib" + strings.ToUpper(name[:1]) + name[1:]
}

// bundleStyle bundles the page's style sheet.
func bundleStyle(root string) (string, error) {
	return bundle(root, "page.css", "", nil)
}

// made holds the modules that the build makes, by their name after "springrib:".
type made map[string]struct {
	text   string
	loader api.Loader
}

// plugin lets scripts import what was made.
func (m made) plugin() api.Plugin {
	const space = "springrib"
	return api.Plugin{Name: space, Setup: func(b api.PluginBuild) {
		b.OnResolve(api.OnResolveOptions{Filter: "^" + space + ":"}, func(a api.OnResolveArgs) (api.OnResolveResult, error) {
			return api.OnResolveResult{Path: strings.TrimPrefix(a.Path, space+":"), Namespace: space}, nil
		})
		b.OnLoad(api.OnLoadOptions{Filter: ".*", Namespace: space}, func(a api.OnLoadArgs) (api.OnLoadResult, error) {
			text, ok := m[a.Path]
			if !ok {
				return api.OnLoadResult{}, fmt.Errorf("the build makes no %q here", a.Path)
			}
			return api.OnLoadResult{Contents: &text.text, Loader: text.loader}, nil
		})
	}}
}

// bundle bundles one entry of the site into a classic script or a style sheet. What a
// script exports becomes the global of that name, if there is one.
func bundle(root, entry, global string, m made) (string, error) {
	site := filepath.Join(root, "site")
	return esbuild(api.BuildOptions{
		AbsWorkingDir:     site,
		EntryPoints:       []string{filepath.Join(site, entry)},
		Bundle:            true,
		Format:            api.FormatIIFE,
		GlobalName:        global,
		Platform:          api.PlatformBrowser,
		Target:            target,
		Charset:           api.CharsetUTF8,
		LegalComments:     api.LegalCommentsEndOfFile,
		MinifyWhitespace:  true,
		MinifyIdentifiers: true,
		MinifySyntax:      true,
		Outdir:            site, // nothing is written there
		Plugins:           []api.Plugin{m.plugin()},
	})
}

// esbuild runs one build with one output; a warning is an error.
func esbuild(options api.BuildOptions) (string, error) {
	options.LogLevel = api.LogLevelSilent
	result := api.Build(options)
	messages := append(result.Errors, result.Warnings...)
	if len(messages) > 0 {
		text := api.FormatMessages(messages, api.FormatMessagesOptions{Kind: api.ErrorMessage})
		return "", errors.New("bundling failed\n" + strings.Join(text, "\n"))
	}
	if len(result.OutputFiles) != 1 {
		return "", fmt.Errorf("bundling %v gave %d files instead of one", options.EntryPoints, len(result.OutputFiles))
	}
	return string(result.OutputFiles[0].Contents), nil
}
