// The page's state: the document with its history, and what the eye is on. What is kept,
// what is held and what is asked of the core are its members. Views read it and call it;
// it draws nothing.
import { Asking, type Core } from './asking';
import type { First } from './first';
import { type Focus, sameFocus } from './focus';
import { change, History, type Change, type Step } from './history';
import { Holding } from './holding';
import { Keeping } from './keeping';
import type { Control } from './messages';
import { get, likeBefore, set, text, type Doc, type Json } from './path';
import type { Saved, Store } from './store';
import { holds, type Condition } from './when';

/** What changed: "all" redraws the page, "light" only what is lit in the drawings. */
export type Topic = 'all' | 'light';

/** Everything the views show. */
export class State {
  doc: Doc = {};
  history = new History();
  /** A sentence about the page itself: a file opened, a core restarted. */
  notice = '';
  /** What a button beside the notice does: save a file, or bring back what was deleted. */
  offer: 'file' | 'restore' | undefined;
  /** What a newcomer should know of the design; gone with the first change. */
  intro = '';
  /** Ids of the open cards. */
  open = new Set<string>();
  /** What is lit. */
  focus: Focus = {};
  /** Path of the field that wants the keyboard once it is on the page. */
  wanted = '';

  readonly asked: Asking;
  readonly held: Holding;
  readonly kept: Keeping;

  private readonly watchers = new Map<() => void, Topic>();

  constructor(core: Core, store: Store) {
    this.asked = new Asking(core, this);
    this.held = new Holding(this.asked, this);
    this.kept = new Keeping(store, this);
  }

  /** Calls watcher after each change of topic; "all" watchers hear nothing of light. */
  watch(watcher: () => void, topic: Topic): () => void {
    this.watchers.set(watcher, topic);
    return () => void this.watchers.delete(watcher);
  }

  /** Tells those who watch. */
  tell(topic: Topic = 'all'): void {
    for (const [watcher, of] of this.watchers) if (topic === 'all' || of === topic) watcher();
  }

  /**
   * Brings back the kept work, or the first example, shows what is known of it already, and
   * asks for a plan. The form is asked for where it did not come with the page.
   */
  async start(first?: First): Promise<void> {
    const saved = this.kept.load();
    if (saved) {
      this.doc = saved.doc;
      this.history = new History(saved.past, saved.future);
    }
    if (first) {
      this.asked.controls = first.controls;
      this.kept.build = first.build;
      this.exampleUnless(saved);
      const known = saved ? this.kept.answer() : first.answer;
      if (known) this.asked.begin(known, this.doc);
      return this.asked.replan();
    }
    if (saved) void this.asked.replan();
    if (!(await this.asked.form())) return;
    this.exampleUnless(saved);
    this.tell();
    await this.asked.replan();
  }

  private exampleUnless(saved: Saved | undefined): void {
    if (saved) return;
    const first = this.asked.controls?.examples[0];
    this.doc = (first?.design ?? this.blank) as Doc;
    if (first) this.intro = `A worked example. ${first.about} Change it, or take New.`;
  }

  // ---- reading

  /** The value that counts at path: what is typed, or what an empty field means. */
  effective(path: string): string {
    const typed = text(this.doc, path);
    if (typed !== '') return typed;
    const control = this.asked.controls?.controls.find((c) => c.path === path);
    const fallback = this.asked.field(path).default ?? '';
    return control?.choices?.find((c) => c.label === fallback)?.value ?? fallback;
  }

  /** Whether a control's condition holds now. */
  shown(when: Condition): boolean { return holds(when, (p) => this.effective(p)); }

  /** Labels of what was changed since the document that the drawings show. */
  changedSince(doc: Doc): string[] {
    return (this.asked.controls?.controls ?? []).filter((c) => get(doc, c.path) !== get(this.doc, c.path)).map((c) => c.label);
  }

  /** Whether one can go to a field: it has a control, and that is not hidden now. */
  reachable(path: string): boolean {
    const control = this.controlOf(path);
    return control !== undefined && this.shown(control.when);
  }

