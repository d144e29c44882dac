// The command line, from the built program: `npm run cogwright -- ...`.
import { allParts, program } from './build-parts.mjs';
import { makeReady } from './make-ready.mjs';

makeReady(process.argv[2] === 'serve' ? allParts() : [program]);
const { main } = await import('../../dist/src/cli/main.js');
await main(process.argv.slice(2));
