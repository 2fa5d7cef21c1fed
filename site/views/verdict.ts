// The answer, always in sight: a word and a sign, what it rests on in a line, and how near
// the limits are.
import { html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { gauge } from './gauge';
import { Live } from './live';
import { sign } from './sign';
import { split, typeset } from './typeset';

/** How long the verdict must stand before it is read out, ms: typing shouldn't chatter. */
const settled = 900;
/** So many letters stand in one line at the largest size, and at the next. */
const large = 44, middling = 84;

/** The verdict: its word, and the sentence after it. */
export class Verdict extends Live {
  private spoken = '';
  private waiting: ReturnType<typeof setTimeout> | undefined;

  protected override render(): TemplateResult {
    const { verdict, findings } = this.state.asked.plan;
    this.dataset.severity = verdict.severity;
    // While something is held it keeps its height, and so what stands below its place.
    this.style.height = this.state.held.grip ? this.style.height || `${this.offsetHeight}px` : '';
    const [lead, rest] = split(verdict.sentence);
    const letters = verdict.word.length + lead.length;
    // Where a line below begins with the rest, it is not shown twice.
    return html`
      <div class="line ${letters <= large ? 'large' : letters <= middling ? 'middling' : 'long'}">${sign(verdict.severity)}
        <h1>${verdict.word ? `${verdict.word}.` : 'Getting ready'}</h1>
        <p class="sentence">${typeset(lead)}<span class=${findings.length ? 'unseen' : 'rest'}> ${typeset(rest)}</span></p></div>
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

/** How near the limits the design is. */
export class Gauges extends Live {
  protected override render(): TemplateResult {
    const { gauges } = this.state.asked.plan.verdict;
    return gauges.length ? html`<ul class="gauges" aria-label="How near the limits">${gauges.map(gauge)}</ul>` : html`${nothing}`;
  }
}

customElements.define('springrib-verdict', Verdict);
customElements.define('springrib-gauges', Gauges);
