// The page's state: the document with its history, what the core last said of it, and
// what the hand or the eye is on. Views read it and call it; it draws nothing.
import type { Answer, Question } from './core';
import type { Control, Controls, Drag, Field, PlanView } from './messages';
import { change, History, type Change, type Step } from './history';
import { get, likeBefore, set, text, type Doc, type Json } from './path';
import { type Focus, sameFocus } from './focus';
import { newID, type Entry, type Kept, type Saved, type Store } from './store';
import { holds } from './when';

/** The core, or what stands in for it. Its promises don't reject. */
export interface Core { ask(question: Question): Promise<Answer> }

/** The last plan that could be drawn, with the document it shows. */
export interface Picture { plan: PlanView; streams: Float32Array[]; doc: Doc }

/** What is wanted of a plan besides the usual: the panel in space, bent so far. */
export type Sight = Pick<Question, 'show' | 'folded'>;

/** A handle that is held: the design as it was when it was taken, and a name for this hold. */
export interface Grip { base: Doc; key: string; label: string }

/** A design that a link brought. It is not kept until the person wants it, or changes it. */
export interface Guest {
  /** As it came. */
  doc: Doc;
  /** What a person should know of it. */
  said: string[];
  /** What was worked on before. */
  home: Saved & { id: string | undefined };
}

/** A partial picture with what it leaves out as the one before has it: drawings of other ids, and files. */
export function withRest(part: Picture, before: Picture): Picture {
  const { drawings, space } = part.plan;
  const has = new Set(drawings.map((d) => d.id));
  const rest = before.plan.drawings.map((view, at) => ({ view, stream: before.streams[at]! })).filter(({ view }) => isStrip(view.id) && !has.has(view.id));
  const at = drawings.findIndex((d) => d.id === 'isometric'); // it stands last, and so do the arrays of space
  const end = at < 0 ? drawings.length : at;
  return {
    doc: part.doc,
    streams: part.streams.toSpliced(end, 0, ...rest.map(({ stream }) => stream)),
    plan: {
      ...part.plan, files: part.plan.withheld ? [] : before.plan.files, drawings: drawings.toSpliced(end, 0, ...rest.map(({ view }) => view)),
      ...(space ? { space: { ...space, first: space.first + rest.length } } : {}),
    },
  };
}

const isStrip = (id: string): boolean => id === 'readings' || id.startsWith('strips');

/** A plan before the core has said anything. */
const emptyPlan: PlanView = {
  drawn: false,
  verdict: { severity: '', word: '', sentence: '', gauges: [] },
  cards: {}, fields: {}, findings: [], numbers: [], options: { heads: [], rows: [] }, scores: [], drawings: [], files: [], cautions: [],
};

/** What changed: "all" redraws the page, "light" only what is lit in the drawings. */
export type Topic = 'all' | 'light';

/** How long after a change it is kept, ms. */
const keepAfter = 300;

const unkept = {
  nowhere: 'This browser keeps nothing between visits. Save the design to a file before you leave.',
  full: 'This browser has no room left to keep the design. Save it to a file, or delete designs that you no longer need.',
};

/** Everything the views show. */
export class State {
  doc: Doc = {};
  history = new History();
  controls: Controls | undefined;
  /** What the core says of the present document, as of its last answer. */
  plan: PlanView = emptyPlan;
  picture: Picture | undefined;
  /** The document that plan is of. */
  planned: Doc | undefined;
  /** Whether the drawings show an earlier document than the last one asked about. */
  stale = false;
  /** A sentence about the page itself: a file opened, a core restarted. */
  notice = '';
  /** What a button beside the notice does: save a file, or bring back what was deleted. */
  offer: 'file' | 'restore' | undefined;
  /** The id of the design among those that are kept; none before it is kept first. */
  id: string | undefined;
  /** Set while a design from a link is only looked at. */
  guest: Guest | undefined;
  /** What a newcomer should know of the design; gone with the first change. */
  intro = '';
  /** Ids of the open cards. */
  open = new Set<string>();
  /** What is lit. */
  focus: Focus = {};
  /** Path of the field that wants the keyboard once it is on the page. */
  wanted = '';
  /** What is held; drawings keep their scale meanwhile. */
  grip: Grip | undefined;

