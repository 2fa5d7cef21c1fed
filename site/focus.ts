// What the hand or the eye is on, and which things of the drawings and the form it lights.
import type { Place, ScoreView } from './messages';

/** A lit place: a score by its number, a part by its id, a field by its path. */
export interface Focus { score?: number; part?: string; field?: string }

/** Whether two lit places are the same. */
export function sameFocus(a: Focus, b: Focus): boolean {
  return a.score === b.score && a.part === b.part && a.field === b.field;
}

/** The reference that items of a drawing carry for a score. */
export const scoreRef = (n: number): string => `score ${n}`;

/** The references that a lit place stands for in the drawings. */
export function refsOf(focus: Focus): Set<string> {
  const refs = new Set<string>();
  if (focus.score !== undefined) refs.add(scoreRef(focus.score));
  if (focus.part !== undefined) refs.add(focus.part);
  return refs;
}

/** The place to light for a finding; a bare station lights the score nearest to it. */
export function focusOf(place: Place, scores: ScoreView[]): Focus {
  const score = place.score || nearest(place.at, scores);
  return {
    ...(score ? { score } : {}),
    // A score says where more sharply than the whole part does.
    ...(place.part && !score ? { part: place.part } : {}),
    ...(place.field ? { field: place.field } : {}),
  };
}

function nearest(at: number | undefined, scores: ScoreView[]): number | undefined {
  if (at === undefined || at === null) return undefined;
  return scores.reduce<ScoreView | undefined>(
    (best, s) => (best && Math.abs(best.u - at) <= Math.abs(s.u - at) ? best : s), undefined)?.n;
}
