// What a page that embeds a design may rely on. The build copies this file beside the
// script, for hosts that check their types.

/** What of the design is drawn: the bent side, the flat panel, or one over the other. */
export type DesignView = 'bent' | 'flat' | 'both';

/**
 * The element <springrib-design>: one design, drawn and judged in the reader's browser.
 * What stands inside the element is shown until there is something to draw, and stays
 * where scripts or the core can't run.
 *
 * Parts, for `springrib-design::part(...)`: `frame` around it all, `title`, `verdict`,
 * `gauges`, `drawings`, `fields` (live only), `problem`, `foot` with the `link`.
 *
 * Colours, as custom properties on the element: `--paper`, `--ink`, `--soft` (quiet words),
 * `--line`, `--edge`, `--press` (what can be pressed), `--wood`, `--sound`, `--warn`, `--stop`.
 *
 * Events: `springrib-change`, whenever the design or its verdict changed; it bubbles.
 */
export interface SpringribDesign extends HTMLElement {
  /** The design: its JSON as saved, a link to it, or what stands after "#" in that link. Attribute `design`. */
  design: string;
  /** Attribute `view`; "both" when it is missing. */
  view: DesignView;
  /** Whether the reader may take hold of the drawings and fill in the main fields. Attribute `live`. */
  live: boolean;
  /** "light" or "dark", whatever the reader's machine is set to. Attribute `scheme`. */
  scheme: '' | 'light' | 'dark';
}

/** What `springrib-change` tells in its detail. */
export interface DesignChange {
  /** The design as JSON. */
  design: string;
  /** "sound", "note", "warn" or "stop". */
  severity: string;
  sentence: string;
}

declare global {
  interface HTMLElementTagNameMap { 'springrib-design': SpringribDesign }
  interface HTMLElementEventMap { 'springrib-change': CustomEvent<DesignChange> }
}