  private sight: Sight = {};

  private grips = 0;
  /** The newest answer to a pull. */
  private pulled: Promise<unknown> | undefined;
  /** The grip whose answers still count. */
  private holding: Grip | undefined;
  private kept: Kept = 'kept';
  /** Whether there is something that was not kept yet. */
  private dirty = false;
  /** Whether the drawings still show a design that was put away. */
  private another = false;
  private keeping: ReturnType<typeof setTimeout> | undefined;
  private readonly watchers = new Map<() => void, Topic>();

  constructor(private readonly core: Core, private readonly store: Store) {}

  /** Calls watcher after each change of topic; "all" watchers hear nothing of light. */
  watch(watcher: () => void, topic: Topic): () => void {
    this.watchers.set(watcher, topic);
    return () => void this.watchers.delete(watcher);
  }

  private tell(topic: Topic = 'all'): void {
    for (const [watcher, of] of this.watchers) if (topic === 'all' || of === topic) watcher();
  }

  /** Brings back the kept work, or the first example, and asks for the form and a plan. */
  async start(): Promise<void> {
    const saved = this.store.load();
    if (saved) {
      this.id = saved.id;
      this.doc = saved.doc;
      this.history = new History(saved.past, saved.future);
      void this.replan();
    }
    const answer = await this.try({ kind: 'fields' });
    if (!answer?.reply.controls) return;
    this.controls = answer.reply.controls;
    const first = this.controls.examples[0];
    if (!saved) {
      this.doc = (first?.design ?? this.controls.empty) as Doc;
      if (first) this.intro = `A worked example to start from. ${first.about} Change what you like, or take New for a job of your own.`;
    }
    this.tell();
    await this.replan();
  }

  // ---- reading

  /** What the core says of a field. */
  field(path: string): Field { return this.plan.fields[path] ?? {}; }

  /** Whether the core has said anything of a design yet. */
  get answered(): boolean { return this.plan !== emptyPlan; }

  /** The value that counts at path: what is typed, or what an empty field means. */
  effective(path: string): string {
    const typed = text(this.doc, path);
    if (typed !== '') return typed;
    const control = this.controls?.controls.find((c) => c.path === path);
    const fallback = this.field(path).default ?? '';
    return control?.choices?.find((c) => c.label === fallback)?.value ?? fallback;
  }

  /** Whether a control's condition holds now. */
  shown(when: string | undefined): boolean { return holds(when, (p) => this.effective(p)); }

  /** Labels of what was changed since the document that the drawings show. */
  changedSince(doc: Doc): string[] {
    return (this.controls?.controls ?? []).filter((c) => get(doc, c.path) !== get(this.doc, c.path)).map((c) => c.label);
  }

  /** Whether one can go to a field: it has a control, and that is not hidden now. */
  reachable(path: string): boolean {
    const control = this.controlOf(path);
    return control !== undefined && this.shown(control.when);
  }

  // ---- changing

  /** Puts what is typed or chosen at path. Typing in one field is one step of undo. */
  set(path: string, value: Json | undefined, typing = false): void {
    if (get(this.doc, path) === value) return;
    this.commit(path, [change(this.doc, path, value)], typing ? path : undefined);
  }

  /** Puts texts at several paths at once, as a remedy does. */
  apply(texts: Record<string, string>, label: string): void {
    this.commit(label, Object.entries(texts).map(([path, value]) =>
      change(this.doc, path, likeBefore(get(this.doc, path), value))));
  }

  /** Takes another document of the same design, as after a change of units. */
  become(doc: Doc, label: string): void { this.commit(label, [change(this.doc, '', doc)]); }

  /** Takes another design; the former one stays among those kept, and undo brings it back. */
  replace(doc: Doc, label: string): void {
    this.goHome();
    this.leave();
    const before = this.id;
    this.id = newID();
    this.commit(label, [change(this.doc, '', doc)], undefined, { before, after: this.id });
  }

