// One drawing: the core's streams as SVG. Widths of lines and figures are the screen's,
// so they stay legible at any scale; shapes are the core's millimetres.
import { html, nothing, svg, type SVGTemplateResult, type TemplateResult } from 'lit';
import { guard } from 'lit/directives/guard.js';
import type { Drawing as View, Handle, Item, Label, ScoreView } from '../messages';
import { live } from 'lit/directives/live.js';
import { text } from '../path';
import { refsOf, scoreRef } from '../focus';
import { Hold } from './grips';
import { distance, pathData, points, type Point } from '../stream';
import { Live } from './live';
import { readable } from './readable';
import { strokes } from './roles';
import { bow, type Figure } from './bow';
import type { Box } from './spread';
import { typesetSVG } from './typeset';

/** Size of figures on the screen, px. */
const figure = 15;
/** Room around a drawing for figures that stand outside, px. */
export const room = 30;
/** How far a handle stays from the edge of a drawing, px. */
const margin = 8;
/** How near a pointer must come to a score to light it, px. */
const reach = 40;

/** A drawing at a scale. */
export class Drawing extends Live {
  static override properties = { ...Live.properties, view: { attribute: false }, stream: { attribute: false }, scale: { attribute: false }, box: { attribute: false } };
  static override topic = 'light' as const;
  declare view: View;
  declare stream: Float32Array;
  /** Pixels for a millimetre. */
  declare scale: number;
  /** What is seen of it; all of it when nothing else is said. */
  declare box: View['box'] | undefined;

  private readonly hold = new Hold(this);

  /** What can be taken hold of. */
  get handles(): readonly Handle[] { return this.view.handles ?? []; }

  /** What is seen of it but for a margin that a handle keeps. */
  get sight(): Box {
    const [x, y, w, h] = this.box ?? this.view.box;
    const pad = (room - margin) / this.scale;
    return { x: x - pad, y: y - pad, w: w + 2 * pad, h: h + 2 * pad };
  }

  protected override render(): TemplateResult {
    const { view, stream, scale } = this;
    const [x, y, w, h] = this.box ?? view.box;
    const pad = room / scale;
    const box = `${x - pad} ${y - pad} ${w + 2 * pad} ${h + 2 * pad}`;
    const scores = this.state.asked.picture?.plan.scores ?? [];
    const { bow: lines, figures, labels } = this.dimensions();
    return html`<figure>
      <figcaption>${this.name()}</figcaption>
      <div class="ground" .style=${`width:${w * scale + 2 * room}px`}><svg class="drawing" viewBox=${box}
        width=${w * scale + 2 * room} height=${h * scale + 2 * room}
        @pointermove=${this.near} @touchstart=${this.touch} @pointerdown=${this.down} @pointerup=${this.up} @pointercancel=${this.up} @pointerleave=${this.left}>
        <g role="img" aria-label=${view.title}>
          ${guard([view, stream], () => strokes(view.items).map(({ role, runs }) =>
            svg`<path class="ink ${role}" d=${runs.map((run) => pathData(stream, run)).join('')} />`))}
          ${guard([view, stream, scale, scores], () => this.nearSigns(scores))}
          ${this.lit()}
          ${lines ? svg`<path class="ink dimension" d=${lines} />` : nothing}
          ${guard([view, scale], () => readable(labels, scale).map((l) => label(l, scale)))}
        </g>
        ${this.hold.render()}
      </svg>${figures.map((f) => this.figure(f, [x - pad, y - pad, w + 2 * pad, h + 2 * pad]))}</div></figure>`;
  }

  // What a drawing shows, and what there is to say of it.
  private name(): unknown {
    const { id, title } = this.view;
    const [first = '', rest = ''] = title.split(/, (.*)/s);
    if (id === 'bent') return html`<strong>From the side</strong>`;
    if (id !== 'flat') return title;
    const of = (n: string): string => this.state.asked.plan.numbers.find((f) => f.id === n)?.text ?? '';
    return html`<strong>${first}</strong> ${of('spacing') ? `${of('count')}, ${of('spacing')} apart, ` : ''}${rest}`;
  }

  // Figures that one may type, where this design can be taken hold of at all, and the others.
  private dimensions(): { bow: string; figures: Figure[]; labels: Label[] } {
    const { view, handles, scale, stream } = this, { labels } = view;
    if (!handles.length || !this.state.asked.controls) return { bow: '', figures: [], labels };
    const bodies = view.items.filter((i) => i.role === 'panel' || i.role === 'rib').flatMap((i) => points(stream, i));
    const drawn = view.id === 'bent' ? bow(view, bodies, 10 / scale) : undefined;
    const width = view.id === 'flat' && handles.find((h) => h.id === 'panel-width'), at = width && labels.find((l) => Math.abs(l.turn) === 90);
    // On a long, low panel the handles of its ribs lie where the figure would: it stands over its line then.
    const close = at && handles.some((h) => Math.abs(h.x - at.x) * scale < 50 && Math.abs(h.y - at.y) * scale < 28);
    const figures = [...drawn?.figures ?? [], ...(width && at ? [{ x: at.x, y: close ? at.y - width.value / 2 - 20 / scale : at.y, path: width.fields[0]!, prefix: '', beside: true }] : [])];
    return { bow: drawn?.lines ?? '', figures: figures.filter((f) => this.state.reachable(f.path)), labels: at ? labels.filter((l) => l !== at) : labels };
  }

