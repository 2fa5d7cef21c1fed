// The thing itself as it will stand, beside it the side view over the flat panel at one
// scale. On a narrow screen they stand side by side and are swiped.
import { html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { repeat } from 'lit/directives/repeat.js';
import { live } from 'lit/directives/live.js';
import type { Drawing } from '../messages';
import { room } from './drawing';
import { commonScale } from './scale';
import { Live } from './live';
import { narrow } from './narrow';
import './scores';
import './space';

type Side = 'space' | 'bent' | 'flat';

/** Height of the name over a drawing, and of the slide along the scores under them, px. */
const caption = 30, slide = 44;
/** The least height of the stage, px; a phone on its side has less. */
const least = (): number => (window.innerHeight < 480 ? 190 : 330);

/** More than this is no use in a window that is high and narrow, px. */
const most = 1200;

/** All drawings of the design. */
export class Stage extends Live {
  /** Which of the drawings a narrow screen shows. */
  private side: Side = 'space';
  /** Room for the side view and the flat panel, px, and whether there is none for both. */
  private space = { width: 0, height: 0 };
  private low = false;
  /** What is seen of each drawing, by its id. */
  private boxes = new Map<string, Drawing['box']>();
  private readonly sizes = new ResizeObserver(() => this.measure());
  private readonly remeasure = (): void => this.measure();

  override connectedCallback(): void {
    super.connectedCallback();
    this.sizes.observe(this);
    // What stands above and below it decides how high it is.
    requestAnimationFrame(() => {
      for (const e of document.querySelectorAll('springrib-verdict, springrib-warnings, springrib-gauges, springrib-benchbar, springrib-page > .notice')) this.sizes.observe(e);
    });
    window.addEventListener('resize', this.remeasure);
    narrow.addEventListener('change', this.remeasure);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.sizes.disconnect();
    window.removeEventListener('resize', this.remeasure);
    narrow.removeEventListener('change', this.remeasure);
  }

  // What is left of the window between the verdict and the way to the bench is theirs. While
  // something is held nothing changes its size.
  private measure(): void {
    if (this.state.held.grip) return;
    const high = (of: string): number => document.querySelector<HTMLElement>(of)?.offsetHeight ?? 0;
    const bar = high('springrib-benchbar') + high('springrib-page > .notice');
    const top = this.getBoundingClientRect().top + window.scrollY;
    const height = narrow.matches ? Math.max(240, window.innerHeight * 0.44) : Math.min(most, Math.max(least(), window.innerHeight - top - bar));
    const views = this.querySelector(this.low ? '#drawing-bent' : '.views');
    // A swiped drawing leaves an edge of the next in sight, as the style sheet has it.
    const width = narrow.matches ? this.clientWidth * 0.93 : views?.clientWidth ?? 0;
    this.style.setProperty('--stage', `${Math.floor(height)}px`);
    const low = !narrow.matches && height < 430;
    if (low !== this.low) {
      this.low = low;
      void this.updateComplete.then(this.remeasure);
      this.requestUpdate();
    }
    const room = { width, height: narrow.matches ? height - caption : this.low ? height - caption : height - slide - 2 * caption };
    if (!room.width || room.width === this.space.width && Math.abs(room.height - this.space.height) < 1) return;
    this.space = room;
    this.requestUpdate();
  }

  protected override updated(_: PropertyValues): void {
    if (this.space.width === 0) this.measure();
  }

  protected override render(): TemplateResult {
    const { picture, stale } = this.state.asked;
    if (!picture) return this.state.asked.answered ? html`<p class="empty">The drawings appear here as soon as there is a curve and a sheet to draw.</p>` : html`${nothing}`;
    const held = this.state.held.grip !== undefined;
    this.toggleAttribute('stale', stale);
    this.toggleAttribute('low', this.low);
    this.dataset.side = this.side;
    // While something is held every drawing stays where and as large as it was.
    if (!held) this.boxes = new Map(picture.plan.drawings.map((d) => [d.id, d.box]));
    const seen = picture.plan.drawings.map((view, at) => ({ view, at })).filter(({ view }) => view.id === 'bent' || view.id === 'flat');
    return html`
      ${stale && !held ? html`<p class="stale">${staleSentence(this.state.changedSince(picture.doc))}</p>` : nothing}
      <div class="panes" role="group" aria-label="Drawings" tabindex=${narrow.matches ? '0' : nothing} @scrollend=${this.swiped}>
        <springrib-space class="pane" id="drawing-space" .state=${this.state}></springrib-space>
        <div class="views">${repeat(seen, ({ view }) => view.id, ({ view, at }) => html`
          <springrib-drawing class="pane" id="drawing-${view.id}" .state=${this.state} .view=${view} .stream=${picture.streams[at] ?? nil}
            .scale=${this.scale(seen.map((s) => s.view), view)} .box=${this.boxed(view).box}></springrib-drawing>`)}</div>
      </div>
      ${narrow.matches ? this.tabs() : nothing}
      <springrib-scores .state=${this.state}></springrib-scores>`;
  }

  // Side view and flat panel have one scale, so that what is below stands for what is above,
  // unless only one of them is seen at a time.
  private scale(views: Drawing[], view: Drawing): number {
    const alone = narrow.matches || this.low;
    const space = this.low && view.id === 'flat' ? { width: this.clientWidth, height: window.innerHeight * 0.7 } : this.space;
    return commonScale((alone ? [view] : views).map((v) => this.boxed(v)), space, room, alone ? 'single' : 'stacked');
  }

  private boxed(view: Drawing): { box: Drawing['box'] } { return { box: this.boxes.get(view.id) ?? view.box }; }

  private tabs(): TemplateResult {
    const choices: [Side, string][] = [['space', 'Standing'], ['bent', 'From the side'], ['flat', 'Flat']];
    return html`<div class="tabs" role="radiogroup" aria-label="What is drawn">${choices.map(([side, word]) => html`
      <label><input type="radio" name="drawn" .checked=${live(this.side === side)} @change=${() => this.turn(side)} /><span>${word}</span></label>`)}
    </div>`;
  }

  private turn(side: Side): void {
    this.side = side;
    this.requestUpdate();
    this.querySelector(`#drawing-${side}`)?.scrollIntoView({ inline: 'start', block: 'nearest', behavior: matchMedia('(prefers-reduced-motion: reduce)').matches ? 'auto' : 'smooth' });
  }

  // The name of what was swiped to stands out.
  private swiped(e: Event): void {
    const panes = e.currentTarget as HTMLElement, at = panes.scrollLeft + panes.clientWidth / 2;
    const all = [...this.querySelectorAll<HTMLElement>('.pane')];
    const now = all.find((p) => p.offsetLeft - panes.offsetLeft + p.offsetWidth > at);
    const side = now?.id.replace('drawing-', '') as Side | undefined;
    if (!side || side === this.side) return;
    this.side = side;
    this.requestUpdate();
  }
}

const nil = new Float32Array();

/** Says which design the drawings show while the present one can't be drawn. */
export function staleSentence(changed: string[]): string {
  const since = changed.length === 0 ? 'the last change'
    : changed.length > 3 ? `the last ${changed.length} changes` : `you changed ${changed.map((c) => `“${c}”`).join(', ')}`;
  return `These drawings show your design before ${since}. They follow again as soon as it can be drawn.`;
}

customElements.define('springrib-stage', Stage);
