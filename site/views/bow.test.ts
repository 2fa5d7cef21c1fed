import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Handle } from '../messages';
import { bow } from './bow';

const handle = (id: string, field: string, value: number, x: number, y: number): Handle =>
  ({ id, label: '', text: '', x, y, ways: 'y', fields: [field], value, low: 0, high: 1e9 });

const numbers = (d: string): number[] => d.match(/-?\d+(\.\d+)?(e-?\d+)?/g)!.map(Number);
const close = (a: number, b: number): void => assert.ok(Math.abs(a - b) < 1e-6, `${a} is not ${b}`);

// A half circle of radius 50 over a middle at 0, 0, worked by hand: its crown is at 0, -50 and
// its end at 50, 0, as screens have it.
test('a half circle is drawn about its middle', () => {
  const out = bow({ handles: [handle('crown', 'curve.radius', 50, 0, -50), handle('arc-end', 'curve.angle', 180, 50, 0)] }, [{ x: 0, y: -53 }], 10)!;
  const [x0, y0, r] = numbers(out.lines);
  close(x0!, -63);
  close(y0!, 0);
  close(r!, 63);
  assert.deepEqual(out.figures.map((f) => [f.path, f.prefix]), [['curve.angle', ''], ['curve.radius', 'R']]);
  close(out.figures[0]!.x, -63 * Math.SQRT1_2); // half way from the crown to the beginning
  close(out.figures[0]!.y, -63 * Math.SQRT1_2);
  assert.match(out.lines, /L35\.35\d* -35\.35/, 'the line to the middle ends on the arc, half way to its end');
});

// A shallow arc of radius 450 and 60 degrees over a middle at 0, 0: its lowest place is at y -350.
test('the radius stands clear of the span under the lowest place', () => {
  const places = [-1, 1].map((side) => ({ x: 230 * side, y: -350 }));
  const out = bow({ handles: [handle('crown', 'curve.radius', 450, 0, -450), handle('arc-end', 'curve.angle', 60, 225, -389.711432)] }, places, 15)!;
  assert.ok(out.figures[1]!.y < -379, `${out.figures[1]!.y}`);
});

test('an arc by its length is the same arc', () => {
  const by = (field: string, value: number): string => bow({ handles: [handle('crown', 'curve.radius', 50, 0, -50), handle('arc-end', field, value, 50, 0)] }, [], 10)!.lines;
  numbers(by('curve.length', 50 * Math.PI)).forEach((v, i) => close(v, numbers(by('curve.angle', 180))[i]!));
});

// A far arc of radius 30 over the same middle, whose crown is at 0, -30.
test('the arc at the far rib has a radius of its own', () => {
  const near = [handle('crown', 'curve.radius', 50, 0, -50), handle('arc-end', 'curve.angle', 180, 50, 0)];
  const out = bow({ handles: [...near, handle('far-crown', 'curve.farRadius', 30, 0, -30)] }, [], 10)!;
  assert.deepEqual(out.figures.map((f) => f.path), ['curve.angle', 'curve.radius', 'curve.farRadius']);
  assert.match(out.lines, /L-21\.21\d* -21\.21/, 'its line ends on the far arc, half way to its beginning');
  assert.equal(bow({ handles: [...near, handle('far-crown', 'curve.farScale', 60, 0, -30)] }, [], 10)!.figures.length, 2);
});

test('what is given otherwise has no radius to type', () => {
  assert.equal(bow({ handles: [handle('crown', 'curve.rise', 40, 0, -50), handle('arc-end', 'curve.span', 100, 50, 0)] }, [], 10), undefined);
  assert.equal(bow({ handles: [] }, [], 10), undefined);
});
