// The page: the job on the left in the order one does it, on the right what comes of it.
import { html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { repeat } from 'lit/directives/repeat.js';
import { saveFile } from '../designs';
import { text } from '../path';
import type { Bench } from './bench';
import { Cover } from './cover';
import { Live } from './live';
import { narrow } from './narrow';
import { sign } from './sign';
import './bench';
import './benchbar';
import './card';
import './field';
import './drawing';
import './masthead';
import './stage';
import './verdict';
import './warnings';

/** The whole page. Its state is set before it is put into the document. */
export class Page extends Live {
  private readonly cover = new Cover();

  override connectedCallback(): void {
    super.connectedCallback();
    document.addEventListener('keydown', this.keys);
    this.addEventListener('springrib-bench', this.bench);
    narrow.addEventListener('change', this.redraw);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    document.removeEventListener('keydown', this.keys);
    narrow.removeEventListener('change', this.redraw);
    this.cover.stop();
  }

  protected override render(): TemplateResult {
    const { state } = this;
    // What is seen first is also reached first with the keyboard: on a narrow screen the
    // outcome stands above the job, on a wide one beside it.
    const seen = ['verdict', 'warnings', 'gauges', 'stage'];
    const order = narrow.matches ? [...seen, 'job', 'bar', 'bench'] : ['job', ...seen, 'bar', 'bench'];
    return html`
      <header><springrib-masthead .state=${state}></springrib-masthead></header>
      ${this.guest()}
      <main>${repeat(order, (part) => part, (part) => this.section(part))}</main>
      <div class="notice" role="status">${state.notice ? html`<p>${state.notice}</p>
        ${this.offer()}<button type="button" class="quiet" @click=${() => state.say('')}>Dismiss</button>` : nothing}</div>`;
  }

  protected override updated(_: PropertyValues): void {
    const name = text(this.state.doc, 'name').trim();
    const title = name ? `${name} - Springrib` : 'Springrib';
    if (document.title !== title) document.title = title;
  }

  protected override firstUpdated(_: PropertyValues): void {
    const find = (what: string): HTMLElement | null => this.querySelector<HTMLElement>(what);
    this.cover.watch([find(':scope > header'), find('springrib-verdict')], [find('springrib-benchbar'), find(':scope > .notice')]);
  }

  private section(part: string): TemplateResult {
    const { state } = this;
    switch (part) {
      case 'verdict': return html`<springrib-verdict .state=${state}></springrib-verdict>`;
      case 'warnings': return html`<springrib-warnings .state=${state}></springrib-warnings>`;
      case 'gauges': return html`<springrib-gauges .state=${state}></springrib-gauges>`;
      case 'stage': return html`<springrib-stage role="region" aria-label="The result" .state=${state}></springrib-stage>`;
      case 'bar': return html`<springrib-benchbar .state=${state}></springrib-benchbar>`;
      case 'bench': return html`<springrib-bench id="bench" .state=${state}></springrib-bench>`;
      default: return this.job();
    }
  }

  // What a link brought stands over everything until it is kept or left.
  private guest(): TemplateResult | typeof nothing {
    const { state } = this;
    if (!state.kept.guest) return nothing;
    const name = text(state.kept.guest.doc, 'name').trim();
    return html`<section class="guest" aria-label="A design from a link">
      <div class="says"><p>Opened from a link: <strong>${name || 'a design without a name'}</strong>. Your own design is kept as it was.</p>
        ${state.kept.guest.said.length ? html`<ul>${state.kept.guest.said.map((s) => html`<li>${sign('warn')} ${s}</li>`)}</ul>` : nothing}</div>
      <div class="buttons"><button type="button" class="primary" @click=${() => this.answer(() => state.kept.takeIn())}>Keep it</button>
        <button type="button" class="secondary" @click=${() => this.answer(() => state.kept.goHome())}>Leave it</button></div></section>`;
  }

  private answer(act: () => void): void {
    act();
    this.querySelector<HTMLElement>('#design-name')?.focus();
  }

  private offer(): TemplateResult | typeof nothing {
    const { state } = this;
    if (state.offer === 'file') return html`<button type="button" class="secondary" @click=${() => saveFile(state, { kind: 'save', design: state.doc })}>Save to a file</button>`;
    if (state.offer === 'restore') return html`<button type="button" class="secondary" @click=${() => state.kept.restore()}>Bring it back</button>`;
    return nothing;
  }

  private job(): TemplateResult {
    const { state } = this;
    return html`<section class="job" aria-label="The job">
      ${state.intro ? html`<p class="intro">${state.intro}</p>` : nothing}
      ${repeat(state.asked.controls?.cards ?? [], (c) => c.id, (c, i) => html`
        <springrib-card .state=${state} .card=${c} .number=${i + 1}></springrib-card>`)}
      ${state.asked.controls ? nothing : html`<p class="empty">Laying out the job…</p>`}</section>`;
  }

  // Down to the files, with what is wanted of them on show.
  private readonly bench = (e: Event): void => {
    const { detail } = e as CustomEvent<string>;
    const bench = this.querySelector<Bench>('springrib-bench')!;
    bench.show(detail === 'strips' ? 'strips' : 'sheets');
    bench.scrollIntoView({ block: 'start', behavior: matchMedia('(prefers-reduced-motion: reduce)').matches ? 'auto' : 'smooth' });
    bench.querySelector<HTMLElement>('h2')?.focus({ preventScroll: true });
  };

  private readonly redraw = (): void => this.requestUpdate();

  private readonly keys = (e: KeyboardEvent): void => {
    if (!(e.ctrlKey || e.metaKey) || e.altKey) return;
    const key = e.key.toLowerCase();
    if (key === 'z' && !e.shiftKey) this.state.undo();
    else if (key === 'y' || (key === 'z' && e.shiftKey)) this.state.redo();
    else return;
    e.preventDefault();
  };
}

customElements.define('springrib-page', Page);
