// Dotted paths into a design document: "curve.pieces.2.length". Documents are plain
// JSON trees that nobody changes in place; setting a path copies the way down to it
// and shares everything else, so that an undo step is one pointer.

/** A value of a JSON document. */
export type Json = null | boolean | number | string | Json[] | { [key: string]: Json };

/** A design document as the page holds it: typed text in a tree. */
export type Doc = { [key: string]: Json };

// These names would reach the prototype of a plain object instead of the document.
const refused = new Set(['__proto__', 'prototype', 'constructor']);

const isIndex = (key: string): boolean => /^(0|[1-9]\d{0,3})$/.test(key);

function keysOf(path: string): string[] {
  const keys = path === '' ? [] : path.split('.');
  if (keys.some((k) => k === '' || refused.has(k))) throw new RangeError(`not a path: ${path}`);
  return keys;
}

function childOf(node: Json | undefined, key: string): Json | undefined {
  if (Array.isArray(node)) return isIndex(key) ? node[Number(key)] : undefined;
  if (node !== null && typeof node === 'object') return Object.hasOwn(node, key) ? node[key] : undefined;
  return undefined;
}

/** The value at path, or undefined when the way there ends early. */
export function get(doc: Json | undefined, path: string): Json | undefined {
  return keysOf(path).reduce<Json | undefined>(childOf, doc);
}

/** The typed text at path; "" when there is none. Numbers and booleans read as text. */
export function text(doc: Json | undefined, path: string): string {
  const value = get(doc, path);
  return value === undefined || value === null || typeof value === 'object' ? '' : String(value);
}

function put(node: Json | undefined, keys: string[], value: Json | undefined): Json | undefined {
  const [key, ...rest] = keys;
  if (key === undefined) return value;
  const child = put(childOf(node, key), rest, value);
  if (Array.isArray(node) || (isIndex(key) && (node === undefined || node === null || typeof node !== 'object'))) {
    return putItem(Array.isArray(node) ? node : [], Number(key), child);
  }
  const copy: { [key: string]: Json } = node !== null && typeof node === 'object' ? { ...(node as Doc) } : {};
  if (child === undefined) delete copy[key];
  else copy[key] = child;
  return copy;
}

function putItem(list: Json[], at: number, value: Json | undefined): Json[] {
  const copy = list.slice();
  if (value === undefined) {
    copy.splice(at, 1);
    return copy;
  }
  while (copy.length < at) copy.push('');
  copy[at] = value;
  return copy;
}

/**
 * A document with value at path. Missing objects on the way are made, missing lists
 * where the next key is a number. undefined takes the member, or the list's item, away.
 */
export function set(doc: Doc, path: string, value: Json | undefined): Doc {
  return put(doc, keysOf(path), value) as Doc;
}

/**
 * What a remedy's text becomes at path: a remedy speaks in text, but a check holds a
 * boolean and readings are a list, written with semicolons between.
 */
export function likeBefore(before: Json | undefined, value: string): Json {
  if (typeof before === 'boolean') return value === 'true';
  if (Array.isArray(before) && before.every((v) => typeof v === 'string')) {
    return value.split(';').map((v) => v.trim());
  }
  return value;
}
