import assert from 'node:assert/strict';
import { test } from 'node:test';
import { Matrix4, Vector3, type BufferGeometry, type LineSegments, type Mesh, type Object3D } from 'three';
import type { Space } from '../messages';
import type { Bodies, Look } from './api';
import { Others } from './others';
import { Panel, spread } from './panel';
import { Ribs } from './ribs';

const look: Look = {
  paper: '#fff', ink: '#000', soft: '#666', panel: '#eee', rib: '#dcb', burnt: '#532', score: '#b70', warn: '#860', press: '#055', shade: '#000', grain: false,
};

const quarter = Math.PI / 2;

// A strip of three flats of 10 by 4, folded by a quarter turn each: about Z, up and back.
// One triangle a flat tells where it is.
function strip(): Bodies {
  const flats = [0, 10, 20];
  const flat: number[] = [], bent: number[] = [], beside: number[] = [], besideBent: number[] = [], frames: number[] = [], hinges: number[] = [];
  const frame = new Matrix4();
  const carried = (m: Matrix4, u: number, v: number): number[] => new Vector3(u, v, 0).applyMatrix4(m).toArray();
  // u runs along X, v along Z, the height along Y.
  frame.set(1, 0, 0, 0, 0, 0, 1, 0, 0, 1, 0, 0, 0, 0, 0, 1);
  flats.forEach((u, i) => {
    const triangle: [number, number][] = [[u, 0], [u + 10, 0], [u + 10, 4]];
    for (const [a, b] of triangle) {
      flat.push(a, b, 0);
      bent.push(...carried(frame, a, b));
    }
    frames.push(...frame.toArray());
    if (i === 2) return;
    const at = carried(frame, u + 10, 0);
    beside.push(u + 10, 4, 0);
    besideBent.push(...carried(frame, u + 10, 4));
    hinges.push(...at, 0, 0, 1, quarter);
    const place = new Vector3(...(at as [number, number, number]));
    frame.premultiply(new Matrix4().makeTranslation(place.clone().negate())).premultiply(new Matrix4().makeRotationZ(quarter)).premultiply(new Matrix4().makeTranslation(place));
  });
  const ends = [3, 6, 9];
  const space: Space = {
    first: 0, file: 'x', scores: 2, body: ends, slots: ends, edges: ends, lines: ends, ribs: [], own: 0, marks: [{ first: 2, last: 2, at: 2, text: '2' }],
    bent: [0, 0, 0, 1, 1, 1], straight: [0, 0, 0, 1, 1, 1],
  };
  const runs = [flat, bent, flat, bent, flat, bent, flat, bent, beside, besideBent, frames, hinges, [], [], []];
  return { space, arrays: runs.map((r) => new Float32Array(r)) };
}

type Thing = Mesh | LineSegments;
const of = (thing: unknown): BufferGeometry => (thing as Thing).geometry as BufferGeometry;
const ranges = (p: Panel): { bent: { start: number; count: number }; straight: { start: number; count: number } } => {
  const [straight, bent] = p.group.children;
  return { bent: of(bent).drawRange, straight: of(straight!.children[0]).drawRange };
};

const close = (a: number[], b: number[]): void => a.forEach((v, i) => assert.ok(Math.abs(v - b[i]!) < 1e-5, `${a} is not ${b}`));

test('a fold moves the border between what is bent and what is straight', () => {
  const p = new Panel(strip(), look);
  assert.deepEqual(ranges(p), { bent: { start: 0, count: 9 }, straight: { start: 9, count: 0 } });
  p.fold(0);
  assert.deepEqual(ranges(p), { bent: { start: 0, count: 3 }, straight: { start: 3, count: 6 } });
  p.fold(0.6);
  assert.deepEqual(ranges(p), { bent: { start: 0, count: 6 }, straight: { start: 6, count: 3 } });
  p.fold(7);
  assert.deepEqual(ranges(p).bent, { start: 0, count: 9 });
});

test('what is straight is carried to where the fold under way puts it', () => {
  const p = new Panel(strip(), look);
  p.fold(0);
  close(p.beside(2).toArray(), [20, 0, 4]); // still straight on
  p.fold(0.25); // half of the first fold
  close(p.beside(2).toArray(), [10 + 10 * Math.SQRT1_2, 10 * Math.SQRT1_2, 4]);
  p.fold(0.5); // the first fold whole
  close(p.beside(2).toArray(), [10, 10, 4]);
  close(p.beside(1).toArray(), [10, 0, 4]);
  p.fold(1);
  close(p.beside(2).toArray(), [10, 10, 4]);
});

