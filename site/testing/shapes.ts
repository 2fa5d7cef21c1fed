// Invented drawings for the stand-in core: an arc, its flat panel and a sheet.
import type { Drawing, Item, Label } from '../messages';

export interface Arc { radius: number; angle: number; width: number; t: number; foot: number; tip: number; n: number }

class Pen {
  numbers: number[] = [];
  items: Item[] = [];

  add(role: string, ref: string | undefined, ...points: ([number, number] | 'close' | 'lift')[]): void {
    const from = this.numbers.length;
    let up = true;
    for (const p of points) {
      if (p === 'close') this.numbers.push(3);
      else if (p === 'lift') up = true;
      else {
        this.numbers.push(up ? 0 : 1, p[0], p[1]);
        up = false;
      }
    }
    this.items.push({ role, ...(ref ? { ref } : {}), from, to: this.numbers.length });
  }
}

// A place along the bent contact edge, lifted off it by h.
function bent(a: Arc, s: number, h: number): [number, number] {
  const arc = a.radius * a.angle;
  const phi = Math.min(Math.max(s - a.foot, 0), arc) / a.radius;
  const over = s < a.foot ? s - a.foot : s > a.foot + arc ? s - a.foot - arc : 0;
  const x = a.radius * Math.sin(phi) + over * Math.cos(phi) - h * -Math.sin(phi);
  const y = a.radius * (1 - Math.cos(phi)) + over * Math.sin(phi) - h * Math.cos(phi);
  return [x, y];
}

function boxed(id: string, title: string, pen: Pen, labels: Label[]): { view: Drawing; stream: Float32Array } {
  let x0 = Infinity, y0 = Infinity, x1 = -Infinity, y1 = -Infinity;
  for (let i = 0; i < pen.numbers.length; i += pen.numbers[i] === 3 ? 1 : 3) {
    if (pen.numbers[i] === 3) continue;
    x0 = Math.min(x0, pen.numbers[i + 1]!); x1 = Math.max(x1, pen.numbers[i + 1]!);
    y0 = Math.min(y0, pen.numbers[i + 2]!); y1 = Math.max(y1, pen.numbers[i + 2]!);
  }
  return { view: { id, title, box: [x0, y0, x1 - x0, y1 - y0], items: pen.items, labels }, stream: new Float32Array(pen.numbers) };
}

const span = (to: number, n = 80): number[] => Array.from({ length: n + 1 }, (_, i) => (to * i) / n);

export function drawings(a: Arc): { views: Drawing[]; streams: Float32Array[] } {
  const all = [side(a), flat(a), sheet(a)];
  return { views: all.map((d) => d.view), streams: all.map((d) => d.stream) };
}

const stationsOf = (a: Arc): number[] => Array.from({ length: a.n }, (_, i) => a.foot + (a.radius * a.angle * (i + 0.5)) / a.n);

function side(a: Arc): ReturnType<typeof boxed> {
  const pen = new Pen();
  const long = a.foot + a.radius * a.angle + a.tip;
  const edge = span(long).map((s) => bent(a, s, 0)), outer = span(long).map((s) => bent(a, s, a.t));
  const back = span(long).map((s) => bent(a, s, -34 + (20 * s) / long));
  pen.add('rib', 'rib1', ...edge, ...back.reverse(), 'close');
  pen.add('panel', 'panel', ...edge, ...outer.slice().reverse(), 'close');
  stationsOf(a).forEach((s, i) => pen.add('score', `score ${i + 1}`, bent(a, s, 0), bent(a, s, a.t * 0.75)));
  pen.add('glue', 'rib1', ...span(long - a.tip).map((s) => bent(a, s, 0)));
  const c: [number, number] = [0, a.radius];
  const at = bent(a, a.foot + a.radius * a.angle * 0.7, 0);
  pen.add('dimension', undefined, c, at);
  const mid: [number, number] = [c[0] + (at[0] - c[0]) * 0.3, c[1] + (at[1] - c[1]) * 0.3];
  return boxed('bent', 'Bent, from the side', pen, [{ x: mid[0], y: mid[1], text: `R ${a.radius} mm`, anchor: 'middle', turn: 0 }]);
}

function rectangle(x: number, y: number, w: number, h: number): [number, number][] {
  return [[x, y], [x + w, y], [x + w, y + h], [x, y + h]];
}

function flat(a: Arc): ReturnType<typeof boxed> {
  const pen = new Pen();
  const long = a.foot + (a.radius + 1.2) * a.angle + a.tip;
  pen.add('cutedge', 'panel', ...rectangle(0, 0, long, a.width), 'close');
  stationsOf(a).forEach((s, i) => pen.add('score', `score ${i + 1}`, [s * 1.01, -4.8], [s * 1.01, a.width + 4.8]));
  pen.add('mark', 'panel', [6, a.width / 2 - 3], [long - a.tip, a.width / 2 - 3], 'lift', [6, a.width / 2 + 3], [long - a.tip, a.width / 2 + 3]);
  const y = a.width + 16;
  pen.add('dimension', undefined, [0, y], [long, y], 'lift', [0, y - 3], [0, y + 3], 'lift', [long, y - 3], [long, y + 3]);
  pen.add('dimension', undefined, [-12, 0], [-12, a.width], 'lift', [-15, 0], [-9, 0], 'lift', [-15, a.width], [-9, a.width]);
  return boxed('flat', 'Flat, the scored face up', pen, [
    { x: long / 2, y, text: `${long.toFixed(1)} mm`, anchor: 'middle', turn: 0 },
    { x: -12, y: a.width / 2, text: `${a.width} mm`, anchor: 'middle', turn: -90 },
  ]);
}

function sheet(a: Arc): ReturnType<typeof boxed> {
  const pen = new Pen();
  const long = a.foot + (a.radius + 1.2) * a.angle + a.tip;
  pen.add('bed', undefined, ...rectangle(0, 0, 600, 400), 'close');
  pen.add('outer', 'panel', ...rectangle(20, 20, long, a.width), 'close');
  stationsOf(a).forEach((s, i) => pen.add('score', `score ${i + 1}`, [20 + s * 1.01, 15], [20 + s * 1.01, a.width + 25]));
  const rib = [...span(long).map((s) => bent(a, s, 0)), ...span(long).map((s) => bent(a, s, -34 + (20 * s) / long)).reverse()];
  pen.add('outer', 'rib1', ...rib.map(([x, y]): [number, number] => [x + 60 + long, y + 30]), 'close');
  return boxed('sheet1', 'Sheet 1 of 1, as the machine sees it', pen, [{ x: 20 + long / 2, y: a.width + 36, text: 'panel', anchor: 'middle', turn: 0 }]);
}
