// A sign for each gravity: its shape speaks where colour can't. A word always stands beside it.
import { svg, type SVGTemplateResult, html, type TemplateResult } from 'lit';

const shapes: Record<string, SVGTemplateResult> = {
  sound: svg`<circle class="body" cx="12" cy="12" r="10" /><path class="cutout" d="M7 12.5l3.5 3.5 6.5-8" />`,
  note: svg`<rect class="body" x="3" y="3" width="18" height="18" rx="4" /><path class="cutout" d="M8 9h8M8 13h8M8 17h4" />`,
  warn: svg`<path class="body" d="M12 1.8L23 21.5H1z" /><path class="cutout" d="M12 8.5v6M12 17.6v.8" />`,
  stop: svg`<path class="body" d="M7.5 1.5h9l6 6v9l-6 6h-9l-6-6v-9z" /><path class="cutout" d="M6.5 12h11" />`,
};

/** The sign of a severity; nothing for an unknown one. */
export function sign(severity: string): TemplateResult | undefined {
  const shape = shapes[severity];
  return shape && html`<svg class="sign ${severity}" viewBox="0 0 24 24" aria-hidden="true">${shape}</svg>`;
}

/** The word that a screen reader hears for a severity. */
export const severityWord: Record<string, string> = {
  sound: 'Sound', note: 'Note', warn: 'Warning', stop: 'Stop',
};
