// Modules that the build makes.

/** The bundled source of worker.ts, as text. */
declare module 'springrib:worker' {
  const source: string;
  export default source;
}

/** What the offline worker keeps: the build's id, and the files of its page beside the worker. */
declare module 'springrib:kept' {
  const kept: { build: string; files: string[] };
  export default kept;
}

/** Go's own loader of wasm, taken from the Go that compiles the core. */
declare module 'springrib:wasm_exec';
