// Undo and redo as lists of small steps. A step knows what stood at each path before
// and after, so that a long history is short enough to keep in the browser.
import { get, set, type Doc, type Json } from './path';

/**
 * One path's change; undefined means that nothing stands there. made is the nearest member
 * to the root that the change makes on its way: undo takes it away whole.
 */
export interface Change { path: string; before?: Json; after?: Json; made?: string }

/** What one press of undo takes back. */
export interface Step {
  label: string;
  changes: Change[];
  /** Where the step leads from one kept design to another: their ids, if they had any. */
  design?: { before?: string; after?: string };
}

/** How many steps are kept. */
export const kept = 300;

/** The steps behind and ahead of a document. */
export class History {
  private open: string | undefined;

  constructor(public past: Step[] = [], public future: Step[] = []) {}

  /**
   * Records a step. Steps with the same key that follow each other become one, so
   * that a typed word is undone whole; seal ends that. A step that has come back to where
   * it began is none.
   */
  record(step: Step, key?: string): void {
    const last = this.past.at(-1);
    if (key !== undefined && key === this.open && last !== undefined) {
      const changes = joined(last, step);
      if (changes.length > 0) this.past[this.past.length - 1] = { label: step.label, changes };
      else this.past.pop();
      if (changes.length === 0) key = undefined; // the next starts anew
    } else {
      this.past.push(step);
      if (this.past.length > kept) this.past.shift();
    }
    this.open = key;
    this.future = [];
  }

  /** Whether the last step is the one of this key, and may still grow. */
  isOpen(key: string): boolean { return this.open === key; }

  /** The next recorded step starts anew, whatever its key. */
  seal(): void { this.open = undefined; }

  /** The document one step back; the same document when there is none. */
  undo(doc: Doc): Doc { return this.shift(doc, this.past, this.future, 'before'); }

  /** The document one step ahead; the same document when there is none. */
  redo(doc: Doc): Doc { return this.shift(doc, this.future, this.past, 'after'); }

  private shift(doc: Doc, from: Step[], to: Step[], side: 'before' | 'after'): Doc {
    this.seal();
    const step = from.pop();
    if (step === undefined) return doc;
    to.push(step);
    const order = side === 'before' ? step.changes.slice().reverse() : step.changes;
    return order.reduce((d, c) => (side === 'before' && c.made !== undefined ? set(d, c.made, undefined) : set(d, c.path, c[side])), doc);
  }
}

function joined(a: Step, b: Step): Change[] {
  const changes = a.changes.slice();
  for (const change of b.changes) {
    const at = changes.findIndex((c) => c.path === change.path);
    if (at < 0) changes.push(change);
    else changes[at] = withAfter(changes[at]!, change.after);
  }
  return changes.every((c) => c.made === undefined && c.before === c.after) ? [] : changes;
}

function withAfter(change: Change, after: Json | undefined): Change {
  const { after: _, ...rest } = change;
  return after === undefined ? rest : { ...rest, after };
}

/**
 * The change that puts value at path of doc. What is missing on the way is part of the
 * change, so that undo leaves no empty object behind.
 */
export function change(doc: Doc, path: string, value: Json | undefined): Change {
  const made = firstMissing(doc, path);
  const before = get(doc, path);
  return {
    path,
    ...(before === undefined ? {} : { before }),
    ...(value === undefined ? {} : { after: value }),
    ...(made === undefined || made === path ? {} : { made }),
  };
}

function firstMissing(doc: Doc, path: string): string | undefined {
  const keys = path.split('.');
  return keys.map((_, i) => keys.slice(0, i + 1).join('.')).find((p) => path !== '' && get(doc, p) === undefined);
}
