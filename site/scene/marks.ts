// Signs with numbers beside scores: those near a limit, and the one that is lit. They
// keep their size on the screen and are part of the picture.
import { CanvasTexture, Group, SRGBColorSpace, Sprite, SpriteMaterial } from 'three';
import type { Bodies, Look } from './api';
import type { Panel } from './panel';
import type { World } from './world';

/** Height of a sign, in pixels of the page, and how many of its own each has. */
const height = 22, fine = 3;
const face = 'system-ui, sans-serif'; // a canvas can't ask the page's own face for figures of one height

interface Sign { sprite: Sprite; texture: CanvasTexture; wide: number; score: number }

export class Marks {
  readonly group = new Group();
  private readonly near: Sign[];
  private lit: Sign | undefined;

  constructor({ space }: Bodies, private readonly panel: Panel, private readonly world: World, private readonly look: Look) {
    this.near = space.marks.map((m) => this.add(m.at, m.text, true));
  }

  /** Puts every sign beside its score as it is now. */
  place(): void {
    for (const s of this.signs()) s.sprite.position.copy(this.panel.beside(s.score));
  }

  light(score: number | undefined): void {
    if (this.lit?.score === score) return this.place();
    if (this.lit) this.remove(this.lit);
    this.lit = score === undefined ? undefined : this.add(score, String(score), false);
    this.place();
  }

  private signs(): Sign[] { return this.lit ? [...this.near, this.lit] : this.near; }

  private add(score: number, text: string, near: boolean): Sign {
    const { canvas, wide } = drawn(text, near, this.look);
    const texture = new CanvasTexture(canvas);
    texture.colorSpace = SRGBColorSpace;
    const material = new SpriteMaterial({ map: texture, depthTest: false, sizeAttenuation: false });
    const sprite = new Sprite(material);
    sprite.center.set(0.5, -0.35);
    sprite.renderOrder = near ? 1 : 2;
    this.group.add(sprite);
    return { sprite, texture, wide, score };
  }

  size(): void {
    for (const s of this.signs()) s.sprite.scale.set(s.wide / this.world.perUnit, height / this.world.perUnit, 1);
  }

  private remove(s: Sign): void {
    this.group.remove(s.sprite);
    s.sprite.material.dispose();
    s.texture.dispose();
  }

  dispose(): void {
    for (const s of this.signs()) this.remove(s);
  }
}

// A warning sign with the number beside it, or the number alone, on a tag of paper.
function drawn(text: string, near: boolean, look: Look): { canvas: HTMLCanvasElement; wide: number } {
  const canvas = document.createElement('canvas');
  const pen = canvas.getContext('2d')!;
  const font = `700 ${13 * fine}px ${face}`;
  pen.font = font;
  const sign = near ? 19 : 0;
  const wide = Math.ceil(pen.measureText(text).width / fine) + 14 + sign;
  canvas.width = wide * fine;
  canvas.height = height * fine;
  pen.scale(fine, fine);
  pen.beginPath();
  pen.roundRect(0.75, 0.75, wide - 1.5, height - 1.5, 5);
  pen.fillStyle = look.paper;
  pen.fill();
  pen.lineWidth = 1.5;
  pen.strokeStyle = near ? look.warn : look.press;
  pen.stroke();
  if (near) warning(pen, look);
  pen.font = `700 13px ${face}`;
  pen.textBaseline = 'middle';
  pen.fillStyle = look.ink;
  pen.fillText(text, 7 + sign, height / 2 + 1);
  return { canvas, wide };
}

function warning(pen: CanvasRenderingContext2D, look: Look): void {
  pen.beginPath();
  pen.moveTo(13, 4.5);
  pen.lineTo(20, 17);
  pen.lineTo(6, 17);
  pen.closePath();
  pen.fillStyle = look.warn;
  pen.fill();
  pen.fillStyle = look.paper;
  pen.fillRect(12.2, 8.5, 1.7, 4.2);
  pen.fillRect(12.2, 14, 1.7, 1.6);
}
