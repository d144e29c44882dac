// `npm run build`: builds everything, out of date or not.
import { build } from './build-part.mjs';
import { allParts } from './build-parts.mjs';
import { ensureInstalled } from './installed.mjs';
import { ensureNodeVersion } from './node-version.mjs';
import { oneAtATime } from './one-at-a-time.mjs';

ensureNodeVersion();
oneAtATime(() => {
  ensureInstalled();
  for (const part of allParts()) build(part);
});
