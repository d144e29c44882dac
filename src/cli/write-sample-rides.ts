import { mkdirSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { sampleRideFiles } from '../simulate/sample-rides.ts';

// `npm run sample-rides`: writes the sample bikes anew; the same bytes each time.
const folder = fileURLToPath(new URL('../../sample-rides', import.meta.url));
for (const { path, bytes } of sampleRideFiles()) {
  const target = join(folder, path);
  mkdirSync(dirname(target), { recursive: true });
  writeFileSync(target, bytes);
  console.log(`${target} ${bytes.length} bytes`);
}
