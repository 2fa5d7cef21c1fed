// A new design: a shelf of things that are sound as they stand. One is chosen, its few
// figures are changed beside its drawing, and it is made; or one begins otherwise.
import { html, nothing, svg, type TemplateResult } from 'lit';
import { live } from 'lit/directives/live.js';
import { openLink } from '../brought';
import { loadPart } from '../load';
import type { Item, PlanView, Verdict } from '../messages';
import { set, text, type Doc } from '../path';
import { pathData, points } from '../stream';
import type { Thing, ThingsPart } from '../things/api';
import { typeset } from './typeset';
import { Live } from './live';
import { sign } from './sign';

/** How long typing rests before the core is asked, ms. */
const restAfter = 150;

/** What the core said of a thing with other figures. */
interface Changed { doc: Doc; plan: PlanView; stream: Float32Array | undefined }

/** The shelf, laid over the page. */
export class NewDesign extends Live {
  private open = false;
  private things: Thing[] = [];
  private chosen: Thing | undefined;
  /** The chosen thing with the figures typed so far, and what came of them. */
  private doc: Doc = {};
  private result: Changed | undefined;
  private resting: ReturnType<typeof setTimeout> | undefined;
  /** Whether Enter is down, pressed on a thing or its figures. */
  private pressed = false;
  /** Whether a link is asked for. */
  private linking = false;

  protected override render(): TemplateResult {
    return html`<dialog class="new" aria-labelledby="new-title" @close=${this.closed}>${this.open ? this.shelf() : nothing}</dialog>`;
  }

  private get units(): string { return text(this.state.doc, 'units') || 'mm'; }

  private shelf(): TemplateResult {
    return html`
      <div class="new-shelf" @dragover=${this.over} @dragleave=${this.off} @drop=${this.dropped}>
        <h2 id="new-title">What will it be?</h2>
        <p class="new-says">Each is sound as it stands. Take one, then change its numbers.</p>
        <div class="new-grid"><div class="things" role="radiogroup" aria-label="Things to make" @keydown=${this.down} @keyup=${this.up}>${this.things.map((t) => html`
          <label class="thing"><input type="radio" name="thing" aria-label=${t.name} .checked=${live(t === this.chosen)} @change=${() => this.choose(t)} />
            ${picture(t.box, t.drawing)}<span class="ply" aria-hidden="true"></span><strong>${t.name}</strong><span class="figures">${t.says}</span></label>`)}
        </div>
        <div class="otherwise"><span class="ply" aria-hidden="true"></span><p>Or begin with</p>
          <button type="button" class="quiet" @click=${this.empty}>an empty bench</button>
          <button type="button" class="quiet" @click=${this.kept}>one of your designs</button>
          <button type="button" class="quiet" aria-expanded=${this.linking ? 'true' : 'false'} @click=${this.askLink}>a link</button></div></div>
        ${this.linking ? html`<form class="new-link" @submit=${this.take}><label for="new-link">Paste the link here</label>
          <input id="new-link" type="text" autocomplete="off" spellcheck="false" /><button type="submit" class="secondary">Open it</button></form>` : nothing}
        <p class="hint">Arrow keys walk along the shelf, Enter takes the thing. Drop an SVG or DXF here to bend an outline of your own.</p>
      </div>
      ${this.chosen ? this.beside(this.chosen) : nothing}`;
  }

  private beside(t: Thing): TemplateResult {
    const changed = this.result;
    const verdict = changed?.plan.verdict ?? t.verdicts[this.units]!;
    return html`<section class="beside" aria-label=${t.name}>
      ${changed?.plan.drawn ? drawn(changed, t.turn) : picture(t.box, t.drawing)}
      <h3>${t.name}</h3>
      ${t.fields.map((f) => html`<div class="big"><label for="new-${f.path}">${f.label}</label>
        <input id="new-${f.path}" type="text" autocomplete="off" inputmode=${this.units === 'in' ? nothing : 'decimal'} aria-invalid=${changed?.plan.fields[f.path]?.problem ? 'true' : nothing}
          placeholder=${changed?.plan.fields[f.path]?.default ?? ''} .value=${live(text(this.doc, f.path))} @input=${(e: Event) => this.type(f.path, e)} @keydown=${this.down} @keyup=${this.up} />
        <span>${f.kind === 'angle' ? '°' : f.kind === 'length' ? this.units : ''}</span></div>`)}
      <div class="new-verdict" role="status">${said(verdict)}</div>
      <p class="hint">The depths are a guess until a strip is cut.</p>
      <div class="buttons"><button type="button" class="primary" @click=${() => this.make(t)}>Make ${t.this}</button>
        <button type="button" class="quiet" @click=${this.close}>Go back</button></div></section>`;
  }

