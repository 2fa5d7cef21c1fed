package browser

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"springrib/internal/bench"
	"springrib/internal/finding"
)

// paper emulates print media, or ends that.
func (p *Page) paper(on bool) {
	p.t.Helper()
	media := ""
	if on {
		media = "print"
	}
	_, err := chromedp.Call(p.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: media})
	p.must(err)
}

// printed returns the text of the page as it goes to paper, by poppler's pdftotext.
func (p *Page) printed() string {
	p.t.Helper()
	tool, err := exec.LookPath("pdftotext")
	if err != nil {
		p.t.Skip("reading what is printed needs pdftotext; on Debian: apt-get install poppler-utils")
	}
	res, err := chromedp.Run(p.ctx, chromedp.PrintToPDF())
	p.must(err)
	file := filepath.Join(p.t.TempDir(), "print.pdf")
	p.must(os.WriteFile(file, res, 0o644))
	out, err := exec.Command(tool, "-layout", "-enc", "UTF-8", file, "-").Output()
	p.must(err)
	return string(out)
}

// plain makes words comparable, however lines are broken: on paper hyphens and soft
// spaces end lines where the screen has none.
func plain(text string) string {
	return strings.Join(strings.Fields(strings.NewReplacer("\u00ad", "", "\u00a0", " ", "ﬁ", "fi", "ﬂ", "fl", "- ", "-", "-\n", "-").Replace(text)), "")
}

// The bench sheet of every example, opened on the page, has each section, step, table row
// and caution that the core writes natively; printed alone, the paper has the same words
// and nothing of the form.
func TestBenchSheetOnThePageAndOnPaper(t *testing.T) {
	p := chrome.Open(t, Serve(t, dist))
	p.Wait(settled)
	for _, id := range Eval[[]string](p, state+`.asked.controls.examples.map((e) => e.id)`) {
		Eval[Void](p, state+`.replace(`+state+`.asked.controls.examples.find((e) => e.id === `+quote(id)+`).design, 'example')`)
		p.Wait(settled)
		if !Eval[bool](p, find+`.all('details.benchsheet')[0].open`) {
			p.Press("The bench sheet")
		}
		own := planOf(t, p)
		var found []finding.Finding
		require.NoError(t, json.Unmarshal([]byte(Eval[string](p, `JSON.stringify(`+state+`.asked.plan.findings)`)), &found))
		want := bench.Make(&own, found)
		p.Wait(settled + ` && ` + find + `.said(` + find + `.all('.benchsheet h2')[0]) === ` + quote(want.Title))
		shown := plain(p.Text(".benchsheet article"))
		has := func(where, text, what string) {
			t.Helper()
			assert.Contains(t, where, plain(text), "%s: %s", id, what)
		}
		steps := 0
		check := func(where string) {
			t.Helper()
			for _, s := range want.Sections {
				has(where, s.Title, "a heading")
				for _, l := range s.Lines {
					has(where, l, s.ID)
				}
				for _, st := range s.Steps {
					has(where, st.What, st.ID)
					has(where, st.How, st.ID)
					steps++
				}
			}
		}
		check(shown)
		for _, s := range want.Sections {
			if s.Table == nil {
				continue
			}
			for _, row := range s.Table.Rows {
				for _, cell := range row {
					has(shown, cell, "a cell of "+s.ID)
				}
			}
		}
		for _, s := range want.Sections {
			for _, f := range s.Figures {
				has(shown, f.Caption, "a figure")
				for _, l := range f.Labels {
					has(shown, l.Text, "a word in a figure")
				}
			}
		}
		assert.Greater(t, steps, 8, "an order of work")
		var order []string
		for _, s := range want.Sections {
			order = append(order, s.Title)
		}
		assert.Equal(t, order, Eval[[]string](p, find+`.all('.benchsheet h3').map((e) => e.textContent)`), "%s: what may go wrong stands first", id)
		figures := Eval[int](p, find+`.all('.benchsheet figure svg path[d]').length`)
		assert.GreaterOrEqual(t, figures, 3)

		Eval[Void](p, `document.documentElement.dataset.print = 'bench'`)
		p.paper(true)
		paper := plain(p.printed())
		check(paper)
		for _, gone := range []string{"Print the bench sheet", "Radius and angle", "Take it to the bench", "Pack closer"} {
			assert.NotContains(t, paper, plain(gone), "%s: the bench sheet alone", id)
		}
		p.Screenshot("paper " + id)
		Eval[Void](p, `delete document.documentElement.dataset.print`)
		p.paper(false)
	}
}

// The button prints the bench sheet alone, and the page is whole again afterwards.
func TestThePrintButtonPrintsTheSheetAlone(t *testing.T) {
	p := chrome.Blank(t)
	p.BeforePage(`window.print = () => { window.printedAs = document.documentElement.dataset.print; dispatchEvent(new Event('afterprint')) }`)
	p.Go(Serve(t, dist))
	p.Wait(settled)
	typeLampShade(p)
	p.Press("The bench sheet")
	p.Wait(find + `.all('.benchsheet article')[0]`)
	p.Press("Print the bench sheet")
	assert.Equal(t, "bench", Eval[string](p, `window.printedAs`))
	require.False(t, Eval[bool](p, `'print' in document.documentElement.dataset`))
}

// What goes to paper after a change is of one design. While the bench sheet of the change is
// still being written, the old one stays off the paper; the print button waits for the new.
func TestPrintingAfterAChangePrintsOneDesign(t *testing.T) {
	p := chrome.Blank(t)
	p.BeforePage(`window.print = () => {
  window.printed = { sheet: document.querySelector('.benchsheet article').textContent, verdict: document.querySelector('springrib-verdict .sentence').textContent };
  dispatchEvent(new Event('afterprint'));
}`)
	p.Go(Serve(t, dist))
	p.Wait(settled)
	typeLampShade(p)
	p.Press("The bench sheet")
	p.Wait(find + `.all('.benchsheet article')[0]`)
	p.Wait(settled)
	scores := func() string { return Eval[string](p, state+`.asked.plan.numbers.find((n) => n.id === 'count').text`) }
	before := scores()
	old := "with " + before
	require.Contains(t, plain(p.Text(".benchsheet article")), plain(old))

	// The bench sheet comes late, as on a slow machine.
	Eval[Void](p, `(() => {
  const core = `+state+`.asked.core, ask = core.ask.bind(core);
  window.letGo = new Promise((done) => { window.release = done; });
  core.ask = async (q) => { if (q.kind === 'bench') await window.letGo; return ask(q); };
})()`)
	Eval[Void](p, state+`.set('curve.angle', '70')`)
	p.Wait(state + `.asked.planned === ` + state + `.doc`)
	after := scores()
	require.NotEqual(t, before, after)
	p.paper(true)
	paper := plain(p.printed())
	assert.NotContains(t, paper, plain(old), "the sheet of the design before")
	assert.Contains(t, paper, plain("The bench sheet of the last change was not written yet. Print again."))
	p.paper(false)

	p.Press("Print the bench sheet")
	assert.False(t, Eval[bool](p, `'printed' in window`), "it waits")
	Eval[Void](p, `window.release()`)
	p.Wait(`window.printed`)
	assert.Contains(t, plain(Eval[string](p, `window.printed.sheet`)), plain("with "+after))
	p.Wait(settled)
	p.paper(true)
	paper = plain(p.printed())
	assert.Contains(t, paper, plain("with "+after))
	assert.NotContains(t, paper, plain("was not written yet"))
	p.paper(false)
}
