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
  /** The document that was asked about last, and the one that the sheet is of. */
  private asked: Doc | undefined;
  private of: Doc | undefined;
  private open = false;
  /** Whether the sheet is to be printed as soon as it is that of the present document. */
  private printing = false;

  protected override render(): TemplateResult | typeof nothing {
    if (!this.state.asked.picture) return nothing;
    return html`<details class="benchsheet" @toggle=${this.toggled}>
      <summary>The bench sheet</summary>
      ${this.sheet ? this.page(this.sheet) : html`<p class="empty">Writing it…</p>`}
      <p class="late">The bench sheet of the last change was not written yet. Print again.</p></details>`;
  }

  // Verdict and bench sheet go to paper together, so that both have to be of one document.
  private get current(): boolean {
    const { doc, asked } = this.state;
    return this.of === doc && asked.planned === doc;
  }

  // While something is held it waits: the hand's own questions come first.
  protected override updated(_: PropertyValues): void {
    const doc = this.state.asked.picture?.doc;
    if (this.open && !this.state.held.grip && doc && doc !== this.asked) void this.ask(doc);
    if (!this.printing) return;
    const { plan, planned } = this.state.asked;
    if (this.current || (planned === this.state.doc && !plan.drawn)) {
      this.printing = false;
      if (this.current) printAlone();
    }
  }

  private async ask(doc: Doc): Promise<void> {
    this.asked = doc;
    const answer = await this.state.asked.try({ kind: 'bench', design: doc });
    if (!answer?.reply.bench || this.asked !== doc) return;
    this.of = doc;
    this.sheet = answer.reply.bench;
    this.streams = answer.streams;
    this.requestUpdate();
  }

  private toggled(e: Event): void {
    this.open = (e.target as HTMLDetailsElement).open;
    this.requestUpdate();
  }

  private print(): void {
    this.printing = true;
    this.requestUpdate();
  }

  private page(sheet: BenchSheet): TemplateResult {
    let figure = 0;
    return html`<article aria-label="Bench sheet" class=${this.current ? '' : 'outdated'}>
      <button type="button" class="secondary" @click=${this.print}>Print the bench sheet</button>
      ${sheet.warning ? html`<p class="bench-warning">${sheet.warning}</p>` : nothing}
      <h2>${sheet.title}</h2><p>${sheet.lead}</p>
      ${sheet.sections.map((s) => {
        const first = figure;
        figure += s.figures.length;
        return section(s, this.streams.slice(first, figure));
      })}</article>`;
  }
}

function section(s: BenchSection, streams: Float32Array[]): TemplateResult {
  const steps = s.steps.map((st) => html`<li><strong>${st.what}.</strong> ${st.how}</li>`);
  return html`<section class="bench-${s.id} ${s.newPage ? 'new-page' : ''}"><h3>${s.title}</h3>
    ${s.lines.map((l) => html`<p>${l}</p>`)}
    ${steps.length ? (s.loose ? html`<ul>${steps}</ul>` : html`<ol>${steps}</ol>`) : nothing}
    ${s.head.length ? html`<div class="bench-table" tabindex="0" role="group" aria-label=${s.title}><table class=${s.ruled ? 'ruled' : ''}><thead><tr>${s.head.map((h) => html`<th scope="col">${h}</th>`)}</tr></thead>
      <tbody>${s.rows.map((r) => html`<tr>${r.cells.map((c) => html`<td>${c}</td>`)}</tr>`)}</tbody></table></div>` : nothing}
    <div class="bench-figures">${s.figures.map((f, i) => figureOf(f, streams[i] ?? new Float32Array()))}</div></section>`;
}

// A figure at a stated scale is that large on paper, in the sheet's own millimetres.
function figureOf({ drawing, scale, wide, text }: BenchFigure, stream: Float32Array): TemplateResult {
  const [x, y, w, h] = drawing.box;
  return html`<figure class=${scale > 0 ? 'exact' : wide ? 'wide' : ''}><svg viewBox="${x} ${y} ${w} ${h}" width=${scale > 0 ? `${w / scale}mm` : nothing} height=${scale > 0 ? `${h / scale}mm` : nothing} role="img" aria-label=${drawing.title}>
    ${drawing.items.map((item) => svg`<path class="ink ${item.role}" d=${pathData(stream, item)} />`)}
    ${drawing.labels.map((l) => svg`<text x=${l.x} y=${l.y} font-size=${text} stroke-width=${text / 3} text-anchor="middle" dominant-baseline="central">${l.text}</text>`)}</svg>
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
