// <springrib-design>: one design on somebody else's page. All that it draws lies in its
// shadow root, with its own style; the page's own elements serve inside.
import { html, LitElement, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { repeat } from 'lit/directives/repeat.js';
import styleText from 'springrib:style';
import { linkTo } from '../brought';
import { holdsDesign, LinkError, unpacked } from '../link';
import type { Controls } from '../messages';
import { text, type Doc } from '../path';
import { State } from '../state';
import { room } from '../views/drawing';
import { gauge } from '../views/gauge';
import { commonScale } from '../views/scale';
import { sign } from '../views/sign';
import '../views/field';
import { coreOf } from './shared';
import type { DesignChange, DesignView, SpringribDesign } from './springrib-design';

/** Cards whose plain fields a live design shows: what one looks at, not what one sets up. */
const cards = new Set(['curve', 'panel']);
const kinds = new Set(['length', 'angle', 'count', 'number', 'choice']);
/** As many fields fit beside a picture without making a form of it. */
const mostFields = 8;
/** Height that drawings may take, px: a reader wants to see the text around them. */
const height = { single: 380, both: 620 };
/** How far below the window a design begins to work. */
const ahead = '600px';

let base = '';

/** Defines the element, which finds its core beside the script at this address. */
export function define(name: string, address: string): void {
  base = address;
  customElements.define(name, Design);
}

class Design extends LitElement implements SpringribDesign {
  static override properties = {
    design: {}, view: {}, live: { type: Boolean, reflect: true }, scheme: {},
  };
  declare design: string;
  declare view: DesignView;
  declare live: boolean;
  declare scheme: '' | 'light' | 'dark';

  private state: State | undefined;
  private problem = '';
  private link = '';
  private told = '';
  private width = 0;
  /** Counts designs, so that one that is read late does not take the place of a later one. */
  private turn = 0;
  private near = false;
  private unwatch: (() => void) | undefined;
  private readonly sizes = new ResizeObserver(() => this.measure());
  private readonly sight = new IntersectionObserver((seen) => this.seen(seen), { rootMargin: ahead });

  constructor() {
    super();
    this.design = '';
    this.view = 'both';
    this.live = false;
    this.scheme = '';
  }

  override connectedCallback(): void {
    super.connectedCallback();
    this.sizes.observe(this);
    this.sight.observe(this);
    this.listen();
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.sizes.disconnect();
    this.sight.disconnect();
    this.unwatch?.();
  }

  private listen(): void {
    this.unwatch?.();
    this.unwatch = this.state?.watch(() => this.changed(), 'all');
  }

  private seen(entries: IntersectionObserverEntry[]): void {
    if (this.near || !entries.some((e) => e.isIntersecting)) return;
    this.near = true;
    this.sight.disconnect();
    void this.take();
  }

  protected override willUpdate(changed: PropertyValues): void {
    if (changed.has('scheme')) this.shadowRoot!.adoptedStyleSheets = [styleOf(this.scheme)];
    if (changed.has('design') && this.near) void this.take();
  }

  // Reads the attribute and shows what it holds.
  private async take(): Promise<void> {
    const turn = ++this.turn;
    const core = coreOf(base);
    const say = (problem: string): void => {
      if (turn !== this.turn) return;
      this.problem = problem;
      this.requestUpdate();
    };
    try {
      const [written, form] = await Promise.all([textOf(this.design), controls ??= core.ask({ kind: 'fields' }).then((a) => a.reply.controls)]);
      const { reply } = await core.ask({ kind: 'open', text: written });
      if (turn !== this.turn) return;
      if (!form) controls = undefined; // asked again next time
      if (reply.error || !form) return say(reply.error ?? 'The reckoning does not start. Load the page again.');
      this.problem = '';
      this.state ??= this.begin(new State(core, forgetful));
      this.state.asked.controls = form;
      this.state.replace(reply.design as Doc, '');
    } catch (e) {
      if (!(e instanceof LinkError)) throw e;
      say(e.message);
    }
  }

  private begin(state: State): State {
    queueMicrotask(() => this.listen());
    return state;
  }

  private changed(): void {
    this.requestUpdate();
    const { state } = this;
    if (!state?.asked.plan.verdict.word || state.held.grip) return;
    const { severity, sentence } = state.asked.plan.verdict;
    const design = JSON.stringify(state.doc);
    if (this.told === design + sentence) return;
    this.told = design + sentence;
    const detail: DesignChange = { design, severity, sentence };
    this.dispatchEvent(new CustomEvent('springrib-change', { detail, bubbles: true, composed: true }));
    void linkTo(state, new URL('./', base).href).then((link) => {
      this.link = link;
      this.requestUpdate();
    });
  }

  private measure(): void {
    if (this.clientWidth === this.width) return;
    this.width = this.clientWidth;
    this.requestUpdate();
  }

  protected override render(): TemplateResult {
    const { state } = this;
    const problem = this.problem || state?.notice;
    return html`<section part="frame" class="frame" aria-label=${this.title_() || 'A design'}>
      ${problem ? html`<p part="problem" class="problem" role="status">${sign('stop')} ${problem}</p>` : nothing}
      ${state?.asked.picture || state?.asked.plan.verdict.word ? this.whole(state) : html`<slot></slot>${problem ? nothing : html`<p class="empty">Bending…</p>`}`}
    </section>`;
  }

  private title_(): string { return text(this.state?.doc, 'name').trim(); }

  private whole(state: State): TemplateResult {
    const { verdict } = state.asked.plan;
    return html`
      ${this.title_() ? html`<p part="title" class="title">${this.title_()}</p>` : nothing}
      <div part="verdict" class="verdict" data-severity=${verdict.severity}>
        <p class="word">${sign(verdict.severity)} <strong>${verdict.word}</strong></p><p class="sentence">${verdict.sentence}</p></div>
      ${verdict.gauges.length ? html`<ul part="gauges" class="gauges" aria-label="How near the limits">${verdict.gauges.map(gauge)}</ul>` : nothing}
      ${this.drawings(state)}
      ${this.live ? this.fields(state) : nothing}
      <footer part="foot" class="foot"><p>Reckoned in your browser by Springrib. Cut a test strip of your own sheet first; the machine’s manual comes before anything here.</p>
        ${this.link ? html`<a part="link" href=${this.link} target="_blank" rel="noopener">Open this design in Springrib</a>` : nothing}</footer>`;
  }

  private drawings(state: State): TemplateResult | typeof nothing {
    const { picture } = state.asked;
    if (!picture || this.width === 0) return nothing;
    const both = this.view !== 'bent' && this.view !== 'flat';
    const shown = picture.plan.drawings.map((view, at) => ({ view, at }))
      .filter(({ view }) => (both ? view.id === 'bent' || view.id === 'flat' : view.id === this.view));
    const space = { width: this.width - 2 * inset, height: both ? height.both : height.single };
    const scale = commonScale(shown.map(({ view }) => view), space, room, 'stacked');
    return html`<div part="drawings" class="drawings" ?data-stale=${state.asked.stale}>${repeat(shown, ({ view }) => view.id, ({ view, at }) => html`
      <springrib-drawing .state=${state} .view=${this.live ? view : still(view)} .stream=${picture.streams[at]!} .scale=${scale}></springrib-drawing>`)}</div>`;
  }

  private fields(state: State): TemplateResult {
    const main = (state.asked.controls?.controls ?? []).filter((c) => cards.has(c.card) && kinds.has(c.kind) && !c.more && state.shown(c.when));
    const figures = [...main.filter((c) => c.kind !== 'choice'), ...main.filter((c) => c.kind === 'choice')].slice(0, mostFields);
    return html`<div part="fields" class="fields" role="group" aria-label="Figures to change">
      ${repeat(figures, (c) => c.path, (c) => html`<springrib-field .state=${state} .control=${c}></springrib-field>`)}</div>`;
  }
}

/** Room at the sides of the frame, as its style has it, px. */
const inset = 16;

/** The form is the same for every design of the page. */
let controls: Promise<Controls | undefined> | undefined;

/** Whose page this is keeps what it wants to keep. */
const forgetful = {
  load: () => undefined, read: () => undefined, removed: () => undefined, restore: () => undefined,
  save: () => 'kept' as const, list: () => [], touch: () => undefined, remove: () => undefined, answer: () => undefined, keepAnswer: () => undefined,
};

// A drawing that nobody can take hold of.
function still<T extends { handles?: unknown }>(view: T): T {
  const kept = stills.get(view) as T | undefined ?? { ...view, handles: undefined };
  stills.set(view, kept);
  return kept;
}

const stills = new WeakMap<object, object>();

// The text of the design that an attribute means.
async function textOf(attribute: string): Promise<string> {
  const given = attribute.trim();
  if (given === '') throw new LinkError('No design is given here: the attribute “design” is empty.');
  if (given.startsWith('{')) return given;
  const at = given.indexOf('#');
  const hash = at < 0 ? given : given.slice(at + 1);
  return unpacked(holdsDesign(hash) ? hash : `design=${hash}`);
}

const sheets = new Map<string, CSSStyleSheet>();

// The style, as the reader's machine or the host's page wants it.
function styleOf(scheme: string): CSSStyleSheet {
  let sheet = sheets.get(scheme);
  if (!sheet) {
    sheet = new CSSStyleSheet();
    sheet.replaceSync(scheme !== 'light' && scheme !== 'dark' ? styleText : styleText
      .replace(/\(prefers-color-scheme:\s*dark\)/g, scheme === 'dark' ? 'all' : 'not all')
      .replace(/color-scheme:\s*light dark/g, `color-scheme:${scheme}`));
    sheets.set(scheme, sheet);
  }
  return sheet;
}
