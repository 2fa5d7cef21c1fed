// The numbers of passes side by side: what each would give, the quickest sound one first.
// Picking one sets the design.
import { html, nothing, type TemplateResult } from 'lit';
import { live } from 'lit/directives/live.js';
import type { Option } from '../messages';
import { text } from '../path';
import { Live } from './live';
import { sign } from './sign';

/** The table of options. */
export class Options extends Live {
  static override late = true;
  static override patient = true;

  protected override render(): TemplateResult {
    const { heads, rows } = this.state.asked.plan.options;
    if (rows.length < 2) return html`${nothing}`;
    return html`<details><summary>${summary(rows)}</summary>
      <div class="wide" tabindex="0" role="group" aria-label="Options"><table>
        <thead><tr><td></td>${heads.slice(0, 1).map(head)}<td></td>${heads.slice(1).map(head)}</tr></thead>
        <tbody>${rows.map((r) => this.row(r, heads[0] ?? ''))}</tbody></table></div>
      ${this.left()}</details>`;
  }

  private row(r: Option, what: string): TemplateResult {
    const [first = '', ...rest] = r.cells;
    return html`<tr class=${r.sound ? '' : 'out'} ?data-chosen=${r.chosen}>
      <td><input type="radio" name="option" id="option-${first}" .checked=${live(r.chosen)} aria-label="${what}: ${first}"
        @change=${() => this.state.apply(r.set, `${what}: ${first}`)} /></td>
      <th scope="row"><label for="option-${first}">${first}</label></th>
      <td>${r.out ? html`${sign('warn')} ${r.out}` : r.chosen ? 'taken' : nothing}</td>
      ${rest.map((c) => html`<td>${c}</td>`)}</tr>`;
  }

  // Whether the choice was left to the program or made by hand.
  private left(): TemplateResult {
    const typed = text(this.state.doc, 'panel.passes').trim();
    if (typed === '' || typed.toLowerCase() === 'auto') return html`<p class="small">If left open, the quickest sound one is taken.</p>`;
    return html`<button type="button" class="quiet" @click=${() => this.state.apply({ 'panel.passes': 'auto' }, 'Passes left open')}>Leave the choice open again</button>`;
  }
}

const head = (word: string): TemplateResult => html`<th scope="col">${word}</th>`;

function summary(rows: Option[]): string {
  const sound = rows.filter((r) => r.sound).length;
  if (sound === 0) return `None of ${rows.length} pass counts works`;
  return sound === 1 ? `1 of ${rows.length} pass counts works` : `${sound} of ${rows.length} pass counts work`;
}

customElements.define('springrib-options', Options);
