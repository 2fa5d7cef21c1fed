// What the core says of a field, and the ids that tie it to the field.
import { html, nothing, type TemplateResult } from 'lit';
import type { Field as Said } from '../messages';
import { sign } from './sign';

/** Ids are paths without dots, so that labels and sentences find their field. */
export const idOf = (path: string): string => `f-${path.replaceAll('.', '-')}`;

/** The sentences under a field: what is wrong, or how it was understood. */
export function sentences(id: string, said: Said): TemplateResult {
  return html`
    ${said.problem ? html`<p class="problem" id="${id}-problem">${sign('stop')} ${said.problem}</p>` : nothing}
    ${said.means && !said.problem ? html`<p class="means" id="${id}-means">${said.means}</p>` : nothing}`;
}

/** The ids of the sentences that describe a field. */
export function describedBy(id: string, said: Said, help: string): string {
  return [said.problem && `${id}-problem`, said.means && !said.problem && `${id}-means`, help && `${id}-help`]
    .filter(Boolean).join(' ');
}
