// The base of the page's elements: each has the page's state and redraws after it.
import { LitElement } from 'lit';
import type { State, Topic } from '../state';

/** An element of the page. It draws into the page itself, so that one style sheet and one set of ids serve all. */
export class Live extends LitElement {
  static override properties: Record<string, object> = { state: { attribute: false } };
  /** What this kind of element redraws after. */
  static topic: Topic = 'all';
  declare state: State;
  private unwatch: (() => void) | undefined;

  protected override createRenderRoot(): HTMLElement { return this; }

  override connectedCallback(): void {
    super.connectedCallback();
    const { topic } = this.constructor as typeof Live;
    this.unwatch = this.state.watch(() => this.requestUpdate(), topic);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.unwatch?.();
  }
}
