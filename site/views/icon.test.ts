import assert from 'node:assert/strict';
import { existsSync, readFileSync } from 'node:fs';
import { test } from 'node:test';

test('the page’s icon is icon.svg', () => {
  const root = ['site/', ''].find((r) => existsSync(`${r}icon.svg`));
  assert.notEqual(root, undefined, 'run from the repository or from site/');
  const page = readFileSync(`${root}index.html`, 'utf8');
  const inPage = /href="data:image\/svg\+xml,([^"]+)"/.exec(page)?.[1] ?? '';
  const flat = (svg: string): string => svg.replace(/\s*\n\s*/g, '').trim();
  assert.equal(decodeURIComponent(inPage), flat(readFileSync(`${root}icon.svg`, 'utf8')));
});
