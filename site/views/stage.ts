// The drawings: the bent side over the flat panel at one scale, or the laid-out sheets.
// On a narrow screen they stand side by side and are swiped.
import { html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { repeat } from 'lit/directives/repeat.js';
import { live } from 'lit/directives/live.js';
import type { Drawing } from '../messages';
import type { Picture } from '../asking';
import { room } from './drawing';
import { legendOf, words } from './roles';
import { arranged, commonScale } from './scale';
import { Live } from './live';
import { narrow } from './narrow';
import './packing';
import './space';

type Side = 'panel' | 'space' | 'sheets' | 'strips';

/** All drawings of the plan. */
export class Stage extends Live {
  private side: Side = 'panel';
  private space = { width: 0, height: 0 };
  /** What is seen of each drawing, by its id. */
  private boxes = new Map<string, Drawing['box']>();
  private readonly sizes = new ResizeObserver(() => this.measure());
  private readonly remeasure = (): void => this.measure();

  override connectedCallback(): void {
    super.connectedCallback();
    this.sizes.observe(this);
    window.addEventListener('resize', this.remeasure);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.sizes.disconnect();
    window.removeEventListener('resize', this.remeasure);
  }

  private measure(): void {
    // A swiped drawing leaves an edge of the next in sight, as the style sheet has it.
    const width = this.clientWidth * (narrow.matches ? 0.93 : 1);
    // What is left of the window leaves the verdict and the slide along the scores in sight.
    const height = Math.max(narrow.matches ? 240 : 420, window.innerHeight * (narrow.matches ? 0.4 : 0.66));
    if (width === this.space.width && height === this.space.height) return;
    this.space = { width, height };
    this.requestUpdate();
  }

  // Later changes of size are observed; to measure after every update would hold up the next.
  protected override updated(_: PropertyValues): void {
    if (this.space.width === 0) this.measure();
  }

  protected override render(): TemplateResult {
    const { picture, stale } = this.state.asked;
    if (!picture) return this.state.asked.answered ? html`<p class="empty">The drawings appear here as soon as there is a curve and a sheet to draw.</p>` : html`${nothing}`;
    const indexed = picture.plan.drawings.map((view, at) => ({ view, at }));
    const sheets = indexed.filter(({ view }) => view.id.startsWith('sheet'));
    const panel = indexed.filter(({ view }) => view.id === 'bent' || view.id === 'flat');
    const strips = indexed.filter(({ view }) => view.id === 'readings' || view.id.startsWith('strips'));
    if (this.side === 'strips' && !strips.length) this.side = 'panel';
    const groups: [Side, typeof indexed][] = [['panel', panel], ['sheets', sheets], ['strips', strips]];
    // Strips are a job of their own: they are not swiped through with the design's drawings.
    const seen = groups.filter(([side]) => narrow.matches && this.side !== 'strips' ? side !== 'strips' : side === this.side);
    const inSight = seen.flatMap(([, list]) => list);
    this.toggleAttribute('stale', stale);
    // While something is held every drawing stays where and as large as it was.
    const held = this.state.held.grip !== undefined;
    if (!held) this.boxes = new Map(picture.plan.drawings.map((d) => [d.id, d.box]));
    const packing = sheets.length ? html`<springrib-packing .state=${this.state}></springrib-packing>` : nothing;
    const beside = !narrow.matches && this.side === 'panel' && arranged(panel.map(({ view }) => this.boxed(view)), this.space, room) === 'beside';
    return html`
      <div class="stage-head">${this.switch(sheets.length, strips.length > 0)}</div>
      ${!narrow.matches && this.side === 'sheets' ? packing : nothing}
      ${stale && !held ? html`<p class="stale">${staleSentence(this.state.changedSince(picture.doc))}</p>` : nothing}
      ${this.side === 'space' ? html`<springrib-space .state=${this.state}></springrib-space>` : html`<div class="panes ${beside ? 'beside' : ''}" role="group" aria-label="Drawings" tabindex=${narrow.matches ? '0' : nothing}>
        ${seen.map(([side, list]) => this.pane(side, list, picture))}
      </div>
      ${narrow.matches && this.side !== 'strips' ? packing : nothing}
      ${legend(inSight.map(({ view }) => view))}`}`;
  }

  private pane(side: Side, list: { view: Drawing; at: number }[], picture: Picture): TemplateResult {
    const views = list.map(({ view }) => this.boxed(view));
    const how = narrow.matches || side === 'sheets' || side === 'strips' ? 'single' : arranged(views, this.space, room);
    const common = commonScale(views, this.space, room, how);
    // A chart of readings and a bed have no size in common; what is swiped is never seen together.
    const alone = side === 'strips' || (side === 'panel' && narrow.matches);
    const scaleOf = (view: Drawing): number => alone ? commonScale([this.boxed(view)], this.space, room, how) : common;
    const broad = (view: Drawing): boolean => how !== 'beside' && this.boxed(view).box[2] * scaleOf(view) + 2 * room > this.space.width - 2 * nameWidth;
    return html`${repeat(list, ({ view }) => view.id, ({ view, at }) => html`
      <springrib-drawing class="pane ${broad(view) ? 'broad' : ''}" id="drawing-${view.id}" .state=${this.state} .view=${view} .stream=${picture.streams[at] ?? nil} .scale=${scaleOf(view)} .box=${this.boxed(view).box}></springrib-drawing>`)}`;
  }

  private boxed(view: Drawing): { box: Drawing['box'] } { return { box: this.boxes.get(view.id) ?? view.box }; }

  private switch(sheets: number, strips: boolean): TemplateResult {
    const choices: [Side, string][] = [['panel', 'Bent and flat'], ['space', 'In space']];
    if (sheets) choices.push(['sheets', sheets === 1 ? 'On the sheet' : `On ${sheets} sheets`]);
    if (strips) choices.push(['strips', 'Test strips']);
    return html`<div class="segments" role="radiogroup" aria-label="What is drawn">${choices.map(([side, word]) => html`
      <label><input type="radio" name="side" .checked=${live(this.side === side)} @change=${() => this.turn(side)} /><span>${word}</span></label>`)}
    </div>`;
  }

  private async turn(side: Side): Promise<void> {
    this.side = side;
    this.requestUpdate();
    if (!narrow.matches || side === 'space' || side === 'strips') return;
    await this.updateComplete; // the panes may come back only now
    const first = this.querySelector<HTMLElement>(side === 'panel' ? '.pane:not([id^="drawing-sheet"])' : '.pane[id^="drawing-sheet"]');
    first?.scrollIntoView({ inline: 'start', block: 'nearest', behavior: matchMedia('(prefers-reduced-motion: reduce)').matches ? 'auto' : 'smooth' });
  }
}

/** Room for the name beside a drawing, px: the style sheet's 9rem at its largest, and a little. */
const nameWidth = 170;

const nil = new Float32Array();

function legend(drawings: Drawing[]): TemplateResult {
  return html`<ul class="legend" aria-label="Lines">${legendOf(drawings).map((role) => html`
    <li><svg viewBox="0 0 30 10" aria-hidden="true"><path class="ink ${role}" d=${role === 'rib' ? 'M2 1.5H28V8.5H2z' : 'M1 5H29'} /></svg>${words[role]}</li>`)}</ul>`;
}

/** Says which design the drawings show while the present one can't be drawn. */
export function staleSentence(changed: string[]): string {
  const since = changed.length === 0 ? 'the last change'
    : changed.length > 3 ? `the last ${changed.length} changes` : `you changed ${changed.map((c) => `“${c}”`).join(', ')}`;
  return `These drawings show your design before ${since}. They follow again as soon as it can be drawn.`;
}

customElements.define('springrib-stage', Stage);
