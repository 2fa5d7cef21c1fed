// The renderer, the light and the camera. It draws when asked, once a frame at most:
// nothing moves by itself.
import { Color, DirectionalLight, HemisphereLight, PerspectiveCamera, Scene, WebGLRenderer } from 'three';
import type { Look } from './api';

/** More pixels than this to one of the page are not seen. */
const finest = 2;

/** Angle of sight from bottom to top, degrees: a long lens, so that parallels stay nearly so. */
const lens = 26;

export class World {
  readonly scene = new Scene();
  readonly camera = new PerspectiveCamera(lens, 1, 1, 1e5);
  private readonly renderer: WebGLRenderer;
  private readonly sky = new HemisphereLight();
  private readonly lamp = new DirectionalLight(0xffffff, 1.5);
  private readonly sizes = new ResizeObserver(() => this.resize());
  private readonly paper = new Color();
  private waiting = 0;
  /** Told before each frame, and after the canvas changed its size. */
  onFrame: () => void = () => {};
  onResize: () => void = () => {};

  constructor(readonly canvas: HTMLCanvasElement, look: Look, private readonly lost: () => void) {
    this.renderer = new WebGLRenderer({ canvas, antialias: true, alpha: true });
    canvas.addEventListener('webglcontextlost', this.lost);
    // The lamp goes along with the eye, a little to its left: what faces it is never dark.
    this.lamp.position.set(-0.7, 1, 0.9);
    this.camera.add(this.lamp);
    this.scene.add(this.sky, this.camera);
    this.paint(look);
    this.sizes.observe(canvas);
    this.resize();
  }

  paint(look: Look): void {
    this.sky.color.set(0xffffff);
    this.sky.groundColor.set(look.rib);
    this.sky.intensity = 2.2;
    this.paper.set(look.paper);
    this.draw();
  }

  /** Draws at the next frame. */
  draw(): void {
    this.waiting ||= requestAnimationFrame(() => this.now());
  }

  /** Pixels of the page that one unit covers at distance one. */
  get perUnit(): number { return this.canvas.clientHeight / (2 * Math.tan((this.camera.fov * Math.PI) / 360)); }

  async still(width: number): Promise<Blob> {
    const before = this.renderer.getPixelRatio();
    this.scene.background = this.paper;
    this.renderer.setPixelRatio(width / Math.max(1, this.canvas.clientWidth));
    this.now();
    // The picture is read before anything else can be drawn: the canvas keeps none.
    const picture = new Promise<Blob>((done, fail) =>
      this.canvas.toBlob((blob) => (blob ? done(blob) : fail(new Error('the picture is too large'))), 'image/png'));
    this.scene.background = null;
    this.renderer.setPixelRatio(before);
    this.draw();
    return picture;
  }

  private now(): void {
    cancelAnimationFrame(this.waiting);
    this.waiting = 0;
    this.onFrame();
    this.renderer.render(this.scene, this.camera);
  }

  private resize(): void {
    const { clientWidth: w, clientHeight: h } = this.canvas;
    if (w === 0 || h === 0) return;
    this.renderer.setPixelRatio(Math.min(finest, devicePixelRatio));
    this.renderer.setSize(w, h, false);
    this.camera.aspect = w / h;
    this.camera.updateProjectionMatrix();
    this.onResize();
    this.draw();
  }

  dispose(): void {
    cancelAnimationFrame(this.waiting);
    this.sizes.disconnect();
    this.canvas.removeEventListener('webglcontextlost', this.lost);
    this.lamp.dispose();
    this.sky.dispose();
    this.renderer.dispose();
  }
}
