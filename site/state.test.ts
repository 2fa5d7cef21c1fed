import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Answer, Question } from './core';
import { text, type Doc } from './path';
import { State, type Core } from './state';
import type { Saved, Store } from './store';
import { Fixture, hood, table } from './testing/fixture';

class Shelf implements Store {
  work: Saved | undefined;
  full = false;
  load(): Saved | undefined { return this.work; }
  save(work: Saved): boolean {
    if (!this.full) this.work = work;
    return !this.full;
  }
}

async function started(core: Core = new Fixture(), store = new Shelf()): Promise<State> {
  const state = new State(core, store);
  await state.start();
  return state;
}

const drawnOf = (state: State): Doc | undefined => state.picture?.doc;

const turn = (): Promise<void> => new Promise((done) => setTimeout(done));

test('a newcomer meets the first example, drawn', async () => {
  const state = await started();
  assert.equal(state.doc, table.examples[0]!.design);
  assert.equal(state.picture?.doc, state.doc);
  assert.match(state.intro, /worked example/);
  state.set('curve.radius', '120');
  assert.equal(state.intro, '');
});

test('kept work comes back with its history', async () => {
  const store = new Shelf();
  const first = await started(new Fixture(), store);
  first.set('curve.radius', '120', true);
  first.keep();
  const second = await started(new Fixture(), store);
  assert.equal(text(second.doc, 'curve.radius'), '120');
  assert.equal(second.intro, '');
  second.undo();
  assert.equal(text(second.doc, 'curve.radius'), '110');
});

test('what can not be drawn leaves the last drawings and all that was typed', async () => {
  const state = await started();
  const before = state.picture;
  state.set('curve.radius', '1/');
  await turn();
  assert.equal(state.picture, before);
  assert.equal(state.stale, true);
  assert.equal(text(state.doc, 'curve.radius'), '1/');
  assert.match(state.field('curve.radius').problem ?? '', /1\//);
  assert.deepEqual(state.changedSince(before!.doc), ['Radius']);
  state.set('curve.radius', '120');
  await turn();
  assert.equal(state.stale, false);
  assert.equal(state.picture?.doc, state.doc);
});

test('an overtaken answer is passed over, a refused one says why', async () => {
  const answers: ((a: Answer) => void)[] = [];
  const fixture = new Fixture();
  const state = await started(fixture);
  const shown = state.picture;
  Object.assign(state, { core: { ask: (_: Question) => new Promise<Answer>((done) => answers.push(done)) } });
  state.set('curve.radius', '111');
  state.set('curve.radius', '112');
  answers[0]!({ reply: { id: 1 }, streams: [], superseded: true });
  await turn();
  assert.equal(state.picture, shown);
  assert.equal(state.stale, false);
  answers[1]!({ reply: { id: 2, error: 'This could not be worked out.' }, streams: [] });
  await turn();
  assert.equal(state.notice, 'This could not be worked out.');
  assert.equal(state.picture, shown);
  assert.equal(state.stale, true);
});

test('an empty choice counts as what the core says it means', async () => {
  const state = await started();
  state.set('curve.kind', '');
  await turn();
  assert.equal(state.effective('curve.kind'), 'radius-angle');
  assert.equal(state.shown('curve.kind=radius-angle'), true);
  assert.equal(state.reachable('curve.radius'), true);
  assert.equal(state.reachable('curve.span'), false);
  assert.equal(state.reachable('nowhere'), false);
});

test('a remedy is one step of undo', async () => {
  const state = await started();
  state.apply({ 'curve.radius': '130', 'panel.tipRound': 'true', 'sheet.readings': '3; 3.1' }, 'Use radius 130');
  assert.deepEqual([text(state.doc, 'curve.radius'), (state.doc.panel as Doc).tipRound, (state.doc.sheet as Doc).readings], ['130', true, ['3', '3.1']]);
  state.undo();
  assert.deepEqual(state.doc, hood);
  state.redo();
  assert.equal(text(state.doc, 'curve.radius'), '130');
});

test('another design closes the cards and can be undone', async () => {
  const state = await started();
  state.toggle('sheet');
  state.replace(table.examples[1]!.design as Doc, 'Bow');
  assert.equal(state.open.size, 0);
  state.undo();
  assert.equal(state.doc, hood);
});

test('the drawings of a design that was put away do not stand in for another', async () => {
  const state = await started();
  state.replace({ ...hood, curve: { radius: '1/' } }, 'Open');
  assert.notEqual(drawnOf(state), undefined, 'until the core has answered');
  await turn();
  assert.equal(drawnOf(state), undefined);
  assert.equal(state.stale, false);
  state.undo();
  await turn();
  assert.equal(drawnOf(state), hood);
});

test('going to a field opens its card, also for an item of a list', async () => {
  const state = await started();
  state.goTo('sheet.readings.3');
  assert.deepEqual([...state.open], ['sheet']);
  assert.equal(state.wanted, 'sheet.readings.3');
});

test('lighting a score disturbs the drawings alone', async () => {
  const state = await started();
  const heard: string[] = [];
  state.watch(() => heard.push('all'), 'all');
  const unwatch = state.watch(() => heard.push('light'), 'light');
  state.light({ score: 3 });
  state.light({ score: 3 });
  assert.deepEqual(heard, ['light']);
  state.say('x');
  assert.deepEqual(heard.slice(1).sort(), ['all', 'light']);
  unwatch();
  state.light({});
  assert.equal(heard.length, 3);
});

test('a browser that keeps nothing is told of', async () => {
  const store = new Shelf();
  const state = await started(new Fixture(), store);
  store.full = true;
  state.set('curve.radius', '120');
  state.keep();
  assert.match(state.notice, /Save the design to a file/);
  state.say('');
  state.keep();
  assert.equal(state.notice, '', 'once is enough');
});
