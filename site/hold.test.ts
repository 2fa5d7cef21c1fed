import assert from 'node:assert/strict';
import { test } from 'node:test';
import type { Answer, Question } from './core';
import { get, text, type Doc } from './path';
import type { PlanView, Space } from './messages';
import { withRest, type Core, type Picture } from './asking';
import { State } from './state';
import { shelfStore } from './store';
import { Fixture } from './testing/fixture';
import { MemoryShelf } from './testing/shelf';

/** A core that moves a handle by writing where it was put into the radius. */
class Moving implements Core {
  readonly fixture = new Fixture();
  /** While set, answers wait here. */
  held: (() => void)[] | undefined;
  /** What was asked to be shown with each plan. */
  readonly shown: (string | undefined)[] = [];
  /** Whether plans have bodies in space when those are asked for. */
  bodies = false;

  async ask(question: Question): Promise<Answer> {
    if (question.kind === 'plan') this.shown.push(question.show);
    if (this.held) await new Promise<void>((done) => this.held!.push(done));
    if (question.kind !== 'plan' || !question.drag) {
      const answer = await this.fixture.ask(question);
      const { plan } = answer.reply;
      return plan && this.bodies && question.show === 'space' ? { ...answer, reply: { ...answer.reply, plan: { ...plan, space: {} as Space } } } : answer;
    }
    const { handle, x } = question.drag;
    const set: Record<string, string> = handle === 'ribs' ? { 'rib.places.0.across': '-20', 'rib.places.1.across': String(x) } : { 'curve.radius': String(x) };
    const base = question.design as Doc;
    const answer = await this.fixture.ask({ kind: 'plan', design: handle === 'ribs' ? base : { ...base, curve: { ...(base.curve as Doc), radius: String(x) } } });
    return { ...answer, reply: { ...answer.reply, set } };
  }
}

async function started(): Promise<{ state: State; core: Moving }> {
  const core = new Moving();
  const state = new State(core, shelfStore(() => new MemoryShelf()));
  await state.start();
  return { state, core };
}

const radius = (state: State): string => text(state.doc, 'curve.radius');

const drag = (x: number, handle = 'crown'): { handle: string; x: number; y: number } => ({ handle, x, y: 0 });

test('what is pulled changes the numbers and the drawing, and is one step of undo', async () => {
  const { state } = await started();
  const before = radius(state);
  const grip = state.held.take('Radius');
  for (const x of [111, 112, 113.5]) await state.held.pull(grip, drag(x));
  assert.equal(radius(state), '113.5');
  assert.equal(state.asked.picture?.doc, state.doc);
  assert.equal(state.asked.stale, false);
  assert.equal(state.history.past.length, 1);
  assert.equal(state.history.past[0]!.label, 'Radius');
  state.held.letGo();
  assert.equal(state.held.grip, undefined);
  state.undo();
  assert.equal(radius(state), before);
  state.redo();
  assert.equal(radius(state), '113.5');
});

test('every hold is a step of its own', async () => {
  const { state } = await started();
  await state.held.pull(state.held.take('Radius'), drag(120));
  state.held.letGo();
  await state.held.pull(state.held.take('Radius'), drag(130));
  assert.equal(state.history.past.length, 2);
  state.undo();
  assert.equal(radius(state), '120');
});

test('a hold that moves nothing leaves no step', async () => {
  const { state } = await started();
  await state.held.pull(state.held.take('Radius'), drag(Number(radius(state))));
  assert.equal(state.history.past.length, 0);
});

test('an answer that comes after the hand let go still counts', async () => {
  const { state, core } = await started();
  const grip = state.held.take('Radius');
  core.held = [];
  const pulled = state.held.pull(grip, drag(125));
  state.held.letGo();
  core.held[0]!();
  core.held = undefined;
  await pulled;
  assert.equal(radius(state), '125');
  assert.equal(state.history.past.length, 1);
});

test('an answer that comes after something else was done is passed over', async () => {
  const { state, core } = await started();
  const grip = state.held.take('Radius');
  core.held = [];
  const pulled = state.held.pull(grip, drag(125));
  state.set('curve.radius', '99');
  assert.equal(state.held.holds(grip), false);
  for (const go of core.held) go();
  core.held = undefined;
  await pulled;
  assert.equal(radius(state), '99');
});

test('what was held is planned whole once it is let go', async () => {
  const { state, core } = await started();
  const grip = state.held.take('Radius');
  await state.held.pull(grip, drag(125));
  const plans = core.shown.length;
  state.held.letGo();
  await new Promise((done) => setTimeout(done));
  assert.equal(core.shown.length, plans + 1);
  assert.equal(state.asked.picture?.doc, state.doc);
  state.held.letGo(); // nothing is held any more
  state.held.take('Radius');
  state.held.letGo(); // and this moved nothing
  await new Promise((done) => setTimeout(done));
  assert.equal(core.shown.length, plans + 1);
});

