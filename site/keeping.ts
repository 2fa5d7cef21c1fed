// What is kept: the designs of this browser with their histories, the one worked on among
// them, and a guest that a link brought, which is not kept yet.
import type { Picture } from './asking';
import type { Answer } from './core';
import { readAnswer, writtenAnswer } from './first';
import { change, History, type Change, type Step } from './history';
import { set, text, type Doc } from './path';
import { newID, type Entry, type Kept, type Saved, type Store } from './store';

/** A design that a link brought. It is not kept until the person wants it, or changes it. */
export interface Guest {
  /** As it came. */
  doc: Doc;
  /** What a person should know of it. */
  said: string[];
  /** What was worked on before. */
  home: Saved & { id: string | undefined };
}

/** What keeping needs of the page's state. */
export interface Desk {
  readonly doc: Doc;
  readonly asked: { picture: Picture | undefined; planned: Doc | undefined };
  history: History;
  /** Designs that were given, not made: an example that nobody changed is not worth keeping. */
  readonly given: Doc[];
  /** What one starts from where nothing is kept. */
  readonly blank: Doc;
  set(path: string, value: string): void;
  seal(): void;
  commit(label: string, changes: Change[], key: string | undefined, design: Step['design']): void;
  /** Shows another design with its history. */
  settle(work: Saved): void;
  /** Puts the present design's drawings and open cards away. */
  putAway(): void;
  say(notice: string, offer?: 'file' | 'restore'): void;
  tell(): void;
}

/** How long after a change it is kept, ms. */
const keepAfter = 300;

const unkept = {
  nowhere: 'This browser keeps nothing between visits. Save the design to a file before you leave.',
  full: 'This browser has no room left to keep the design. Save it to a file, or delete designs that you no longer need.',
};

/** The kept designs, and which of them is worked on. */
export class Keeping {
  /** The id of the design among those that are kept; none before it is kept first. */
  id: string | undefined;
  /** Set while a design from a link is only looked at. */
  guest: Guest | undefined;
  /** The id of the page's build: answers are kept under it. */
  build = '';

  private how: Kept = 'kept';
  /** Whether there is something that was not kept yet. */
  private dirty = false;
  private timer: ReturnType<typeof setTimeout> | undefined;

  constructor(private readonly store: Store, private readonly state: Desk) {}

  /** The design worked on last, which is then the present one. */
  load(): Saved | undefined {
    const saved = this.store.load();
    this.id = saved?.id;
    return saved;
  }

  /** Whether there are changes that would be lost with the page. */
  get unkept(): boolean { return this.dirty && this.how !== 'kept'; }

  /** The designs that are kept, the latest first. */
  designs(): Entry[] { return this.store.list(); }

  // ---- the present design

  /** Keeps a change in a moment: not later for being asked again, so whoever goes on typing is kept too. */
  soon(): void {
    this.dirty = true;
    if (this.guest) this.takeIn();
    this.timer ??= setTimeout(() => this.keep(), keepAfter);
  }

  /** Keeps what was changed now, as when the page is left. */
  keep(): void {
    clearTimeout(this.timer);
    this.timer = undefined;
    if (!this.dirty || this.guest) return;
    this.id ??= newID();
    const { past, future } = this.state.history;
    const before = this.how;
    this.how = this.store.save(this.id, { doc: this.state.doc, past, future });
    this.dirty = this.how !== 'kept';
    if (this.how !== before) this.complain(this.how);
  }

  /** Keeps the present design's drawings and verdict, to be there at once next time. */
  keepAnswer(): void {
    const { picture, planned } = this.state.asked;
    if (this.guest || this.id === undefined || !picture || picture.doc !== this.state.doc || planned !== picture.doc) return;
    this.store.keepAnswer(writtenAnswer(this.build, picture));
  }

  /** This build's answer to the present design, where it was kept. */
  answer(): Answer | undefined { return readAnswer(this.store.answer(), this.build, this.state.doc); }

  private complain(how: Kept): void {
    if (how !== 'kept') this.state.say(unkept[how], 'file');
  }

  /** Another design is about to take the place of the present one. What the step of undo must know. */
  begin(): Step['design'] {
    this.goHome();
    this.leave();
    const before = this.id;
    this.id = newID();
    return { before, after: this.id };
  }

