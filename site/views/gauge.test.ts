import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Gauge } from '../messages';
import { along, gravity } from './gauge';

const at = (value: number): Gauge => ({ id: 'cracking', label: '', value, low: 0, high: 0, allowed: 0.67, text: '' });

test('a gauge grows grave at the allowed value and at the limit', () => {
  assert.deepEqual([0.5, 0.67, 0.68, 1, 1.01].map((v) => gravity(at(v))), ['sound', 'sound', 'warn', 'warn', 'stop']);
});

test('places along the beam grow with the value and stay on it', () => {
  const places = [-1, 0, 0.3, 0.67, 1, 1.29, 1.3, 9].map(along);
  assert.deepEqual(places, places.slice().sort((a, b) => a - b));
  assert.equal(places[0], places[1]);
  assert.equal(places.at(-1), places.at(-2));
  assert.ok(places[0]! >= 0 && places.at(-1)! <= 156);
});
