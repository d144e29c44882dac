import { ensureBuilt, isBuilt } from './built.mjs';
import { ensureInstalled, isInstalled } from './installed.mjs';
import { oneAtATime } from './one-at-a-time.mjs';

/** Installs and builds what is missing or out of date. Quick and silent where there is nothing to do. */
export function makeReady() {
  if (isInstalled() && isBuilt()) return;
  oneAtATime(() => {
    ensureInstalled();
    ensureBuilt();
  });
}
