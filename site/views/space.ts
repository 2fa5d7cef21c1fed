// The panel in space: bent at the person's hand from the foot to the tip, turned and
// brought nearer. What draws it comes as a script of its own, when first shown. Without
// WebGL the core's own drawing takes its place.
import { html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { live } from 'lit/directives/live.js';
import type { Bodies, Look, ScenePart, SceneView } from '../scene/api';
import { handOver } from '../designs';
import { bentSoFar, bodiesOf } from '../bend';
import { loadPart } from '../load';
import type { Picture } from '../asking';
import { room } from './drawing';
import { commonScale } from './scale';
import { Live } from './live';

/** How far one key press turns, degrees, and how much nearer it comes. */
const turnBy = 7.5, zoomBy = 1.15;
/** Steps of the slide. */
const steps = 1000;
/** How long it takes to bend when it is first seen, ms. */
const bending = 900;
/** Bodies are carried to the screen once nothing has changed for so long, ms: while a hand is at
 * work the drawings follow it, and the view in space waits. */
const pause = 150;
/** Whether it was seen bending since the page was opened. */
let seen = false;
/** Pixels across of a saved picture. */
const pictureWidth = 2400;

type Keys = Record<string, (view: SceneView) => void>;

const keys: Keys = {
  ArrowLeft: (v) => v.turn(-turnBy, 0),
  ArrowRight: (v) => v.turn(turnBy, 0),
  ArrowUp: (v) => v.turn(0, turnBy),
  ArrowDown: (v) => v.turn(0, -turnBy),
  '+': (v) => v.zoom(zoomBy),
  '=': (v) => v.zoom(zoomBy),
  '-': (v) => v.zoom(1 / zoomBy),
  '0': (v) => v.fit(false),
  Home: (v) => v.fit(true),
};

/** How this browser draws in space: not at all, without a graphics card, or with one. */
function drawsInSpace(): 'never' | 'slowly' | 'well' {
  const tried = document.createElement('canvas').getContext('webgl2');
  if (!tried) return 'never';
  const info = tried.getExtension('WEBGL_debug_renderer_info');
  const by = String(tried.getParameter(info ? info.UNMASKED_RENDERER_WEBGL : tried.RENDERER));
  tried.getExtension('WEBGL_lose_context')?.loseContext(); // a browser has only so many
  return /swiftshader|llvmpipe|software|basic render/i.test(by) ? 'slowly' : 'well';
}

/** The view in space with its slide. */
export class SpaceView extends Live {
  private view: SceneView | undefined;
  private without = false;
  private plain = false;
  /** The last picture that came, its bodies while they wait, and whether any were shown. */
  private last: Picture | undefined;
  private next: Bodies | undefined;
  private shown = false;
  private bend = steps;
  private moving: number | undefined;
  private waiting: number | undefined;
  private turned = false;
  private grain = false;
  private unlight: (() => void) | undefined;
  private readonly scheme = matchMedia('(prefers-color-scheme: dark)');

  override connectedCallback(): void {
    super.connectedCallback();
    this.unlight = this.state.watch(() => this.view?.light(this.state.focus.score), 'light');
    this.scheme.addEventListener('change', this.repaint);
    const draws = drawsInSpace();
    this.without = draws === 'never';
    this.plain = draws === 'slowly';
    this.want();
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.unlight?.();
    this.scheme.removeEventListener('change', this.repaint);
    this.close();
    this.state.asked.look({});
  }

  protected override render(): TemplateResult {
    const { picture } = this.state.asked;
    const scores = picture?.plan.scores.length ?? 0;
    return html`<figure>
      <figcaption><strong>As it will stand</strong></figcaption>
      <div class="space-stage" tabindex=${this.without ? nothing : 0} role=${this.without ? nothing : 'application'} aria-label=${this.without ? nothing : 'The bent panel in space. Arrow keys turn it, plus and minus zoom, 0 fits it.'}
        @keydown=${this.key} @focusin=${() => this.view?.wheel(true)} @focusout=${() => this.view?.wheel(false)}>
        ${this.without ? this.drawn(picture) : html`<canvas @pointermove=${this.over} @pointerdown=${this.took} @pointerleave=${() => this.state.light({})}></canvas>`}
      </div>
      <div class="space-tools">
        <label for="bend-slide">Bend it</label>
        <input id="bend-slide" type="range" min="0" max=${steps} step="1" .value=${live(String(this.bend))}
          aria-valuetext=${bentSoFar(this.bend / steps, scores)} @input=${this.slide} />
        <output for="bend-slide" .style=${`min-inline-size: ${longest(scores)}ch`}>${bentSoFar(this.bend / steps, scores)}</output>
        <div class="buttons">${this.without ? nothing : html`
          ${this.turned ? html`<button type="button" class="quiet" @click=${this.home}>Turn it back</button>` : html`<span class="hint">Drag it to turn it</span>`}
          <button type="button" class="quiet" @click=${this.save}>Save a picture</button>`}</div>
      </div></figure>`;
  }

  // Without WebGL: the core's drawing, as far bent as the slide says.
  private drawn(picture: Picture | undefined): TemplateResult | typeof nothing {
    const at = picture?.plan.drawings.findIndex((d) => d.id === 'isometric') ?? -1;
    if (!picture || at < 0) return nothing;
    const view = picture.plan.drawings[at]!;
    const scale = commonScale([view], { width: this.clientWidth, height: Math.max(200, (this.querySelector('.space-stage')?.clientHeight ?? 0) - 60) }, room, 'single');
    return html`<springrib-drawing .state=${this.state} .view=${view} .stream=${picture.streams[at]!} .scale=${scale}></springrib-drawing>`;
  }

  protected override updated(_: PropertyValues): void {
    const { picture } = this.state.asked;
    if (this.without || !picture) return;
    const bodies = bodiesOf(picture);
    if (bodies && !this.view) {
      void this.open();
      return;
    }
    if (picture === this.last) return;
    this.last = picture;
    if (bodies) this.next = bodies;
    if (!this.next) return;
    clearTimeout(this.waiting);
    if (this.shown) this.waiting = window.setTimeout(() => this.show(), pause);
    else this.show();
  }

  // Shows the bodies that came last.
  private show(): void {
    const bodies = this.next;
    this.waiting = this.next = undefined;
    if (!this.view || !bodies) return;
    this.shown = true;
    if (hasGrain(this) !== this.grain) {
      this.grain = !this.grain;
      this.view.paint(lookOf(this));
    }
    this.view.show(bodies);
    this.once();
  }

  // The first time that it is seen it bends before one's eyes.
  private once(): void {
    if (seen || matchMedia('(prefers-reduced-motion: reduce)').matches) return;
    seen = true;
    const began = performance.now();
    const step = (now: number): void => {
      const share = Math.min(1, Math.max(0, (now - began) / bending));
      if (!this.view || this.bend !== steps) this.moving = undefined;
      else {
        this.view.fold(1 - (1 - share) ** 3);
        this.moving = share < 1 ? requestAnimationFrame(step) : undefined;
      }
    };
    this.view?.fold(0);
    this.moving = requestAnimationFrame(step);
  }

  /** Whether its sheet has a grain. */
  get grained(): boolean { return this.grain; }

  /** Whether it is bending by itself, or about to show another panel. */
  get busy(): boolean { return this.moving !== undefined || this.waiting !== undefined; }

  private took(): void {
    this.turned = true;
    this.requestUpdate();
  }

  private home(): void {
    this.turned = false;
    this.view?.fit(true);
    this.requestUpdate();
  }

  private opening: Promise<void> | undefined;

  private open(): Promise<void> {
    return this.opening ??= this.begin().catch((e: unknown) => {
      this.state.say(`The view in space can’t be shown (${e instanceof Error ? e.message : String(e)}). A drawing stands in for it.`);
      this.giveUp();
    });
  }

  private async begin(): Promise<void> {
    const part = await loadPart<ScenePart>('scene');
    const canvas = this.querySelector('canvas');
    if (!canvas || !this.isConnected) return;
    this.view = part.open(canvas, lookOf(this), this.plain, () => this.giveUp());
    this.view.fold(this.bend / steps);
    this.view.light(this.state.focus.score);
    this.requestUpdate();
  }

  private readonly giveUp = (): void => {
    this.without = true;
    this.close();
    this.want();
    this.requestUpdate();
  };

  private close(): void {
    if (this.moving !== undefined) cancelAnimationFrame(this.moving);
    clearTimeout(this.waiting);
    this.moving = this.waiting = undefined;
    this.view?.dispose();
    this.view = this.last = this.next = this.opening = undefined;
    this.shown = false;
  }

  private want(): void {
    this.state.asked.look(this.without ? { show: 'isometric', folded: this.bend / steps } : { show: 'space' });
  }

  private slide(e: Event): void {
    if (this.moving !== undefined) cancelAnimationFrame(this.moving);
    this.moving = undefined;
    this.bend = Number((e.target as HTMLInputElement).value);
    if (this.without) this.want();
    else this.view?.fold(this.bend / steps);
    this.requestUpdate();
  }

  // A mouse that goes along the panel's edge lights the scores there.
  private over(e: PointerEvent): void {
    if (e.buttons !== 0 || e.pointerType !== 'mouse') return;
    const score = this.view?.near(e.offsetX, e.offsetY);
    this.state.light(score === undefined ? {} : { score });
  }

  private key(e: KeyboardEvent): void {
    const act = e.ctrlKey || e.metaKey || e.altKey ? undefined : keys[e.key];
    if (!act || !this.view) return;
    act(this.view);
    this.turned = e.key !== 'Home';
    this.requestUpdate();
    e.preventDefault();
  }

  private readonly repaint = (): void => this.view?.paint(lookOf(this));

  private async save(): Promise<void> {
    const space = this.state.asked.picture?.plan.space;
    if (!this.view || !space) return;
    handOver(`${space.file}.png`, await this.view.still(pictureWidth));
  }
}

// How many letters are said of a slide at the most, so that it keeps its length.
const longest = (scores: number): number => bentSoFar(1 - 0.5 / Math.max(scores, 1), scores).length;

// The colours of the page as it is now.
function lookOf(element: Element): Look {
  const style = getComputedStyle(element);
  const of = (name: string): string => style.getPropertyValue(`--${name}`).trim();
  return {
    paper: of('paper'), ink: of('pen'), soft: of('pen'), panel: of('board'), rib: of('timber'), burnt: of('burnt'),
    score: of('groove'), warn: of('warn'), press: of('press'), shade: of('shade'), grain: (element as SpaceView).grained,
  };
}

// Grain is drawn on wood alone.
const hasGrain = ({ state }: SpaceView): boolean => /ply|veneer|wood/i.test(state.asked.plan.cards.sheet ?? '');

customElements.define('springrib-space', SpaceView);
