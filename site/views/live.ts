// The base of the page's elements: each has the page's state and redraws after it.
import { LitElement } from 'lit';
import type { State, Topic } from '../state';

/** An element of the page. It draws into the page itself, so that one style sheet and one set of ids serve all. */
export class Live extends LitElement {
  static override properties: Record<string, object> = { state: { attribute: false } };
  /** What this kind of element redraws after. */
  static topic: Topic = 'all';
  /** Whether this kind of element, while something is held, is only redrawn where it is in sight. */
  static patient = false;
  /** Whether this kind of element stands aside until what is seen first has been painted. */
  static late = false;
  declare state: State;
  private unwatch: (() => void) | undefined;
  private outOfSight = false;
  /** Whether it was not redrawn after the last change. */
  private late = false;

  protected override createRenderRoot(): HTMLElement { return this; }

  override connectedCallback(): void {
    super.connectedCallback();
    const { topic, patient } = this.constructor as typeof Live;
    this.unwatch = this.state.watch(() => this.changed(), topic);
    if (patient) (sights ??= new IntersectionObserver(look, { rootMargin: ahead })).observe(this);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.unwatch?.();
    sights?.unobserve(this);
    this.see(true);
  }

  protected override scheduleUpdate(): void | Promise<unknown> {
    if (!(this.constructor as typeof Live).late || painted) return super.scheduleUpdate();
    this.style.display = 'none'; // an empty box would be seen to move
    return firstPaint().then(() => {
      this.style.display = '';
      super.scheduleUpdate();
    });
  }

  // Letting go is a change too.
  private changed(): void {
    this.late = this.outOfSight && this.state.held.grip !== undefined;
    if (!this.late) this.requestUpdate();
  }

  /** Told whether it is in sight. */
  see(inSight: boolean): void {
    this.outOfSight = !inSight;
    if (inSight && this.late) this.changed();
  }
}

/** How far outside the window something counts as in sight. */
const ahead = '200px';

let sights: IntersectionObserver | undefined;

function look(entries: IntersectionObserverEntry[]): void {
  for (const e of entries) if (e.target instanceof Live) e.target.see(e.isIntersecting);
}

let painted = false;
let painting: Promise<void> | undefined;

/** Once what is seen first is on the screen. A window in the background paints nothing: after a while nobody waits for it any longer. */
export const firstPaint = (): Promise<void> => painting ??= new Promise<void>((done) => {
  const frame = new MessageChannel();
  frame.port1.onmessage = () => done();
  requestAnimationFrame(() => frame.port2.postMessage(0)); // heard after the frame
  setTimeout(done, 1000);
}).then(() => { painted = true; });
