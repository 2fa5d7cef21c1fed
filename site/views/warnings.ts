// Warnings, a line each: what it is, where it is, and a button that mends it.
import { html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import type { Finding, Remedy } from '../messages';
import { focusOf, type Focus } from '../focus';
import { whole } from './gauge';
import { Live } from './live';
import { narrow } from './narrow';
import { severityWord, sign } from './sign';

/** As many lines as can stand above the drawings without pushing them away. */
const first = (): number => (narrow.matches ? 1 : 2);

/** The list of findings. */
export class Warnings extends Live {
  private all = false;
  private lit: string | undefined;

  // While something is held the lines keep still, and with them what stands below.
  protected override shouldUpdate(_: PropertyValues): boolean { return this.state.held.grip === undefined; }

  protected override render(): TemplateResult {
    const { findings } = this.state.asked.plan;
    const pressing = findings.filter((f) => f.severity !== 'note');
    const notes = findings.filter((f) => f.severity === 'note');
    const shown = this.all ? pressing : pressing.slice(0, first());
    return html`
      ${shown.length ? html`<ul class="findings" aria-label="Warnings">${shown.map((f) => this.line(f))}</ul>` : nothing}
      ${pressing.length > first() ? html`<button type="button" class="quiet" aria-expanded=${this.all ? 'true' : 'false'} @click=${this.toggle}>
        ${this.all ? 'Show the gravest only' : `Show ${pressing.length - first()} more`}</button>` : nothing}
      ${notes.length ? html`<details class="notes"><summary>${notes.length === 1 ? 'One note' : `${notes.length} notes`}</summary>
        <ul class="findings" aria-label="Notes">${notes.map((f) => this.line(f))}</ul></details>` : nothing}`;
  }

  private toggle(): void {
    this.all = !this.all;
    this.requestUpdate();
  }

  // On a wide screen the verdict has said it already; on a narrow one it leaves it to this line.
  private told(f: Finding, place: Focus): string {
    if (narrow.matches || f.text !== this.state.asked.plan.verdict.sentence) return whole(f.text);
    if ((f.remedies ?? []).length > 0 || f.place.field !== undefined) return 'What you can do:';
    return drawn(place) ? 'In the drawings:' : whole(f.text);
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
      const stage = this.parentElement?.querySelector('springrib-stage');
      (stage?.querySelector('.lit') ?? stage)?.scrollIntoView({ block: 'center', behavior: matchMedia('(prefers-reduced-motion: reduce)').matches ? 'auto' : 'smooth' });
    });
  }

  private line(f: Finding): TemplateResult {
    const place = focusOf(f.place, this.state.asked.picture?.plan.scores ?? []);
    const lit = (): void => this.light(f.id, place);
    const dark = (): void => this.light(undefined, {});
    const mending = (f.remedies ?? []).filter(mends), field = f.place.field && this.state.reachable(f.place.field) ? f.place.field : undefined;
    return html`<li class="finding ${f.severity}" data-id=${f.id} @pointerenter=${lit} @pointerleave=${(e: PointerEvent) => e.pointerType === 'touch' || dark()} @focusin=${lit} @focusout=${dark}>
      ${sign(f.severity)}<span class="unseen">${severityWord[f.severity] ?? ''}: </span>
      <div class="says"><p>${this.told(f, place)} ${(f.remedies ?? []).filter((r) => !mends(r)).map((r) => html`<span class="advice">${r.text}</span> `)}</p>
      <span class="buttons">
        ${mending.map((r) => html`
          <button type="button" class="remedy" @click=${() => this.state.apply(r.set!, r.text)}>${r.text}</button>`)}
        ${field ? html`
          <button type="button" class="quiet" @click=${() => this.state.goTo(field)}>Go to
            “${this.state.controlOf(field)!.label}”</button>` : nothing}
        ${!field && !mending.length && drawn(place) ? html`
          <button type="button" class="quiet" @click=${() => { lit(); this.show(); }}>Show where</button>` : nothing}
      </span></div></li>`;
  }
}

// Whether a place can be lit in the drawings.
const drawn = (place: Focus): boolean => place.score !== undefined || place.part !== undefined;
const mends = (r: Remedy): boolean => r.set !== undefined && r.set !== null && Object.keys(r.set).length > 0;

customElements.define('springrib-warnings', Warnings);
