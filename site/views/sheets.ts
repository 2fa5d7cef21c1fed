// What lies on the bench: the sheets with their parts, or the test strips.
import { html, nothing, type TemplateResult } from 'lit';
import { repeat } from 'lit/directives/repeat.js';
import { live } from 'lit/directives/live.js';
import type { Drawing } from '../messages';
import { room } from './drawing';
import { legendOf, words } from './roles';
import { commonScale } from './scale';
import { Live } from './live';
import './packing';

type Side = 'sheets' | 'strips';

/** The most of the window's height that a sheet takes. */
const share = 0.5;

/** The drawings of the sheets and of the test strips. */
export class Sheets extends Live {
  static override patient = true;
  private side: Side = 'sheets';
  private width = 0;
  private readonly sizes = new ResizeObserver(() => this.measure());

  override connectedCallback(): void {
    super.connectedCallback();
    this.sizes.observe(this);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.sizes.disconnect();
  }

  private measure(): void {
    if (this.clientWidth === this.width) return;
    this.width = this.clientWidth;
    this.requestUpdate();
  }

  /** Lays something else on the bench. */
  turn(side: Side): void {
    this.side = side;
    this.requestUpdate();
  }

  protected override render(): TemplateResult {
    const { picture } = this.state.asked;
    if (!picture) return html`${nothing}`;
    const all = picture.plan.drawings.map((view, at) => ({ view, at }));
    const sheets = all.filter(({ view }) => view.id.startsWith('sheet'));
    const strips = all.filter(({ view }) => view.id === 'readings' || view.id.startsWith('strips'));
    const side = this.side === 'strips' && strips.length ? 'strips' : 'sheets';
    const seen = side === 'strips' ? strips : sheets;
    const choices: [Side, string][] = [['sheets', sheets.length < 2 ? 'On the sheet' : `On ${sheets.length} sheets`], ['strips', 'Test strips']];
    return html`
      ${strips.length ? html`<div class="tabs" role="radiogroup" aria-label="What lies on the bench">${choices.map(([which, word]) => html`
        <label><input type="radio" name="side" .checked=${live(side === which)} @change=${() => this.turn(which)} /><span>${word}</span></label>`)}</div>` : nothing}
      ${repeat(seen, ({ view }) => view.id, ({ view, at }) => html`
        <springrib-drawing class="on-bench" id="drawing-${view.id}" .state=${this.state} .view=${view} .stream=${picture.streams[at] ?? nil} .scale=${this.scale(view)}></springrib-drawing>`)}
      ${side === 'sheets' ? html`<springrib-packing .state=${this.state}></springrib-packing>` : legend(seen.map(({ view }) => view))}`;
  }

  private scale(view: Drawing): number {
    return commonScale([view], { width: this.width || 600, height: Math.max(280, innerHeight * share) }, room, 'single');
  }
}

const nil = new Float32Array();

function legend(drawings: Drawing[]): TemplateResult {
  return html`<ul class="legend" aria-label="Lines">${legendOf(drawings).map((role) => html`
    <li><svg viewBox="0 0 30 10" aria-hidden="true"><path class="ink ${role}" d=${role === 'rib' ? 'M2 1.5H28V8.5H2z' : 'M1 5H29'} /></svg>${words[role]}</li>`)}</ul>`;
}

customElements.define('springrib-sheets', Sheets);
