// The scale at which drawings share a screen.

/** Something with a width and a height in mm at the end of its box. */
export interface Boxed { box: readonly [number, number, number, number] }

/** Room on the screen, px. */
export interface Space { width: number; height: number }

/**
 * Pixels for a millimetre so that all drawings, each with room px around it, fit the
 * space: one under the other when stacked, one at a time otherwise.
 */
export function commonScale(drawings: readonly Boxed[], space: Space, room: number, stacked: boolean): number {
  if (drawings.length === 0) return 1;
  const wide = Math.max(...drawings.map((d) => d.box[2]));
  const heights = drawings.map((d) => d.box[3]);
  const high = stacked ? heights.reduce((a, b) => a + b, 0) : Math.max(...heights);
  const rooms = stacked ? drawings.length : 1;
  const across = (space.width - 2 * room) / Math.max(wide, 1e-6);
  const down = (space.height - 2 * room * rooms) / Math.max(high, 1e-6);
  return Math.max(Math.min(across, down), 0.01);
}
