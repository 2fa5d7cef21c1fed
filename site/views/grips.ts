// What of a drawing can be taken hold of: by the hand, or with the arrow keys once it has
// the keyboard. The core says where handles are and what the fields become; here is only
// how a hand holds one.
import { nothing, svg, type SVGTemplateResult } from 'lit';
import { repeat } from 'lit/directives/repeat.js';
import type { Drag, Handle } from '../messages';
import type { Point } from '../stream';
import type { Grip } from '../holding';
import type { State } from '../state';
import { text } from '../path';
import { spread, type Box } from './spread';

/** The drawing whose handles are held. */
export interface Host {
  readonly state: State;
  readonly handles: readonly Handle[];
  /** Pixels for a millimetre. */
  readonly scale: number;
  /** What is seen of the drawing, mm. */
  readonly sight: Box;
  requestUpdate(): void;
}

/** Radius of a handle, of the ring that shows it has the keyboard, and of what a finger hits, px. */
const knob = 7, ring = 11, hit = 22;
/** Radius of the dot at the place of a handle that is drawn off it, px. */
const place = 2;
/** How near a mouse must come to take hold, px. */
const sure = 12;
/** How wide a letter of a handle's name is about, px. */
const letter = 7.4;
/** How far apart handles are drawn, px: a finger's smallest target and a little. */
const apart = 26;
/** After this pause the next key press is a step of undo of its own, ms. */
const pause = 1200;

/** A hold by the hand: where handle and pointer were when it began. */
interface Hand { grip: Grip; pointer: number; handle: Point & { id: string }; from: Point; scale: number; moved: boolean }

/** A hold by the keys: where the handle is wanted. */
interface Press { grip: Grip; id: string; aim: Point; last: number }

/** The hands on one drawing. */
export class Hold {
  private hand: Hand | undefined;
  private press: Press | undefined;
  /** Id of the handle that is held, has the keyboard or lies under the pointer. */
  private active = '';

  constructor(private readonly host: Host) {}

  /** By how much each handle is drawn off its place, mm, and of what that was worked out. */
  private off = new Map<string, Point>();
  private offOf: { handles: readonly Handle[]; scale: number } | undefined;

  /** Whether a hand holds something. */
  get held(): boolean { return this.hand !== undefined; }

  /** The handles to draw over everything else. */
  render(): unknown {
    const { handles, scale } = this.host;
    this.spread();
    return svg`<g class="grips">${repeat(handles, (h) => h.id, (h) => this.grip(h, scale))}</g>${this.tag(scale)}`;
  }

  // Handles near each other are drawn apart. While something is held none changes how far
  // it is off: what the hand has goes with the hand, and the others stay.
  private spread(): void {
    const { handles, scale, sight, state } = this.host;
    if (state.held.grip || (this.offOf?.handles === handles && this.offOf.scale === scale)) return;
    this.offOf = { handles, scale };
    const to = spread(handles, apart / scale, sight);
    this.off = new Map(handles.map((h, i) => [h.id, { x: to[i]!.x - h.x, y: to[i]!.y - h.y }]));
  }

  // Where a handle is drawn.
  private drawn(h: Handle): Point {
    const off = this.off.get(h.id);
    return off ? { x: h.x + off.x, y: h.y + off.y } : h;
  }

  private grip(h: Handle, scale: number): SVGTemplateResult {
    const at = this.drawn(h), off = this.off.get(h.id);
    const away = off && Math.hypot(off.x, off.y) * scale > knob;
    // Moved as a whole: what is in it stays as it is.
    return svg`<g class="grip ${h.id === this.active ? 'active' : ''}" transform="translate(${at.x} ${at.y})" role="slider" tabindex="0" data-handle=${h.id}
      aria-label=${h.label} aria-valuenow=${round(h.value)} aria-valuemin=${round(h.low)} aria-valuemax=${round(h.high)} aria-valuetext=${h.text}
      aria-orientation=${h.ways === 'y' ? 'vertical' : nothing}
      @keydown=${(e: KeyboardEvent) => this.key(e, h)} @keyup=${() => this.rest()}
      @focus=${() => this.attend(h)} @blur=${() => this.leave()}>
      ${away ? svg`<path class="thread" d="M${-off.x} ${-off.y}L0 0" /><circle class="place" cx=${-off.x} cy=${-off.y} r=${place / scale} />` : nothing}
      <circle class="reach" r=${hit / scale} /><circle class="ring" r=${ring / scale} /><path class="knob" d=${bar(h.ways, scale)} /></g>`;
  }

  // The name of the active handle and what it stands at: above it, or below where there is
  // no room, and never past the drawing's edge.
  private tag(scale: number): unknown {
    const h = this.host.handles.find(({ id }) => id === this.active);
    if (!h) return nothing;
    const { sight } = this.host;
    const words = `${h.label} ${h.text}`, half = (words.length * letter) / 2 / scale;
    const at = this.drawn(h);
    const x = Math.max(sight.x + half, Math.min(sight.x + sight.w - half, at.x));
    const y = at.y - 17 / scale < sight.y ? at.y + 26 / scale : at.y - 17 / scale;
    return svg`<text class="grip-tag" transform="translate(${x} ${y})" font-size=${15 / scale} stroke-width=${6 / scale} text-anchor="middle">${words}</text>`;
  }

  // ---- by hand