test('going on and back again comes to the same', () => {
  const p = new Panel(strip(), look);
  for (const share of [0.1, 0.9, 0.5, 0.3]) {
    p.fold(share);
    const there = p.beside(2).toArray();
    p.fold(1 - share);
    p.fold(share);
    assert.deepEqual(p.beside(2).toArray(), there);
  }
});

test('one score is lit alone, wherever it is', () => {
  const p = new Panel(strip(), look);
  const glow = (): [number, number] => {
    const things = p.group.children.slice(1), straight = p.group.children[0]!.children;
    const count = (t: unknown): number => of(t).drawRange.count;
    return [count(things.at(-1)), count(straight.at(-1))];
  };
  assert.deepEqual(glow(), [0, 0]);
  p.light(2);
  assert.deepEqual(glow(), [3, 0]);
  p.fold(0);
  assert.deepEqual(glow(), [0, 3]);
  p.light(undefined);
  assert.deepEqual(glow(), [0, 0]);
  p.light(99); // of a plan that has gone
  assert.deepEqual(glow(), [0, 0]);
});

test('scores near a limit have a colour of their own', () => {
  const p = new Panel(strip(), look);
  const colours = of(p.group.children[4]).getAttribute('color').array;
  assert.notDeepEqual([...colours.slice(0, 3)], [...colours.slice(9, 12)]);
  assert.deepEqual([...colours.slice(9, 12)], [...colours.slice(15, 18)]);
});

test('places spread over a run begin and end with it', () => {
  const run = new Float32Array(3 * 1000).map((_, i) => i);
  const some = spread(run, 10, 1000);
  assert.ok(some.length >= 200 && some.length < 300);
  assert.deepEqual(some[0]!.toArray(), [30, 31, 32]);
  assert.deepEqual(some.at(-1)!.toArray(), [2997, 2998, 2999]);
  assert.deepEqual(spread(run, 5, 5), []);
});

// What is thrown away is thrown away whole: each thing made has its dispose.
test('a panel gives back what it took', () => {
  const p = new Panel(strip(), look);
  let gone = 0;
  const count = (thing: unknown): void => {
    const { geometry, material } = thing as Thing;
    geometry.addEventListener('dispose', () => gone++);
    (material as { addEventListener(type: string, f: () => void): void }).addEventListener('dispose', () => gone++);
  };
  const [straight, ...bent] = p.group.children;
  [...straight!.children, ...bent].forEach(count);
  p.dispose();
  assert.equal(gone, 10 + 10, 'ten geometries, and five materials told by both who use them');
});

// Two other panels, one moved aside and one turned about the upright.
function three(): Bodies {
  const b = strip();
  const turned = new Matrix4().makeRotationY(Math.PI).toArray(), moved = new Matrix4().makeTranslation(0, 0, 50).toArray();
  b.arrays[14] = new Float32Array([...moved, ...turned]);
  b.arrays[12] = new Float32Array(9 * 3);
  b.arrays[13] = new Float32Array([0, 0, 0, 0, -5, 0, /* the base */ 0, -5, 0, 100, -5, 0]);
  return { ...b, space: { ...b.space, own: 1, ribs: [{ ref: 'rib', faces: 3, edges: 2 }, { ref: 'base', faces: 9, edges: 4 }] } };
}

test('other panels fold with the first, each in its place', () => {
  const b = three(), p = new Panel(b, look), r = new Ribs(b, look), o = new Others(b, p, r);
  const last = (): number[][] => o.group.children.map((one) => {
    const straight = one.children[0]!.children[0]!;
    o.group.updateMatrixWorld(true);
    return new Vector3(20, 4, 0).applyMatrix4(straight.matrixWorld).toArray();
  });
  for (const share of [0, 0.25, 0.5]) {
    p.fold(share);
    o.fold();
    const [x, y, z] = p.beside(2).toArray();
    const [moved, turned] = last();
    close(moved!, [x, y, z + 50]);
    close(turned!, [-x, y, -z]);
  }
});

test('other panels share what the first draws, without the base and what is lit', () => {
  const b = three(), p = new Panel(b, look), r = new Ribs(b, look), o = new Others(b, p, r);
  p.light(1);
  for (const one of o.group.children) {
    const [panel, ribs] = one.children as [Object3D, Object3D];
    assert.equal(panel.children.length, p.group.children.length - 1);
    assert.equal(panel.children[0]!.children.length, p.group.children[0]!.children.length - 1);
    assert.equal(of(panel.children[1]), of(p.group.children[1]), 'the same body, not a copy of it');
    assert.deepEqual(ribs.children.map((c) => of(c).drawRange.count), [3, 2]);
  }
  const far = o.spread();
  assert.ok(far.length === 4 && far.every((q) => q.x < 31), 'the base is not spread again');
  assert.equal(new Others(strip(), p, r).spread().length, 0);
});
