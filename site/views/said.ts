// What the core says of a field, and the ids that tie it to the field.
import { html, nothing, type TemplateResult } from 'lit';
import type { Field as Said } from '../messages';
import { sign } from './sign';

/** Ids are paths without dots, so that labels and sentences find their field. */
export const idOf = (path: string): string => `f-${path.replaceAll('.', '-')}`;

/** As much as fits into an empty box as its placeholder; what is longer stands under it. */
const fits = 16;

/** The placeholder of an empty field: what it means to leave it empty. */
export function placeholder(said: Said): string {
  return said.default !== undefined && said.default.length <= fits ? said.default : '';
}

/** What an empty field means, where that is too long for its box. */
function unfilled(said: Said, typed: string): string {
  const empty = typed.trim() === '' || typed.trim() === 'auto';
  return empty && said.default !== undefined && (said.default.length > fits || typed !== '') ? said.default : '';
}

/** The sentences under a field: what is wrong, how it was understood, or what leaving it empty means. */
export function sentences(id: string, said: Said, typed: string): TemplateResult {
  const instead = said.problem ? '' : unfilled(said, typed);
  return html`
    ${instead ? html`<p class="instead" id="${id}-instead">If left empty: ${instead}</p>` : nothing}
    ${said.problem ? html`<p class="problem" id="${id}-problem">${sign('stop')} ${said.problem}</p>` : nothing}
    ${said.means && !said.problem ? html`<p class="means" id="${id}-means">${said.means}</p>` : nothing}`;
}

/** The ids of the sentences that describe a field. */
export function describedBy(id: string, said: Said, help: string, typed = ''): string {
  return [!said.problem && unfilled(said, typed) && `${id}-instead`, said.problem && `${id}-problem`, said.means && !said.problem && `${id}-means`, help && `${id}-help`]
    .filter(Boolean).join(' ');
}
