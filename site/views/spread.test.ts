import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Point } from '../stream';
import { spread } from './spread';

const room = { x: 0, y: 0, w: 300, h: 200 };

function nearest(places: Point[]): number {
  let least = Infinity;
  places.forEach((a, i) => places.slice(i + 1).forEach((b) => (least = Math.min(least, Math.hypot(a.x - b.x, a.y - b.y)))));
  return least;
}

test('what is far enough from all others stays', () => {
  const places = [{ x: 10, y: 10 }, { x: 60, y: 10 }, { x: 200, y: 100 }, { x: 205, y: 101 }];
  const out = spread(places, 26, room);
  assert.deepEqual(out.slice(0, 2), places.slice(0, 2));
  assert.notDeepEqual(out[2], places[2]);
  assert.ok(nearest(out) > 25.5);
});

test('places one upon the other, in a row and in a corner come apart within the drawing', () => {
  const row = Array.from({ length: 7 }, (_, i) => ({ x: 100 + 9 * i, y: 100 }));
  const corner = [{ x: 299, y: 199 }, { x: 297, y: 198 }, { x: 290, y: 199 }];
  const heap = [{ x: 150, y: 20 }, { x: 150, y: 20 }, { x: 150, y: 20 }, { x: 151, y: 20 }];
  for (const places of [row, corner, heap, [...row, ...corner, ...heap]]) {
    const out = spread(places, 26, room);
    assert.ok(nearest(out) > 24, `${nearest(out)} apart`);
    for (const p of out) assert.ok(p.x >= 0 && p.x <= 300 && p.y >= 0 && p.y <= 200, JSON.stringify(p));
    out.forEach((p, i) => assert.ok(Math.hypot(p.x - places[i]!.x, p.y - places[i]!.y) < 90, 'not far from its place'));
  }
});

test('the same places are spread the same way, and are not changed', () => {
  const places = [{ x: 20, y: 20 }, { x: 22, y: 25 }, { x: 30, y: 20 }];
  const copy = structuredClone(places);
  assert.deepEqual(spread(places, 26, room), spread(places, 26, room));
  assert.deepEqual(places, copy);
  assert.deepEqual(spread([], 26, room), []);
});

test('a place outside of the drawing is not dragged in', () => {
  assert.deepEqual(spread([{ x: -40, y: 0 }, { x: 100, y: 0 }], 26, room), [{ x: -40, y: 0 }, { x: 100, y: 0 }]);
});
