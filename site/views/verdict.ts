// The answer, always in sight: a word, a sign, a sentence, and how near the limits are.
import { html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { gauge, whole } from './gauge';
import { Live } from './live';
import { narrow } from './narrow';
import { sign } from './sign';

/** How long the verdict must stand before it is read out, ms: typing shouldn't chatter. */
const settled = 900;

/** The verdict with its gauges. */
export class Verdict extends Live {
  private spoken = '';
  private waiting: ReturnType<typeof setTimeout> | undefined;

  protected override render(): TemplateResult {
    const { verdict } = this.state.asked.plan;
    this.dataset.severity = verdict.severity;
    // While something is held it keeps its height, and so what stands below its place.
    this.style.height = this.state.held.grip ? this.style.height || `${this.offsetHeight}px` : '';
    // A narrow screen has no room to say the first warning twice.
    const told = narrow.matches && this.state.asked.plan.findings.some((f) => f.text === verdict.sentence);
    return html`
      <div class="word">${sign(verdict.severity)}<h1>${verdict.word || 'Getting ready'}</h1></div>
      <p class="sentence" ?hidden=${told}>${whole(verdict.sentence)}</p>
      ${verdict.gauges.length ? html`<ul class="gauges" aria-label="How near the limits">${verdict.gauges.map(gauge)}</ul>` : nothing}
      <p class="unseen" role="status">${this.spoken}</p>`;
  }

  protected override updated(_: PropertyValues): void {
    const { word, sentence } = this.state.asked.plan.verdict;
    const now = `${word}. ${sentence}`;
    if (word === '' || now === this.spoken) return;
    clearTimeout(this.waiting);
    this.waiting = setTimeout(() => {
      this.spoken = now;
      this.requestUpdate();
    }, settled);
  }
}

customElements.define('springrib-verdict', Verdict);
