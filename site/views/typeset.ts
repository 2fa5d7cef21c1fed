// Sentences as they are set: figures keep their unit on one line, fractions are true ones.
import { html, svg } from 'lit';

/** A text whose figures keep their unit, and whose ranges their ends, on one line. */
export const whole = (text: string): string => text.replace(/(\d)-(?=\d)/g, '$1\u2060-\u2060').replace(/(\d) (?=(?:mm|in)\b|%|\d+\/\d)/g, '$1\u00a0');

const fraction = /((?<![\d/])\d+\/\d+(?![\d/]))/;

/** The text in parts, of which those at odd places are fractions. */
export const parts = (text: string): string[] => whole(text).split(fraction);

/** A sentence as it is set. The feature that makes fractions would raise whole numbers too. */
export const typeset = (text: string): unknown => {
  const all = parts(text);
  return all.length === 1 ? all[0] : all.map((part, i) => (i % 2 ? html`<span class="frac">${part}</span>` : part));
};

/** The same in a drawing. */
export const typesetSVG = (text: string): unknown => {
  const all = parts(text);
  return all.length === 1 ? all[0] : all.map((part, i) => (i % 2 ? svg`<tspan class="frac">${part}</tspan>` : part));
};

/** A text as its first clause and the rest. */
export function split(text: string): [string, string] {
  const end = /[.](?= )|(?<=\S+ \S+ \S+):(?= )/.exec(text);
  return end ? [text.slice(0, end.index + 1), text.slice(end.index + 2)] : [text, ''];
}
