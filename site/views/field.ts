// One field of the form: its label, the means to fill it, and what the core says of it.
import { html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import type { Control } from '../messages';
import { text } from '../path';
import { check, choice, colour, line, type Part } from './inputs';
import { rows } from './rows';
import { readings } from './readings';
import { Live } from './live';
import { describedBy, idOf, sentences } from './said';
import { sketch } from './sketch';
import './intake';

const lines = new Set(['length', 'angle', 'number', 'count', 'text']);
const boxes = new Set([...lines, 'colour']);

/** Draws a control of any kind. */
export class Field extends Live {
  static override properties = { ...Live.properties, control: { attribute: false } };
  declare control: Control;

  private unlight: (() => void) | undefined;

  override connectedCallback(): void {
    super.connectedCallback();
    this.unlight = this.state.watch(() => this.toggleAttribute('lit', this.state.focus.field?.startsWith(this.control.path) ?? false), 'light');
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.unlight?.();
  }

  protected override render(): TemplateResult {
    const { path, help } = this.control;
    const id = idOf(path);
    const said = this.state.asked.field(path), label = said.label ?? this.control.label;
    // Other kinds show by themselves what they come to.
    const typed = boxes.has(this.control.kind) ? text(this.state.doc, path) : 'shown';
    const part: Part = { state: this.state, control: this.control, path, id, label, said, describedBy: describedBy(id, said, help, typed) };
    this.toggleAttribute('troubled', Boolean(said.problem));
    return html`${drawn(part)} ${sentences(id, said, typed)}
      ${help ? html`<p class="help" id="${id}-help">${help}</p>` : nothing}
      ${sketch(path, this.chosen())}`;
  }

  private chosen(): number {
    const now = this.state.effective(this.control.path);
    return this.control.choices?.findIndex((c) => c.value === now) ?? -1;
  }

  protected override updated(_: PropertyValues): void {
    const { wanted } = this.state;
    const { path } = this.control;
    if (wanted !== path && !wanted.startsWith(`${path}.`)) return;
    const exact = this.querySelector<HTMLElement>(`#${CSS.escape(idOf(wanted))}`);
    const target = exact?.matches('input,select,textarea,button') ? exact : this.querySelector<HTMLElement>('input,select,textarea,button');
    if (!target) return;
    this.state.wanted = '';
    for (let up: Element | null = this; up; up = up.parentElement) if (up instanceof HTMLDetailsElement) up.open = true;
    target.focus({ preventScroll: true });
    this.scrollIntoView({ block: 'center', behavior: calm() ? 'auto' : 'smooth' });
  }
}

const calm = (): boolean => matchMedia('(prefers-reduced-motion: reduce)').matches;

function drawn(part: Part): TemplateResult {
  const { kind } = part.control;
  if (kind === 'choice') return choice(part);
  if (kind === 'check') return check(part);
  if (kind === 'colour') return colour(part);
  if (kind === 'lengths') return readings(part);
  if (kind === 'rows') return rows(part);
  if (kind === 'drawing') return html`<springrib-drawn-elsewhere .state=${part.state} .control=${part.control}></springrib-drawn-elsewhere>`;
  if (!lines.has(kind)) throw new TypeError(`no such kind of control: ${kind}`);
  return line(part);
}

customElements.define('springrib-field', Field);
