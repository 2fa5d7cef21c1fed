import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Answer, Question } from './core';
import { Packer, rounds, type PackCore } from './pack';
import { get, set, type Doc } from './path';
import { State } from './state';
import type { Store } from './store';
import { Fixture } from './testing/fixture';

/** Puts each round's number in the place of the places. */
class Fake implements PackCore {
  asked: Question[] = [];
  ended = false;
  hold: Promise<void> | undefined;
  async ask(question: Question): Promise<Answer> {
    this.asked.push(question);
    await this.hold;
    const round = this.asked.length;
    return { reply: { id: round, design: set(question.design as Doc, 'cut.places', [{ part: 'panel', copy: String(round) }]), packed: { sheets: 1, text: `Round ${round}.` } }, streams: [] };
  }
  end(): void { this.ended = true; }
}

const nowhere: Store = { load: () => undefined, save: () => true } as unknown as Store;

async function started(): Promise<State> {
  const state = new State(new Fixture(), nowhere);
  await state.start();
  return state;
}

const firstCopy = (state: State): unknown => get(state.doc, 'cut.places.0.copy');

test('packing goes round by round with more effort, and is one step of undo', async () => {
  const state = await started();
  const before = state.doc, fake = new Fake();
  const packer = new Packer(state, () => fake, () => undefined);
  await packer.run();
  assert.deepEqual(fake.asked.map((q) => q.effort), rounds);
  assert.equal(firstCopy(state), String(rounds.length));
  assert.equal(packer.said, `Round ${rounds.length}.`);
  assert.ok(fake.ended && !packer.busy);
  state.undo();
  assert.deepEqual(state.doc, before);
});

test('a change of the design ends packing and is kept', async () => {
  const state = await started();
  const fake = new Fake();
  let go = (): void => undefined;
  fake.hold = new Promise((done) => { go = done; });
  const packer = new Packer(state, () => fake, () => undefined);
  const run = packer.run();
  state.set('curve.radius', '140');
  go();
  await run;
  assert.equal(get(state.doc, 'curve.radius'), '140');
  assert.equal(firstCopy(state), undefined);
  assert.match(packer.news, /changed/);
  state.set('curve.radius', '150');
  assert.equal(packer.news, '', 'nothing is left of it with another design');
});

test('stopping ends the worker at once and leaves what was found', async () => {
  const state = await started();
  const fake = new Fake();
  const packer = new Packer(state, () => fake, () => {
    if (packer.said === 'Round 1.') packer.stop();
  });
  await packer.run();
  assert.equal(firstCopy(state), '1');
  assert.ok(fake.ended && !packer.busy);
  packer.rows();
  assert.deepEqual(get(state.doc, 'cut.places'), []);
});
