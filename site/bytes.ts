// Bytes on their way in: fetched, out of letters, unpacked while they come.

/** What lies at an address; an error in words when the server doesn't give it. */
export async function fetched(url: string): Promise<Response> {
  const response = await fetch(url, { credentials: 'same-origin' });
  if (!response.ok) throw new Error(`the server answers ${response.status} for the core`);
  return response;
}

/** A body, unpacked when it is gzipped: some servers unpack on the way, so the bytes say what they are. */
export async function inflated(packed: Response): Promise<Response> {
  const reader = packed.body!.getReader();
  const first = await reader.read();
  const [a, b] = first.value ?? [];
  const body = new ReadableStream<Uint8Array<ArrayBuffer>>({
    start(to) {
      if (first.value) to.enqueue(first.value);
      if (first.done) to.close();
    },
    async pull(to) {
      const { done, value } = await reader.read();
      if (done) to.close();
      else to.enqueue(value);
    },
  });
  return new Response(a === 0x1f && b === 0x8b ? body.pipeThrough(new DecompressionStream('gzip')) : body);
}

/** The bytes that a text in base64 stands for. */
export function fromBase64(text: string): Uint8Array<ArrayBuffer> {
  const { fromBase64 } = Uint8Array as unknown as { fromBase64?: (text: string) => Uint8Array<ArrayBuffer> };
  if (fromBase64) return fromBase64.call(Uint8Array, text); // newer browsers, ten times as fast
  const packed = atob(text);
  const bytes = new Uint8Array(packed.length);
  for (let i = 0; i < packed.length; i++) bytes[i] = packed.charCodeAt(i);
  return bytes;
}

/** The bytes that a text in Ascii85 stands for, as the build writes it: v for the letter that begins a tag, no z. */
export function fromLetters(text: string): Uint8Array<ArrayBuffer> {
  const whole = Math.floor(text.length / 5), left = text.length - 5 * whole;
  const bytes = new Uint8Array(4 * whole + Math.max(0, left - 1));
  const digit = (at: number): number => {
    const c = text.charCodeAt(at);
    return (c === 118 ? 60 : c) - 33;
  };
  let to = 0;
  for (let at = 0; at < 5 * whole; at += 5) {
    const n = (((digit(at) * 85 + digit(at + 1)) * 85 + digit(at + 2)) * 85 + digit(at + 3)) * 85 + digit(at + 4);
    bytes[to++] = n / 0x1000000;
    bytes[to++] = n >>> 16;
    bytes[to++] = n >>> 8;
    bytes[to++] = n;
  }
  let n = 0;
  for (let k = 0; k < 5; k++) n = n * 85 + (k < left ? digit(5 * whole + k) : 84);
  for (let k = 1; k < left; k++) bytes[to++] = n / 2 ** (32 - 8 * k);
  return bytes;
}

/** Bytes as a text in base64. */
export function toBase64(bytes: Uint8Array): string {
  let text = '';
  for (let i = 0; i < bytes.length; i += 0x8000) text += String.fromCharCode(...bytes.subarray(i, i + 0x8000));
  return btoa(text);
}

/** Compiles a core while it is fetched and unpacked. */
export async function compiled(packed: Response): Promise<WebAssembly.Module> {
  const { body } = await inflated(packed);
  return WebAssembly.compileStreaming(new Response(body, { headers: { 'Content-Type': 'application/wasm' } }));
}
