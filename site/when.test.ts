import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Term } from './messages';
import { holds } from './when';

const counts: Record<string, string> = { 'curve.kind': 'chain', 'panel.tipRound': 'true', 'panel.shape': 'taper' };
const or = (term: Term, ...others: Term[]): Term => ({ ...term, or: others });
const is = (path: string, ...values: string[]): Term => ({ path, values });

test('conditions', () => {
  for (const [condition, wanted] of [
    [undefined, true], [[], true],
    [[is('curve.kind', 'chain')], true], [[is('curve.kind', 'span-rise')], false], [[is('curve.kind', 'span-rise', 'chain')], true],
    [[is('curve.kind', 'chai')], false], [[is('curve.kind', 'chain'), is('panel.shape', 'taper')], true],
    [[is('curve.kind', 'chain'), is('panel.shape', 'rectangle')], false], [[is('panel.tipRound', 'true')], true],
    [[or(is('curve.kind', 'cone'), is('panel.shape', 'taper'))], true], [[or(is('curve.kind', 'cone'), is('panel.shape', 'oval'))], false],
    [[is('rib.foot', '')], true], [[is('rib.foot', 'stub')], false],
  ] as const) assert.equal(holds(condition, (path) => counts[path] ?? ''), wanted, JSON.stringify(condition));
});
