// The view in space: the panel and its ribs in three, on the canvas that the page gives.
// Everything that has a place comes from the core; here it is only carried there.
import { Group, type Vector3 } from 'three';
import type { Bodies, Look, SceneView } from './api';
import { Eye } from './eye';
import { Marks } from './marks';
import { Others } from './others';
import { Panel } from './panel';
import { Ribs } from './ribs';
import { standing } from './stand';
import { World } from './world';

/** How near a pointer must come to a score to mean it, in pixels of the page. */
const reach = 24;

export function open(canvas: HTMLCanvasElement, look: Look, plain: boolean, lost: () => void): SceneView {
  return new View(canvas, look, plain, lost);
}

class View implements SceneView {
  private readonly world: World;
  private readonly eye: Eye;
  /** Everything that has a place from the core, turned to how it stands. */
  private readonly thing = new Group();
  private panel: Panel | undefined;
  private ribs: Ribs | undefined;
  private others: Others | undefined;
  private marks: Marks | undefined;
  private bodies: Bodies | undefined;
  private share = 1;
  private lit: number | undefined;

  constructor(canvas: HTMLCanvasElement, private look: Look, plain: boolean, lost: () => void) {
    this.world = new World(canvas, look, plain, lost);
    this.world.scene.add(this.thing);
    this.eye = new Eye(this.world);
    this.eye.look(() => this.spread());
    this.world.onFrame = () => {
      this.marks?.size();
      this.panel?.fine(this.world.perUnit / this.eye.distance);
    };
  }

  show(bodies: Bodies): void {
    this.bodies = bodies;
    const before = this.takeAway();
    this.panel = new Panel(bodies, this.look);
    this.ribs = new Ribs(bodies, this.look);
    this.others = new Others(bodies, this.panel, this.ribs);
    this.marks = new Marks(bodies, this.panel, this.world, this.look);
    this.thing.quaternion.copy(standing(bodies));
    this.thing.updateMatrix();
    this.thing.add(this.ribs.group, this.panel.group, this.others.group, this.marks.group);
    this.fold(this.share);
    this.relight(this.lit);
    // What drew the last bodies is compiled anew unless it is still there when these are drawn.
    this.world.afterFrame(() => before.forEach((part) => part.dispose()));
  }

  fold(share: number): void {
    this.share = share;
    this.panel?.fold(share);
    this.others?.fold();
    this.marks?.place();
    this.world.surround(this.spread());
    this.eye.follow();
    this.world.draw();
  }

  light(score: number | undefined): void {
    if (score !== this.lit) this.relight(score);
  }

  private relight(score: number | undefined): void {
    this.lit = score;
    this.panel?.light(score);
    this.marks?.light(score);
    this.world.draw();
  }

  paint(look: Look): void {
    this.look = look;
    this.world.paint(look);
    if (this.bodies) this.show(this.bodies);
  }

  turn(right: number, up: number): void { this.eye.turn(right, up); }

  zoom(factor: number): void { this.eye.zoom(factor); }

  fit(fromStart: boolean): void { this.eye.fit(fromStart); }

  wheel(on: boolean): void { this.eye.wheel(on); }

  still(width: number): Promise<Blob> { return this.world.still(width); }

  near(x: number, y: number): number | undefined {
    const { clientWidth, clientHeight } = this.world.canvas;
    let best: number | undefined, least = reach;
    for (let n = 1; n <= (this.bodies?.space.scores ?? 0); n++) {
      const at = this.beside(n).project(this.world.camera);
      const away = Math.hypot((at.x + 1) / 2 * clientWidth - x, (1 - at.y) / 2 * clientHeight - y);
      if (away < least) [best, least] = [n, away];
    }
    return best;
  }

  /** The place at the panel's edge beside a score, as it stands. */
  beside(score: number): Vector3 { return this.panel!.beside(score).applyMatrix4(this.thing.matrix); }

  // Places spread over everything as it stands.
  private spread(): Vector3[] {
    const all = this.panel && this.ribs && this.others ? [...this.panel.spread(), ...this.ribs.spread(), ...this.others.spread()] : [];
    return all.map((p) => p.applyMatrix4(this.thing.matrix));
  }

  dispose(): void {
    this.takeAway().forEach((part) => part.dispose());
    this.eye.dispose();
    this.world.dispose();
  }

  private takeAway(): { dispose(): void }[] {
    const parts = [this.others, this.panel, this.ribs, this.marks].filter((part) => part !== undefined);
    for (const part of parts) this.thing.remove(part.group);
    this.panel = this.ribs = this.others = this.marks = undefined;
    return parts;
  }
}
