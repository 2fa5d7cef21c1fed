// Modules that the build makes.

/** The bundled source of worker.ts, as text. */
declare module 'springrib:worker' {
  const source: string;
  export default source;
}

/** The core that belongs to an embedded design: its file beside the script, and the SHA-256 of what it holds, in hex. */
declare module 'springrib:core' {
  const core: { file: string; sha256: string };
  export default core;
}

/** The bundled style sheet of an embedded design, as text. */
declare module 'springrib:style' {
  const style: string;
  export default style;
}

/** What the offline worker keeps: the build's id, and the files of its page beside the worker. */
declare module 'springrib:kept' {
  const kept: { build: string; files: string[] };
  export default kept;
}

/** Go's own loader of wasm, taken from the Go that compiles the core. */
declare module 'springrib:wasm_exec';

/** What stands on the shelf of a new design, worked out when the page is built. */
declare module 'springrib:things' {
  const things: import('./things/api').Thing[];
  export default things;
}

/** The typeface of PDFs, from print/faces.json. */
declare module 'springrib:faces' {
  const faces: unknown;
  export default faces;
}
