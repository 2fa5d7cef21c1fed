// The foot of the first screen: what there is to cut, in a sentence, and the way to the files.
import { html, nothing, type TemplateResult } from 'lit';
import { Live } from './live';
import { sign } from './sign';
import { typeset } from './typeset';

/** The bar with the button to the bench. */
export class BenchBar extends Live {
  protected override render(): TemplateResult {
    const { drawn, withheld = [], cards, numbers, verdict, partial } = this.state.asked.plan;
    if (!drawn) return html`<p>${this.state.asked.answered ? 'Files appear as soon as the design can be cut.' : nothing}</p>`;
    const of = (id: string): string => numbers.find((n) => n.id === id)?.text ?? '';
    const stopped = withheld.length > 0 && !partial;
    return html`
      <p>${stopped ? html`${sign('stop')} <strong>There are no files to cut from yet.</strong> <span>Mend what stops the job first.</span>`
        : html`<strong>${typeset(cards.cut ?? '')}.</strong> <span>${this.job(of)}${verdict.severity === 'warn' ? ' The warning goes along, on the bench sheet.' : ''}</span>`}</p>
      <button type="button" class=${stopped ? 'secondary' : 'primary'} @click=${this.go}>${stopped ? 'See what stops it' : 'Take it to the bench'}</button>`;
  }

  private job(of: (id: string) => string): unknown {
    if (!of('spacing')) return 'No scores.';
    const time = of('time');
    return html`${of('count')} in ${of('passes')}${time ? html`, ${time} at the machine, then marks and cuts.` : ', then marks and cuts.'}`;
  }

  private go(): void { this.dispatchEvent(new CustomEvent('springrib-bench', { detail: 'sheets', bubbles: true })); }
}

customElements.define('springrib-benchbar', BenchBar);
