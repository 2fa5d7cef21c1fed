// Where one looks from: turned and brought nearer by hand or by keys. Until the person
// comes nearer or moves aside, the distance follows so that everything stays in sight.
import { Vector3 } from 'three';
import { OrbitControls } from 'three/examples/jsm/controls/OrbitControls.js';
import type { World } from './world';

/** Where the eye begins: in front, a little to the right and above. */
const start = new Vector3(0.42, 0.42, 1).normalize();

/** Room around what is seen, for the signs too. */
const room = 1.2;

export class Eye {
  private readonly hands: OrbitControls;
  private places: () => Vector3[] = () => [];
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
    world.onResize = () => this.follow();
  }

  /** Takes what there is to see, as places spread over it. */
  look(places: () => Vector3[]): void { this.places = places; }

  /** Keeps everything in sight. */
  follow(): void {
    if (!this.free) this.reach();
  }

  fit(fromStart: boolean): void {
    this.free = false;
    if (fromStart) this.world.camera.position.copy(this.hands.target).add(start);
    this.reach();
  }

  turn(right: number, up: number): void {
    this.hands.rotateLeft((-right * Math.PI) / 180);
    this.hands.rotateUp((up * Math.PI) / 180);
  }

  /** How far it is from what it looks at. */
  get distance(): number { return this.world.camera.position.distanceTo(this.hands.target); }

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

  // Puts the eye as near as everything allows, along the way it looks.
  private reach(): void {
    const places = this.places();
    if (places.length === 0) return;
    const { camera } = this.world;
    const back = camera.position.clone().sub(this.hands.target).normalize();
    const right = new Vector3(0, 1, 0).cross(back).normalize();
    const up = back.clone().cross(right);
    const high = Math.tan((camera.fov * Math.PI) / 360) / room, wide = high * camera.aspect;
    const across = new Bounds(places, right, back, wide), along = new Bounds(places, up, back, high);
    const depths = places.map((p) => p.dot(back));
    const depth = (Math.min(...depths) + Math.max(...depths)) / 2; // one turns about the middle
    this.target.set(0, 0, 0).addScaledVector(right, across.middle).addScaledVector(up, along.middle).addScaledVector(back, depth);
    this.away = Math.max(across.far, along.far) - depth;
    this.moving = true;
    this.hands.target.copy(this.target);
    camera.position.copy(this.target).addScaledVector(back, this.away);
    this.span(this.away);
    this.hands.update();
    this.moving = false;
    this.world.draw();
  }
}

/**
 * What places need of a view that opens by slope to both sides of the way it looks: how
 * far back, and how far aside. A place p is within when |p.side - m| <= slope (far - p.back).
 */
class Bounds {
  private low = Infinity;
  private high = -Infinity;

  constructor(places: Vector3[], side: Vector3, back: Vector3, private readonly slope: number) {
    for (const p of places) {
      const s = p.dot(side), b = slope * p.dot(back);
      this.high = Math.max(this.high, s + b);
      this.low = Math.min(this.low, s - b);
    }
  }

  /** How far back from the origin at the least. */
  get far(): number { return (this.high - this.low) / (2 * this.slope); }

  /** How far aside, in the middle of what is left free. */
  get middle(): number { return (this.high + this.low) / 2; }
}
