import assert from 'node:assert/strict';
import { test } from 'node:test';
import { holds } from './when';

const values: Record<string, string> = { 'curve.kind': 'chain', 'panel.tipRound': 'true', 'panel.shape': 'taper' };
const lookup = (path: string): string => values[path] ?? '';

test('conditions', () => {
  for (const [condition, wanted] of [
    [undefined, true], ['', true],
    ['curve.kind=chain', true], ['curve.kind=span-rise', false], ['curve.kind=span-rise|chain', true],
    ['curve.kind=chai', false], ['curve.kind=chain & panel.shape=taper', true], ['curve.kind=chain & panel.shape=rectangle', false],
    ['panel.tipRound=true', true], ['rib.foot=', true], ['rib.foot=stub', false], ['curve.kind!=chain', false], ['curve.kind!=span-rise', true],
  ] as const) assert.equal(holds(condition, lookup), wanted, condition);
});

test('what is no condition is the table’s mistake', () => {
  assert.throws(() => holds('curve.kind', lookup), SyntaxError);
});
