import type { BuildPart } from './build-parts.mjs';

/** Installs and builds what is missing or out of date. Quick and silent where there is nothing to do. */
export declare function makeReady(parts: BuildPart[]): void;
