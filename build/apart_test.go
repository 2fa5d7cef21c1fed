package main

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// imported fits the imports of a module that leave something in the bundle.
var imported = regexp.MustCompile(`(?m)^import (?:[^'t]|t[^y])[^;]*?'([^']+)'|^import '([^']+)'`)

// The script of the view in space and that of the page are loaded apart, so neither may
// take the other's library along: lit stays out of site/scene, three out of all else.
func TestSceneAndPageStayApart(t *testing.T) {
	root, err := findRoot()
	require.NoError(t, err)
	site := filepath.Join(root, "site")
	seen := map[bool]int{}
	for _, pattern := range []string{"*.ts", "views/*.ts", "scene/*.ts"} {
		files, err := filepath.Glob(filepath.Join(site, pattern))
		require.NoError(t, err)
		for _, file := range files {
			if strings.HasSuffix(file, ".test.ts") {
				continue
			}
			text, err := os.ReadFile(file)
			require.NoError(t, err)
			inScene := filepath.Base(filepath.Dir(file)) == "scene"
			for _, m := range imported.FindAllStringSubmatch(string(text), -1) {
				seen[inScene]++
				name := m[1] + m[2]
				if inScene {
					assert.NotRegexp(t, `^lit(/|$)|^\.\./`, name, file)
				} else {
					assert.NotRegexp(t, `^three(/|$)|/scene/`, name, file)
				}
			}
		}
	}
	assert.Greater(t, seen[true], 8)
	assert.Greater(t, seen[false], 40)
}

func TestImportsAreSeen(t *testing.T) {
	for text, want := range map[string]bool{
		"import { html } from 'lit';": true, "import './bench';": true, "import type { A } from './a';": false,
		"import { A, type B } from 'three';": true, "import {\n  A,\n  B,\n} from 'three';": true, "import text from 'x';": true,
	} {
		assert.Equal(t, want, imported.MatchString(text), text)
	}
}