  // ---- choosing

  /** Opens the shelf. */
  async show(): Promise<void> {
    try {
      this.things = (await loadPart<ThingsPart>('things')).things;
    } catch (e) {
      this.state.say(`The shelf of things can’t be shown (${e instanceof Error ? e.message : String(e)}).`);
    }
    this.open = true;
    this.linking = false;
    if (this.things[0]) this.choose(this.chosen ?? this.things[0]);
    this.requestUpdate();
    await this.updateComplete;
    const dialog = this.querySelector('dialog')!;
    if (!dialog.open) dialog.showModal();
    this.querySelector<HTMLInputElement>('.things input:checked')?.focus();
  }

  private choose(t: Thing): void {
    clearTimeout(this.resting);
    this.chosen = t;
    this.doc = t.designs[this.units] ?? t.designs.mm!;
    this.result = undefined;
    this.requestUpdate();
  }

  private type(path: string, e: Event): void {
    this.doc = set(this.doc, path, (e.target as HTMLInputElement).value);
    clearTimeout(this.resting);
    this.resting = setTimeout(() => void this.ask(), restAfter);
    this.requestUpdate();
  }

  // The page's own plan may wait meanwhile: it is asked for anew when the shelf is closed.
  private async ask(): Promise<void> {
    const { doc } = this;
    const answer = await this.state.asked.try({ kind: 'plan', design: doc, show: 'isometric', folded: 1 });
    const plan = answer?.reply.plan;
    if (!answer || !plan || doc !== this.doc) return;
    this.result = { doc, plan, stream: answer.streams[plan.drawings.findIndex((d) => d.id === 'isometric')] };
    this.requestUpdate();
  }

  // The thing is made when the key that was pressed here is let go: pressed, it would press what has the keyboard next.
  private readonly down = (e: KeyboardEvent): void => {
    this.pressed = e.key === 'Enter';
    if (this.pressed) e.preventDefault();
  };

  private readonly up = (e: KeyboardEvent): void => {
    if (e.key === 'Enter' && this.pressed && this.chosen) this.make(this.chosen);
    this.pressed = false;
  };

  // ---- beginning

  private make(t: Thing): void {
    const { doc } = this;
    this.close();
    this.state.replace(doc, t.name);
    this.state.introduce(`A design of your own, with invented readings and depths: put in those of your sheet and machine. Undo brings the former design back.`);
    if (t.id === 'outline') this.state.goTo('panel.drawn');
  }

  private empty(): void {
    const { empty } = this.state.asked.controls ?? {};
    if (!empty) return;
    this.close();
    this.state.replace(empty as Doc, 'New');
    this.state.introduce('A design of your own: open each step and fill in what you know. The former design is among your designs; undo brings it back.');
  }

  private kept(): void {
    this.close();
    this.parentElement?.querySelector<HTMLElement>('springrib-kept > button')?.click();
  }

  private askLink(): void {
    this.linking = !this.linking;
    this.requestUpdate();
    void this.updateComplete.then(() => this.querySelector<HTMLElement>('#new-link')?.focus());
  }

  private take(e: Event): void {
    e.preventDefault();
    const link = this.querySelector<HTMLInputElement>('#new-link')!.value.trim();
    this.close();
    if (link.includes('#')) void openLink(this.state, link.slice(link.indexOf('#')));
    else this.state.say('This is no link to a design: the design stands in a link after “#”. Your own design stays as it is.');
  }

  // ---- a drawing dropped on the shelf

  private readonly over = (e: DragEvent): void => {
    if (!e.dataTransfer?.types.includes('Files')) return;
    e.preventDefault();
    (e.currentTarget as HTMLElement).classList.add('over');
  };