  private commit(label: string, changes: Change[], key?: string, design?: Step['design']): void {
    this.grip = this.holding = undefined;
    this.history.record(design ? { label, changes, design } : { label, changes }, key);
    this.say('');
    this.intro = '';
    this.show(changes.reduce((d, c) => set(d, c.path, c.after), this.doc));
  }

  // Keeps the present design before another takes its place, and puts away the drawings. An
  // example that nobody changed is not worth keeping.
  private leave(): void {
    this.keep();
    if (this.id !== undefined && this.unworked()) this.store.remove(this.id, false);
    this.open.clear();
    this.another = true;
  }

  private unworked(): boolean {
    const given = [...(this.controls?.examples ?? []).map((e) => e.design), this.controls?.empty];
    return given.some((d) => d === this.doc || JSON.stringify(d) === JSON.stringify(this.doc));
  }

  /** Ends a run of typing. */
  seal(): void { this.history.seal(); }

  undo(): void {
    const step = this.history.past.at(-1);
    this.step(step, step?.design?.before, () => this.history.undo(this.doc));
  }

  redo(): void {
    const step = this.history.future.at(-1);
    this.step(step, step?.design?.after, () => this.history.redo(this.doc));
  }

  private step(step: Step | undefined, id: string | undefined, go: () => Doc): void {
    if (step?.design) this.leave();
    const doc = go();
    if (step?.design) this.id = this.free(id, doc);
    this.show(doc);
  }

  // The id to keep a document under that was left a while ago: its own, unless something else
  // was made of that design meanwhile.
  private free(id: string | undefined, doc: Doc): string {
    const there = id === undefined ? undefined : this.store.read(id);
    return id === undefined || (there && JSON.stringify(there.doc) !== JSON.stringify(doc)) ? newID() : id;
  }

  private show(doc: Doc): void {
    if (doc === this.doc) return;
    this.grip = this.holding = undefined;
    this.doc = doc;
    this.keepSoon();
    void this.replan();
    this.tell();
  }

  // Not later for being asked again: whoever goes on typing is kept too.
  private keepSoon(): void {
    this.dirty = true;
    if (this.guest) this.takeIn();
    this.keeping ??= setTimeout(() => this.keep(), keepAfter);
  }

  /** Keeps what was changed now, as when the page is left. */
  keep(): void {
    clearTimeout(this.keeping);
    this.keeping = undefined;
    if (!this.dirty || this.guest) return;
    this.id ??= newID();
    const { past, future } = this.history;
    const before = this.kept;
    this.kept = this.store.save(this.id, { doc: this.doc, past, future });
    this.dirty = this.kept !== 'kept';
    if (this.kept !== before && this.dirty) this.say(unkept[this.kept as keyof typeof unkept], 'file');
  }

  /** Whether there are changes that would be lost with the page. */
  get unkept(): boolean { return this.dirty && this.kept !== 'kept'; }

  /** Shows a sentence about the page itself, with something offered beside it. */
  say(notice: string, offer?: State['offer']): void {
    this.notice = notice;
    this.offer = offer;
    this.tell();
  }

  // ---- several designs

  /** The designs that are kept, the latest first. */
  designs(): Entry[] { return this.store.list(); }

  /** Goes to another kept design, with its own history. */
  openKept(id: string): void {
    if (id === this.id && !this.guest) return;
    this.goHome();
    this.leave();
    const work = this.store.read(id);
    if (!work) return this.say('This design is not there any more: it was deleted, perhaps in another window.');
    if (this.unkept) { // the present one would be gone: it becomes a step of undo
      const before = this.id;
      this.id = id;
      return this.commit('Open', [change(this.doc, '', work.doc)], undefined, { before, after: id });
    }
    this.settle(work, id);
    this.dirty = true; // so that it is the one worked on last
    this.keep();
  }

  /** Gives a kept design another name. */
  rename(id: string, name: string): void {
    if (id === this.id) {
      this.seal();
      this.set('name', name);
      this.keep();
      return;
    }
    const work = this.store.read(id);
    if (!work || text(work.doc, 'name') === name) return;
    const named = change(work.doc, 'name', name);
    const history = new History(work.past, work.future);
    history.record({ label: 'name', changes: [named] });
    const last = this.id;
    const kept = this.store.save(id, { doc: set(work.doc, 'name', name), past: history.past, future: [] });
    if (last !== undefined && this.store.read(last)) this.store.touch(last);
    if (kept !== 'kept') this.say(unkept[kept], 'file');
    this.tell();
  }

