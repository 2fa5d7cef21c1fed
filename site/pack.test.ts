import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Answer, Question } from './core';
import { effort, Packer, slice, workers, type PackCore } from './pack';
import { get, set, type Doc } from './path';
import { State } from './state';
import type { Store } from './store';
import { Fixture } from './testing/fixture';

/** Puts the number of the answer in the place of the places. Each is better than the one before; the last is said to end it. */
class Fake implements PackCore {
  asked: Question[] = [];
  ended = false;
  hold: Promise<void> | undefined;
  constructor(readonly last = 4, readonly name = '', readonly better = 0) {}
  async ask(question: Question): Promise<Answer> {
    this.asked.push(question);
    await this.hold;
    const n = this.asked.length;
    const design = set(question.design as Doc, 'cut.places', [{ part: 'panel', copy: this.name + String(n) }]);
    return { reply: { id: n, design, packed: { text: `Layout ${this.name}${n}.`, done: n / this.last, rank: 100 - n - this.better } }, streams: [] };
  }
  end(): void { this.ended = true; }
}

/** Can't be asked. */
class Broken extends Fake {
  override async ask(question: Question): Promise<Answer> {
    this.asked.push(question);
    return { reply: { id: 1, error: 'It broke.' }, streams: [] };
  }
}

const nowhere: Store = { load: () => undefined, save: () => true } as unknown as Store;

async function started(): Promise<State> {
  const state = new State(new Fixture(), nowhere);
  await state.start();
  return state;
}

/** A packer whose workers are those given. */
function packerOf(state: State, fakes: Fake[], changed: (packer: Packer) => void = () => undefined): Packer {
  const left = [...fakes];
  const packer: Packer = new Packer(state, () => left.shift()!, () => changed(packer), fakes.length);
  return packer;
}

const firstCopy = (state: State): unknown => get(state.doc, 'cut.places.0.copy');

test('packing goes on slice by slice from what it found, and is one step of undo', async () => {
  const state = await started();
  const before = state.doc, fake = new Fake();
  const shares: (number | undefined)[] = [];
  const packer = packerOf(state, [fake], (p) => shares.push(p.done));
  await packer.run();
  assert.deepEqual(fake.asked.map((q) => [q.effort, q.slice, q.seed]), Array.from({ length: 4 }, () => [effort, slice, 0]));
  assert.deepEqual(fake.asked.map((q) => get(q.design as Doc, 'cut.places.0.copy')), [undefined, '1', '2', '3']);
  assert.equal(firstCopy(state), '4');
  assert.deepEqual(shares, [0, 0.25, 0.5, 0.75, 1, undefined]);
  assert.equal(packer.said, 'Layout 4.');
  assert.ok(fake.ended && !packer.busy);
  state.undo();
  assert.deepEqual(state.doc, before);
});

test('several workers share the best layout, each with a seed of its own', async () => {
  const state = await started();
  const good = new Fake(3, 'good', 50), other = new Fake(6, 'other');
  const packer = packerOf(state, [other, good]);
  await packer.run();
  assert.deepEqual([other, good].map((f) => f.asked[0]!.seed), [0, 1]);
  assert.match(String(get(other.asked.at(-1)!.design as Doc, 'cut.places.0.copy')), /^good/, 'it is told of the better one');
  assert.equal(firstCopy(state), 'good3');
  assert.equal(packer.said, 'Layout good3.');
});

test('a worker that breaks leaves the others at work, and what was found', async () => {
  const state = await started();
  const packer = packerOf(state, [new Broken(), new Fake()]);
  await packer.run();
  assert.equal(firstCopy(state), '4');
  assert.equal(packer.said, 'Layout 4.');
  const alone = packerOf(state, [new Broken()]);
  await alone.run();
  assert.equal(alone.said, 'It broke.');
  assert.equal(firstCopy(state), '4');
});

test('a change of the design ends packing and is kept', async () => {
  const state = await started();
  const fake = new Fake();
  let go = (): void => undefined;
  fake.hold = new Promise((done) => { go = done; });
  const packer = packerOf(state, [fake]);
  const run = packer.run();
  state.set('curve.radius', '140');
  go();
  await run;
  assert.equal(get(state.doc, 'curve.radius'), '140');
  assert.equal(firstCopy(state), undefined);
  assert.match(packer.news, /changed/);
  assert.ok(fake.ended);
  state.set('curve.radius', '150');
  assert.equal(packer.news, '', 'nothing is left of it with another design');
});

test('stopping ends the workers at once and leaves what was found', async () => {
  const state = await started();
  const fakes = [new Fake(), new Fake()];
  const packer = packerOf(state, fakes, (p) => { if (p.said === 'Layout 1.') p.stop(); });
  await packer.run();
  assert.equal(firstCopy(state), '1');
  assert.match(packer.said, /Stopped there/);
  assert.ok(fakes.every((f) => f.ended) && !packer.busy);
  packer.rows();
  assert.deepEqual(get(state.doc, 'cut.places'), []);
});

test('there is a worker for each processor, but never many', () => {
  assert.deepEqual([0, 1, 2, 3, 16].map(workers), [1, 1, 2, 3, 3]);
});
