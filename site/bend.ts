// What the view in space needs of a plan, and how far a panel is bent in words.
import { spaceArrays } from './messages';
import type { Bodies } from './scene/api';
import type { Picture } from './asking';

/** The arrays of a picture that are those of its bodies; none where it has no bodies. */
export function bodiesOf({ plan, streams }: Pick<Picture, 'plan' | 'streams'>): Bodies | undefined {
  const { space } = plan;
  return space && { space, arrays: streams.slice(space.first, space.first + spaceArrays) };
}

/** How far the panel is bent: a share of all its scores, from the foot. */
export function bentSoFar(share: number, scores: number): string {
  if (share >= 1) return 'glued';
  if (share <= 0) return 'flat';
  return `${Math.floor(share * scores)} of ${scores} scores`;
}
