// Contrast of the inks on their papers, by the formula of WCAG 2.1, "relative luminance"
// and "contrast ratio": words need 4.5:1 (success criterion 1.4.3), lines and signs 3:1 (1.4.11).
import assert from 'node:assert/strict';
import { existsSync, readFileSync } from 'node:fs';
import { test } from 'node:test';

const file = ['site/views/ink.css', 'views/ink.css', 'ink.css'].find(existsSync);

function inks(css: string): Record<string, string> {
  return Object.fromEntries([...css.matchAll(/--([a-z-]+):\s*(#[0-9A-F]{6})/gi)].map((m) => [m[1]!, m[2]!]));
}

function luminance(hex: string): number {
  const [r, g, b] = [1, 3, 5].map((i) => {
    const v = parseInt(hex.slice(i, i + 2), 16) / 255;
    return v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4;
  });
  return 0.2126 * r! + 0.7152 * g! + 0.0722 * b!;
}

function contrast(a: string, b: string): number {
  const [dark, light] = [luminance(a), luminance(b)].sort((x, y) => x - y);
  return (light! + 0.05) / (dark! + 0.05);
}

const wordInks = ['ink', 'soft', 'press', 'sound', 'warn', 'stop'];
const lineInks = ['edge', 'dim', 'score', 'mark', 'inner', 'outer', 'neutral', 'ghost'];

test('contrast as the formula’s own anchors have it', () => {
  assert.equal(contrast('#000000', '#ffffff'), 21);
  assert.ok(Math.abs(contrast('#777777', '#ffffff') - 4.48) < 0.01); // computed by hand from the formula
});

test('every ink stands off its paper, in both schemes', () => {
  assert.ok(file, 'run from the repository or from site/');
  const [light, dark] = readFileSync(file, 'utf8').split('@media (prefers-color-scheme: dark)');
  for (const [scheme, css] of [['light', light!], ['dark', dark!]] as const) {
    const ink = inks(css);
    for (const paper of ['paper', 'inset', 'field']) {
      for (const name of wordInks) assert.ok(contrast(ink[name]!, ink[paper]!) >= 4.5, `${scheme} ${name} on ${paper}: ${contrast(ink[name]!, ink[paper]!).toFixed(2)}`);
    }
    for (const name of lineInks) assert.ok(contrast(ink[name]!, ink.paper!) >= 3, `${scheme} ${name}: ${contrast(ink[name]!, ink.paper!).toFixed(2)}`);
    assert.ok(contrast(ink['on-press']!, ink.press!) >= 4.5, `${scheme} words on what can be pressed`);
    assert.ok(contrast(ink.press!, ink.wash!) >= 4.5, `${scheme} words of a remedy on its wash`);
    for (const name of ['ink', 'soft', 'pen']) assert.ok(contrast(ink[name]!, ink.wood!) >= 3, `${scheme} ${name} on wood`);
  }
});