  /** Deletes a kept design; restore brings it back. */
  remove(id: string): void {
    if (id === this.id) this.keep();
    const gone = this.store.list().find((e) => e.id === id);
    this.store.remove(id);
    if (id === this.id && !this.guest) this.afterRemoval();
    this.say(`Deleted ${gone?.name ? `“${gone.name}”` : 'a design without a name'}.`, 'restore');
  }

  private afterRemoval(): void {
    const next = this.store.list()[0];
    const work = next && this.store.read(next.id);
    this.open.clear();
    this.another = true;
    if (next && work) this.settle(work, next.id);
    else this.settle({ doc: (this.controls?.empty ?? {}) as Doc, past: [], future: [] }, undefined);
  }

  /** The design that was deleted last. */
  removed(): Entry | undefined { return this.store.removed(); }

  /** Brings back the design that was deleted last, and opens it. */
  restore(): void {
    const id = this.store.restore();
    if (id === undefined) return this.say('There is no deleted design to bring back.');
    this.openKept(id);
  }

  /** Told when another window kept the design of this id: this one follows, or goes its own way. */
  overtaken(id: string): void {
    if (id !== this.id || this.guest) return;
    const work = this.store.read(id);
    if (!work) return; // deleted there: the next change here keeps it again
    if (!this.dirty) return this.settle(work, id);
    this.id = newID();
    this.say('This design was changed in another window at the same time. Yours is kept as a design of its own.');
  }

  // ---- a design from a link

  /** Shows a design that is not kept, with what should be known of it. */
  visit(doc: Doc, said: string[]): void {
    this.goHome();
    this.keep();
    const { past, future } = this.history;
    const guest = { doc, said, home: { doc: this.doc, past, future, id: this.id } };
    this.open.clear();
    this.another = true;
    this.settle({ doc, past: [], future: [] }, undefined);
    this.guest = guest;
    this.tell();
  }

  /** Takes the design of a link in among the kept ones. */
  takeIn(): void {
    if (!this.guest) return;
    const { doc, home } = this.guest;
    this.guest = undefined;
    this.id = newID();
    if (this.kept !== 'kept') { // what was worked on before is nowhere else: undo brings it back
      const step = { label: 'Open', changes: [change(home.doc, '', doc)], design: { before: home.id, after: this.id } };
      this.history = new History([...home.past, step, ...this.history.past]);
    }
    this.dirty = true;
    this.keep();
    this.tell();
  }

  /** Goes back from the design of a link to what was worked on before. */
  goHome(): void {
    if (!this.guest) return;
    const { home } = this.guest;
    this.open.clear();
    this.another = true;
    this.settle(home, home.id);
  }

  // Shows another design with its history.
  private settle(work: Saved, id: string | undefined): void {
    this.seal();
    this.grip = this.holding = undefined;
    this.guest = undefined;
    this.intro = '';
    this.id = id;
    this.history = new History(work.past, work.future);
    this.doc = work.doc;
    this.say('');
    void this.replan();
  }

  /** Says what the present design is, until it is changed. */
  introduce(intro: string): void {
    this.intro = intro;
    this.tell();
  }

  toggle(card: string): void {
    if (!this.open.delete(card)) this.open.add(card);
    this.tell();
  }

  /** Opens the card of a field and asks for the keyboard to go there. */
  goTo(path: string): void {
    const card = this.controlOf(path)?.card;
    if (card) this.open.add(card);
    this.wanted = path;
    this.tell();
  }

  /** The control of a field, or of the list that the field is part of. */
  controlOf(path: string): Control | undefined {
    return this.controls?.controls.find((c) => path === c.path || path.startsWith(`${c.path}.`));
  }

  /** Lights a place in the drawings and the form. */
  light(focus: Focus): void {
    if (sameFocus(focus, this.focus)) return;
    this.focus = focus;
    this.tell('light');
  }

  // ---- holding

