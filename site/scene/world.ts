// The renderer, the light and the camera. It draws when asked, once a frame at most:
// nothing moves by itself.
import {
  Color, DirectionalLight, HemisphereLight, Mesh, PerspectiveCamera, PlaneGeometry, Scene, ShadowMaterial, VSMShadowMap, Vector3, WebGLRenderer,
} from 'three';
import type { Look } from './api';

/** More pixels than this to one of the page are not seen. */
const finest = 2;

/** Angle of sight from bottom to top, degrees: a long lens, so that parallels stay nearly so. */
const lens = 13;

/** Where the light comes from: the upper left, in front. */
const light = new Vector3(-0.55, 0.75, 0.6).normalize();
/** What the shade reads of the light's depth: half a sheet, so that no face shades itself, mm. */
const slack = 1.5;
/** Pixels of the shade each way: few make it soft. */
const shade = 512;

export class World {
  readonly scene = new Scene();
  readonly camera = new PerspectiveCamera(lens, 1, 1, 1e5);
  private readonly renderer: WebGLRenderer;
  /** What is drawn on: without a graphics card not the canvas that is seen, which the page would
   * have to lay over everything else at each of its own frames; a picture of it is put there. */
  private readonly drawn: HTMLCanvasElement;
  private readonly seen: CanvasRenderingContext2D | null;
  private readonly sky = new HemisphereLight();
  private readonly lamp = new DirectionalLight(0xfff6e8, 2.1);
  private readonly ground = new Mesh(new PlaneGeometry(1, 1).rotateX(-Math.PI / 2), new ShadowMaterial());
  private readonly sizes = new ResizeObserver(() => this.resize());
  private readonly paper = new Color();
  private waiting = 0;
  private after: (() => void)[] = [];
  /** Told before each frame, and after the canvas changed its size. */
  onFrame: () => void = () => {};
  onResize: () => void = () => {};

  constructor(readonly canvas: HTMLCanvasElement, look: Look, private readonly plain: boolean, private readonly lost: () => void) {
    this.drawn = plain ? document.createElement('canvas') : canvas;
    this.seen = plain ? canvas.getContext('2d', { willReadFrequently: true }) : null;
    this.renderer = new WebGLRenderer({ canvas: this.drawn, antialias: !plain, alpha: true });
    this.drawn.addEventListener('webglcontextlost', this.lost);
    // The lamp stands where it is, so that shade is asked for only when something bends.
    this.renderer.shadowMap.enabled = this.ground.visible = !plain;
    this.renderer.shadowMap.type = VSMShadowMap;
    this.renderer.shadowMap.autoUpdate = false;
    this.lamp.castShadow = !plain;
    this.lamp.shadow.mapSize.set(shade, shade);
    this.lamp.shadow.radius = 12;
    this.lamp.shadow.blurSamples = 14;
    this.ground.receiveShadow = true;
    this.scene.add(this.sky, this.lamp, this.lamp.target, this.ground, this.camera);
    this.paint(look);
    this.sizes.observe(canvas);
    this.resize();
  }

  paint(look: Look): void {
    this.sky.color.set(0xfffaf0);
    this.sky.groundColor.set(0xb98a52); // what the ground throws back is warm
    this.sky.intensity = 1.75;
    this.paper.set(look.paper);
    this.ground.material.color.set(look.shade);
    this.ground.material.opacity = new Color(look.paper).getHSL({ h: 0, s: 0, l: 0 }).l > 0.5 ? 0.17 : 0.5;
    this.draw();
  }

  /** Lays ground and light about what stands at these places. */
  surround(places: Vector3[]): void {
    if (places.length === 0) return;
    const low = places[0]!.clone(), high = places[0]!.clone();
    for (const p of places) {
      low.min(p);
      high.max(p);
    }
    const middle = low.clone().add(high).multiplyScalar(0.5), reach = Math.max(1, low.distanceTo(high)) * 0.75;
    this.ground.position.set(middle.x, low.y - 0.2, middle.z);
    this.ground.scale.setScalar(12 * reach);
    this.lamp.target.position.copy(middle);
    this.lamp.position.copy(middle).addScaledVector(light, 2 * reach);
    const { camera } = this.lamp.shadow;
    camera.left = camera.bottom = -1.3 * reach;
    camera.right = camera.top = 1.3 * reach;
    camera.near = reach / 4;
    camera.far = 5 * reach;
    camera.updateProjectionMatrix();
    this.lamp.shadow.bias = -slack / (camera.far - camera.near);
    this.renderer.shadowMap.needsUpdate = true;
  }

  /** Draws at the next frame. */
  draw(): void {
    this.waiting ||= requestAnimationFrame(() => this.now());
  }

  /** Does something once the next frame is drawn, or the view is put away. */
  afterFrame(act: () => void): void { this.after.push(act); }

  /** Pixels of the page that one unit covers at distance one. */
  get perUnit(): number { return this.canvas.clientHeight / (2 * Math.tan((this.camera.fov * Math.PI) / 360)); }

  async still(width: number): Promise<Blob> {
    const before = this.renderer.getPixelRatio();
    this.scene.background = this.paper;
    this.renderer.setPixelRatio(width / Math.max(1, this.canvas.clientWidth));
    this.now();
    // The picture is read before anything else can be drawn: the canvas keeps none.
    const picture = new Promise<Blob>((done, fail) =>
      this.drawn.toBlob((blob) => (blob ? done(blob) : fail(new Error('the picture is too large'))), 'image/png'));
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
    if (this.seen) {
      const { width, height } = this.drawn;
      if (this.canvas.width !== width || this.canvas.height !== height) Object.assign(this.canvas, { width, height });
      this.seen.clearRect(0, 0, width, height);
      this.seen.drawImage(this.drawn, 0, 0);
    }
    this.done();
  }

  private done(): void {
    const acts = this.after;
    this.after = [];
    for (const act of acts) act();
  }

  private resize(): void {
    const { clientWidth: w, clientHeight: h } = this.canvas;
    if (w === 0 || h === 0) return;
    this.renderer.setPixelRatio(Math.min(this.plain ? 1 : finest, devicePixelRatio));
    this.renderer.setSize(w, h, false);
    this.camera.aspect = w / h;
    this.camera.updateProjectionMatrix();
    this.onResize();
    this.draw();
  }

  dispose(): void {
    cancelAnimationFrame(this.waiting);
    this.done();
    this.sizes.disconnect();
    this.drawn.removeEventListener('webglcontextlost', this.lost);
    this.lamp.dispose();
    this.ground.geometry.dispose();
    this.ground.material.dispose();
    this.sky.dispose();
    this.renderer.dispose();
  }
}
