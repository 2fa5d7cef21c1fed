// What a drawing from elsewhere holds: a button that opens a file, and a sheet laid over
// the page on which one says what each line is, how large the file is, what is mended
// and how it lies, before any of it is taken.
import { html, nothing, svg, type PropertyValues, type SVGTemplateResult, type TemplateResult } from 'lit';
import { guard } from 'lit/directives/guard.js';
import { live } from 'lit/directives/live.js';
import { base64, Bringing, roleOfRow, tooLarge } from '../intake';
import type { Control, Drawing, IntakeChange, IntakePath, IntakeRow, IntakeView, Item } from '../messages';
import { text, type Doc } from '../path';
import { distance, pathData, points } from '../stream';
import { label, room, shape } from './drawing';
import { Live } from './live';
import { idOf, placeholder } from './said';
import { sign } from './sign';

/** How near a pointer must come to a line to light it, px. */
const reach = 14;
/** How long typing rests before the core is asked, ms. */
const restAfter = 200;

/** The means to fill a field with a drawing. */
export class DrawnElsewhere extends Live {
  static override properties = { ...Live.properties, control: { attribute: false } };
  declare control: Control;

  private bringing: Bringing | undefined;
  /** Why the last file was not opened. */
  private refusal = '';
  /** Refs of what is lit, and the place of a change that is. */
  private lit: readonly string[] = [];
  private spot: IntakeChange | undefined;
  private scale = 1;
  private resting: ReturnType<typeof setTimeout> | undefined;

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    // Where the page is laid out anew, as when a phone is turned, this only moves.
    queueMicrotask(() => {
      if (this.isConnected) return;
      clearTimeout(this.resting);
      this.bringing = undefined;
    });
  }

  override connectedCallback(): void {
    super.connectedCallback();
    const dialog = this.querySelector('dialog');
    if (!dialog?.open || !this.bringing) return;
    dialog.removeAttribute('open'); // no longer over the page once it was moved
    dialog.showModal();
  }

  protected override render(): TemplateResult {
    const { path, label: words } = this.control;
    const id = idOf(path);
    const has = Boolean(this.state.asked.field(path).means);
    const shown = this.bringing?.view;
    return html`
      <div class="row drawn"><span class="label" id="${id}-label">${words}</span>
        <button type="button" class=${has ? 'quiet' : 'secondary'} id=${id} aria-describedby="${id}-label ${this.refusal ? `${id}-refusal` : ''}"
          @click=${this.pick}>${has ? 'Open another drawing' : 'Open a drawing'}</button></div>
      <input type="file" id="${id}-file" hidden accept=".svg,.dxf,image/svg+xml" aria-label="Drawing file" @change=${this.open} />
      <div role="alert">${this.refusal ? html`<p class="problem" id="${id}-refusal">${sign('stop')} ${this.refusal}</p>` : nothing}</div>
      <dialog class="intake" aria-labelledby="${id}-title" @close=${this.closed}>${shown ? this.sheet(id, shown) : nothing}</dialog>`;
  }

  protected override updated(_: PropertyValues): void {
    const dialog = this.querySelector('dialog');
    if (!dialog) return;
    if (this.bringing?.view && !dialog.open) {
      dialog.showModal();
      dialog.querySelector<HTMLElement>('h2')?.focus();
    }
    this.measure();
  }

  // ---- the file

  private readonly pick = (): void => this.querySelector<HTMLInputElement>('input[type=file]')?.click();

  private readonly open = async (e: Event): Promise<void> => {
    const input = e.target as HTMLInputElement;
    const file = input.files?.[0];
    if (!file) return;
    this.refuse(tooLarge(file));
    if (this.refusal) return void (input.value = '');
    const bytes = new Uint8Array(await file.arrayBuffer());
    input.value = '';
    const bringing = new Bringing((q) => this.state.asked.ask(q), () => this.state.doc as Doc,
      { name: file.name, base64: base64(bytes), card: this.control.card }, () => this.requestUpdate());
    await bringing.choose({});
    if (!bringing.view) return this.refuse(`${file.name}: ${bringing.refusal} Your design stays as it is.`);
    this.bringing = bringing;
    this.requestUpdate();
  };

  private refuse(why: string): void {
    this.refusal = why;
    this.requestUpdate();
  }

  private readonly closed = (): void => {
    this.bringing = undefined;
    this.light([]);
    this.querySelector<HTMLElement>('button')?.focus();
  };

  private leave(): void {
    this.bringing = undefined; // or drawing the page once more would open it again
    this.querySelector('dialog')?.close();
  }

  private async take(): Promise<void> {
    const { bringing } = this;
    const doc = await bringing?.take();
    if (!bringing || !doc || bringing !== this.bringing) return;
    this.leave();
    this.state.become(doc, `Take ${bringing.view!.name}`);
  }

  // ---- the sheet

  private sheet(id: string, v: IntakeView): TemplateResult {
    const b = this.bringing!;
    return html`
      <header><h2 id="${id}-title" tabindex="-1">What the drawing holds</h2>
        <p>${v.name} <small>${v.size}</small></p></header>
      <div class="spread" aria-busy=${b.busy ? 'true' : 'false'}>
        <div class="paper">
          <figure><figcaption>As it was read</figcaption>${this.picture(v)}</figure>
          <figure><figcaption>${v.taken.items.length ? 'What is taken' : 'Nothing is taken yet'}</figcaption>${this.takenPicture(v)}</figure>
        </div>
        <div class="choices">
          ${this.units(id, v)} ${this.edges(id, v)} ${this.rows(id, v)} ${this.mending(id, v)} ${this.laying(id, v)}
          ${v.findings.length ? html`<section><h3>About the file</h3>
            <ul class="notes">${v.findings.map((f) => html`<li>${sign(f.severity)} ${f.text}</li>`)}</ul></section>` : nothing}
        </div>
      </div>
      <footer><p role="status">${b.refusal ? html`${sign('stop')} ${b.refusal}` : v.sentence}</p>
        <button type="button" class="primary" ?disabled=${!v.ready} @click=${this.take}>Take it</button>
        <button type="button" class="secondary" @click=${this.leave}>Leave it</button></footer>`;
  }

  private units(id: string, v: IntakeView): unknown {
    if (!v.units) return nothing;
    const { chosen, choices } = v.units;
    return html`<fieldset class="size"><legend>How large is it?</legend>
      <p class="help">The file doesn't say in what unit it was drawn.</p>
      ${choices.map((c) => html`<label class="check"><input type="radio" name="${id}-size" .checked=${live(c.perInch === chosen)}
        @change=${() => this.choose({ perInch: c.perInch, roles: {}, leave: [] })} /><span>${c.size} <small>${c.label}</small></span></label>`)}
    </fieldset>`;
  }

  private edges(id: string, v: IntakeView): unknown {
    if (!v.edges) return nothing;
    const { text: words, chosen, choices } = v.edges;
    return html`<fieldset class="edge"><legend>Which edge is meant?</legend>
      <p class="help">${words}</p>
      ${choices.map((c) => html`<label class="check"><input type="radio" name="${id}-edge" .checked=${live(c.value === chosen)}
        @change=${() => this.choose({ edge: c.value, roles: {} })} /><span>${c.label}</span></label>`)}
    </fieldset>`;
  }

  private rows(id: string, v: IntakeView): TemplateResult {
    return html`<section><h3>Its lines</h3>
      <table><caption class="unseen">What each line of the drawing is taken for</caption>
        <thead class="unseen"><tr><th scope="col">Lines</th><th scope="col">Taken for</th></tr></thead>
        <tbody>${v.rows.map((r) => this.row(id, v, r))}</tbody></table></section>`;
  }

  private row(id: string, v: IntakeView, r: IntakeRow): TemplateResult {
    const name = [r.layer, r.text].filter(Boolean).join(': ');
    const refs = r.paths.length ? r.paths.map((p) => p.id) : [r.id];
    return html`<tr class=${refs.some((p) => this.lit.includes(p)) ? 'lit' : ''} @pointerenter=${() => this.light(refs)} @pointerleave=${() => this.light([])} @focusin=${() => this.light(refs)}>
      <td><svg class="swatch" viewBox="0 0 14 14" aria-hidden="true"><rect x=".5" y=".5" width="13" height="13" rx="2" fill=${/^#[0-9a-f]{6}$/.test(r.colour) ? r.colour : 'none'} /></svg>
        <span>${r.layer ? html`<strong>${r.layer}</strong> ` : nothing}${r.text}</span>
        ${r.paths.length > 1 ? html`<details ?open=${r.role === ''}><summary>One by one</summary><ul>${r.paths.map((p) => this.path(id, v, p))}</ul></details>` : nothing}</td>
      <td>${this.roles(`${id}-${r.id.replace(' ', '-')}`, name, v, r.role, (role) =>
        this.choose({ roles: roleOfRow(this.bringing!.intake.roles, r.id, r.paths.map((p) => p.id), role) }))}</td></tr>`;
  }

  private path(id: string, v: IntakeView, p: IntakePath): TemplateResult {
    return html`<li class=${this.lit.includes(p.id) ? 'lit' : ''} @pointerenter=${() => this.light([p.id])} @focusin=${(e: Event) => { e.stopPropagation(); this.light([p.id]); }}>
      <span>${p.text}</span> ${this.roles(`${id}-${p.id.replace(' ', '-')}`, `${p.text}, line ${p.id.slice('path '.length)}`, v, p.role, (role) =>
        this.choose({ roles: { ...this.bringing!.intake.roles, [p.id]: role } }))}</li>`;
  }

  private roles(id: string, name: string, v: IntakeView, now: string, chosen: (role: string) => void): TemplateResult {
    return html`<select id=${id} aria-label=${name} @change=${(e: Event) => chosen((e.target as HTMLSelectElement).value)}>
      ${now === '' ? html`<option value="" .selected=${true} disabled>Several things</option>` : nothing}
      ${v.roles.map((c) => html`<option value=${c.value} .selected=${live(c.value === now)}>${c.label}</option>`)}</select>`;
  }

  private mending(id: string, v: IntakeView): TemplateResult {
    const { gap } = this.bringing!.intake;
    return html`<section><h3>Mending</h3>
      ${this.figure(`${id}-gap`, 'Close gaps up to', gap, v.gap, (typed) => this.rest({ gap: typed, leave: [], roles: {} }))}
      ${v.changes.length ? html`<ul class="changes">${v.changes.map((c, i) => this.change(`${id}-change-${i}`, c))}</ul>` : html`<p class="help">Nothing to mend.</p>`}
      ${v.more ? html`<p class="help">And ${v.more} more like these.</p>` : nothing}</section>`;
  }

  private change(id: string, c: IntakeChange): TemplateResult {
    const { leave } = this.bringing!.intake;
    const flip = (on: boolean): void => void this.choose({ leave: on ? leave.filter((k) => k !== c.key) : [...leave, c.key], roles: {} });
    const show = (): void => this.light(c.refs, c);
    return html`<li @pointerenter=${show} @pointerleave=${() => this.light([])} @focusin=${show}>
      ${c.key ? html`<label class="check"><input id=${id} type="checkbox" .checked=${live(c.done)} @change=${(e: Event) => flip((e.target as HTMLInputElement).checked)} /><span>${c.text}</span></label>`
        : html`<p>${sign('warn')} ${c.text} <button type="button" class="quiet" @click=${show}>Show where</button>
          ${c.gap ? html`<button type="button" class="quiet" @click=${() => this.choose({ gap: c.gap, leave: [], roles: {} })}>Close gaps up to ${c.gap}</button>` : nothing}</p>`}</li>`;
  }

  // What says how it lies: the fields that the design has for it afterwards.
  private laying(id: string, v: IntakeView): unknown {
    if (v.controls.length === 0) return nothing;
    return html`<section class="laying"><h3>How it lies</h3>${v.controls.map((c) => this.lay(`${id}-${idOf(c.path)}`, c, v))}</section>`;
  }

  private lay(id: string, c: Control, v: IntakeView): TemplateResult {
    const { lay } = this.bringing!.intake;
    const kept = /drawn/.test(c.path) ? '' : text(this.state.doc, c.path);
    const now = lay[c.path] ?? kept;
    const put = (typed: string): Record<string, string> => ({ ...this.bringing!.intake.lay, [c.path]: typed });
    if (c.kind === 'check') {
      return html`<label class="check"><input id=${id} type="checkbox" .checked=${live(now === 'true')}
        @change=${(e: Event) => this.choose({ lay: put(String((e.target as HTMLInputElement).checked)) })} /><span>${c.label}</span></label>`;
    }
    if (c.kind === 'choice') {
      const value = now || (c.choices?.[0]?.value ?? '');
      return html`<div class="row"><label for=${id}>${c.label}</label><select id=${id} @change=${(e: Event) => this.choose({ lay: put((e.target as HTMLSelectElement).value) })}>
        ${(c.choices ?? []).map((o) => html`<option value=${o.value} .selected=${live(o.value === value)}>${o.label}</option>`)}</select></div>`;
    }
    return this.figure(id, c.label, now, v.fields[c.path] ?? {}, (typed) => this.rest({ lay: put(typed) }));
  }

  private figure(id: string, name: string, now: string, said: NonNullable<IntakeView['fields'][string]>, typed: (text: string) => void): TemplateResult {
    return html`<div class="row"><label for=${id}>${name}</label>
      <input id=${id} type="text" class="figure" autocomplete="off" spellcheck="false" inputmode="decimal" placeholder=${placeholder(said)}
        .value=${live(now)} aria-invalid=${said.problem ? 'true' : nothing} aria-describedby=${said.problem ? `${id}-problem` : nothing}
        @input=${(e: Event) => typed((e.target as HTMLInputElement).value)} /></div>
      ${said.problem ? html`<p class="problem" id="${id}-problem">${sign('stop')} ${said.problem}</p>` : nothing}
      ${said.means && !said.problem ? html`<p class="means">${said.means}</p>` : nothing}`;
  }

  private choose(choice: Parameters<Bringing['choose']>[0]): void {
    clearTimeout(this.resting);
    void this.bringing?.choose(choice);
    this.requestUpdate();
  }

  // Typing shows at once and is asked about when it rests.
  private rest(choice: Parameters<Bringing['choose']>[0]): void {
    const { bringing } = this;
    if (!bringing) return;
    bringing.intake = { ...bringing.intake, ...choice };
    clearTimeout(this.resting);
    this.resting = setTimeout(() => void bringing.choose({}), restAfter);
  }

  // ---- the picture

  private picture(v: IntakeView): TemplateResult {
    const d = v.drawing;
    const { stream } = this.bringing!;
    const pad = room / this.scale;
    const [x, y, w, h] = d.box;
    return html`<svg class="drawing" viewBox="${x - pad} ${y - pad} ${w + 2 * pad} ${h + 2 * pad}"
      @pointermove=${(e: PointerEvent) => this.near(e, d)} @pointerdown=${(e: PointerEvent) => this.near(e, d)} @pointerleave=${() => this.light([])} @click=${this.toRow}>
      <g role="img" aria-label="The drawing as it would lie">
      ${guard([d, stream], () => d.items.map((item) => shape(item, stream)))}
      ${d.items.filter((i) => i.ref !== undefined && this.lit.includes(i.ref)).map((i) => svg`<path class="lit ${i.role}" d=${pathData(stream, i)} />`)}
      ${this.spotted()}
      ${guard([d, this.scale], () => d.labels.map((l) => label(l, this.scale)))}</g></svg>`;
  }

  // What is taken, in the place and size of what was read.
  private takenPicture(v: IntakeView): TemplateResult {
    const d = v.taken;
    const { stream } = this.bringing!;
    const pad = room / this.scale;
    const [x, y, w, h] = d.box;
    return html`<svg class="drawing" viewBox="${x - pad} ${y - pad} ${w + 2 * pad} ${h + 2 * pad}" role="img" aria-label="What is taken of the drawing">
      ${guard([d, stream], () => d.items.map((item) => shape(item, stream)))}</svg>`;
  }

  // Places that mending speaks of: a ring about the one that is looked at, dots for the rest.
  private spotted(): SVGTemplateResult[] {
    const dot = 3 / this.scale, ring = 12 / this.scale;
    return (this.bringing?.view?.changes ?? []).map((c) => svg`<circle class=${c === this.spot ? 'ring' : 'spot'} cx=${c.x} cy=${c.y} r=${c === this.spot ? ring : dot} />`);
  }

  private light(refs: readonly string[], spot?: IntakeChange): void {
    if (refs.length === 0 && this.lit.length === 0 && spot === this.spot) return;
    this.lit = refs;
    this.spot = spot;
    this.requestUpdate();
  }

  private near(e: PointerEvent, d: Drawing): void {
    const canvas = e.currentTarget as SVGSVGElement;
    const at = new DOMPoint(e.clientX, e.clientY).matrixTransform(canvas.getScreenCTM()!.inverse());
    const { stream } = this.bringing!;
    let best: Item | undefined, least = reach / this.scale;
    for (const item of d.items) {
      if (item.ref === undefined) continue;
      const off = distance({ x: at.x, y: at.y }, points(stream, item));
      if (off < least) [best, least] = [item, off];
    }
    this.light(best ? [best.ref!] : []);
  }

  // A press on a line goes to where one says what it is.
  private readonly toRow = (): void => {
    const ref = this.lit[0];
    if (ref === undefined) return;
    const id = `#${CSS.escape(`${idOf(this.control.path)}-${ref.replace(' ', '-')}`)}`;
    const single = this.querySelector<HTMLElement>(id);
    single?.closest('details')?.setAttribute('open', '');
    const row = this.bringing?.view?.rows.find((r) => r.id === ref || (r.paths.length === 1 && r.paths[0]!.id === ref));
    const target = single ?? this.querySelector<HTMLElement>(`#${CSS.escape(`${idOf(this.control.path)}-${(row?.id ?? '').replace(' ', '-')}`)}`);
    target?.focus();
    target?.scrollIntoView({ block: 'nearest' });
  };

  // Lines and figures have the screen's width whatever the drawing's size.
  private measure(): void {
    const canvas = this.querySelector<SVGSVGElement>('svg.drawing');
    const box = this.bringing?.view?.drawing.box;
    if (!canvas || !box) return;
    const scale = Math.min((canvas.clientWidth - 2 * room) / Math.max(box[2], 1e-6), (canvas.clientHeight - 2 * room) / Math.max(box[3], 1e-6));
    if (scale > 0 && Math.abs(scale - this.scale) > 1e-3 * scale) {
      this.scale = scale;
      this.requestUpdate();
    }
  }
}

customElements.define('springrib-drawn-elsewhere', DrawnElsewhere);
