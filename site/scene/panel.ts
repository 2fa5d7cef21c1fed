// The panel: what is bent already stands where the core bent it, what is still straight
// is carried by one matrix. Both are the same places in the same order, so a fold only
// moves the border between the two.
import {
  BufferAttribute, BufferGeometry, Color, DoubleSide, Group, LineBasicMaterial, LineSegments, Matrix4, Mesh, MeshLambertMaterial, Vector3,
  type Material, type Object3D,
} from 'three';
import type { Bodies, Look } from './api';
import { grain, onGrain } from './wood';

/** A run of the panel, drawn twice: its bent part and its straight part. */
interface Twin { bent: BufferGeometry; straight: BufferGeometry; ends: number[]; all: number }

export class Panel {
  readonly group = new Group();
  /** Carries the straight part. */
  private readonly carry = new Matrix4();
  private readonly straight = new Group();
  private readonly twins: Twin[] = [];
  private readonly materials: Material[] = [];
  private readonly glow: Twin;
  private readonly scored: LineBasicMaterial;
  /** How many scores are folded whole. */
  private folded = 0;

  constructor(private readonly bodies: Bodies, look: Look) {
    const { space, arrays } = bodies;
    // Lines lie in front of their faces, and walls of scores behind the skin, however little
    // of it there is between two pixels.
    const face = (colour: string, behind = 0.6, wood = false): Material => new MeshLambertMaterial({
      color: colour, side: DoubleSide, flatShading: true, polygonOffset: true, polygonOffsetFactor: behind, polygonOffsetUnits: 1, ...(wood ? { map: grain() } : {}),
    });
    const walls = 2.5;
    const line = (colour: string): Material => new LineBasicMaterial({ color: colour, transparent: true, opacity: 0.75 });
    this.straight.matrixAutoUpdate = false;
    this.group.add(this.straight);
    this.twin(arrays[0]!, arrays[1]!, space.body, face(look.panel, 0.6, look.grain), Mesh);
    this.twin(arrays[2]!, arrays[3]!, space.slots, face(look.burnt, walls), Mesh);
    this.twin(arrays[4]!, arrays[5]!, space.edges, line(look.ink), LineSegments);
    this.scored = new LineBasicMaterial({ vertexColors: true, transparent: true });
    const scores = this.twin(arrays[6]!, arrays[7]!, space.lines, this.scored, LineSegments);
    colour(scores, bodies, look);
    this.glow = this.twin(arrays[6]!, arrays[7]!, space.lines, new LineBasicMaterial({ color: look.press, depthTest: false, transparent: true }), LineSegments);
    this.light(undefined);
    this.fold(1);
  }

  private twin(flat: Float32Array, bent: Float32Array, ends: number[], material: Material, Kind: typeof Mesh | typeof LineSegments): Twin {
    const geometry = (places: Float32Array): BufferGeometry => new BufferGeometry().setAttribute('position', new BufferAttribute(places, 3));
    const twin = { bent: geometry(bent), straight: geometry(flat), ends, all: flat.length / 3 };
    if (Kind === Mesh && 'map' in material && material.map) {
      const places = new BufferAttribute(onGrain(flat), 2);
      for (const of of [twin.bent, twin.straight]) of.setAttribute('uv', places);
    }
    const put = (into: Object3D, of: BufferGeometry): void => {
      const thing = new Kind(of, material);
      thing.frustumCulled = false; // its sphere would be that of all places
      thing.castShadow = thing.receiveShadow = Kind === Mesh;
      into.add(thing);
    };
    put(this.group, twin.bent);
    put(this.straight, twin.straight);
    this.twins.push(twin);
    this.materials.push(material);
    return twin;
  }

  /** Where scores come to lie closer than their lines can be told apart, these grow faint. */
  fine(pixels: number): void {
    const beside = this.bodies.arrays[8]!, all = beside.length / 3;
    if (all < 2) return;
    const apart = Math.abs(beside[3 * (all - 1)]! - beside[0]!) / (all - 1);
    this.scored.opacity = Math.min(0.9, Math.max(0.15, (apart * pixels) / 7));
  }

