import assert from 'node:assert/strict';
import { test } from 'node:test';
import { legendOf, strokes } from './roles';

const items = (...roles: string[]): { role: string; n: number }[] => roles.map((role, n) => ({ role, n }));

const groups = (...roles: string[]): string[] => strokes(items(...roles)).map(({ role, runs }) => `${role} ${runs.map((r) => r.n).join(',')}`);

test('neighbours of one role share a path', () => {
  assert.deepEqual(groups('score', 'score', 'mark', 'score', 'score', 'score'), ['score 0,1', 'mark 2', 'score 3,4,5']);
  assert.deepEqual(groups(), []);
});

test('what is filled keeps a path of its own, for it covers what came before', () => {
  assert.deepEqual(groups('rib', 'rib', 'panel', 'score', 'score', 'face', 'face'), ['rib 0', 'rib 1', 'panel 2', 'score 3,4', 'face 5', 'face 6']);
});

test('nothing is lost and the order stays, however many there are', () => {
  const many = items(...Array.from({ length: 1203 }, (_, i) => (i % 500 < 430 ? 'outer' : i % 3 ? 'inner' : 'rib')));
  const drawn = strokes(many);
  assert.deepEqual(drawn.flatMap(({ runs }) => runs), many);
  assert.ok(drawn.every(({ role, runs }) => runs.length > 0 && runs.every((r) => r.role === role)));
  assert.ok(Math.max(...drawn.map(({ runs }) => runs.length)) < 430, 'a path does not grow without end');
});

test('a legend names each role once, in its own order', () => {
  assert.deepEqual(legendOf([{ items: items('rib', 'score', 'dimension') }, { items: items('score', 'bed') }]), ['score', 'rib', 'bed']);
});
