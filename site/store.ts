// Autosave: designs by name, each in a place of its own with its history. A page in a
// sandboxed frame has no storage, and a store can be full: neither may stop the work, so
// every access can fail quietly and says whether it did.
import { text, type Doc } from './path';
import type { Step } from './history';

/** What is kept of one design between visits. */
export interface Saved { doc: Doc; past: Step[]; future: Step[] }

/** A kept design in a list. */
export interface Entry {
  id: string;
  name: string;
  /** When it was kept last, ms since 1970. */
  at: number;
}

/** Whether work is kept; if not, whether there is no room or no store at all. */
export type Kept = 'kept' | 'full' | 'nowhere';

/** A place that keeps designs. */
export interface Store {
  /** The design that was worked on last. */
  load(): (Saved & { id: string }) | undefined;
  /** Keeps a design, which is then the one worked on last. */
  save(id: string, work: Saved): Kept;
  read(id: string): Saved | undefined;
  /** What is kept, the latest first. */
  list(): Entry[];
  /** Makes a kept design the one worked on last. */
  touch(id: string): void;
  /** Puts a design away, and unless keep is false so that it can be brought back while it is the last one. */
  remove(id: string, keep?: boolean): void;
  removed(): Entry | undefined;
  /** Brings back what was put away last. Its id, or undefined when it can't be. */
  restore(): string | undefined;
  /** The core's last answer to the design worked on last, as it was kept. */
  answer(): string | undefined;
  /** Keeps that answer, or none. It gives way to designs. */
  keepAnswer(text: string | undefined): void;
}

/** The part of the browser's storage that is used. */
export type Shelf = Pick<Storage, 'getItem' | 'setItem' | 'removeItem' | 'key' | 'length'>;

const prefix = 'springrib.design.1.';
const lastKey = 'springrib.last.1';
const removedKey = 'springrib.removed.1';
const answerKey = 'springrib.answer.1';

interface Written extends Saved { at: number }

/** A name for a design inside the store, other than all before it. */
export const newID = (): string => `${Date.now().toString(36)}-${Math.random().toString(36).slice(2, 8)}`;

/** The key under which a design lies, for those who watch the shelf. */
export const keyOf = (id: string): string => prefix + id;

/** Keeps work on a shelf of the browser; shelf throws where there is none. */
export function shelfStore(shelf: () => Shelf, now: () => number = Date.now): Store {
  const or = <T>(otherwise: T, act: (s: Shelf) => T): T => {
    try {
      return act(shelf());
    } catch {
      return otherwise;
    }
  };
  const read = (key: string): Written | undefined => or(undefined, (s) => parsed(s.getItem(key)));
  const list = (): Entry[] => or<Entry[]>([], (s) =>
    Array.from({ length: s.length }, (_, i) => s.key(i) ?? '').filter((k) => k.startsWith(prefix))
      .flatMap((k) => entry(k.slice(prefix.length), read(k))).sort((a, b) => b.at - a.at));
  return {
    list,
    read: (id) => read(keyOf(id)),
    load() {
      const last = or(null, (s) => s.getItem(lastKey));
      for (const id of [...(last === null ? [] : [last]), ...list().map((e) => e.id)]) {
        const work = read(keyOf(id));
        if (work) return { ...work, id };
      }
      return undefined;
    },
    save: (id, work) => or<Kept>('nowhere', (s) => {
      if (!write(s, keyOf(id), { ...work, at: now() })) return 'full';
      or(undefined, () => s.setItem(lastKey, id));
      return 'kept';
    }),
    touch: (id) => or(undefined, (s) => s.setItem(lastKey, id)),
    remove: (id, keep = true) => or(undefined, (s) => {
      const work = s.getItem(keyOf(id));
      s.removeItem(keyOf(id)); // first, so that there is room for it elsewhere
      if (keep && parsed(work)) s.setItem(removedKey, JSON.stringify({ id, work }));
    }),
    removed() {
      const away = or(undefined, (s) => putAway(s.getItem(removedKey)));
      return away && entry(away.id, parsed(away.work))[0];
    },
    restore: () => or(undefined, (s) => {
      const away = putAway(s.getItem(removedKey));
      if (!away) return undefined;
      s.removeItem(removedKey);
      s.setItem(keyOf(away.id), away.work);
      return away.id;
    }),
    answer: () => or(undefined, (s) => s.getItem(answerKey) ?? undefined),
    keepAnswer: (text) => or(undefined, (s) => {
      s.removeItem(answerKey);
      if (text !== undefined) s.setItem(answerKey, text);
    }),
  };
}

const entry = (id: string, work: Written | undefined): Entry[] =>
  work ? [{ id, name: text(work.doc, 'name').trim(), at: work.at }] : [];

/** Steps of history that are tried to be kept, one after the other; all of them once more when the answer has gone. */
const lengths = [Infinity, Infinity, 100, 30, 10, 0];

// When the shelf is full, the last answer goes first: it can be had again. The design
// itself matters more than its history, and the last
// steps more than the first. What it kept before stays when not even the design fits.
function write(shelf: Shelf, key: string, work: Written): boolean {
  for (const n of lengths) {
    const last = (steps: Step[]): Step[] => (n === 0 ? [] : steps.slice(-n));
    try {
      shelf.setItem(key, JSON.stringify({ ...work, past: last(work.past), future: last(work.future) }));
      return true;
    } catch {
      shelf.removeItem(answerKey);
    }
  }
  return false;
}

const isObject = (v: unknown): v is { [key: string]: unknown } => typeof v === 'object' && v !== null && !Array.isArray(v);

function parsed(raw: string | null): Written | undefined {
  const work = json(raw);
  if (!isObject(work) || !isObject(work.doc)) return undefined;
  return { doc: work.doc as Doc, past: steps(work.past), future: steps(work.future), at: typeof work.at === 'number' ? work.at : 0 };
}

function putAway(raw: string | null): { id: string; work: string } | undefined {
  const away = json(raw);
  return isObject(away) && typeof away.id === 'string' && typeof away.work === 'string' ? { id: away.id, work: away.work } : undefined;
}

function json(raw: string | null): unknown {
  try {
    return raw === null ? undefined : JSON.parse(raw);
  } catch {
    return undefined;
  }
}

function steps(list: unknown): Step[] {
  if (!Array.isArray(list)) return [];
  return list.every((s) => isObject(s) && Array.isArray(s.changes)) ? (list as Step[]) : [];
}
