// A shelf in memory that can be full.
import type { Shelf } from '../store';

/** Keeps texts as the browser does, as long as none is longer than room. */
export class MemoryShelf implements Shelf {
  readonly texts = new Map<string, string>();

  constructor(public room = Infinity) {}

  get length(): number { return this.texts.size; }

  key(i: number): string | null { return [...this.texts.keys()][i] ?? null; }

  getItem(key: string): string | null { return this.texts.get(key) ?? null; }

  setItem(key: string, text: string): void {
    if (text.length > this.room) throw new Error('full');
    this.texts.set(key, text);
  }

  removeItem(key: string): void { this.texts.delete(key); }
}
