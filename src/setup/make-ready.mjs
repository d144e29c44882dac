import { build, isBuilt } from './build-part.mjs';
import { ensureInstalled, isInstalled } from './installed.mjs';
import { ensureNodeVersion } from './node-version.mjs';
import { oneAtATime } from './one-at-a-time.mjs';

/** Installs and builds what is missing or out of date. Quick and silent where there is nothing to do. Ends the program where this Node does not do. */
export function makeReady(parts) {
  ensureNodeVersion();
  if (isInstalled() && parts.every(isBuilt)) return;
  oneAtATime(() => {
    ensureInstalled();
    for (const part of parts) if (!isBuilt(part)) build(part);
  });
}
