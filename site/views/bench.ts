// What goes to the bench: the figures to keep, the files to cut, and the cautions beside them.
import { html, nothing, type TemplateResult } from 'lit';
import type { FileView } from '../messages';
import { saveFile } from '../designs';
import { whole } from './gauge';
import { Live } from './live';
import { sign } from './sign';
import './benchsheet';

/** Files first, then figures and cautions. */
export class Bench extends Live {
  static override late = true;
  static override patient = true;

  protected override render(): TemplateResult {
    const { files, cautions, drawn, verdict, withheld = [] } = this.state.asked.plan;
    const stopped = verdict.severity === 'stop';
    return html`
      <section class="files"><h2>Take it to the bench</h2>
        ${drawn && withheld.length ? html`<p class="withheld">${sign('stop')} <strong>There are no files to cut from.</strong> ${withheld.length > 1 ? 'Mend these first:' : 'Mend this first:'}</p>
          <ul class="because">${withheld.map((w) => html`<li>${whole(w)}</li>`)}</ul>`
          : files.length && stopped ? html`<p class="withheld">${sign('stop')} <strong>${verdict.word}.</strong> Files of the parts say in their names and titles what is wrong. Cut from them only if you know better.</p>` : nothing}
        ${files.length ? html`<ul>${files.map((f, i) => this.file(f, i === 0 && !stopped))}</ul>`
          : this.state.asked.answered && !this.state.asked.plan.partial ? html`<p class="empty">Files appear here as soon as the design can be cut.</p>` : nothing}
      </section>
      <springrib-figures .state=${this.state}></springrib-figures>
      <springrib-benchsheet .state=${this.state}></springrib-benchsheet>
      ${cautions.length ? html`<section class="cautions"><h2>Before you cut</h2>
        <ul>${cautions.map((c) => html`<li>${c}</li>`)}</ul>
        <p class="small">The machine's manual, the maker of the sheet, your local codes and people qualified for the work come first. Springrib reckons shapes; it doesn't know your workshop.</p></section>` : nothing}`;
  }

  private file(f: FileView, first: boolean): TemplateResult {
    return html`<li>
      <button type="button" class=${first ? 'primary' : 'secondary'} aria-describedby="about-${idOfFile(f.name)}"
        @click=${() => saveFile(this.state, { kind: 'file', design: this.state.doc, file: f.name })}>${f.label}</button>
      <p id="about-${idOfFile(f.name)}"><span>${f.about}</span> <small>${breakable(f.name)}</small></p></li>`;
  }
}

/** The figures to keep. */
export class Figures extends Live {
  static override patient = true;

  protected override render(): TemplateResult | typeof nothing {
    const { numbers } = this.state.asked.plan;
    return numbers.length ? html`<section class="figures"><h2>The figures</h2>
      <dl>${numbers.map((n) => html`<div><dt>${n.label}</dt><dd>${whole(n.text)}</dd>${n.help ? html`<dd class="help">${whole(n.help)}</dd>` : nothing}</div>`)}</dl></section>` : nothing;
  }
}

// A long file name breaks after its hyphens rather than anywhere.
const breakable = (name: string): unknown => name.split(/(?<=-)/).map((part, i) => (i ? html`<wbr>${part}` : part));

const idOfFile = (name: string): string => name.replace(/[^a-z0-9]+/gi, '-');

customElements.define('springrib-figures', Figures);
customElements.define('springrib-bench', Bench);
