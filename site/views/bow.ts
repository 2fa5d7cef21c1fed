// How tight an arc is and how far it goes, as a joiner draws it: a line to its middle, and an
// arc along it. Both lie between places that the core says: the crown and the end of the arc.
import type { Drawing } from '../messages';
import type { Point } from '../stream';

/** A figure that is typed at a field, in the gap of its line, or to the left of it where handles lie close to its right. */
export interface Figure { x: number; y: number; path: string; prefix: string; beside?: boolean }

/** The lines, as path data in mm, and the figures in their gaps. */
export interface Bow { lines: string; figures: Figure[] }

/** Of a full turn more than this, the line to the middle is drawn whole. */
const wide = Math.PI / 2;

/**
 * The dimensions of an arc that is given by its radius; none where it is given otherwise.
 * places are those of panel and rib, off is how far outside of them the arc of its length is drawn.
 */
export function bow({ handles = [] }: Pick<Drawing, 'handles'>, places: readonly Point[], off: number): Bow | undefined {
  const crown = handles.find((h) => h.id === 'crown' && h.fields[0] === 'curve.radius'), end = handles.find((h) => h.id === 'arc-end');
  if (!crown || !end || crown.value <= 0) return undefined;
  const r = crown.value, long = end.fields[0]!;
  const half = (long === 'curve.angle' ? (end.value * Math.PI) / 180 : end.value / r) / 2;
  if (!(half > 0)) return undefined;
  // Seen from the crown the end lies r sin(half) along the arc and r (1 - cos(half)) toward the
  // middle, which is to the right of the way from the foot.
  const way = Math.atan2(end.y - crown.y, end.x - crown.x) - Math.atan2(1 - Math.cos(half), Math.sin(half));
  const hub = { x: crown.x - r * Math.sin(way), y: crown.y + r * Math.cos(way) };
  const at = (share: number, far: number): Point => {
    const turn = way - Math.PI / 2 + share * half;
    return { x: hub.x + far * Math.cos(turn), y: hub.y + far * Math.sin(turn) };
  };
  const lie = places.map((p) => Math.hypot(p.x - hub.x, p.y - hub.y));
  const out = Math.max(r, ...lie) + off, inner = Math.min(r, ...lie);
  const free = inner > 0.95 * r; // the hollow side, which then ends not far under the arc
  // The figure keeps off the line of the span, which lies under the lowest place.
  const down = -Math.sin(way - Math.PI / 2 + half / 2), clear = down > 0.3 ? (hub.y - Math.max(...places.map((p) => p.y)) + 2 * off) / down : 0;
  const from = 2 * half > wide ? (free ? 0.35 * r : 0) : Math.max(0, inner - 5 * off, Math.min(clear, inner - off)), to = (p: Point): string => `${p.x} ${p.y}`;
  // Where the rib leaves the hollow free the figure stands above the line from end to end.
  // The crown has a handle, so the figure of the arc stands half way to its beginning.
  const on = at(0.5, r), gap = at(0.5, 2 * half > wide ? Math.max((free ? 0.72 : 0.45) * r, Math.min(clear, 0.6 * r)) : from);
  const d = off / 4;
  const lines = `M${to(at(-1, out))}A${out} ${out} 0 ${2 * half > Math.PI ? 1 : 0} 1 ${to(at(1, out))}`
    + [-1, 1].map((e) => `M${to(at(e, Math.max(r, out - 0.9 * off)))}L${to(at(e, out + d))}`).join('')
    + `M${to(at(0.5, from))}L${to(on)}M${on.x - d} ${on.y + d}L${on.x + d} ${on.y - d}`
    + (from === 0 ? `M${hub.x - d} ${hub.y}h${2 * d}M${hub.x} ${hub.y - d}v${2 * d}` : '');
  const second = other(handles, way, way - Math.PI / 2 - 0.5 * half, d);
  return {
    lines: lines + (second?.lines ?? ''),
    figures: [{ ...at(-0.5, out), path: long, prefix: '' }, { ...gap, path: 'curve.radius', prefix: 'R' }, ...(second?.figures ?? [])],
  };
}

/** The radius of the arc at the far rib, which turns as the near one does: on the other side of the middle. */
function other(handles: NonNullable<Drawing['handles']>, way: number, turn: number, d: number): Bow | undefined {
  const crown = handles.find((h) => h.id === 'far-crown' && h.fields[0] === 'curve.farRadius');
  if (!crown) return undefined;
  const r = crown.value, hub = { x: crown.x - r * Math.sin(way), y: crown.y + r * Math.cos(way) };
  const at = (far: number): Point => ({ x: hub.x + far * Math.cos(turn), y: hub.y + far * Math.sin(turn) });
  const on = at(r), gap = at(0.45 * r);
  return {
    lines: `M${hub.x} ${hub.y}L${on.x} ${on.y}M${on.x - d} ${on.y - d}L${on.x + d} ${on.y + d}M${hub.x - d} ${hub.y}h${2 * d}M${hub.x} ${hub.y - d}v${2 * d}`,
    figures: [{ ...gap, path: 'curve.farRadius', prefix: 'R', beside: true }],
  };
}
