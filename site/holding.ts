// What is held: a handle of a drawing in a hand, and the drafts that follow it.
import type { Asking } from './asking';
import { change, type Change } from './history';
import type { Drag } from './messages';
import { set, text, type Doc } from './path';

/** A handle that is held: the design as it was when it was taken, and a name for this hold. */
export interface Grip { base: Doc; key: string; label: string }

/** What a hand needs of the page's state. */
export interface Workpiece {
  readonly doc: Doc;
  seal(): void;
  /** Undoes the step of this key, where it is the last one. */
  takeBack(key: string): void;
  tell(): void;
  /** Takes a document that a pull made, as a part of the step of undo with this key. */
  follow(doc: Doc, label: string, changes: Change[], key: string): void;
}

/** The hand on a handle. */
export class Holding {
  /** What is held; drawings keep their scale meanwhile. */
  grip: Grip | undefined;

  private grips = 0;
  /** The newest answer to a pull. */
  private pulled: Promise<unknown> | undefined;
  /** The grip whose answers still count. */
  private counts: Grip | undefined;

  constructor(private readonly asked: Asking, private readonly state: Workpiece) {}

  /** Takes hold of a handle. What is moved until it is let go is one step of undo. */
  take(label: string): Grip {
    this.state.seal();
    this.grip = this.counts = { base: this.state.doc, key: `hold ${++this.grips}`, label };
    return this.grip;
  }

  /** Takes hold of the same handle once more: what is moved is part of the same step of undo. */
  takeAgain(grip: Grip): Grip { return this.grip = this.counts = { ...grip, base: this.state.doc }; }

  /** Moves what a grip holds; the numbers follow with the core's answer, the newest alone. */
  async pull(grip: Grip, drag: Drag): Promise<void> {
    const asked = this.asked.drag(grip.base, drag);
    this.pulled = asked;
    const answer = await asked;
    const { plan, set: texts } = answer?.reply ?? {};
    if (!answer || answer.superseded || !plan || !this.holds(grip)) return;
    const changes: Change[] = [];
    let { doc } = this.state;
    for (const [path, value] of Object.entries(texts ?? {})) {
      if (text(doc, path) === value) continue;
      const made = change(doc, path, value); // one after the other: the first may make the list that the next is in
      changes.push(made);
      doc = set(doc, made.path, made.after);
    }
    if (changes.length > 0) this.state.follow(doc, grip.label, changes, grip.key);
    this.asked.follow(answer, this.state.doc);
    this.state.tell();
  }

  /** Whether nothing else was done since a grip was taken. */
  holds(grip: Grip): boolean { return this.counts === grip; }

  /** Takes hold again of what was let go. */
  hold(grip: Grip): void {
    if (this.holds(grip)) this.grip = grip;
  }

  /** Lets go, and brings back the design that was there when the grip was taken. */
  giveBack(grip: Grip): void {
    const held = this.holds(grip);
    this.letGo();
    this.counts = undefined;
    if (held) this.state.takeBack(grip.key);
  }

  /**
   * Lets go. An answer that is still under way counts; after it the design is planned
   * whole, for while something is held what takes long is left out.
   */
  letGo(): void {
    const { grip } = this;
    if (!grip) return;
    this.grip = undefined;
    this.state.tell();
    void this.pulled?.then(() => {
      if (this.holds(grip) && !this.grip && this.state.doc !== grip.base) void this.asked.replan();
    });
    this.pulled = undefined;
  }

  /** The document was changed otherwise: nothing is held, and no answer counts any more. */
  drop(): void { this.grip = this.counts = undefined; }
}
