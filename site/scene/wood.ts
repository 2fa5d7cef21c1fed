// The grain of wood: a picture of long dark lines, made once, that repeats both ways.
import { DataTexture, LinearFilter, LinearMipmapLinearFilter, RGBAFormat, RepeatWrapping, SRGBColorSpace } from 'three';

/** Pixels of the picture each way, and how many mm it covers. */
const size = 256, covers = 240;
/** Lines of the grain. */
const lines = 95;

let made: DataTexture | undefined;

/** The picture of the grain, its lines along the first direction. */
export function grain(): DataTexture {
  if (made) return made;
  const dark = new Float32Array(size * size);
  let seed = 7;
  const random = (): number => (seed = (seed * 16807) % 2147483647) / 2147483647; // the same each time
  for (let n = 0; n < lines; n++) {
    const at = random() * size, wide = 0.5 + 1.9 * random() ** 2, deep = 0.04 + 0.1 * random();
    const sway = 0.5 + 2.5 * random(), turns = 1 + Math.floor(2 * random()), phase = random() * 2 * Math.PI, fades = random() * 2 * Math.PI;
    for (let x = 0; x < size; x++) {
      const way = (2 * Math.PI * x) / size;
      const middle = at + sway * Math.sin(turns * way + phase), strength = deep * (0.6 + 0.4 * Math.sin(way + fades));
      for (let d = -6; d <= 6; d++) {
        const y = Math.floor(middle) + d, off = (y - middle) / wide;
        dark[(((y % size) + size) % size) * size + x]! += strength * Math.exp(-off * off);
      }
    }
  }
  const pixels = new Uint8Array(4 * size * size);
  dark.forEach((d, i) => {
    const left = 1 - Math.min(0.4, d);
    pixels.set([255 * (0.12 + 0.88 * left), 255 * left, 255 * (left - 0.1 * (1 - left)), 255], 4 * i);
  });
  made = new DataTexture(pixels, size, size, RGBAFormat);
  made.wrapS = made.wrapT = RepeatWrapping;
  made.magFilter = LinearFilter;
  made.minFilter = LinearMipmapLinearFilter;
  made.generateMipmaps = true;
  made.anisotropy = 4;
  made.colorSpace = SRGBColorSpace;
  made.needsUpdate = true;
  return made;
}

/** Where places of the flat panel, three numbers each, lie on that picture. */
export function onGrain(flat: Float32Array): Float32Array {
  const out = new Float32Array((flat.length / 3) * 2);
  for (let i = 0, at = 0; i < flat.length; i += 3) {
    out[at++] = flat[i]! / covers;
    out[at++] = (flat[i + 1]! + 0.3 * flat[i + 2]!) / covers;
  }
  return out;
}