test('a partial picture takes test strips and files from the one before', () => {
  const picture = (ids: string[], more: object): Picture => ({
    doc: {}, streams: [...ids, ...('space' in more ? ['body', 'edges'] : [])].map((id) => new Float32Array([id.length])),
    plan: { drawings: ids.map((id) => ({ id })), ...more } as unknown as PlanView,
  });
  const before = picture(['bent', 'flat', 'sheet1', 'sheet2', 'readings', 'strips1', 'isometric'], { files: [{ name: 'all' }] });
  const whole = withRest(picture(['bent', 'flat', 'sheet1'], { files: [], partial: true, space: { first: 3 } }), before);
  assert.deepEqual(whole.plan.drawings.map((d) => d.id), ['bent', 'flat', 'sheet1', 'readings', 'strips1'], 'a sheet that has gone stays away');
  assert.deepEqual(whole.streams.map((s) => s[0]), [4, 4, 6, 8, 7, 4, 5]);
  assert.equal(whole.plan.space?.first, 5);
  assert.deepEqual(whole.plan.files, before.plan.files);
  const kept = { ...before, plan: { ...before.plan, files: [{ name: 'a.svg', label: 'Cut file', about: '' }] } };
  assert.equal(withRest(picture(['bent'], { files: [] }), kept).plan.files.length, 1);
  assert.equal(withRest(picture(['bent'], { files: [], withheld: ['The parts overlap.'] }), kept).plan.files.length, 0, 'a file that is withheld is not offered meanwhile');
  const drawn = withRest(picture(['bent', 'isometric'], { files: [] }), before);
  assert.deepEqual(drawn.plan.drawings.map((d) => d.id), ['bent', 'readings', 'strips1', 'isometric']);
});

test('what is given back is as it was', async () => {
  const { state } = await started();
  const before = state.doc;
  const grip = state.held.take('Radius');
  await state.held.pull(grip, drag(140));
  state.held.giveBack(grip);
  assert.deepEqual(state.doc, before);
  assert.equal(state.held.holds(grip), false);
  const again = state.held.take('Radius');
  state.held.giveBack(again);
  assert.deepEqual(state.doc, before, 'nothing moved, nothing to undo');
});

test('a handle that gives ribs places of their own writes all of them, and undo takes all away', async () => {
  const { state } = await started();
  await state.held.pull(state.held.take('Place of rib 2'), drag(33, 'ribs'));
  assert.deepEqual(get(state.doc, 'rib.places'), [{ across: '-20' }, { across: '33' }]);
  await state.held.pull(state.held.take('Place of rib 2'), drag(34, 'ribs'));
  assert.deepEqual(get(state.doc, 'rib.places'), [{ across: '-20' }, { across: '34' }]);
  state.undo();
  state.undo();
  assert.equal(get(state.doc, 'rib.places'), undefined);
});

test('what is wanted besides is asked for with every plan', async () => {
  const { state, core } = await started();
  state.asked.look({ show: 'space' });
  await state.held.pull(state.held.take('Radius'), drag(120));
  state.asked.look({ show: 'space' });
  state.asked.look({ show: 'isometric', folded: 0.5 });
  await new Promise((done) => setTimeout(done));
  assert.deepEqual(core.shown, [undefined, 'space', 'space', 'isometric'], 'once for each change, and with the drag');
});

test('once there are bodies in space, drafts and drags go without them', async () => {
  const { state, core } = await started();
  core.bodies = true;
  state.asked.look({ show: 'space' });
  await new Promise((done) => setTimeout(done));
  await state.held.pull(state.held.take('Radius'), drag(120));
  assert.deepEqual(core.shown, [undefined, 'space', undefined]);
});

test('presses on one handle are one step of undo, however long one waits between them', async () => {
  const { state } = await started();
  const before = radius(state);
  let grip = state.held.take('Radius');
  for (const x of [111, 112, 113, 114, 115]) {
    await state.held.pull(grip, drag(x));
    state.held.letGo();
    await new Promise((done) => setTimeout(done));
    grip = state.held.takeAgain(grip);
  }
  assert.equal(state.history.past.length, 1);
  state.undo();
  assert.equal(radius(state), before);
});

test('what is pulled and comes back to where it was leaves no step, and giving it back takes no other', async () => {
  const { state } = await started();
  const before = radius(state);
  state.set('panel.width', '99');
  const grip = state.held.take('Radius');
  for (const x of [150, Number(before)]) await state.held.pull(grip, drag(x));
  assert.equal(state.history.past.length, 1);
  state.held.giveBack(grip);
  assert.equal(text(state.doc, 'panel.width'), '99');
  assert.equal(radius(state), before);
});
