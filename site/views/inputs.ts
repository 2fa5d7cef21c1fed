// The plain kinds of field: a line of text, a choice, a check, a colour. Typed text goes
// into the document as it is; the core reads it.
import { html, nothing, type TemplateResult } from 'lit';
import { ifDefined } from 'lit/directives/if-defined.js';
import { live } from 'lit/directives/live.js';
import type { Control, Field as Said } from '../messages';
import { get, text } from '../path';
import type { State } from '../state';
import { placeholder } from './said';

/** What is needed to draw the part of a field that one fills. */
export interface Part {
  state: State; control: Control; path: string; id: string; label: string; said: Said; describedBy: string;
}

type Mode = 'decimal' | 'numeric' | 'text';

// Lengths take fractions and units ("2 1/4 in"), which a phone's decimal keys can't
// write; plain counts and numbers get the number keys.
const modes: Record<string, Mode> = { length: 'decimal', lengths: 'decimal', angle: 'decimal', number: 'decimal', count: 'numeric' };

/** A bare text input for path. */
export function box(part: Part): TemplateResult {
  const { state, control, path, id, said } = part;
  return html`<input id=${id} type="text" autocomplete="off" autocapitalize="off" spellcheck="false"
    inputmode=${modes[control.kind] ?? 'text'} class=${control.kind === 'text' ? 'words' : 'figure'}
    placeholder=${placeholder(said)} .value=${live(text(state.doc, path))}
    aria-invalid=${said.problem ? 'true' : nothing} aria-describedby=${ifDefined(part.describedBy || undefined)}
    @input=${(e: Event) => state.set(path, (e.target as HTMLInputElement).value, true)}
    @change=${() => state.seal()} @blur=${() => state.seal()} />`;
}

/** A labelled line. */
export function line(part: Part): TemplateResult {
  return html`<div class="row ${part.control.kind}"><label for=${part.id}>${part.label}</label>${box(part)}</div>`;
}

/** A choice: side by side when short, a list when long. */
export function choice(part: Part): TemplateResult {
  const choices = part.control.choices ?? [];
  const letters = choices.reduce((n, c) => n + c.label.length, 0);
  return choices.length <= 4 && letters <= 26 ? segments(part) : list(part);
}

function segments({ state, control, path, id, label, said, describedBy }: Part): TemplateResult {
  const now = state.effective(path);
  return html`<div class="row" role="radiogroup" aria-labelledby="${id}-label" aria-invalid=${said.problem ? 'true' : nothing}
      aria-describedby=${ifDefined(describedBy || undefined)}>
    <span class="label" id="${id}-label">${label}</span>
    <span class="segments">${(control.choices ?? []).map((c) => html`
      <label><input type="radio" name=${id} value=${c.value} .checked=${live(c.value === now)}
        @change=${() => state.choose(path, c.value)} /><span>${c.label}</span></label>`)}
    </span></div>`;
}

function list({ state, control, path, id, label, said, describedBy }: Part): TemplateResult {
  const now = state.effective(path);
  const choices = control.choices ?? [];
  // A saved value that this page doesn't know stays visible and stays chosen.
  const known = choices.some((c) => c.value === now);
  return html`<div class="row"><label for=${id}>${label}</label>
    <select id=${id} aria-invalid=${said.problem ? 'true' : nothing} aria-describedby=${ifDefined(describedBy || undefined)}
      @change=${(e: Event) => state.choose(path, (e.target as HTMLSelectElement).value)}>
      ${known ? nothing : html`<option value=${now} .selected=${true}>${now}</option>`}
      ${choices.map((c) => html`<option value=${c.value} .selected=${live(c.value === now)}>${c.label}</option>`)}
    </select></div>`;
}

/** A yes or no. */
export function check({ state, path, id, label, describedBy }: Part): TemplateResult {
  return html`<label class="check"><input id=${id} type="checkbox" .checked=${live(get(state.doc, path) === true)}
    aria-describedby=${ifDefined(describedBy || undefined)}
    @change=${(e: Event) => state.set(path, (e.target as HTMLInputElement).checked)} /><span>${label}</span></label>`;
}

/** A colour as text with a well beside it. */
export function colour(part: Part): TemplateResult {
  const { state, path, id, label } = part;
  const now = state.effective(path);
  return html`<div class="row"><label for=${id}>${label}</label><span class="colour">
    ${box(part)}
    <input type="color" aria-label="${label}, pick" .value=${live(/^#[0-9a-f]{6}$/i.test(now) ? now : '#000000')}
      @input=${(e: Event) => state.set(path, (e.target as HTMLInputElement).value, true)} @change=${() => state.seal()} />
  </span></div>`;
}
