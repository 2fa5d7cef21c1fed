// What the page knows of a thing on the shelf of a new design.
import type { Verdict } from '../messages';
import type { Doc } from '../path';

/** A ready beginning that is sound as it stands. */
export interface Thing {
  id: string;
  /** "Shade", and what its button makes: "this shade". */
  name: string;
  this: string;
  /** Its figures in a few words. */
  says: string;
  fields: { path: string; label: string; kind: 'length' | 'angle' | 'count' }[];
  /** The design and what the core says of it, by units. */
  designs: Record<string, Doc>;
  verdicts: Record<string, Verdict>;
  /** By how much the core's drawing is turned, degrees. */
  turn: number;
  /** Its small drawing, from the back to the front. */
  box: string;
  drawing: { role: string; d: string }[];
}

/** The script that is loaded when the shelf is first shown. */
export interface ThingsPart { things: Thing[] }
