package browser

import (
	"bytes"
	"compress/flate"
	"encoding/base64"
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// linkOf packs a text as a link has it: raw deflate (RFC 1951) in URL-safe letters
// (RFC 4648, section 5).
func linkOf(t *testing.T, text string) string {
	t.Helper()
	var packed bytes.Buffer
	w, err := flate.NewWriter(&packed, flate.BestCompression)
	require.NoError(t, err)
	_, err = w.Write([]byte(text))
	require.NoError(t, err)
	require.NoError(t, w.Close())
	return "#design=" + base64.RawURLEncoding.EncodeToString(packed.Bytes())
}

// cold opens url as if nothing of the page were open.
func (p *Page) cold(url string) {
	p.t.Helper()
	p.Go("about:blank")
	p.Go(url)
	p.Wait(settled)
}

// design is the present design as JSON.
const design = `JSON.stringify(` + state + `.doc)`

func TestALinkOpenedCold(t *testing.T) {
	bothWays(t, func(t *testing.T, url string) {
		p := chrome.Open(t, url)
		p.Wait(settled)
		theirs := strings.NewReplacer(`"strainSafe":""`, `"strainSafe":"1"`, `"tested":false`, `"tested":true`).Replace(Eval[string](p,
			`JSON.stringify({...`+state+`.doc, name: 'Theirs'})`))
		require.Contains(t, theirs, `"strainSafe":"1"`)
		p.rename("Mine")
		p.Wait(keptNames + `.includes('Mine')`)
		// The last answer is kept beside, from when the page is left.
		stored := `JSON.stringify(Object.entries(localStorage).filter(([k]) => !k.startsWith('springrib.answer')).sort())`
		before := Eval[string](p, stored)
		require.Contains(t, before, "Mine")

		p.cold(url + linkOf(t, theirs))
		p.Wait(state + `.kept.guest`)
		p.Wait(settled)
		assert.Equal(t, "Theirs", p.Value("Name of the design"))
		assert.Contains(t, p.Text(".guest"), "Opened from a link")
		assert.Contains(t, p.Text(".guest"), "safety against cracking to 1")
		assert.Contains(t, p.Text(".guest"), "not of yours")
		assert.Empty(t, p.Violations())
		p.Screenshot("link")
		p.Go("about:blank")
		p.Go(url)
		p.Wait(settled)
		assert.Equal(t, before, Eval[string](p, stored), "the link replaced nothing")
		assert.NotContains(t, Eval[string](p, `JSON.stringify(localStorage)`), "Theirs", "nor left an answer of its own")
		assert.Equal(t, "Mine", p.Value("Name of the design"))

		p.cold(url + linkOf(t, theirs))
		p.Wait(state + `.kept.guest`)
		p.Press("Leave it")
		p.Wait(settled)
		assert.Equal(t, "Mine", p.Value("Name of the design"))
		assert.Equal(t, "", Eval[string](p, "location.hash"))

		// A link pasted into the open page.
		Eval[Void](p, `location.hash = `+quote(linkOf(t, theirs)))
		p.Wait(state + `.kept.guest`)
		p.Press("Keep it")
		p.Wait(settled)
		assert.Equal(t, []string{"Mine", "Theirs"}, Eval[[]string](p, keptNames))
		p.cold(url)
		assert.Equal(t, "Theirs", p.Value("Name of the design"))
		assert.Empty(t, Eval[[]string](p, `[...document.querySelectorAll('.guest')].map((e) => e.textContent)`))
	})
}

func TestAHostileLinkDoesNoHarm(t *testing.T) {
	bothWays(t, func(t *testing.T, url string) {
		p := chrome.Open(t, url)
		p.Wait(settled)
		p.rename("Mine")
		before := Eval[string](p, design)
		whole := linkOf(t, before)
		for name, hash := range map[string]string{
			"no letters":    "#design=%00%ff<script>",
			"cut short":     whole[:len(whole)/2],
			"bomb":          linkOf(t, strings.Repeat(" ", 100<<20)),
			"over a MB":     linkOf(t, strings.Replace(before, `"notes":"`, `"notes":"`+strings.Repeat("x", 1_000_000), 1)+strings.Repeat(" ", 1_000_000)),
			"not a design":  linkOf(t, `{"type":"FeatureCollection"}`),
			"not JSON":      linkOf(t, "score, bend, glue"),
			"nested deeply": linkOf(t, strings.Repeat(`[`, 400_000)),
			"newer":         linkOf(t, strings.Replace(before, `"version":1`, `"version":999`, 1)),
		} {
			Eval[Void](p, state+`.say('')`)
			p.cold(url + hash)
			p.Wait(state + `.notice`)
			notice := p.Text(".notice p")
			assert.Regexp(t, `link.*Your own design stays as it is\.$`, notice, name)
			assert.Equal(t, before, Eval[string](p, design), name)
			assert.False(t, Eval[bool](p, `Boolean(`+state+`.kept.guest)`), name)
		}
		// A design that holds what would be harmful elsewhere is text here.
		evil := strings.Replace(strings.Replace(before, `"Mine"`, `"<img src=x onerror='window.harmed=1'>"`, 1),
			`"version":1`, `"version":1,"__proto__":{"harmed":1},"constructor":{"prototype":{"harmed":1}}`, 1)
		p.cold(url + linkOf(t, evil))
		p.Wait(state + `.kept.guest`)
		assert.Contains(t, p.Text(".guest"), "<img src=x")
		assert.True(t, Eval[bool](p, `window.harmed === undefined && ({}).harmed === undefined && !document.querySelector('img')`))
	})
}

func TestTheLinkOfADesignBringsTheSameDesign(t *testing.T) {
	url := Serve(t, dist)
	p := chrome.Open(t, url)
	p.Wait(settled)
	p.rename("Tür ⌀ 3 mm")
	before := Eval[string](p, design)
	p.BeforePage(`Object.defineProperty(navigator, 'clipboard', { value: { writeText: async (text) => { window.copied = text } } })`)
	p.cold(url)
	p.Press("Designs")
	p.Press("Copy link")
	p.Wait("window.copied")
	link := Eval[string](p, "window.copied")
	assert.Less(t, len(link), 2000, "short enough for any program that carries links")

	other := chrome.Open(t, link)
	other.Wait(state + `?.kept.guest`)
	assert.Equal(t, before, Eval[string](other, design))
}
