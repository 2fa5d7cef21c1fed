import assert from 'node:assert/strict';
import { test } from 'node:test';
import { deflateRawSync } from 'node:zlib';
import { holdsDesign, LinkError, mostUnpacked, packed, unpacked } from './link';

const linkOf = (text: string): string => `#design=${deflateRawSync(text).toString('base64url')}`;

test('a text goes through a link and comes out the same', async () => {
  for (const text of ['{}', '{"name":"Tür ⌀ 3 mm — 𝄞"}', JSON.stringify(Array.from({ length: 5000 }, (_, i) => i * 7919 % 10007))]) {
    const link = await packed(text);
    assert.match(link, /^design=[A-Za-z0-9_-]+$/);
    assert.equal(holdsDesign(`#${link}`), true);
    assert.equal(await unpacked(`#${link}`), text);
  }
});

// RFC 1951, section 3.2.3: block type 1 is fixed codes; 0x4b 0x04 0x00 is the letter "a"
// (literal 97, code 10010001) and the end of the block, as zlib writes it.
test('links are raw deflate in the URL-safe letters of RFC 4648', async () => {
  assert.equal(await unpacked('#design=SwQA'), 'a');
  assert.equal(await unpacked(linkOf('made by zlib')), 'made by zlib');
});

test('up to a megabyte is unpacked, and not a byte more', async () => {
  assert.equal((await unpacked(linkOf(' '.repeat(mostUnpacked)))).length, mostUnpacked);
  await assert.rejects(unpacked(linkOf(' '.repeat(mostUnpacked + 1))), /more than 1 MB/);
  await assert.rejects(unpacked(linkOf(' '.repeat(200e6))), /more than 1 MB/);
  await assert.rejects(unpacked(`#design=${'A'.repeat(3e6)}`), /more than 1 MB/);
});

test('what is damaged says so', async () => {
  const whole = linkOf('{"name":"a design that is long enough to be cut"}');
  for (const link of ['#design=', '#design=%', '#design=<script>', '#design=A', '#design=AAAA', whole.slice(0, -9), `${whole.slice(0, 20)}-${whole.slice(21)}`, '#design=%E0%A4%A']) {
    await assert.rejects(unpacked(link), (e) => e instanceof LinkError && /cut short|changed/.test(e.message), link);
  }
});

test('other things after the sign are no designs', () => {
  for (const hash of ['', '#', '#drawing-flat', '#designs=x']) assert.equal(holdsDesign(hash), false, hash);
});
