// What the machine does, in its order, as sentences. Words on a ruled line are typed there:
// the same fields as those of the card "The cut".
import { html, nothing, svg, type TemplateResult } from 'lit';
import { live } from 'lit/directives/live.js';
import type { Control } from '../messages';
import { text } from '../path';
import { Live } from './live';

/** Operations in the order they are worked: id, word, role in the drawings, what they are in a sentence. */
const all: [string, string, string, string][] = [
  ['score', 'Score', 'score', ''], ['mark', 'Mark', 'mark', 'the rib lines and marks,'],
  ['inner', 'Cut inside', 'inner', 'holes and slots,'], ['outer', 'Cut out', 'outer', 'panel and ribs,'],
];

/** The rows of the operations that this design has. */
export class Operations extends Live {
  static override patient = true;

  protected override render(): TemplateResult | typeof nothing {
    const { plan, picture, controls } = this.state.asked;
    const roles = new Set(picture?.plan.drawings.filter((d) => d.id.startsWith('sheet')).flatMap((d) => d.items.map((i) => i.role)));
    const rows = all.filter(([, , role]) => roles.has(role));
    if (!rows.length || !controls) return nothing;
    const of = (id: string): string => plan.numbers.find((n) => n.id === id)?.text ?? '';
    return html`<h3>What the machine does, in this order</h3>
      <ol class="operations">${rows.map(([id, word, role, what]) => html`<li>
        <strong>${word}</strong>
        <svg viewBox="0 0 42 10" aria-hidden="true">${svg`<path class="ink ${role}" .style=${`stroke:${this.now(id, 'colour')}`} d="M0 5H42" />`}</svg>
        <p>${id === 'score' ? `${of('count')}, ${of('passes')}` : html`${what} ${this.field(id, 'passes', 'passes')} ${this.now(id, 'passes') === '1' ? 'pass' : 'passes'}`}
          at ${this.field(id, 'speed', '')} in ${this.colour(id)} as ${this.field(id, 'name', '')}</p></li>`)}</ol>
      <p class="small">Words on a line can be changed. Colours and names are those of the groups and layers in the files.</p>`;
  }

  private path(id: string, what: string): string { return `cut.operations.${id}.${what}`; }

  private now(id: string, what: string): string { return this.state.effective(this.path(id, what)); }

  private control(id: string, what: string): Control | undefined { return this.state.controlOf(this.path(id, what)); }

  private field(id: string, what: string, kind: string): TemplateResult | typeof nothing {
    const path = this.path(id, what), control = this.control(id, what), { state } = this;
    if (!control) return nothing;
    const said = state.asked.field(path), typed = text(state.doc, path);
    const empty = what === 'speed' ? (id === 'score' && state.effective('machine.speed')) || 'its own' : said.default ?? '';
    const bare = what === 'speed' && /^[\d\s.,/]+$/.test(typed);
    const letters = Math.max(kind ? 1.5 : 3, (typed || empty).length) + 0.6;
    return html`<label class="word"><input type="text" autocomplete="off" spellcheck="false" aria-label="${control.label}, at the bench" placeholder=${empty}
      .style=${`width:${Math.min(letters, 16)}ch`} .value=${live(typed)} aria-invalid=${said.problem ? 'true' : nothing} title=${said.problem ?? nothing}
      @input=${(e: Event) => state.set(path, (e.target as HTMLInputElement).value, true)} @change=${() => state.seal()} @blur=${() => state.seal()} />${bare ? html`<span>${text(state.doc, 'units') === 'in' ? 'in/s' : 'mm/s'}</span>` : nothing}</label>`;
  }

  private colour(id: string): TemplateResult | typeof nothing {
    const path = this.path(id, 'colour'), control = this.control(id, 'colour'), { state } = this;
    if (!control) return nothing;
    const now = this.now(id, 'colour');
    return html`<label class="word"><input type="color" aria-label="${control.label}, at the bench" .value=${live(/^#[0-9a-f]{6}$/i.test(now) ? now : '#000000')}
      @input=${(e: Event) => state.set(path, (e.target as HTMLInputElement).value, true)} @change=${() => state.seal()} /></label>`;
  }
}

customElements.define('springrib-operations', Operations);
