// The ribs: they stand where they are glued and never move.
import { BufferAttribute, BufferGeometry, DoubleSide, Group, LineBasicMaterial, LineSegments, Mesh, MeshLambertMaterial, type Vector3 } from 'three';
import type { Bodies, Look } from './api';
import { spread } from './panel';

export class Ribs {
  readonly group = new Group();
  private readonly faces = new BufferGeometry();
  private readonly edges = new BufferGeometry();
  private readonly wood: MeshLambertMaterial;
  private readonly ink: LineBasicMaterial;

  constructor(private readonly bodies: Bodies, look: Look) {
    const { arrays } = bodies;
    this.wood = new MeshLambertMaterial({
      color: look.rib, side: DoubleSide, flatShading: true, polygonOffset: true, polygonOffsetFactor: 0.6, polygonOffsetUnits: 1,
    });
    this.ink = new LineBasicMaterial({ color: look.soft });
    this.faces.setAttribute('position', new BufferAttribute(arrays[12]!, 3));
    this.edges.setAttribute('position', new BufferAttribute(arrays[13]!, 3));
    this.group.add(new Mesh(this.faces, this.wood), new LineSegments(this.edges, this.ink));
  }

  /** Places spread over them. */
  spread(): Vector3[] {
    const edges = this.bodies.arrays[13]!;
    return spread(edges, 0, edges.length / 3);
  }

  dispose(): void {
    this.faces.dispose();
    this.edges.dispose();
    this.wood.dispose();
    this.ink.dispose();
  }
}
