// A chain of arcs and straights as a table: each piece goes on where the last one ended.
import { html, nothing, type TemplateResult } from 'lit';
import { live } from 'lit/directives/live.js';
import type { Choice } from '../messages';
import { get, text, type Json } from '../path';
import type { State } from '../state';
import { describedBy, idOf, sentences } from './said';
import { box, type Part } from './inputs';

const turns: Choice[] = [
  { value: 'straight', label: 'Straight on' },
  { value: 'over', label: 'Round' },
  { value: 'back', label: 'Back' },
];

/** The rows with a button to remove each and one to add. */
export function pieces(part: Part): TemplateResult {
  const { state, path, id, label } = part;
  const rows = rowsOf(state, path);
  return html`<div class="pieces" role="group" aria-labelledby="${id}-label">
    <span class="label" id="${id}-label">${label}</span>
    <ol>${rows.map((_, i) => row(part, i, rows))}</ol>
    <button type="button" class="quiet" @click=${() => add(state, path, rows)}>Add a piece</button></div>`;
}

function rowsOf(state: State, path: string): Json[] {
  const list = get(state.doc, path);
  return Array.isArray(list) ? list : [];
}

function row(part: Part, i: number, rows: Json[]): TemplateResult {
  const { state, path } = part;
  const at = `${path}.${i}`;
  const turn = text(state.doc, `${at}.turn`) || 'straight';
  const choices = part.control.choices?.length ? part.control.choices : turns;
  const member = (name: string, label: string): Part => memberOf(part, `${at}.${name}`, `${label} of piece ${i + 1}`);
  const length = member('length', 'Length'), radius = member('radius', 'Radius');
  return html`<li>
    <span class="cells">
      <span class="cell"><label for=${idOf(`${at}.turn`)}>Piece ${i + 1}</label>
        <select id=${idOf(`${at}.turn`)} @change=${(e: Event) => state.set(`${at}.turn`, (e.target as HTMLSelectElement).value)}>
          ${choices.map((c) => html`<option value=${c.value} .selected=${live(c.value === turn)}>${c.label}</option>`)}
        </select></span>
      ${cell(length, 'Length')}
      ${turn === 'straight' ? html`<span class="cell"></span>` : cell(radius, 'Radius')}
      <button type="button" class="quiet remove" aria-label="Remove piece ${i + 1}" @click=${() => remove(state, path, rows, i)}>Remove</button>
    </span>
    ${sentences(length.id, length.said, text(state.doc, length.path))} ${turn === 'straight' ? nothing : sentences(radius.id, radius.said, text(state.doc, radius.path))}
  </li>`;
}

function cell(part: Part, word: string): TemplateResult {
  return html`<span class="cell"><label for=${part.id} aria-label=${part.label}>${word}</label>${box(part)}</span>`;
}

function memberOf(part: Part, path: string, label: string): Part {
  const id = idOf(path);
  const said = part.state.field(path);
  return { ...part, control: { ...part.control, kind: 'length' }, path, id, label, said, describedBy: describedBy(id, said, '', text(part.state.doc, path)) };
}

function add(state: State, path: string, rows: Json[]): void {
  state.set(path, [...rows, { turn: 'over', length: '', radius: '' }]);
  state.goTo(`${path}.${rows.length}.length`);
}

function remove(state: State, path: string, rows: Json[], i: number): void {
  state.set(path, rows.filter((_, k) => k !== i));
  if (rows.length > 1) state.goTo(`${path}.${Math.max(0, i - 1)}.turn`);
}
