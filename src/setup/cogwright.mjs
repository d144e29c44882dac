// The command line, from the built program: `npm run cogwright -- ...`.
import { partsFor } from './build-parts.mjs';
import { makeReady } from './make-ready.mjs';

const args = process.argv.slice(2);
makeReady(partsFor(args));
const { main } = await import('../../dist/src/cli/main.js');
await main(args);