  private readonly off = (e: DragEvent): void => (e.currentTarget as HTMLElement).classList.remove('over');

  private readonly dropped = (e: DragEvent): void => {
    this.off(e);
    const files = e.dataTransfer?.files, thing = this.things.find((t) => t.id === 'outline');
    if (!files?.length || !thing) return;
    e.preventDefault();
    this.choose(thing);
    this.make(thing);
    this.hand(files);
  };

  // The field of the drawing is there once the page shows the new design.
  private hand(files: FileList, patience = 120): void {
    const field = document.querySelector<HTMLInputElement>('#f-panel-drawn-file');
    if (field) {
      field.files = files;
      field.dispatchEvent(new Event('change'));
    } else if (patience) requestAnimationFrame(() => this.hand(files, patience - 1));
  }

  private close(): void { this.querySelector('dialog')!.close(); }

  private closed(): void {
    clearTimeout(this.resting);
    this.open = false;
    this.requestUpdate();
    if (this.result) void this.state.asked.replan(); // a plan of the page that waited was overtaken
    this.result = undefined;
  }
}

const picture = (box: string, drawing: Thing['drawing']): TemplateResult =>
  html`<svg class="small-thing" preserveAspectRatio="xMidYMax meet" viewBox=${box} aria-hidden="true">${drawing.map((p) => svg`<path class=${p.role} d=${p.d} />`)}</svg>`;

// The core's own drawing of a thing with other figures.
function drawn({ plan, stream }: Changed, turn: number): TemplateResult | typeof nothing {
  const view = plan.drawings.find((d) => d.id === 'isometric');
  if (!view || !stream) return nothing;
  return html`<svg class="small-thing" preserveAspectRatio="xMidYMax meet" viewBox=${boundsOf(view.items, stream, turn).join(' ')} aria-hidden="true"><g transform=${`rotate(${turn})`}>${
    view.items.map((item) => svg`<path class=${item.role === 'face' ? `face t${tone(points(stream, item), turn)}` : item.role} d=${pathData(stream, item)} />`)}</g></svg>`;
}

// How much light a flat gets, from 0 to 4, as build/things.go has it.
function tone(at: { x: number; y: number }[], turn: number): number {
  let [ax, ay, most] = [0, 0, 0];
  for (let i = 0; i < at.length; i++) {
    const p = at[i]!, q = at[(i + 1) % at.length]!, x = q.x - p.x, y = q.y - p.y, off = Math.abs(x * -0.5 - y * Math.sqrt(0.75)) / (Math.hypot(x, y) || 1);
    if (off > most + 1e-3) [ax, ay, most] = [x, y, off];
  }
  const x = ax / Math.sqrt(0.75), long = Math.hypot(ay - x / 2, x) || 1, side = ay - x / 2 + x < 0 ? -1 : 1;
  const nx = (side * (ay - x / 2)) / long, ny = (side * x) / long, sin = Math.sin((turn * Math.PI) / 180), cos = Math.cos((turn * Math.PI) / 180);
  const across = nx / Math.SQRT2, down = -(2 * ny - nx) / Math.sqrt(6), near = (nx + ny) / Math.sqrt(3);
  const light = -0.54 * (across * cos - down * sin) - 0.59 * (across * sin + down * cos) + 0.6 * near;
  return Math.round(4 * Math.max(0, Math.min(1, light)));
}

// What a turned drawing takes up: x, y, width and height.
function boundsOf(items: Item[], stream: Float32Array, turn: number): number[] {
  const sin = Math.sin(turn * Math.PI / 180), cos = Math.cos(turn * Math.PI / 180);
  let [left, top, right, bottom] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const { x, y } of items.flatMap((item) => points(stream, item))) {
    const across = x * cos - y * sin, down = x * sin + y * cos;
    [left, right] = [Math.min(left, across), Math.max(right, across)];
    [top, bottom] = [Math.min(top, down), Math.max(bottom, down)];
  }
  return [left, top, right - left, bottom - top];
}

const said = (verdict: Verdict): TemplateResult =>
  html`<p class="new-word ${verdict.severity}">${sign(verdict.severity)} <strong>${verdict.word}.</strong></p><p>${typeset(verdict.sentence)}</p>`;

customElements.define('springrib-new', NewDesign);
