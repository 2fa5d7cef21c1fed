// A design in the part of an address after "#", which no server gets to see: its JSON,
// compressed as RFC 1951 has it and written in the letters of RFC 4648, section 5.

/** The most that a link may unpack to, bytes. A design has two to five thousand. */
export const mostUnpacked = 1_000_000;

/** The most that is read of a link. A worse ratio than one to one is no compression. */
const longest = Math.ceil(mostUnpacked * 4 / 3) + 1000;

const member = 'design=';

/** A link that can't be opened, in words for the person who followed it. */
export class LinkError extends Error {}

/** The part after "#" that holds this text. */
export async function packed(text: string): Promise<string> {
  const bytes = await gathered(new Blob([text]).stream().pipeThrough(new CompressionStream('deflate-raw')), Infinity);
  let letters = '';
  for (const b of bytes) letters += String.fromCharCode(b);
  return member + btoa(letters).replaceAll('+', '-').replaceAll('/', '_').replaceAll('=', '');
}

/** Whether the part after "#" means to hold a design. */
export const holdsDesign = (hash: string): boolean => bare(hash).startsWith(member);

/** The text in the part after "#". Throws a LinkError. */
export async function unpacked(hash: string): Promise<string> {
  const letters = bare(hash).slice(member.length);
  if (letters.length > longest) throw new LinkError(tooMuch);
  try {
    const bytes = await gathered(new Blob([bytesOf(letters)]).stream().pipeThrough(new DecompressionStream('deflate-raw')), mostUnpacked);
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch (e) {
    if (e instanceof LinkError) throw e;
    throw new LinkError(damaged);
  }
}

const bare = (hash: string): string => hash.replace(/^#/, '');

// Some programs write the letters of a link their own way.
function bytesOf(letters: string): Uint8Array<ArrayBuffer> {
  const plain = decodeURIComponent(letters).trim();
  if (!/^[\w-]+$/.test(plain)) throw new LinkError(damaged);
  return Uint8Array.from(atob(plain.replaceAll('-', '+').replaceAll('_', '/')), (c) => c.charCodeAt(0));
}

// All bytes of a stream, or a LinkError as soon as they are more than most.
async function gathered(stream: ReadableStream<Uint8Array<ArrayBuffer>>, most: number): Promise<Uint8Array<ArrayBuffer>> {
  const pieces: Uint8Array<ArrayBuffer>[] = [];
  let length = 0;
  const reader = stream.getReader();
  for (;;) {
    const { done, value } = await reader.read();
    if (done) break;
    pieces.push(value);
    length += value.length;
    if (length > most) {
      await reader.cancel().catch(() => undefined);
      throw new LinkError(tooMuch);
    }
  }
  return new Uint8Array(await new Blob(pieces).arrayBuffer());
}

const damaged = 'This link holds no design that can be read: it is cut short, or was changed on its way. Ask for it again, or for the design as a file.';
const tooMuch = 'This link unpacks to more than 1 MB; a design has a few kilobytes. It is left unopened.';
