// The ribs: they stand where they are glued and never move.
import { BufferAttribute, BufferGeometry, DoubleSide, Group, LineBasicMaterial, LineSegments, Mesh, MeshLambertMaterial } from 'three';
import type { Bodies, Look } from './api';

export class Ribs {
  readonly group = new Group();
  private readonly faces = new BufferGeometry();
  private readonly edges = new BufferGeometry();
  private readonly wood: MeshLambertMaterial;
  private readonly ink: LineBasicMaterial;

  constructor({ arrays }: Bodies, look: Look) {
    this.wood = new MeshLambertMaterial({
      color: look.wood, side: DoubleSide, flatShading: true, polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1,
    });
    this.ink = new LineBasicMaterial({ color: look.soft });
    this.faces.setAttribute('position', new BufferAttribute(arrays[12]!, 3));
    this.edges.setAttribute('position', new BufferAttribute(arrays[13]!, 3));
    this.group.add(new Mesh(this.faces, this.wood), new LineSegments(this.edges, this.ink));
  }

  dispose(): void {
    this.faces.dispose();
    this.edges.dispose();
    this.wood.dispose();
    this.ink.dispose();
  }
}
