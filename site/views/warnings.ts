// Warnings, a line each: what it is, where it is, and a button that mends it.
import { html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import type { Finding, Remedy } from '../messages';
import { focusOf, type Focus } from '../focus';
import { split, typeset } from './typeset';
import { Live } from './live';
import { severityWord, sign } from './sign';

/** So many letters of a finding stand under the verdict; the rest is unfolded. */
const most = 90;

/** The gravest finding in a line under the verdict, and all of them when asked for. */
export class Warnings extends Live {
  private all = false;
  private lit: string | undefined;

  // While something is held the lines keep still, and with them what stands below.
  protected override shouldUpdate(_: PropertyValues): boolean { return this.state.held.grip === undefined; }

  protected override render(): TemplateResult {
    const { findings } = this.state.asked.plan;
    // Where nothing speaks against the design, what can be done comes before what is good to know.
    const first = (findings[0]?.severity === 'note' ? findings.find((f) => f.id === 'not-measured' || f.remedies?.some(mends)) : undefined) ?? findings[0];
    if (!first) return html`${nothing}`;
    const more = findings.length - 1, ways = (first.remedies ?? []).length;
    const all = this.told(first), told = leading(all), folds = more > 0 || ways > 1 || told !== all;
    const open = this.all && folds;
    return html`<div class="first-finding ${first.severity}" data-id=${first.id}>
        <div class="says" @pointerenter=${this.entered(first)} @pointerleave=${this.left} @focusin=${this.entered(first)} @focusout=${this.dark}>
          ${told ? html`<p class=${told.length > most ? 'long' : ''}>${typeset(told)}</p>` : nothing}${open ? nothing : this.button(first)}</div>
        ${folds ? html`<button type="button" class="quiet" aria-expanded=${open ? 'true' : 'false'} @click=${this.toggle}>
          ${open ? 'Show less' : more > 0 ? `${more} more` : ways > 1 ? 'More ways' : 'Read it all'}</button>` : nothing}</div>
      ${folds ? html`<ul class="findings ${open ? '' : 'shut'}" aria-label="What to look at">${findings.map((f) => this.line(f, open))}</ul>` : nothing}`;
  }

  // What the verdict has said is not said again.
  private told(f: Finding): string {
    const { sentence } = this.state.asked.plan.verdict;
    const text = f.text === sentence ? split(f.text)[1] : f.text;
    const advice = (f.remedies ?? []).filter((r) => !mends(r)).map((r) => r.text).join(' ');
    return [text, advice].filter(Boolean).join(' ');
  }

  // The one thing to do about it.
  private button(f: Finding): TemplateResult | typeof nothing {
    const remedy = (f.remedies ?? []).find(mends);
    if (remedy) return this.mend(remedy);
    // What comes with the page has no strips yet, and the button is not to change under the hand.
    const { live, picture } = this.state.asked;
    if (f.id === 'not-measured' && (!live || picture?.plan.drawings.some((d) => d.id.startsWith('strips')))) {
      return html`<button type="button" class="secondary" @click=${() => this.dispatchEvent(new CustomEvent('springrib-bench', { detail: 'strips', bubbles: true }))}>Lay out the strip</button>`;
    }
    return this.find(f);
  }

  private mend(r: Remedy): TemplateResult {
    return html`<button type="button" class="remedy" @click=${() => this.state.apply(r.set!, r.text)}>${typeset(r.text)}</button>`;
  }

  // Where it is: in the form, or in the drawings.
  private find(f: Finding): TemplateResult | typeof nothing {
    const field = f.place.field && this.state.reachable(f.place.field) ? f.place.field : undefined;
    if (field) return html`<button type="button" class="quiet" @click=${() => this.state.goTo(field)}>Go to “${this.state.controlOf(field)!.label}”</button>`;
    if (!drawn(this.place(f))) return nothing;
    return html`<button type="button" class="quiet" @click=${() => { this.light(f.id, this.place(f)); this.show(); }}>Show where</button>`;
  }

  private place(f: Finding): Focus { return focusOf(f.place, this.state.asked.picture?.plan.scores ?? []); }

  private entered(f: Finding): () => void { return () => this.light(f.id, this.place(f)); }

  private readonly dark = (): void => this.light(undefined, {});

  private readonly left = (e: PointerEvent): void => { if (e.pointerType !== 'touch') this.dark(); };

  private toggle(): void {
    this.all = !this.all;
    this.requestUpdate();
  }

  private light(id: string | undefined, place: Focus): void {
    this.lit = id;
    this.state.light(place);
  }

  // A finding that is mended while the pointer is on it never says that the pointer left.
  protected override updated(_: PropertyValues): void {
    if (this.lit !== undefined && !this.state.asked.plan.findings.some((f) => f.id === this.lit)) this.light(undefined, {});
  }

  // What is lit comes into sight, once it is drawn.
  private show(): void {
    requestAnimationFrame(() => {
      const stage = document.querySelector('springrib-stage');
      (stage?.querySelector('.lit') ?? stage)?.scrollIntoView({ block: 'center', behavior: matchMedia('(prefers-reduced-motion: reduce)').matches ? 'auto' : 'smooth' });
    });
  }

  private line(f: Finding, open: boolean): TemplateResult {
    const mending = (f.remedies ?? []).filter(mends);
    return html`<li class="finding ${f.severity}" data-id=${f.id} @pointerenter=${this.entered(f)} @pointerleave=${this.left} @focusin=${this.entered(f)} @focusout=${this.dark}>
      ${sign(f.severity)}<span class="unseen">${severityWord[f.severity] ?? ''}: </span>
      <div class="says"><p>${typeset(f.text)} ${(f.remedies ?? []).map((r) => (mends(r) ? r.then : r.text)).map((t) => (t ? html`<span class="advice">${typeset(t)}</span> ` : nothing))}</p>
      ${open ? html`<span class="buttons">${mending.map((r) => this.mend(r))} ${!mending.length || f.place.field ? this.find(f) : nothing}</span>` : nothing}</div></li>`;
  }
}

// The sentences of a text that stand under the verdict: as many as there is room for, one at least.
function leading(text: string): string {
  let out = '';
  for (const sentence of text.split(/(?<=\.\)?) (?=[A-Z(])/)) {
    if (out && out.length + sentence.length > most) break;
    out = out ? `${out} ${sentence}` : sentence;
  }
  return out;
}

// Whether a place can be lit in the drawings.
const drawn = (place: Focus): boolean => place.score !== undefined || place.part !== undefined;
const mends = (r: Remedy): boolean => r.set !== undefined && r.set !== null && Object.keys(r.set).length > 0;

customElements.define('springrib-warnings', Warnings);
