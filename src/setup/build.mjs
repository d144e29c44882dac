// `npm run build`: builds everything, out of date or not.
import { build } from './build-part.mjs';
import { allParts } from './build-parts.mjs';
import { ensureInstalled } from './installed.mjs';
import { oneAtATime } from './one-at-a-time.mjs';

oneAtATime(() => {
  ensureInstalled();
  for (const part of allParts()) build(part);
});
