package browser

import (
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
)

// Violations runs axe-core on the page as it stands and returns what it objects to,
// a line each: the rule, what it asks, and the elements.
func (p *Page) Violations() []string {
	p.t.Helper()
	if !Eval[bool](p, "'axe' in window") {
		script, err := axe()
		p.must(err)
		Eval[Void](p, script+"; undefined")
	}
	return Eval[[]string](p, `axe.run(document, { resultTypes: ['violations'] }).then((r) => r.violations.map((v) =>
  v.id + ': ' + v.help + ' (' + v.nodes.map((n) => n.target.join(' ')).join(', ') + ')'))`)
}

// axe is the script of axe-core, read once.
var axe = sync.OnceValues(func() (string, error) {
	out, err := exec.Command("go", "list", "-m", "-f", "{{.Dir}}").Output()
	if err != nil {
		return "", err
	}
	script, err := os.ReadFile(filepath.Join(strings.TrimSpace(string(out)), "site", "node_modules", "axe-core", "axe.min.js"))
	return string(script), err
})

// Scheme makes the page see a person who wants this colour scheme, "light" or "dark".
func (p *Page) Scheme(scheme string) {
	p.t.Helper()
	p.media("prefers-color-scheme", scheme)
}

// Faint returns every text that is seen with less contrast to what is painted under it than the
// Web Content Accessibility Guidelines 2.2 ask (1.4.3: 4.5, large text 3), where axe-core can't
// tell: text over lines of a drawing or over a gradient counts against the colour below those.
func (p *Page) Faint() []string {
	p.t.Helper()
	return Eval[[]string](p, `(() => {
  const ink = document.createElement('canvas').getContext('2d', { willReadFrequently: true });
  const rgba = (colour) => { ink.clearRect(0, 0, 1, 1); ink.fillStyle = colour; ink.fillRect(0, 0, 1, 1); return [...ink.getImageData(0, 0, 1, 1).data]; };
  const light = (c) => c.slice(0, 3).map((v) => { v /= 255; return v <= .04045 ? v / 12.92 : ((v + .055) / 1.055) ** 2.4; }).reduce((sum, v, i) => sum + v * [.2126, .7152, .0722][i], 0);
  const over = (a, b) => [0, 1, 2].map((i) => (a[i] * a[3] + b[i] * (255 - a[3])) / 255).concat(255);
  const ground = (e) => { for (; e; e = e.parentElement) { const c = rgba(getComputedStyle(e).backgroundColor); if (c[3] > 250) return c; } return rgba(getComputedStyle(document.body).backgroundColor); };
  const faint = new Set(), walk = document.createTreeWalker(document.querySelector('dialog[open]') ?? document.body, NodeFilter.SHOW_TEXT);
  for (let n; (n = walk.nextNode());) {
    const e = n.parentElement, style = getComputedStyle(e);
    if (!n.data.trim() || !e.checkVisibility({ visibilityProperty: true, opacityProperty: true }) || e.closest('.unseen, script, style, option, :disabled, [inert]')) continue;
    const below = ground(e), mine = over(rgba(e instanceof SVGElement ? style.fill : style.color), below);
    const [a, b] = [light(mine), light(below)].sort((x, y) => y - x), size = parseFloat(style.fontSize);
    if ((a + .05) / (b + .05) < (size >= 24 || (size >= 18.6 && style.fontWeight >= 700) ? 3 : 4.5) - .01) faint.add(e.className + ' ' + n.data.trim().slice(0, 40) + ': ' + ((a + .05) / (b + .05)).toFixed(2));
  }
  return [...faint];
})()`)
}