  /** The control of a field, or of the list that the field is part of. */
  controlOf(path: string): Control | undefined {
    return this.asked.controls?.controls.find((c) => path === c.path || path.startsWith(`${c.path}.`));
  }

  /** Designs that the core gave: the examples and the empty one. */
  get given(): Doc[] {
    const { examples = [], empty } = this.asked.controls ?? {};
    return [...examples.map((e) => e.design), ...(empty === undefined ? [] : [empty])] as Doc[];
  }

  /** The document that a new design starts from. */
  get blank(): Doc { return (this.asked.controls?.empty ?? {}) as Doc; }

  // ---- changing

  /** Puts what is typed or chosen at path. Typing in one field is one step of undo. */
  set(path: string, value: Json | undefined, typing = false): void {
    if (get(this.doc, path) === value) return;
    this.commit(path, [change(this.doc, path, value)], typing ? path : undefined);
  }

  /** Takes an option. Corners start from the shape that was there before. */
  choose(path: string, value: string): void {
    const { corners } = this.asked.plan, old = get(this.doc, 'panel.corners');
    if (path !== 'panel.shape' || value !== 'polygon' || !corners?.length || (Array.isArray(old) && old.length)) return this.set(path, value);
    this.commit(path, [change(this.doc, path, value), change(this.doc, 'panel.corners', corners as unknown as Json)]);
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
    const design = this.kept.begin();
    this.commit(label, [change(this.doc, '', doc)], undefined, design);
  }

  /** Makes changes, as one step of undo or as more of the last one where its key is the same. */
  commit(label: string, changes: Change[], key?: string, design?: Step['design']): void {
    this.held.drop();
    this.history.record(design ? { label, changes, design } : { label, changes }, key);
    this.say('');
    this.intro = '';
    this.show(changes.reduce((d, c) => set(d, c.path, c.after), this.doc));
  }

  /** Takes the document that the core made of a pull, and does not ask for another plan. */
  follow(doc: Doc, label: string, changes: Change[], key: string): void {
    this.history.record({ label, changes }, key);
    this.doc = doc;
    this.notice = this.intro = '';
    this.offer = undefined;
    this.kept.soon();
  }

  /** Ends a run of typing. */
  seal(): void { this.history.seal(); }

  undo(): void {
    const step = this.history.past.at(-1);
    this.step(step, step?.design?.before, () => this.history.undo(this.doc));
  }

  /** Undoes the step of this key, where it is the last one and may still grow. */
  takeBack(key: string): void {
    if (this.history.isOpen(key)) this.undo();
  }

  redo(): void {
    const step = this.history.future.at(-1);
    this.step(step, step?.design?.after, () => this.history.redo(this.doc));
  }

  private step(step: Step | undefined, id: string | undefined, go: () => Doc): void {
    if (step?.design) this.kept.leave();
    const doc = go();
    if (step?.design) this.kept.arrive(id, doc);
    this.show(doc);
  }

  private show(doc: Doc): void {
    if (doc === this.doc) return;
    this.held.drop();
    this.doc = doc;
    this.kept.soon();
    void this.asked.replan();
    this.tell();
  }

  /** Shows another design with its history. */
  settle(work: Saved): void {
    this.seal();
    this.held.drop();
    this.intro = '';
    this.history = new History(work.past, work.future);
    this.doc = work.doc;
    this.say('');
    void this.asked.replan();
  }

  // ---- what the eye is on

  /** Closes the cards, and the drawings are of another design from the next answer on. */
  putAway(): void {
    this.open.clear();
    this.asked.putAway();
  }

  /** Shows a sentence about the page itself, with something offered beside it. */
  say(notice: string, offer?: State['offer']): void {
    this.notice = notice;
    this.offer = offer;
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

  /** Lights a place in the drawings and the form. */
  light(focus: Focus): void {
    if (sameFocus(focus, this.focus)) return;
    this.focus = focus;
    this.tell('light');
  }
}
