/**
 * The file that worker threads start from: the compiled worker beside this module, or, where the server runs from its
 * sources (tests, scripts), one that first teaches Node to read TypeScript.
 */
export function workerFile(from: string = import.meta.url): string {
  return new URL(from.endsWith('.ts') ? './source-worker.mjs' : './worker.js', from).href;
}
