package browser

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
)

// Violations runs axe-core on the page as it stands and returns what it objects to,
// a line each: the rule, what it asks, and the elements.
func (p *Page) Violations() []string {
	p.t.Helper()
	out, err := exec.Command("go", "list", "-m", "-f", "{{.Dir}}").Output()
	p.must(err)
	script, err := os.ReadFile(filepath.Join(strings.TrimSpace(string(out)), "site", "node_modules", "axe-core", "axe.min.js"))
	p.must(err)
	Eval[Void](p, string(script)+"; undefined")
	return Eval[[]string](p, `axe.run(document, { resultTypes: ['violations'] }).then((r) => r.violations.map((v) =>
  v.id + ': ' + v.help + ' (' + v.nodes.map((n) => n.target.join(' ')).join(', ') + ')'))`)
}

// Scheme makes the page see a person who wants this colour scheme, "light" or "dark".
func (p *Page) Scheme(scheme string) {
	p.t.Helper()
	p.media("prefers-color-scheme", scheme)
}
