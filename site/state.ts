// The page's state: the document with its history, what the core last said of it, and
// what the hand or the eye is on. Views read it and call it; it draws nothing.
import type { Answer, Question } from './core';
import type { Control, Controls, Drag, Field, PlanView } from './messages';
import { change, History, type Change } from './history';
import { get, likeBefore, set, text, type Doc, type Json } from './path';
import { type Focus, sameFocus } from './focus';
import type { Store } from './store';
import { holds } from './when';

/** The core, or what stands in for it. Its promises don't reject. */
export interface Core { ask(question: Question): Promise<Answer> }

/** The last plan that could be drawn, with the document it shows. */
export interface Picture { plan: PlanView; streams: Float32Array[]; doc: Doc }

/** What is wanted of a plan besides the usual: the panel in space, bent so far. */
export type Sight = Pick<Question, 'show' | 'folded'>;

/** A handle that is held: the design as it was when it was taken, and a name for this hold. */
export interface Grip { base: Doc; key: string; label: string }

/** A plan before the core has said anything. */
const emptyPlan: PlanView = {
  drawn: false,
  verdict: { severity: '', word: '', sentence: '', gauges: [] },
  cards: {}, fields: {}, findings: [], numbers: [], options: { heads: [], rows: [] }, scores: [], drawings: [], files: [], cautions: [],
};

/** What changed: "all" redraws the page, "light" only what is lit in the drawings. */
export type Topic = 'all' | 'light';

/** How long typing rests before it is kept, ms. */
const keepAfter = 300;

/** Everything the views show. */
export class State {
  doc: Doc = {};
  history = new History();
  controls: Controls | undefined;
  /** What the core says of the present document, as of its last answer. */
  plan: PlanView = emptyPlan;
  picture: Picture | undefined;
  /** Whether the drawings show an earlier document than the last one asked about. */
  stale = false;
  /** A sentence about the page itself: a file opened, a core restarted. */
  notice = '';
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
  /** The grip whose answers still count. */
  private holding: Grip | undefined;
  private keeps = true;
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

  /** Takes another design; undo brings the former one back. */
  replace(doc: Doc, label: string): void {
    this.open.clear();
    this.another = true;
    this.become(doc, label);
  }

  private commit(label: string, changes: Change[], key?: string): void {
    this.grip = this.holding = undefined;
    this.history.record({ label, changes }, key);
    this.notice = '';
    this.intro = '';
    this.show(changes.reduce((d, c) => set(d, c.path, c.after), this.doc));
  }

  /** Ends a run of typing. */
  seal(): void { this.history.seal(); }

  undo(): void { this.show(this.history.undo(this.doc)); }

  redo(): void { this.show(this.history.redo(this.doc)); }

  private show(doc: Doc): void {
    if (doc === this.doc) return;
    this.grip = this.holding = undefined;
    this.doc = doc;
    this.keepSoon();
    void this.replan();
    this.tell();
  }

  private keepSoon(): void {
    clearTimeout(this.keeping);
    this.keeping = setTimeout(() => this.keep(), keepAfter);
  }

  /** Keeps the work now, as when the page is left. */
  keep(): void {
    clearTimeout(this.keeping);
    const { past, future } = this.history;
    const kept = this.store.save({ doc: this.doc, past, future });
    const worse = this.keeps && !kept;
    this.keeps = kept;
    if (worse) {
      this.say('This browser keeps nothing between visits. Save the design to a file before you leave.');
    }
  }

  /** Shows a sentence about the page itself. */
  say(notice: string): void {
    this.notice = notice;
    this.tell();
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
    const answer = await this.try({ kind: 'plan', design: grip.base, drag, ...this.sight });
    const { plan, set: texts } = answer?.reply ?? {};
    if (!answer || answer.superseded || !plan || this.holding !== grip) return;
    const changes = Object.entries(texts ?? {})
      .map(([path, value]) => change(this.doc, path, value)).filter((c) => c.before !== c.after);
    if (changes.length > 0) {
      this.history.record({ label: grip.label, changes }, grip.key);
      this.doc = changes.reduce((d, c) => set(d, c.path, c.after), this.doc);
      this.notice = this.intro = '';
      this.keepSoon();
    }
    this.accept(plan, answer.streams, this.doc);
    this.stale = this.picture?.doc !== this.doc;
    this.tell();
  }

  /** Lets go. An answer that is still under way counts. */
  letGo(): void {
    if (!this.grip) return;
    this.grip = undefined;
    this.tell();
  }

  // ---- asking

  /** Wants more or less of each plan from now on, and a new one now. */
  look(sight: Sight): void {
    if (sight.show === this.sight.show && sight.folded === this.sight.folded) return;
    this.sight = sight;
    void this.replan();
  }

  /** Asks the core; when it can't answer, says so and gives undefined. */
  async try(question: Question): Promise<Answer | undefined> {
    const answer = await this.core.ask(question);
    if (!answer.reply.error) return answer;
    this.say(answer.reply.error);
    return undefined;
  }

  // The core answers plans in the order they were asked and skips those that a newer one
  // overtook, so that the latest answer always belongs to the latest document it had time for.
  private async replan(): Promise<void> {
    const doc = this.doc;
    const answer = await this.try({ kind: 'plan', design: doc, ...this.sight });
    if (answer?.superseded) return;
    if (answer?.reply.plan) this.accept(answer.reply.plan, answer.streams, doc);
    this.stale = this.picture !== undefined && this.picture.doc !== doc;
    this.tell();
  }

  private accept(plan: PlanView, streams: Float32Array[], doc: Doc): void {
    this.plan = plan;
    if (this.another) this.picture = undefined;
    this.another = false;
    if (plan.drawn) this.picture = { plan, streams, doc };
  }
}