  /** A pointer comes down on the drawing: whether it takes hold of something. */
  down(e: PointerEvent, at: Point): boolean {
    if (e.button !== 0 || this.hand) return false;
    const h = this.nearest(at, e.pointerType === 'touch' ? hit : sure);
    if (!h) return false;
    const canvas = e.currentTarget as SVGSVGElement;
    canvas.setPointerCapture(e.pointerId);
    canvas.querySelector<SVGElement>(`[data-handle="${CSS.escape(h.id)}"]`)?.focus({ preventScroll: true });
    e.preventDefault();
    this.hand = {
      grip: this.host.state.held.take(h.label), pointer: e.pointerId, handle: { id: h.id, x: h.x, y: h.y },
      from: { x: e.clientX, y: e.clientY }, scale: this.host.scale, moved: false,
    };
    this.attend(h);
    return true;
  }

  /** Whether a finger there would take hold of something. */
  hit(at: Point): boolean { return this.nearest(at, hit) !== undefined; }

  /** Whether a pointer that holds nothing lies over a handle. */
  over(e: PointerEvent, at: Point): boolean {
    const h = e.pointerType === 'mouse' ? this.nearest(at, sure) : undefined;
    this.attend(h);
    return h !== undefined;
  }

  /**
   * The hand moves. The place is reckoned from where it began, so that nothing that moves
   * on the page moves it, and nothing need be measured.
   */
  move(e: PointerEvent): void {
    const { hand } = this;
    if (!hand || e.pointerId !== hand.pointer) return;
    const dx = e.clientX - hand.from.x, dy = e.clientY - hand.from.y;
    if (!hand.moved && Math.hypot(dx, dy) < 2) return;
    hand.moved = true;
    this.pull(hand.grip, { handle: hand.handle.id, x: hand.handle.x + dx / hand.scale, y: hand.handle.y + dy / hand.scale, fine: e.shiftKey });
  }

  up(e: PointerEvent): void {
    if (e.pointerId !== this.hand?.pointer) return;
    this.hand = undefined;
    this.host.state.held.letGo();
  }

  /** The pointer left the drawing. */
  out(): void {
    if (!this.hand && !this.press) this.leave();
  }

  private nearest(at: Point, within: number): Handle | undefined {
    let best: Handle | undefined, least = within / this.host.scale;
    for (const h of this.host.handles) {
      const there = this.drawn(h);
      const d = Math.hypot(there.x - at.x, there.y - at.y);
      if (d <= least) [best, least] = [h, d];
    }
    return best;
  }

  // ---- by keys

  private key(e: KeyboardEvent, h: Handle): void {
    if (e.ctrlKey || e.metaKey || e.altKey) return;
    const way = ways[e.key];
    if (way) this.step(h, way, e.shiftKey);
    else if (e.key === 'Escape') this.drop();
    else if (e.key === 'Enter') this.host.state.goTo(h.fields[0]!);
    else return;
    e.preventDefault();
  }

  // The arrows move the place that is wanted, as often as they are pressed; the handle
  // follows as far as it can.
  private step(h: Handle, way: Point, fine: boolean): void {
    const { state } = this.host;
    const step = stepOf(text(state.doc, 'units'), fine);
    const now = performance.now();
    const same = this.press?.id === h.id && state.held.holds(this.press.grip) ? this.press : undefined;
    if (!same || now - same.last > pause) {
      // After a pause one starts from where the handle is; undo still takes back all presses on it.
      const grip = same ? state.held.takeAgain(same.grip) : state.held.take(h.label);
      this.press = { grip, id: h.id, aim: { x: h.x, y: h.y }, last: now };
    }
    const press = this.press!;
    press.last = now;
    press.aim = { x: press.aim.x + way.x * step, y: press.aim.y + way.y * step };
    state.held.hold(press.grip);
    this.pull(press.grip, { handle: h.id, ...press.aim, fine });
  }

  // Once the keys rest the drawing may be scaled anew; the presses that follow soon still
  // belong to the same step of undo.
  private rest(): void {
    if (this.press) this.host.state.held.letGo();
  }

  /** Brings back what stood before the hold that is under way. */
  private drop(): void {
    const grip = this.hand?.grip ?? this.press?.grip;
    this.hand = this.press = undefined;
    if (grip) this.host.state.held.giveBack(grip);
  }

  // ----

  private pull(grip: Grip, drag: Drag): void { void this.host.state.held.pull(grip, drag); }

  private attend(h: Handle | undefined): void {
    if (this.active === (h?.id ?? '')) return;
    this.active = h?.id ?? '';
    this.host.state.light(h ? { field: h.fields[0]! } : {});
    this.host.requestUpdate();
  }

  private leave(): void {
    this.press = undefined;
    if (!this.hand) this.attend(undefined);
  }
}

const ways: Record<string, Point> = {
  ArrowLeft: { x: -1, y: 0 }, ArrowRight: { x: 1, y: 0 }, ArrowUp: { x: 0, y: -1 }, ArrowDown: { x: 0, y: 1 },
};

// A short bar across the way it moves; a lozenge where it goes both ways.
function bar(ways: string, scale: number): string {
  const long = knob / scale, thin = long / 2.6;
  if (ways === 'x') return `M${-thin} ${-long}H${thin}V${long}H${-thin}z`;
  if (ways === 'y') return `M${-long} ${-thin}H${long}V${thin}H${-long}z`;
  return `M0 ${-long}L${long} 0L0 ${long}L${-long} 0z`;
}

/** How far one key press moves, mm: 1 mm or 1/16 in, a tenth or a quarter of it when fine. */
export function stepOf(units: string, fine: boolean): number {
  if (units === 'in') return fine ? 25.4 / 64 : 25.4 / 16;
  return fine ? 0.1 : 1;
}

const round = (v: number): number => Math.round(v * 100) / 100;
