// Modules that the build makes.

/** The bundled source of worker.ts, as text. */
declare module 'springrib:worker' {
  const source: string;
  export default source;
}

/** Go's own loader of wasm, taken from the Go that compiles the core. */
declare module 'springrib:wasm_exec';
