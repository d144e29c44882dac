// Starts the worker from its TypeScript sources, for tests and scripts; the built server starts worker.js itself.
import { register } from 'tsx/esm/api';

register();
const worker = await import('./worker.ts');

export const { intake, analyse, compare, conclude, place, guess, wholeReport, placeless } = worker;
