// The other panels of a base: the first one again, carried to their places. They share its
// bodies, so a fold of the first folds them all.
import { Group, Matrix4, type Object3D, type Vector3 } from 'three';
import type { Bodies } from './api';
import type { Panel } from './panel';
import type { Ribs } from './ribs';

/** One in so many places of the first panel tells well enough where another lies. */
const sparse = 7;

export class Others {
  readonly group = new Group();
  private readonly places: Matrix4[] = [];
  private readonly straight: Object3D[] = [];

  constructor({ arrays }: Bodies, private readonly panel: Panel, private readonly ribs: Ribs) {
    const all = arrays[14]!;
    for (let at = 0; at < all.length; at += 16) {
      const one = new Group(), { whole, straight } = panel.again();
      one.matrixAutoUpdate = false;
      one.matrix.fromArray(all, at);
      one.add(whole, ribs.again());
      this.group.add(one);
      this.places.push(one.matrix);
      this.straight.push(straight);
    }
  }

  /** Follows the first panel. */
  fold(): void {
    for (const s of this.straight) this.panel.carryTo(s);
  }

  /** Places spread over them as they are now. */
  spread(): Vector3[] {
    if (this.places.length === 0) return [];
    const first = [...this.panel.spread(), ...this.ribs.ownSpread()].filter((_, i) => i % sparse === 0);
    return this.places.flatMap((m) => first.map((p) => p.clone().applyMatrix4(m)));
  }

  // Bodies and inks are the first panel's, and go with it.
  dispose(): void { this.group.clear(); }
}
