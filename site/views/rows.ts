// A list of like things as a table: the pieces of a chain, the points of a curve. One
// row of the document is one row here, its fields those of the control's columns.
import { html, nothing, type TemplateResult } from 'lit';
import { live } from 'lit/directives/live.js';
import type { Control } from '../messages';
import { get, text, type Json } from '../path';
import type { State } from '../state';
import { holds } from '../when';
import { describedBy, idOf, sentences } from './said';
import { box, type Part } from './inputs';

/** The rows with a button to remove each and one to add. */
export function rows(part: Part): TemplateResult {
  const { state, path, id, label, control } = part;
  const list = rowsOf(state, path);
  const word = control.row || 'row';
  return html`<div class="rows" role="group" aria-labelledby="${id}-label">
    <span class="label" id="${id}-label">${label}</span>
    <ol>${list.map((_, i) => row(part, i, list, word))}</ol>
    <button type="button" class="quiet" @click=${() => add(part, list)}>Add a ${word}</button></div>`;
}

function rowsOf(state: State, path: string): Json[] {
  const list = get(state.doc, path);
  return Array.isArray(list) ? list : [];
}

function row(part: Part, i: number, list: Json[], word: string): TemplateResult {
  const { state, path } = part;
  const inside = (name: string): string => chosen(state, part.control.columns?.find((c) => c.path === name), `${path}.${i}.${name}`);
  const members = (part.control.columns ?? []).filter((c) => holds(c.when, inside)).map((c) => memberOf(part, c, `${path}.${i}.${c.path}`, `${c.label} of ${word} ${i + 1}`));
  return html`<li>
    <span class="cells">${members.map(cell)}
      <button type="button" class="quiet remove" aria-label="Remove ${word} ${i + 1}" @click=${() => remove(part, list, i)}>Remove</button>
    </span>
    ${members.map((m) => sentences(m.id, m.said, m.control.kind === 'choice' ? 'shown' : text(state.doc, m.path)))}
  </li>`;
}

function cell(part: Part): TemplateResult {
  const { control, id, label } = part;
  return html`<span class="cell"><label for=${id} aria-label=${label}>${control.label}</label>${filled(part)}</span>`;
}

function filled(part: Part): TemplateResult {
  const { state, control, path, id } = part;
  if (control.kind === 'check') return html`<input id=${id} type="checkbox" .checked=${live(get(state.doc, path) === true)} @change=${(e: Event) => state.set(path, (e.target as HTMLInputElement).checked)} />`;
  if (control.kind !== 'choice') return box(part);
  const now = chosen(state, control, path);
  return html`<select id=${id} aria-describedby=${part.describedBy || nothing} @change=${(e: Event) => state.set(path, (e.target as HTMLSelectElement).value)}>
    ${(control.choices ?? []).map((c) => html`<option value=${c.value} .selected=${live(c.value === now)}>${c.label}</option>`)}</select>`;
}

/** The value of a member: typed, or what the core says an empty one means, or the first choice. */
function chosen(state: State, control: Control | undefined, path: string): string {
  const typed = get(state.doc, path);
  if (typeof typed === 'boolean') return String(typed);
  if (typed !== undefined && typed !== '') return text(state.doc, path);
  const fallback = state.asked.field(path).default ?? '';
  return control?.choices?.find((c) => c.label === fallback)?.value ?? control?.choices?.[0]?.value ?? fallback;
}

function memberOf(part: Part, control: Control, path: string, label: string): Part {
  const id = idOf(path);
  const said = part.state.asked.field(path);
  return { ...part, control, path, id, label, said, describedBy: describedBy(id, said, '', text(part.state.doc, path)) };
}

function add({ state, path, control }: Part, list: Json[]): void {
  const columns = control.columns ?? [];
  state.set(path, [...list, Object.fromEntries(columns.map((c): [string, Json] => [c.path, c.kind === 'check' ? false : '']))]);
  state.goTo(`${path}.${list.length}.${columns.find((c) => c.kind !== 'choice')?.path ?? ''}`);
}

function remove({ state, path, control }: Part, list: Json[], i: number): void {
  state.set(path, list.filter((_, k) => k !== i));
  if (list.length > 1) state.goTo(`${path}.${Math.max(0, i - 1)}.${control.columns?.[0]?.path ?? ''}`);
}
