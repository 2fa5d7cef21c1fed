// The roles that things in a drawing play: the word of each for the legend. Colours and
// dashes are the style sheet's, under the class of the same name.

/** Words of the roles that a legend explains. Shapes that explain themselves have none. */
export const words: Record<string, string> = {
  score: 'score',
  mark: 'mark',
  glue: 'glue line',
  inner: 'inner cut',
  outer: 'outer cut',
  cutedge: 'outline of the panel',
  rib: 'rib',
  bed: 'bed of the machine',
  neutral: 'neutral line',
  ghost: 'wanted curve',
  flat: 'flats between scores',
  point: 'as read',
  fit: 'what is used',
  range: 'where nine in ten lie',
  guess: 'before the strips',
};

/** The roles of the legend that drawings use, in the legend's order. */
export function legendOf(drawings: readonly { items: readonly { role: string }[] }[]): string[] {
  const used = new Set(drawings.flatMap((d) => d.items.map((i) => i.role)));
  return Object.keys(words).filter((role) => used.has(role));
}

/** Roles whose shapes are filled: each covers what was drawn before it. */
const filled = new Set(['panel', 'cutedge', 'rib', 'range', 'face', 'flank', 'slot', 'wall', 'plate']);
/** So many runs share a path at most: a browser draws a path whole, however little of it has to be drawn anew. */
const most = 200;

/** Neighbours of one role that have nothing but a line, as one path: a browser takes its time for each, not for their length. */
export function strokes<T extends { role: string }>(items: readonly T[]): { role: string; runs: T[] }[] {
  const out: { role: string; runs: T[] }[] = [];
  for (const item of items) {
    const last = out.at(-1);
    if (last?.role === item.role && !filled.has(item.role) && last.runs.length < most) last.runs.push(item);
    else out.push({ role: item.role, runs: [item] });
  }
  return out;
}