  // It stands in the gap of its line, as a share of the drawing: that may be shrunk.
  private figure({ x, y, path, prefix, beside }: Figure, [left, top, wide, high]: [number, number, number, number]): TemplateResult {
    const { state } = this;
    const control = state.controlOf(path)!, said = state.asked.field(path), now = text(state.doc, path);
    const bare = /^[\d\s.,/]*$/.test(now), shown = now || said.default || '';
    const unit = !bare ? nothing : control.kind === 'angle' ? html`<span class="degree">°</span>` : html`<span>${text(state.doc, 'units') || 'mm'}</span>`;
    return html`<label class="fig ${beside ? 'fig-left' : ''}" .style=${`left:${((x - left) / wide) * 100}%;top:${((y - top) / high) * 100}%`}>${prefix ? html`<span>${prefix}</span>` : nothing}<input
      type="text" inputmode="decimal" autocomplete="off" spellcheck="false" aria-label="${control.label}, at the drawing" .style=${`width:${Math.max(2, shown.length) + 0.4}ch`}
      placeholder=${said.default ?? ''} .value=${live(now)} aria-invalid=${said.problem ? 'true' : nothing}
      @input=${(e: Event) => state.set(path, (e.target as HTMLInputElement).value, true)} @change=${() => state.seal()} @blur=${() => state.seal()}
      @focus=${() => state.light({ field: path })} />${unit}</label>`;
  }

  private lit(): unknown {
    const refs = refsOf(this.state.focus);
    if (refs.size === 0) return nothing;
    const items = this.view.items.filter((i) => i.ref !== undefined && refs.has(i.ref));
    return items.map((item) => svg`<path class="lit ${item.role}" d=${pathData(this.stream, item)} />${this.callout(item)}`);
  }

  // A bent score is only a tick: a dot and its number make it findable.
  private callout(item: Item): unknown {
    if (item.role !== 'score') return nothing;
    const at = points(this.stream, item)[0]!;
    const dot = 4 / this.scale, off = 13 / this.scale;
    return svg`<circle class="lit-dot" cx=${at.x} cy=${at.y} r=${dot} />${
      label({ x: at.x, y: at.y - off, text: String(this.state.focus.score), anchor: 'middle', turn: 0 }, this.scale)}`;
  }

  // Scores near a limit carry a small wedge at their end, so that colour isn't the only word.
  private nearSigns(scores: ScoreView[]): unknown {
    const near = new Set(scores.filter((s) => s.near).map((s) => scoreRef(s.n)));
    const s = 5 / this.scale;
    const wedges = this.view.items.filter((i) => i.role === 'score' && i.ref !== undefined && near.has(i.ref)).map((item) => {
      const at = points(this.stream, item)[0]!;
      return `M${at.x} ${at.y}l${-s} ${-1.8 * s}h${2 * s}z`;
    });
    return wedges.length ? svg`<path class="near-sign" d=${wedges.join('')} />` : nothing;
  }

  // A finger that comes down on a handle is not for scrolling.
  private readonly touch = {
    passive: false,
    handleEvent: (e: TouchEvent): void => {
      const [finger] = e.touches;
      if (e.touches.length === 1 && finger && this.hold.hit(this.place(finger, e.currentTarget))) e.preventDefault();
    },
  };

  private down(e: PointerEvent): void {
    if (!this.hold.down(e, this.place(e, e.currentTarget))) this.near(e);
  }

  private up(e: PointerEvent): void { this.hold.up(e); }

  private near(e: PointerEvent): void {
    if (this.hold.held) return this.hold.move(e);
    const to = this.place(e, e.currentTarget);
    if (this.hold.over(e, to)) return;
    let best: { item: Item; at: number } | undefined;
    for (const item of this.view.items) {
      if (!item.ref?.startsWith('score ')) continue;
      const at = distance(to, points(this.stream, item)) * this.scale;
      if (at <= reach && (!best || at < best.at)) best = { item, at };
    }
    this.state.light(best ? { score: Number(best.item.ref!.slice('score '.length)) } : {});
  }

  // A finger leaves whenever it is lifted; what it touched stays lit to be read.
  private left(e: PointerEvent): void {
    this.hold.out();
    if (e.pointerType !== 'touch' && !this.hold.held) this.state.light({});
  }

  private place(e: { clientX: number; clientY: number }, on: EventTarget | null): Point {
    const canvas = on as SVGSVGElement;
    const at = new DOMPoint(e.clientX, e.clientY).matrixTransform(canvas.getScreenCTM()!.inverse());
    return { x: at.x, y: at.y };
  }
}

/** One item as a path in its ink. */
export function shape(item: Item, stream: Float32Array): SVGTemplateResult {
  return svg`<path class="ink ${item.role}" d=${pathData(stream, item)} />`;
}

/** A figure or word at its place; moved as a whole, so that its letters need no new places. */
export function label(l: Label, scale: number): SVGTemplateResult {
  return svg`<text transform=${`translate(${l.x} ${l.y})${l.turn ? ` rotate(${l.turn})` : ''}`} font-size=${figure / scale} stroke-width=${8 / scale}
    text-anchor=${l.anchor || 'start'} dominant-baseline="central">${typesetSVG(l.text)}</text>`;
}

customElements.define('springrib-drawing', Drawing);