  /** Takes hold of a handle. What is moved until it is let go is one step of undo. */
  take(label: string): Grip {
    this.seal();
    this.grip = this.holding = { base: this.doc, key: `hold ${++this.grips}`, label };
    return this.grip;
  }

  /** Moves what a grip holds; the numbers follow with the core's answer, the newest alone. */
  async pull(grip: Grip, drag: Drag): Promise<void> {
    const asked = this.try({ kind: 'plan', design: grip.base, drag, ...this.sight });
    this.pulled = asked;
    const answer = await asked;
    const { plan, set: texts } = answer?.reply ?? {};
    if (!answer || answer.superseded || !plan || this.holding !== grip) return;
    const changes: Change[] = [];
    let doc = this.doc;
    for (const [path, value] of Object.entries(texts ?? {})) {
      if (text(doc, path) === value) continue;
      const made = change(doc, path, value); // one after the other: the first may make the list that the next is in
      changes.push(made);
      doc = set(doc, made.path, made.after);
    }
    if (changes.length > 0) {
      this.history.record({ label: grip.label, changes }, grip.key);
      this.doc = doc;
      this.notice = this.intro = '';
      this.offer = undefined;
      this.keepSoon();
    }
    this.accept(plan, answer.streams, this.doc);
    this.stale = this.picture?.doc !== this.doc;
    this.tell();
  }

  /** Whether nothing else was done since a grip was taken. */
  holds(grip: Grip): boolean { return this.holding === grip; }

  /** Takes hold again of what was let go. */
  hold(grip: Grip): void {
    if (this.holds(grip)) this.grip = grip;
  }

  /** Lets go, and brings back the design that was there when the grip was taken. */
  giveBack(grip: Grip): void {
    const moved = this.holds(grip) && this.doc !== grip.base;
    this.letGo();
    this.holding = undefined;
    if (moved) this.undo();
  }

  /**
   * Lets go. An answer that is still under way counts; after it the design is planned
   * whole, for while something is held what takes long is left out.
   */
  letGo(): void {
    const { grip } = this;
    if (!grip) return;
    this.grip = undefined;
    this.tell();
    void this.pulled?.then(() => {
      if (this.holds(grip) && !this.grip && this.doc !== grip.base) void this.replan();
    });
    this.pulled = undefined;
  }

  // ---- asking

  /** Wants more or less of each plan from now on, and a new one now. */
  look(sight: Sight): void {
    if (sight.show === this.sight.show && sight.folded === this.sight.folded) return;
    this.sight = sight;
    void this.replan();
  }

  /** Asks the core, for one who says himself what it can't answer. */
  ask(question: Question): Promise<Answer> { return this.core.ask(question); }

  /** Asks the core; when it can't answer, says so and gives undefined. */
  async try(question: Question): Promise<Answer | undefined> {
    const answer = await this.core.ask(question);
    if (!answer.reply.error) return answer;
    this.say(answer.reply.error);
    return undefined;
  }

  // The core answers plans in the order they were asked and skips those that a newer one
  // overtook, so that the latest answer always belongs to the latest document it had time for.
  // What nobody waits for is fetched once the drawings are there.
  private async replan(): Promise<void> {
    const doc = this.doc;
    const drawn = await this.plans(doc, { brief: true });
    if (drawn?.partial && this.doc === doc) await this.plans(doc, {});
  }

  private async plans(doc: Doc, how: { brief?: boolean }): Promise<PlanView | undefined> {
    const answer = await this.try({ kind: 'plan', design: doc, ...this.sight, ...how });
    if (answer?.superseded) return undefined;
    const plan = answer?.reply.plan;
    if (answer && plan) this.accept(plan, answer.streams, doc);
    this.stale = this.picture !== undefined && this.picture.doc !== doc;
    this.tell();
    return plan;
  }

  private accept(plan: PlanView, streams: Float32Array[], doc: Doc): void {
    const whole = plan.partial && this.picture && !this.another ? withRest({ plan, streams, doc }, this.picture) : { plan, streams, doc };
    this.plan = whole.plan;
    this.planned = doc;
    if (this.another) this.picture = undefined;
    this.another = false;
    if (plan.drawn) this.picture = whole;
  }
}