  /** Bends as far as this share of all scores. */
  fold(share: number): void {
    const { scores } = this.bodies.space;
    const at = Math.max(0, Math.min(1, share)) * scores;
    this.folded = Math.min(Math.floor(at), scores);
    this.carry.copy(this.carrier(this.folded, at - this.folded));
    this.carryTo(this.straight);
    for (const t of this.twins) if (t !== this.glow) this.split(t, 0, t.all);
    this.light(this.lit);
  }

  /** Puts what is straight, here or in another panel, to where the fold has it. */
  carryTo(straight: Object3D): void {
    straight.matrix.copy(this.carry);
    straight.matrixWorldNeedsUpdate = true;
  }

  /** The panel once more, of the same bodies; to be lit is left to the first. */
  again(): { whole: Object3D; straight: Object3D } {
    const whole = this.group.clone(), straight = whole.children[0]!;
    for (const part of [whole, straight]) part.remove(part.children.at(-1)!); // the glow
    return { whole, straight };
  }

  private lit: number | undefined;

  /** Lights one score. */
  light(score: number | undefined): void {
    this.lit = score;
    const { lines } = this.bodies.space;
    if (score === undefined || score > lines.length) return this.split(this.glow, 0, 0);
    this.split(this.glow, score > 1 ? lines[score - 2]! : 0, lines[score - 1]!);
  }

  /** The place at the panel's edge beside a score, where it is now. */
  beside(score: number): Vector3 {
    const at = score - 1;
    const bent = at <= this.folded;
    const place = new Vector3().fromArray(this.bodies.arrays[bent ? 9 : 8]!, 3 * at);
    return bent ? place : place.applyMatrix4(this.carry);
  }

  /** Places spread over it as it is now. */
  spread(): Vector3[] {
    const { space, arrays } = this.bodies;
    const border = space.edges[this.folded] ?? 0;
    return [...spread(arrays[5]!, 0, border), ...spread(arrays[4]!, border, arrays[4]!.length / 3).map((p) => p.applyMatrix4(this.carry))];
  }

  // Draws the places from up to to, each in the part that its flat belongs to now.
  private split(t: Twin, from: number, to: number): void {
    const border = Math.min(to, Math.max(from, t.ends[this.folded] ?? t.all));
    t.bent.setDrawRange(from, border - from);
    t.straight.setDrawRange(border, to - border);
  }

  // The matrix of what is still straight: the frame of the last flat that lies, turned
  // about the hinge under way.
  private carrier(folded: number, share: number): Matrix4 {
    const frame = new Matrix4().fromArray(this.bodies.arrays[10]!, 16 * folded);
    const hinge = this.bodies.arrays[11]!, at = 7 * folded;
    if (at >= hinge.length || share === 0) return frame;
    const place = new Vector3().fromArray(hinge, at), axis = new Vector3().fromArray(hinge, at + 3);
    const turn = new Matrix4().makeRotationAxis(axis, hinge[at + 6]! * share);
    const there = new Matrix4().makeTranslation(place), back = new Matrix4().makeTranslation(place.negate());
    return there.multiply(turn).multiply(back).multiply(frame);
  }

  dispose(): void {
    for (const t of this.twins) {
      t.bent.dispose();
      t.straight.dispose();
    }
    for (const m of this.materials) m.dispose();
  }
}

/** How many places tell well enough where a body lies. */
const enough = 200;

/** Some of the places from up to to. */
export function spread(places: Float32Array, from: number, to: number): Vector3[] {
  const step = Math.max(1, Math.floor((to - from) / enough));
  const out: Vector3[] = [];
  for (let i = from; i < to; i += step) out.push(new Vector3().fromArray(places, 3 * i));
  if (to > from) out.push(new Vector3().fromArray(places, 3 * (to - 1)));
  return out;
}

// Scores near a limit have a colour of their own; their sign and number stand beside them.
function colour(scores: Twin, { space }: Bodies, look: Look): void {
  const usual = new Color(look.score), near = new Color(look.warn);
  const colours = new Float32Array(3 * scores.all);
  for (let i = 0; i < scores.all; i++) usual.toArray(colours, 3 * i);
  for (const m of space.marks) {
    for (let i = m.first > 1 ? space.lines[m.first - 2]! : 0; i < space.lines[m.last - 1]!; i++) near.toArray(colours, 3 * i);
  }
  const attribute = new BufferAttribute(colours, 3);
  scores.bent.setAttribute('color', attribute);
  scores.straight.setAttribute('color', attribute);
}
