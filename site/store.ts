// Autosave. A page in a sandboxed frame has no storage, and a store can be full:
// neither may stop the work, so every access can fail quietly and says whether it did.
import type { Doc } from './path';
import type { Step } from './history';

/** What is kept between visits. */
export interface Saved { doc: Doc; past: Step[]; future: Step[] }

/** A place that keeps one piece of work. */
export interface Store {
  /** What was kept, or undefined. */
  load(): Saved | undefined;
  /** Whether the work could be kept. */
  save(work: Saved): boolean;
}

/** The part of the browser's storage that is used. */
export type Shelf = Pick<Storage, 'getItem' | 'setItem'>;

const key = 'springrib.work.1';

/** Keeps work on a shelf of the browser; shelf throws where there is none. */
export function shelfStore(shelf: () => Shelf): Store {
  return {
    load() {
      try {
        return read(shelf().getItem(key));
      } catch {
        return undefined;
      }
    },
    save(work) {
      try {
        return write(shelf(), work);
      } catch {
        return false;
      }
    },
  };
}

// When the shelf is full, the design itself matters more than its history.
function write(shelf: Shelf, work: Saved): boolean {
  try {
    shelf.setItem(key, JSON.stringify(work));
  } catch {
    shelf.setItem(key, JSON.stringify({ doc: work.doc, past: [], future: [] }));
  }
  return true;
}

const isObject = (v: unknown): v is Record<string, unknown> => typeof v === 'object' && v !== null && !Array.isArray(v);

function read(raw: string | null): Saved | undefined {
  if (raw === null) return undefined;
  const work: unknown = JSON.parse(raw);
  if (!isObject(work) || !isObject(work.doc)) return undefined;
  return { doc: work.doc as Doc, past: steps(work.past), future: steps(work.future) };
}

function steps(list: unknown): Step[] {
  if (!Array.isArray(list)) return [];
  return list.every((s) => isObject(s) && Array.isArray(s.changes)) ? (list as Step[]) : [];
}
