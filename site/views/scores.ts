// Going along the scores: with the thumb, the pointer or the arrow keys. The score one is
// at is lit in every drawing, and its place, fold and limit are told here.
import { html, nothing, type TemplateResult } from 'lit';
import { live } from 'lit/directives/live.js';
import type { ScoreView } from '../messages';
import { Live } from './live';
import { sign } from './sign';

/** The slide along the scores with what is said of the present one. */
export class Scores extends Live {
  static override late = true;
  static override topic = 'light' as const;
  private last = 1;

  protected override render(): TemplateResult {
    const scores = this.state.asked.picture?.plan.scores ?? [];
    if (scores.length === 0) return html`${nothing}`;
    const lit = scores.find((s) => s.n === this.state.focus.score);
    if (lit) this.last = lit.n;
    this.last = Math.min(this.last, scores.length);
    const at = lit ?? scores.find((s) => s.n === this.last) ?? scores[0]!;
    return html`
      <label class="unseen" for="score-slide">Along the scores</label>
      <input id="score-slide" type="range" min="1" max=${scores.length} step="1" .value=${live(String(at.n))}
        aria-valuetext=${told(at, scores.length)}
        @input=${(e: Event) => this.state.light({ score: Number((e.target as HTMLInputElement).value) })}
        @focus=${() => this.state.light({ score: at.n })} @blur=${() => this.state.light({})} />
      <p class="told ${lit ? 'lit' : ''}">${lit ? html`${at.near ? sign('warn') : nothing}<span><strong>${at.n}</strong> of ${scores.length}</span>
          <span>${at.at}</span> <span>${at.fold}</span> <span>${at.limit}</span>`
        : html`${scores.length} scores. Point at one, or slide along them.`}</p>`;
  }
}

function told(s: ScoreView, all: number): string {
  return [`Score ${s.n} of ${all}`, s.at, s.fold, s.limit, s.near ? 'near its limit' : ''].filter(Boolean).join(', ');
}

customElements.define('springrib-scores', Scores);
