// Words in a drawing that would lie upon each other: the later ones are shortened to what
// stands before their colon, or left out.
import type { Label } from '../messages';

/** How wide a letter and how high a line is about, px. */
const letter = 6.9, line = 14;

interface Patch { x0: number; y0: number; x1: number; y1: number }

/** The labels that can be read at so many pixels for a millimetre. */
export function readable(labels: readonly Label[], scale: number): Label[] {
  const taken: Patch[] = [], out: Label[] = [];
  for (const l of labels) {
    for (const text of l.text.includes(': ') ? [l.text, l.text.slice(0, l.text.indexOf(': '))] : [l.text]) {
      const patch = patchOf({ ...l, text }, scale);
      if (taken.some((t) => meet(t, patch))) continue;
      taken.push(patch);
      out.push({ ...l, text });
      break;
    }
  }
  return out;
}

// What a label covers, in pixels. One that stands askew is taken as if it stood upright.
function patchOf(l: Label, scale: number): Patch {
  const wide = l.text.length * letter;
  const from = l.anchor === 'middle' ? -wide / 2 : l.anchor === 'end' ? -wide : 0;
  const upright = Math.abs(l.turn % 180) > 45;
  const x = l.x * scale, y = l.y * scale;
  if (upright) return { x0: x - line / 2, x1: x + line / 2, y0: y - wide / 2, y1: y + wide / 2 };
  return { x0: x + from, x1: x + from + wide, y0: y - line / 2, y1: y + line / 2 };
}

const meet = (a: Patch, b: Patch): boolean => a.x0 < b.x1 && b.x0 < a.x1 && a.y0 < b.y1 && b.y0 < a.y1;
