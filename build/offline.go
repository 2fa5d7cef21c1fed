package main

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"maps"
	"os"
	"path/filepath"
	"slices"

	"github.com/evanw/esbuild/pkg/api"
)

// offlineName is the service worker. Browsers look for a new one under its old name, so
// it carries no hash; its scope is the folder that it lies in.
const offlineName = "offline.js"

// manifestName says how the page is installed.
const manifestName = "manifest.webmanifest"

// installFiles are the files beside the served page that make it installable.
var installFiles = [...]string{manifestName, "icon.svg", "icon-192.png", "icon-512.png"}

// addOffline adds what the served page needs to be installed and to work offline. The
// worker keeps exactly the files that are there when it is made.
func addOffline(root string, files map[string][]byte) error {
	for _, name := range installFiles {
		text, err := os.ReadFile(filepath.Join(root, "site", name))
		if err != nil {
			return err
		}
		files[name] = text
	}
	kept, err := json.Marshal(struct {
		Build string   `json:"build"`
		Files []string `json:"files"`
	}{buildID(files), keptNames(files)})
	if err != nil {
		return err
	}
	worker, err := bundle(root, "offline-worker.ts", "", made{"kept": {string(kept), api.LoaderJSON}})
	files[offlineName] = []byte(worker)
	return err
}

// keptNames are the files that the page is made of, without the page itself, which is
// kept under the name of its folder.
func keptNames(files map[string][]byte) []string {
	names := slices.Sorted(maps.Keys(files))
	return slices.DeleteFunc(names, func(name string) bool { return name == "index.html" })
}

// buildID differs between builds that differ in any file.
func buildID(files map[string][]byte) string {
	sum := sha256.New()
	for _, name := range slices.Sorted(maps.Keys(files)) {
		content := sha256.Sum256(files[name])
		sum.Write([]byte(name))
		sum.Write(content[:])
	}
	return hex.EncodeToString(sum.Sum(nil)[:8])
}
