import { build, isBuilt } from './build-part.mjs';
import { ensureInstalled, isInstalled } from './installed.mjs';
import { oneAtATime } from './one-at-a-time.mjs';

/** Installs and builds what is missing or out of date. Quick and silent where there is nothing to do. */
export function makeReady(parts) {
  if (isInstalled() && parts.every(isBuilt)) return;
  oneAtATime(() => {
    ensureInstalled();
    for (const part of parts) if (!isBuilt(part)) build(part);
  });
}
