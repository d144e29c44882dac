// `npm run crash`, `load` and `sitting`: runs a script on the built program, made anew only where it is out of date. Help needs no build.
import { allParts, asksForHelp } from './build-parts.mjs';
import { makeReady } from './make-ready.mjs';
import { run } from './run.mjs';

const [script, ...options] = process.argv.slice(2);
makeReady(asksForHelp(options) ? [] : allParts());
process.exitCode = run(process.execPath, ['--import', 'tsx', script, ...options], { stdout: 'inherit' });
