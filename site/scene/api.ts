// What the page and the view in space say to each other. Types alone: the page imports
// this and nothing else of the folder, which comes as a script of its own.
import type { Space } from '../messages';

/** The panel with its ribs: what the core says of it, and the arrays that it counts. */
export interface Bodies { space: Space; arrays: Float32Array[] }

/** Colours of everything, as CSS writes them. */
export interface Look {
  paper: string; ink: string; soft: string; panel: string; rib: string; burnt: string;
  score: string; warn: string; press: string;
  /** Of the shadow on the ground. */
  shade: string;
  /** Whether the panel's sheet has a grain. */
  grain: boolean;
}

/** The view in space on one canvas. */
export interface SceneView {
  /** Shows other bodies; the eye stays where it is. */
  show(bodies: Bodies): void;
  /** Bends as far as this share of all scores, from the foot. */
  fold(share: number): void;
  /** Lights one score, or none. */
  light(score: number | undefined): void;
  paint(look: Look): void;
  /** Turns the eye by degrees, to the right and up. */
  turn(right: number, up: number): void;
  /** Comes nearer by a factor above 1, or goes away by one below. */
  zoom(factor: number): void;
  /** Brings everything into sight, from where the eye is or from where it began. */
  fit(fromStart: boolean): void;
  /** Whether the wheel comes nearer, or is left to the page. */
  wheel(on: boolean): void;
  /** A picture of what is seen, so many pixels wide. */
  still(width: number): Promise<Blob>;
  /** The score at the panel's edge that is nearest to a place of the canvas, in pixels of the page. */
  near(x: number, y: number): number | undefined;
  dispose(): void;
}

/** What the script of the view in space offers. */
export interface ScenePart {
  /** Opens a view; throws where the browser has no WebGL. lost is told when it goes away later.
   * Plain, it has no shade and rougher edges: without a graphics card these take most of the time. */
  open(canvas: HTMLCanvasElement, look: Look, plain: boolean, lost: () => void): SceneView;
}
