// The bench sheet on the page: made when it is opened, and made to be printed.
import { html, nothing, svg, type PropertyValues, type TemplateResult } from 'lit';
import type { BenchFigure, BenchSection, BenchSheet } from '../messages';
import { pathData } from '../stream';
import type { Doc } from '../path';
import { Live } from './live';

/** Order of work, settings, figures and cautions. */
export class BenchSheetView extends Live {
  private sheet: BenchSheet | undefined;
  private streams: Float32Array[] = [];
  private shown: Doc | undefined;
  private open = false;

  protected override render(): TemplateResult | typeof nothing {
    if (!this.state.picture) return nothing;
    return html`<details class="benchsheet" @toggle=${this.toggled}>
      <summary>The bench sheet</summary>
      ${this.sheet ? this.page(this.sheet) : html`<p class="empty">Writing it…</p>`}</details>`;
  }

  // While something is held it waits: the hand's own questions come first.
  protected override updated(_: PropertyValues): void {
    const doc = this.state.picture?.doc;
    if (this.open && !this.state.grip && doc && doc !== this.shown) void this.ask(doc);
  }

  private async ask(doc: Doc): Promise<void> {
    this.shown = doc;
    const answer = await this.state.try({ kind: 'bench', design: doc });
    if (!answer?.reply.bench || this.shown !== doc) return;
    this.sheet = answer.reply.bench;
    this.streams = answer.streams;
    this.requestUpdate();
  }

  private toggled(e: Event): void {
    this.open = (e.target as HTMLDetailsElement).open;
    this.requestUpdate();
  }

  private page(sheet: BenchSheet): TemplateResult {
    let figure = 0;
    return html`<article aria-label="Bench sheet">
      <button type="button" class="secondary" @click=${printAlone}>Print the bench sheet</button>
      ${sheet.warning ? html`<p class="warning"><strong>${sheet.warning}</strong></p>` : nothing}
      <h2>${sheet.title}</h2><p>${sheet.lead}</p>
      ${sheet.sections.map((s) => {
        const first = figure;
        figure += s.figures.length;
        return section(s, this.streams.slice(first, figure));
      })}</article>`;
  }
}

function section(s: BenchSection, streams: Float32Array[]): TemplateResult {
  return html`<section class="bench-${s.id}"><h3>${s.title}</h3>
    ${s.lines.map((l) => html`<p>${l}</p>`)}
    ${s.head.length ? html`<table><thead><tr>${s.head.map((h) => html`<th scope="col">${h}</th>`)}</tr></thead>
      <tbody>${s.rows.map((r) => html`<tr>${r.cells.map((c) => html`<td>${c}</td>`)}</tr>`)}</tbody></table>` : nothing}
    ${s.steps.length ? html`<ol>${s.steps.map((st) => html`<li><strong>${st.what}.</strong> ${st.how}</li>`)}</ol>` : nothing}
    <div class="bench-figures">${s.figures.map((f, i) => figureOf(f, streams[i] ?? new Float32Array()))}</div></section>`;
}

// A figure at a stated scale is that large on paper, in the sheet's own millimetres.
function figureOf({ drawing, scale }: BenchFigure, stream: Float32Array): TemplateResult {
  const [x, y, w, h] = drawing.box;
  return html`<figure class=${scale > 0 ? 'exact' : ''}><svg viewBox="${x} ${y} ${w} ${h}" width=${scale > 0 ? `${w / scale}mm` : nothing} height=${scale > 0 ? `${h / scale}mm` : nothing} role="img" aria-label=${drawing.title}>
    ${drawing.items.map((item) => svg`<path class="ink ${item.role}" d=${pathData(stream, item)} />`)}</svg>
    <figcaption>${drawing.title}</figcaption></figure>`;
}

/** Prints the bench sheet and nothing else of the page. */
function printAlone(): void {
  const root = document.documentElement;
  root.dataset.print = 'bench';
  addEventListener('afterprint', () => delete root.dataset.print, { once: true });
  print();
}

customElements.define('springrib-benchsheet', BenchSheetView);
