import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Answer, Question } from './core';
import { Bringing, base64, roleOfRow, tooLarge } from './intake';
import { maxDrawing, maxRequest, type IntakeView } from './messages';

test('bytes go over as base64, whatever they are', () => {
  const bytes = Uint8Array.from({ length: 100_003 }, (_, i) => (i * 7919) % 256);
  assert.equal(base64(bytes), Buffer.from(bytes).toString('base64'));
  assert.equal(base64(new Uint8Array()), '');
});

test('a file of the greatest length fits into a question', () => {
  assert.ok(maxDrawing * 4 / 3 + 1e6 < maxRequest);
  assert.equal(tooLarge({ name: 'a.svg', size: maxDrawing }), '');
  assert.match(tooLarge({ name: 'a.svg', size: maxDrawing + 1 }), /^a\.svg has 17 MB; at most 16 MB/);
});

/** A core that answers when told to. */
class Slow {
  asked: Question[] = [];
  private readonly settle: ((a: Answer) => void)[] = [];
  ask = (question: Question): Promise<Answer> => {
    this.asked.push(question);
    return new Promise((r) => this.settle.push(r));
  };
  async answer(reply: Partial<Answer['reply']>): Promise<void> {
    this.settle.shift()!({ reply: { id: 0, ...reply }, streams: [new Float32Array([1])] });
    await new Promise((r) => setImmediate(r));
  }
}

const view = (name: string): IntakeView => ({ name }) as IntakeView;

function setUp(): { core: Slow; bringing: Bringing; told: () => number } {
  const core = new Slow();
  let told = 0;
  return { core, bringing: new Bringing(core.ask, () => ({ units: 'mm' }), { name: 'a.svg', base64: 'AAAA', card: 'panel' }, () => told++), told: () => told };
}

test('of choices made while an answer is on its way only the last is asked', async () => {
  const { core, bringing, told } = setUp();
  void bringing.choose({});
  void bringing.choose({ gap: '0.2' });
  const last = bringing.choose({ gap: '0.3' });
  assert.equal(core.asked.length, 1);
  assert.ok(bringing.busy);
  await core.answer({ intake: view('first') });
  assert.equal(core.asked.length, 2);
  assert.equal(core.asked[1]!.intake!.gap, '0.3');
  assert.equal(core.asked[1]!.intake!.base64, 'AAAA');
  await core.answer({ intake: view('second') });
  await last;
  assert.ok(!bringing.busy);
  assert.equal(bringing.view!.name, 'second');
  assert.equal(told(), 2);
});

test('a refusal is kept, and what was shown before stays', async () => {
  const { core, bringing } = setUp();
  void bringing.choose({});
  await core.answer({ intake: view('first') });
  void bringing.choose({ perInch: 96 });
  await core.answer({ error: 'This is neither SVG nor DXF.' });
  assert.equal(bringing.refusal, 'This is neither SVG nor DXF.');
  assert.equal(bringing.view!.name, 'first');
});

test('taking waits for the answer and gives the design or the reason', async () => {
  const { core, bringing } = setUp();
  void bringing.choose({});
  const took = bringing.take();
  assert.equal(core.asked.length, 1);
  await core.answer({ intake: view('first') });
  await core.answer({ design: { name: 'new' } });
  assert.deepEqual(await took, { name: 'new' });
  assert.equal(core.asked[1]!.kind, 'take');
  const refused = bringing.take();
  await new Promise((r) => setImmediate(r));
  await core.answer({ error: 'Say how large the drawing is.' });
  assert.equal(await refused, undefined);
  assert.equal(bringing.refusal, 'Say how large the drawing is.');
});

test('a role for a row is one for all of its paths', () => {
  assert.deepEqual(roleOfRow({ 'path 3': 'hole', 'path 9': 'mark' }, 'row 1', ['path 3', 'path 4'], 'unused'), { 'path 9': 'mark', 'row 1': 'unused' });
});
