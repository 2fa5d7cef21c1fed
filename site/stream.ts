// A drawing comes as one run of numbers, mm with Y down: 0 x y moves, 1 x y draws a
// line, 2 x1 y1 x2 y2 x y a cubic, 3 closes. This file turns runs into SVG path data.

/** A stretch of a stream. */
export interface Run { from: number; to: number }

const letters = ['M', 'L', 'C', 'Z'];
const operands = [2, 2, 6, 0];

function operandsOf(code: number | undefined, at: number): number {
  const n = code === undefined ? undefined : operands[code];
  if (n === undefined) throw new RangeError(`no drawing command ${code} at ${at}`);
  return n;
}

// A thousandth of a millimetre is far below what a screen shows, and keeps the text short.
const short = (v: number): string => String(Math.round(v * 1000) / 1000);

/** SVG path data of one run. */
export function pathData(stream: ArrayLike<number>, run: Run): string {
  let d = '';
  for (let i = run.from; i < run.to; ) {
    const code = stream[i]!;
    const n = operandsOf(code, i);
    d += letters[code];
    for (let k = 1; k <= n; k++) d += (k > 1 ? ' ' : '') + short(stream[i + k]!);
    i += n + 1;
  }
  return d;
}

/** A point of a drawing, mm. */
export interface Point { x: number; y: number }

/** The places a run moves or draws to, curves by their ends alone. */
export function points(stream: ArrayLike<number>, run: Run): Point[] {
  const out: Point[] = [];
  for (let i = run.from; i < run.to; ) {
    const n = operandsOf(stream[i], i);
    if (n > 0) out.push({ x: stream[i + n - 1]!, y: stream[i + n]! });
    i += n + 1;
  }
  return out;
}

/** How far a pointer is from the nearest stroke between two points of a run. */
export function distance(to: Point, along: Point[]): number {
  let least = Infinity;
  along.forEach((a, i) => {
    const b = along[i + 1] ?? a;
    const dx = b.x - a.x, dy = b.y - a.y;
    const long = dx * dx + dy * dy;
    const f = long === 0 ? 0 : Math.min(1, Math.max(0, ((to.x - a.x) * dx + (to.y - a.y) * dy) / long));
    least = Math.min(least, Math.hypot(a.x + f * dx - to.x, a.y + f * dy - to.y));
  });
  return least;
}
