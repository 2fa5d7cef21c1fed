// The scale at which drawings share a screen, and how they stand there.

/** Something with a width and a height in mm at the end of its box. */
export interface Boxed { box: readonly [number, number, number, number] }

/** Room on the screen, px. */
export interface Space { width: number; height: number }

/** One under the other, side by side, or one at a time. */
export type Arrangement = 'stacked' | 'beside' | 'single';

/** How much larger drawings must become before they leave their places one under the other. */
const worthwhile = 1.25;

const sum = (values: number[]): number => values.reduce((a, b) => a + b, 0);

/** Pixels for a millimetre at which all drawings, each with room px around it, fit the space. */
export function commonScale(drawings: readonly Boxed[], space: Space, room: number, arrangement: Arrangement): number {
  if (drawings.length === 0) return 1;
  const widths = drawings.map((d) => d.box[2]), heights = drawings.map((d) => d.box[3]);
  const wide = arrangement === 'beside' ? sum(widths) : Math.max(...widths);
  const high = arrangement === 'stacked' ? sum(heights) : Math.max(...heights);
  const across = (space.width - 2 * room * (arrangement === 'beside' ? drawings.length : 1)) / Math.max(wide, 1e-6);
  const down = (space.height - 2 * room * (arrangement === 'stacked' ? drawings.length : 1)) / Math.max(high, 1e-6);
  return Math.max(Math.min(across, down), 0.01);
}

/**
 * How drawings of one scale stand best: one under the other, so that what is below
 * stands for what is above, unless a deep curve is seen much larger beside its panel.
 */
export function arranged(drawings: readonly Boxed[], space: Space, room: number): Arrangement {
  const gain = commonScale(drawings, space, room, 'beside') / commonScale(drawings, space, room, 'stacked');
  return gain > worthwhile ? 'beside' : 'stacked';
}