  /** Keeps the present design before another takes its place, and puts away its drawings. */
  leave(): void {
    this.keep();
    if (this.id !== undefined && this.state.given.some((d) => d === this.state.doc || JSON.stringify(d) === JSON.stringify(this.state.doc))) {
      this.store.remove(this.id, false);
    }
    this.state.putAway();
  }

  /**
   * Comes back to a document that was left a while ago under this id, by undo or redo. It is kept
   * under its own id, unless something else was made of that design meanwhile.
   */
  arrive(id: string | undefined, doc: Doc): void {
    const there = id === undefined ? undefined : this.store.read(id);
    this.id = id === undefined || (there && JSON.stringify(there.doc) !== JSON.stringify(doc)) ? newID() : id;
  }

  private settle(work: Saved, id: string | undefined): void {
    this.guest = undefined;
    this.id = id;
    this.state.settle(work);
  }

  // ---- several designs

  /** Goes to another kept design, with its own history. */
  open(id: string): void {
    if (id === this.id && !this.guest) return;
    this.goHome();
    this.leave();
    const work = this.store.read(id);
    if (!work) return this.state.say('This design is not there any more: it was deleted, perhaps in another window.');
    if (this.unkept) { // the present one would be gone: it becomes a step of undo
      const before = this.id;
      this.id = id;
      return this.state.commit('Open', [change(this.state.doc, '', work.doc)], undefined, { before, after: id });
    }
    this.settle(work, id);
    this.dirty = true; // so that it is the one worked on last
    this.keep();
  }

  /** The document of a kept design, undefined where it is gone: of the one on the page as it is now. */
  document(id: string): Doc | undefined {
    return id === this.id && !this.guest ? this.state.doc : this.store.read(id)?.doc;
  }

  /** Gives a kept design another name. */
  rename(id: string, name: string): void {
    if (id === this.id) {
      this.state.seal();
      this.state.set('name', name);
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
    this.complain(kept);
    this.state.tell();
  }

  /** Deletes a kept design; restore brings it back. */
  remove(id: string): void {
    if (id === this.id) this.keep();
    const gone = this.store.list().find((e) => e.id === id);
    this.store.remove(id);
    if (id === this.id && !this.guest) this.afterRemoval();
    this.state.say(`Deleted ${gone?.name ? `“${gone.name}”` : 'a design without a name'}.`, 'restore');
  }

  private afterRemoval(): void {
    const next = this.store.list()[0];
    const work = next && this.store.read(next.id);
    this.state.putAway();
    if (next && work) this.settle(work, next.id);
    else this.settle({ doc: this.state.blank, past: [], future: [] }, undefined);
  }

  /** The design that was deleted last. */
  removed(): Entry | undefined { return this.store.removed(); }

  /** Brings back the design that was deleted last, and opens it. */
  restore(): void {
    const id = this.store.restore();
    if (id === undefined) return this.state.say('There is no deleted design to bring back.');
    this.open(id);
  }

  /** Told when another window kept the design of this id: this one follows, or goes its own way. */
  overtaken(id: string): void {
    if (id !== this.id || this.guest) return;
    const work = this.store.read(id);
    if (!work) return; // deleted there: the next change here keeps it again
    if (!this.dirty) return this.settle(work, id);
    this.id = newID();
    this.state.say('This design was changed in another window at the same time. Yours is kept as a design of its own.');
  }

  // ---- a design from a link

  /** Shows a design that is not kept, with what should be known of it. */
  visit(doc: Doc, said: string[]): void {
    this.goHome();
    this.keep();
    const { past, future } = this.state.history;
    const guest = { doc, said, home: { doc: this.state.doc, past, future, id: this.id } };
    this.state.putAway();
    this.settle({ doc, past: [], future: [] }, undefined);
    this.guest = guest;
    this.state.tell();
  }

  /** Takes the design of a link in among the kept ones. */
  takeIn(): void {
    if (!this.guest) return;
    const { doc, home } = this.guest;
    this.guest = undefined;
    this.id = newID();
    if (this.how !== 'kept') { // what was worked on before is nowhere else: undo brings it back
      const step = { label: 'Open', changes: [change(home.doc, '', doc)], design: { before: home.id, after: this.id } };
      this.state.history = new History([...home.past, step, ...this.state.history.past]);
    }
    this.dirty = true;
    this.keep();
    this.state.tell();
  }

  /** Goes back from the design of a link to what was worked on before. */
  goHome(): void {
    if (!this.guest) return;
    const { home } = this.guest;
    this.state.putAway();
    this.settle(home, home.id);
  }
}
