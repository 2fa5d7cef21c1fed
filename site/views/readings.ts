// A list of lengths, as five readings of a calliper: a small box each.
import { html, nothing, type TemplateResult } from 'lit';
import { get, text, type Json } from '../path';
import type { State } from '../state';
import { describedBy, idOf, sentences } from './said';
import { box, type Part } from './inputs';

/** As many as a person would measure; more would only be noise. */
const most = 9;

/** The boxes with a button to add one and one to take the last away. */
export function readings(part: Part): TemplateResult {
  const { state, path, id, label } = part;
  const count = Math.max(1, valuesOf(state, path).length);
  const parts = Array.from({ length: count }, (_, i) => partOf(part, i));
  return html`<div class="readings" role="group" aria-labelledby="${id}-label">
    <span class="label" id="${id}-label">${label}</span>
    <span class="boxes">
      ${parts.map((p) => html`<span class="box"><label class="unseen" for=${p.id}>${p.label}</label>${box(p)}</span>`)}
    </span>
    ${parts.map((p) => sentences(p.id, p.said, text(state.doc, p.path)))}
    <span class="buttons">
      ${count < most ? html`<button type="button" class="quiet" @click=${() => add(state, path, count)}>Add one</button>` : nothing}
      ${count > 1 ? html`<button type="button" class="quiet" @click=${() => takeLast(state, path)}>Take the last away</button>` : nothing}
    </span></div>`;
}

function valuesOf(state: State, path: string): Json[] {
  const list = get(state.doc, path);
  return Array.isArray(list) ? list : [];
}

function partOf(part: Part, i: number): Part {
  const path = `${part.path}.${i}`;
  const id = idOf(path);
  const own = part.state.asked.field(path);
  // What an empty list means stands in the first box.
  const said = i === 0 && !own.default && part.said.default ? { ...own, default: part.said.default } : own;
  return {
    ...part, path, id, said, label: `${part.label}, ${i + 1}`,
    describedBy: [describedBy(id, said, '', text(part.state.doc, path)), part.describedBy].filter(Boolean).join(' '),
  };
}

function add(state: State, path: string, count: number): void {
  const list = valuesOf(state, path);
  state.set(path, [...list, ...Array<string>(Math.max(1, count + 1 - list.length)).fill('')]);
  state.goTo(`${path}.${count}`);
}

function takeLast(state: State, path: string): void {
  const list = valuesOf(state, path);
  state.set(path, list.slice(0, -1));
  state.goTo(`${path}.${Math.max(0, list.length - 2)}`);
}
