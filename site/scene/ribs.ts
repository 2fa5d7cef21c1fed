// The ribs and the base: they stand where they are glued and never move.
import { BufferAttribute, BufferGeometry, DoubleSide, Group, LineBasicMaterial, LineSegments, Mesh, MeshLambertMaterial, type Vector3 } from 'three';
import type { Bodies, Look } from './api';
import { spread } from './panel';

export class Ribs {
  readonly group = new Group();
  private readonly faces = new BufferGeometry();
  private readonly edges = new BufferGeometry();
  private ownFaces: BufferGeometry | undefined;
  private ownEdges: BufferGeometry | undefined;
  private readonly wood: MeshLambertMaterial;
  private readonly ink: LineBasicMaterial;

  constructor(private readonly bodies: Bodies, look: Look) {
    const { arrays } = bodies;
    this.wood = new MeshLambertMaterial({
      color: look.rib, side: DoubleSide, flatShading: true, polygonOffset: true, polygonOffsetFactor: 0.6, polygonOffsetUnits: 1,
    });
    this.ink = new LineBasicMaterial({ color: look.soft, transparent: true, opacity: 0.75 });
    this.faces.setAttribute('position', new BufferAttribute(arrays[12]!, 3));
    this.edges.setAttribute('position', new BufferAttribute(arrays[13]!, 3));
    this.group.add(solid(this.faces, this.wood), new LineSegments(this.edges, this.ink));
  }

  /** Those of one panel once more, of the same bodies, without the base. */
  again(): Group {
    const { faces, edges } = this.own;
    this.ownFaces ??= part(this.faces, faces);
    this.ownEdges ??= part(this.edges, edges);
    return new Group().add(solid(this.ownFaces, this.wood), new LineSegments(this.ownEdges, this.ink));
  }

  // Where the bodies of one panel's ribs end.
  private get own(): { faces: number; edges: number } {
    const { ribs, own } = this.bodies.space;
    return ribs[own - 1] ?? { faces: 0, edges: 0 };
  }

  /** Places spread over those of one panel. */
  ownSpread(): Vector3[] { return spread(this.bodies.arrays[13]!, 0, this.own.edges); }

  /** Places spread over them. */
  spread(): Vector3[] {
    const edges = this.bodies.arrays[13]!;
    return spread(edges, 0, edges.length / 3);
  }

  dispose(): void {
    for (const g of [this.ownFaces, this.ownEdges]) g?.dispose();
    this.faces.dispose();
    this.edges.dispose();
    this.wood.dispose();
    this.ink.dispose();
  }
}

// A body that throws shadows and takes them.
function solid(of: BufferGeometry, wood: MeshLambertMaterial): Mesh {
  const out = new Mesh(of, wood);
  out.castShadow = out.receiveShadow = true;
  return out;
}

// The first places of a body, sharing what it holds.
function part(of: BufferGeometry, count: number): BufferGeometry {
  const out = new BufferGeometry().setAttribute('position', of.getAttribute('position'));
  out.setDrawRange(0, count);
  return out;
}
