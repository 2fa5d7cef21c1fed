import assert from 'node:assert/strict';
import { test } from 'node:test';
import { drawingsOf, sketched } from './sketch';

test('words that are weak at a bench have a drawing, plain ones none', () => {
  for (const path of ['panel.scoredFace', 'rib.side', 'curve.line', 'panel.standOff', 'panel.minLand', 'rib.markStart']) assert.ok(drawingsOf(path) > 0, path);
  for (const path of ['name', 'panel.width', 'machine.speed']) assert.equal(drawingsOf(path), 0, path);
  assert.equal(new Set(sketched).size, sketched.length);
});
