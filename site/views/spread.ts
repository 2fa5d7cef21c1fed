// Handles that lie close together are drawn apart, each with a thread to its place, so
// that every one can be got hold of.
import type { Point } from '../stream';

/** A part of a drawing: its corner, width and height. */
export interface Box { x: number; y: number; w: number; h: number }

/** Rounds of pushing: more than a few handles at one place are seldom. */
const rounds = 60;
/** How far aside of the straight way a pair is pushed, so that a row makes room too. */
const aside = 0.35;

/**
 * Places moved so that no two are nearer than gap, as far as there is room in box. Places
 * that are far enough from all others stay where they are.
 */
export function spread(places: readonly Point[], gap: number, box: Box): Point[] {
  const out = places.map((p) => ({ ...p }));
  for (let round = 0; round < rounds; round++) {
    let pushed = false;
    out.forEach((a, i) => {
      for (let j = i + 1; j < out.length; j++) if (part(a, out[j]!, gap, j)) pushed = true;
    });
    if (!pushed) break;
    out.forEach((p, i) => {
      if (same(p, places[i]!)) return;
      p.x = between(p.x, Math.min(box.x, places[i]!.x), Math.max(box.x + box.w, places[i]!.x));
      p.y = between(p.y, Math.min(box.y, places[i]!.y), Math.max(box.y + box.h, places[i]!.y));
    });
  }
  return out;
}

// Pushes two places apart where they are too near: both by the same, a little aside.
function part(a: Point, b: Point, gap: number, n: number): boolean {
  let dx = b.x - a.x, dy = b.y - a.y;
  const d = Math.hypot(dx, dy);
  if (d >= gap * 0.999) return false;
  if (d < gap * 1e-3) [dx, dy] = [Math.cos(2.4 * n), Math.sin(2.4 * n)]; // one upon the other: each its own way
  else [dx, dy] = [dx / d, dy / d];
  const side = n % 2 ? aside : -aside, push = (gap - d) / 2;
  const x = (dx - side * dy) * push, y = (dy + side * dx) * push;
  a.x -= x;
  a.y -= y;
  b.x += x;
  b.y += y;
  return true;
}

const same = (a: Point, b: Point): boolean => a.x === b.x && a.y === b.y;
const between = (v: number, low: number, high: number): number => Math.max(low, Math.min(high, v));
