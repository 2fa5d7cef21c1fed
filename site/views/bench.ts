// The bench: the sheets, what the machine does on them, the files, and the cautions beside them.
import { html, nothing, type TemplateResult } from 'lit';
import type { FileView, NumberView } from '../messages';
import { saveFile } from '../designs';
import { split, typeset } from './typeset';
import { Live } from './live';
import { sign } from './sign';
import type { Sheets } from './sheets';
import './benchsheet';
import './operations';
import './options';
import './sheets';

/** A kind of file, by how the names of its files end. */
const kinds: [string, RegExp][] = [['To cut', /\.(svg|dxf)$/], ['On paper', /\.pdf$/], ['To keep', /\.(png|csv|json)$/]];
/** Files of the second sheet and those after it, and those that only few need: for old readers, strips as DXF. */
const later = /-sheet-(?!1\b)\d+|-R12\.dxf$|-test-strips.*\.dxf$/;
/** So many cautions stand beside the files: the first is about the machine, the last about this sheet. */
const few = 3;

/** The sheets and what the machine does on them, the files, cautions, figures and the bench sheet. */
export class Bench extends Live {
  static override late = true;
  static override patient = true;

  /** Lays sheets or test strips on the bench. */
  show(what: 'sheets' | 'strips'): void { this.querySelector<Sheets>('springrib-sheets')?.turn(what); }

  protected override render(): TemplateResult {
    const { state } = this, { cautions, verdict } = state.asked.plan;
    return html`
      <div class="bench-head">${verdict.word ? html`<p class="bench-verdict">${sign(verdict.severity)} <strong>${verdict.word}.</strong> ${typeset(split(verdict.sentence)[0])}</p>` : nothing}<h2 tabindex="-1">Take it to the bench</h2>
        <button type="button" class="quiet" @click=${() => scrollTo({ top: 0, behavior: matchMedia('(prefers-reduced-motion: reduce)').matches ? 'auto' : 'smooth' })}>Back to the drawings</button></div>
      <div class="bench-right">${this.files()}
        ${cautions.length ? html`<section class="cautions"><h3>Before you cut this one</h3>
          <ul>${chosen(cautions).map((c) => html`<li>${c}</li>`)}</ul>
          ${cautions.length > few ? html`<details><summary class="small">All ${cautions.length} cautions</summary>
            <ul>${cautions.filter((c) => !chosen(cautions).includes(c)).map((c) => html`<li>${c}</li>`)}</ul></details>` : nothing}
          <p class="small">All of them stand on the bench sheet. The machine's manual, your local rules and people trained on it come first.</p></section>` : nothing}</div>
      <div class="bench-left"><springrib-sheets .state=${state}></springrib-sheets><springrib-operations .state=${state}></springrib-operations></div>
      <springrib-figures .state=${state}></springrib-figures>
      <springrib-options .state=${state}></springrib-options>
      <springrib-benchsheet .state=${state}></springrib-benchsheet>`;
  }

  private files(): TemplateResult {
    const { files, drawn, verdict, withheld = [], answered, partial } = { ...this.state.asked.plan, answered: this.state.asked.answered };
    const stopped = verdict.severity === 'stop';
    const all = files.find((f) => f.name.endsWith('.zip'));
    return html`<section class="files" aria-label="Files">
      ${drawn && withheld.length ? html`<p class="withheld">${sign('stop')} <strong>There are no files to cut from.</strong> ${withheld.length > 1 ? 'Mend these first:' : 'Mend this first:'}</p>
        <ul class="because">${withheld.map((w) => html`<li>${typeset(w)}</li>`)}</ul>`
        : files.length && stopped ? html`<p class="withheld">${sign('stop')} <strong>${verdict.word}.</strong> Files of the parts say in their names and titles what is wrong. Cut from them only if you know better.</p>` : nothing}
      ${all ? html`${this.button(all, stopped || withheld.length ? 'secondary whole' : 'primary whole')}<p class="small" id="about-${idOfFile(all.name)}">${breakable(all.name)}. Or take single ones:</p>` : nothing}
      ${files.length ? kinds.map(([word, ends]) => this.kind(word, files.filter((f) => ends.test(f.name))))
        : answered && !partial ? html`<p class="empty">Files appear here as soon as the design can be cut.</p>` : nothing}
    </section>`;
  }

  // Files of one kind; those of further sheets and for few are folded away.
  private kind(word: string, files: FileView[]): TemplateResult | typeof nothing {
    const more = files.filter((f) => later.test(f.name));
    return files.length ? html`<div class="kind"><h3>${word}</h3>
      <ul>${files.filter((f) => !later.test(f.name)).map((f) => this.file(f))}</ul>
      ${more.length ? html`<details><summary>${more.length} more</summary><ul>${more.map((f) => this.file(f))}</ul></details>` : nothing}</div>` : nothing;
  }

  private file(f: FileView): TemplateResult {
    return html`<li>${this.button(f, 'file')}<p class="small" id="about-${idOfFile(f.name)}">${f.about}</p></li>`;
  }

  private button(f: FileView, kind: string): TemplateResult {
    return html`<button type="button" class=${kind} title=${f.name} aria-describedby="about-${idOfFile(f.name)}"
      @click=${() => saveFile(this.state, { kind: 'file', design: this.state.doc, file: f.name })}>${f.label}</button>`;
  }
}

// The first caution is of any machine; of the others, one for this tool and those for this sheet.
function chosen(cautions: string[]): string[] {
  return cautions.length <= few ? cautions : [cautions[1]!, ...cautions.slice(1 - few)];
}

/** So many figures stand open: scores, spacing, fold, passes, skin and length. */
const first = 6;

/** The figures to keep. */
export class Figures extends Live {
  static override patient = true;

  protected override render(): TemplateResult | typeof nothing {
    const { numbers } = this.state.asked.plan;
    if (!numbers.length) return nothing;
    const list = (some: NumberView[]): TemplateResult => html`<dl>${some.map((n) => html`<div><dt>${n.label}</dt><dd>${typeset(n.text)}</dd>${n.help ? html`<dd class="help">${typeset(n.help)}</dd>` : nothing}</div>`)}</dl>`;
    const rest = numbers.length - first;
    return html`<section class="figures"><h2>The figures</h2>${list(numbers.slice(0, first))}
      ${rest > 0 ? html`<details><summary>${rest === 1 ? 'One more figure' : `${rest} more figures`}</summary>${list(numbers.slice(first))}</details>` : nothing}</section>`;
  }
}

// A long file name breaks after its hyphens rather than anywhere.
const breakable = (name: string): unknown => name.split(/(?<=-)/).map((part, i) => (i ? html`<wbr>${part}` : part));

const idOfFile = (name: string): string => name.replace(/[^a-z0-9]+/gi, '-');

customElements.define('springrib-figures', Figures);
customElements.define('springrib-bench', Bench);
