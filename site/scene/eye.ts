// Where one looks from: turned and brought nearer by hand or by keys. Until the person
// comes nearer or moves aside, the distance follows so that everything stays in sight.
import { Vector3 } from 'three';
import { OrbitControls } from 'three/examples/jsm/controls/OrbitControls.js';
import type { Space } from '../messages';
import type { World } from './world';

/** Where the eye begins: in front, a little to the right and above. */
const start = new Vector3(0.42, 0.5, 1).normalize();

/** Room around what is seen. */
const room = 1.1;

type Box = readonly number[];

export class Eye {
  private readonly hands: OrbitControls;
  private space: Pick<Space, 'bent' | 'straight'> | undefined;
  private share = 1;
  /** Whether the person has chosen a distance or moved aside. */
  private free = false;
  private moving = false;
  /** Distance and target as the eye itself chose them. */
  private away = 0;
  private readonly target = new Vector3();

  constructor(private readonly world: World) {
    this.hands = new OrbitControls(world.camera, world.canvas);
    this.hands.enableDamping = false;
    this.hands.zoomToCursor = true;
    this.hands.minDistance = 2;
    this.wheel(false);
    // Up and down a finger scrolls the page, to the sides it turns the panel.
    world.canvas.style.touchAction = 'pan-y';
    world.camera.position.copy(start);
    this.hands.addEventListener('change', this.changed);
    world.onResize = () => this.follow(this.share);
  }

  /** Takes what there is to see. */
  look(space: Space): void { this.space = space; }

  /** Keeps everything in sight at a share of the bend. */
  follow(share: number): void {
    this.share = share;
    if (!this.free) this.reach();
  }

  fit(fromStart: boolean): void {
    this.free = false;
    if (fromStart) this.world.camera.position.copy(this.hands.target).add(start);
    this.reach();
  }

  turn(right: number, up: number): void {
    this.hands.rotateLeft((-right * Math.PI) / 180);
    this.hands.rotateUp((-up * Math.PI) / 180);
  }

  zoom(factor: number): void {
    this.free = true;
    this.hands.dollyIn(1 / factor);
  }

  wheel(on: boolean): void { this.hands.enableZoom = on; }

  dispose(): void {
    this.hands.removeEventListener('change', this.changed);
    this.hands.dispose();
  }

  // By hand the eye turns about its target, or changes its distance or its target; the
  // latter frees it.
  private readonly changed = (): void => {
    if (this.moving) return;
    const { camera } = this.world;
    const away = camera.position.distanceTo(this.hands.target);
    if (Math.abs(away - this.away) > 1e-6 * away || this.hands.target.distanceTo(this.target) > 1e-6 * away) this.free = true;
    if (!this.free) return this.reach();
    this.span(away);
    this.world.draw();
  };

  // What is nearer than a hundredth of the distance is never looked at.
  private span(away: number): void {
    this.world.camera.near = away / 100;
    this.world.camera.far = away * 100;
    this.world.camera.updateProjectionMatrix();
  }

  private box(): Box {
    const { bent, straight } = this.space!;
    return bent.map((b, i) => b + (straight[i]! - b) * (1 - this.share));
  }

  // Puts the eye as near as all corners of the box allow, along the way it looks.
  private reach(): void {
    if (!this.space) return;
    const { camera } = this.world;
    const [x0, y0, z0, x1, y1, z1] = this.box() as [number, number, number, number, number, number];
    const target = new Vector3(x0 + x1, y0 + y1, z0 + z1).multiplyScalar(0.5);
    const back = camera.position.clone().sub(this.hands.target).normalize();
    const right = new Vector3(0, 1, 0).cross(back).normalize();
    const up = back.clone().cross(right);
    const high = Math.tan((camera.fov * Math.PI) / 360), wide = high * camera.aspect;
    let far = 0;
    for (let i = 0; i < 8; i++) {
      const c = new Vector3(i & 1 ? x1 : x0, i & 2 ? y1 : y0, i & 4 ? z1 : z0).sub(target);
      far = Math.max(far, c.dot(back) + room * Math.max(Math.abs(c.dot(right)) / wide, Math.abs(c.dot(up)) / high));
    }
    this.moving = true;
    this.hands.target.copy(target);
    camera.position.copy(target).addScaledVector(back, far);
    this.away = far;
    this.target.copy(target);
    this.span(far);
    this.hands.update();
    this.moving = false;
    this.world.draw();
  }
}
