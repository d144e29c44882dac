// The command line, from the built program: `npm run cogwright -- ...`.
import { makeReady } from './make-ready.mjs';

makeReady();
const { main } = await import('../../dist/src/cli/main.js');
await main(process.argv.slice(2));
