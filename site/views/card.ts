// One step of the job. Closed, it is the one sentence that sums it up; open, it shows its fields.
import { html, nothing, type TemplateResult } from 'lit';
import { repeat } from 'lit/directives/repeat.js';
import type { Card as Step, Control, PlanView } from '../messages';
import type { State } from '../state';
import { typeset } from './typeset';
import { Live } from './live';
import { sign } from './sign';

/** A card of the form. */
export class Card extends Live {
  static override late = true;
  static override properties = { ...Live.properties, card: { attribute: false }, number: { attribute: false } };
  declare card: Step;
  declare number: number;

  private unlight: (() => void) | undefined;

  override connectedCallback(): void {
    super.connectedCallback();
    this.unlight = this.state.watch(() => {
      const { field } = this.state.focus;
      this.toggleAttribute('lit', field !== undefined && this.state.controlOf(field)?.card === this.card.id);
    }, 'light');
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.unlight?.();
  }

  protected override render(): TemplateResult {
    const { id, title } = this.card;
    const open = this.state.open.has(id);
    this.toggleAttribute('open', open);
    return html`
      <h2><button type="button" class="card-head" aria-expanded=${open ? 'true' : 'false'} aria-controls="card-${id}"
        @click=${() => this.state.toggle(id)}>
        <span class="number" aria-hidden="true">${this.number}</span>
        <span class="title">${title} ${this.trouble()}</span>
        <span class="sentence">${typeset(this.state.asked.plan.cards[id] ?? this.card.help)}</span>
        <svg class="turn" viewBox="0 0 16 16" aria-hidden="true"><path d="M3 6l5 5 5-5" /></svg>
      </button></h2>
      <div id="card-${id}" class="card-body" ?hidden=${!open}>${open ? this.body() : nothing}</div>`;
  }

  private body(): TemplateResult {
    const shown = (this.state.asked.controls?.controls ?? []).filter((c) => c.card === this.card.id && c.path !== 'name' && this.state.shown(c.when)); // the head of the page has the name
    const more = shown.filter((c) => c.more);
    return html`
      ${this.card.help ? html`<p class="about">${this.card.help}</p>` : nothing}
      ${this.fields(shown.filter((c) => !c.more))}
      ${more.length ? html`<details class="more"><summary>More about ${this.card.title.toLowerCase()}</summary>${this.fields(more)}</details>` : nothing}`;
  }

  private fields(controls: Control[]): unknown {
    return repeat(controls, (c) => c.path, (c) => html`<springrib-field .state=${this.state} .control=${c}></springrib-field>`);
  }

  private trouble(): unknown {
    const said = troubles(this.state).get(this.card.id);
    if (!said) return nothing;
    return html`<span class="trouble ${said === 'warning' ? 'warn' : 'stop'}">${sign(said === 'warning' ? 'warn' : 'stop')} ${said}</span>`;
  }
}

type Trouble = 'look here' | 'stops the job' | 'warning';

const found = new WeakMap<PlanView, Map<string, Trouble>>();

// The worst of each card, found once for all of them.
function troubles(state: State): Map<string, Trouble> {
  const { plan } = state.asked;
  const known = found.get(plan);
  if (known) return known;
  const worst = new Map<string, Trouble>();
  const note = (path: string | undefined, trouble: Trouble): void => {
    const card = path === undefined ? undefined : state.controlOf(path)?.card;
    if (card !== undefined && !worst.has(card)) worst.set(card, trouble);
  };
  for (const path in plan.fields) if (plan.fields[path]!.problem) note(path, 'look here');
  for (const f of plan.findings) if (f.severity === 'stop') note(f.place.field, 'stops the job');
  for (const f of plan.findings) if (f.severity === 'warn') note(f.place.field, 'warning');
  if (state.asked.controls) found.set(plan, worst); // before, no field has a card
  return worst;
}

customElements.define('springrib-card', Card);
