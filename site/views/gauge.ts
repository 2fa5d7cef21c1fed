// A gauge: a beam with a post at the limit, the stretch that the safety factor keeps
// free hatched, the range of the answer as a bar and the answer itself as a wedge.
import { html, type TemplateResult } from 'lit';
import type { Gauge } from '../messages';
import { sign } from './sign';
import { typeset } from './typeset';

/** Beyond this part of the limit a gauge only shows "more". */
const end = 1.3;
const width = 156;
const floor = 20;

/** Where a part of the limit stands along the beam. */
export const along = (part: number): number => Math.round(Math.min(end, Math.max(0, part)) / end * (width - 8) * 10) / 10 + 4;

/** How grave a gauge's value is. */
export function gravity(g: Gauge): 'sound' | 'warn' | 'stop' {
  if (g.value > 1) return 'stop';
  return g.value > g.allowed ? 'warn' : 'sound';
}

/** One gauge as an item of a list. */
export function gauge(g: Gauge): TemplateResult {
  const grave = gravity(g);
  const at = along(g.value);
  const low = along(g.low), high = Math.max(along(g.high), low + 2);
  const [, figure, foot] = /^(.*?)( of .*)?$/.exec(g.text)!;
  return html`<li class="gauge ${grave}">
    <span class="label">${g.label}</span>
    <span class="text">${grave === 'sound' ? '' : sign(grave)}${typeset(foot ? figure! : '')}</span>
    <svg viewBox="0 0 ${width} 26" aria-hidden="true">
      <path class="ticks" d=${ticks} />
      <path class="beam" d="M4 ${floor}H${width - 4}" />
      <path class="spare" d=${hatch(along(g.allowed), along(1))} />
      <path class="allowed" d="M${along(g.allowed)} ${floor - 6}V${floor}" />
      <path class="limit" d="M${along(1)} ${floor - 14}V${floor + 4}" />
      <path class="range" d="M${low} ${floor - 3}H${high}" />
      <path class="value" d="M${at} ${floor - 4}l-5 -10h10z" />
    </svg>
    <span class="foot">${typeset((foot ?? figure!).replace(/^ of the limit, (.*)/, '$1 of it').trim())}</span></li>`;
}

// The rule's own marks, ten to the limit.
const ticks = Array.from({ length: 13 }, (_, i) => `M${along(i / 10)} ${floor}v${i % 5 ? -4 : -6.5}`).join('');

function hatch(from: number, to: number): string {
  let d = '';
  for (let x = from; x < to - 1; x += 4) d += `M${x} ${floor}l3 -6`;
  return d;
}
