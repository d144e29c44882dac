// `npm start`: makes the project ready, serves the page, and prints the reports of the sample bikes.
// `npm start -- --port NUMBER --data FOLDER --verbose` as `serve` takes them. The log would stand amid the reports, so without
// `--verbose` only what went wrong is logged.
import { spawn } from 'node:child_process';
import { existsSync, readdirSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { allParts } from './build-parts.mjs';
import { makeReady } from './make-ready.mjs';
import { root } from './project.mjs';

const MOST_PORT = 65535;
const usage = `npm start [-- --port NUMBER] [--data FOLDER] [--verbose]

--port NUMBER  port to listen on, 4173 if left out; 0 for any that is free
--data FOLDER  folder that holds the bikes and rides, in the user's own data folder if left out
--verbose      log every request and each stage of every analysis
For more, such as a page for other machines: npm run cogwright -- serve --help
`;
const values = optionsOrEnd();
makeReady(allParts());
const { serve } = await import('../../dist/server/serve.js');
const { url, stopping } = await serveOrStop({
  port: Number(values.port),
  data: values.data,
  verbose: values.verbose,
  quiet: !values.verbose,
});
process.stdout.write('The reports of the invented sample bikes follow, and then the address of the page once more.\n');
for (const bike of sampleBikes()) if (!stopping.aborted) await printReport(bike);
if (!stopping.aborted)
  process.stdout.write(
    `These were the reports of the invented sample bikes. The page is at ${url} until you stop it with Ctrl+C.\n`,
  );

/** What was asked for. Help and wrong usage end the process. */
function optionsOrEnd() {
  try {
    const { values } = parseArgs({
      options: {
        port: { type: 'string', default: '4173' },
        data: { type: 'string' },
        verbose: { type: 'boolean', default: false },
        help: { type: 'boolean', short: 'h', default: false },
      },
    });
    if (!values.help && /^\d{1,5}$/.test(values.port) && Number(values.port) <= MOST_PORT) return values;
    if (!values.help)
      process.stderr.write(`cogwright: --port ${values.port}: must be a whole number from 0 to ${MOST_PORT}.\n\n`);
    process[values.help ? 'stdout' : 'stderr'].write(usage);
    process.exit(values.help ? 0 : 2);
  } catch (error) {
    process.stderr.write(`cogwright: ${error.message}\n\n${usage}`);
    process.exit(2);
  }
}

async function serveOrStop(options) {
  try {
    return await serve(options);
  } catch (error) {
    process.stderr.write(`cogwright: ${error.code ? error.message : error.stack}\n`);
    process.exit(error.code ? 2 : 70);
  }
}

/** Folders under sample-rides that hold a bike, in the order of their names. */
function sampleBikes() {
  return readdirSync(`${root}sample-rides`)
    .sort()
    .map((name) => `sample-rides/${name}`)
    .filter((folder) => existsSync(`${root}${folder}/bike.json`));
}

/**
 * Prints one bike's report in one piece, made by a program of its own so that the server goes on answering. That program
 * ends with the server.
 */
function printReport(bike) {
  const args = ['src/setup/cogwright.mjs', 'analyse', bike, '--bike', `${bike}/bike.json`];
  if (existsSync(`${root}${bike}/adjustments.csv`)) args.push('--adjustments', `${bike}/adjustments.csv`);
  return new Promise((resolve) => {
    const child = spawn(process.execPath, args, { cwd: root, stdio: ['ignore', 'pipe', 'inherit'], signal: stopping });
    const pieces = [];
    child.stdout.on('data', (piece) => pieces.push(piece));
    child.on('error', resolve);
    child.on('close', () => {
      if (!stopping.aborted) process.stdout.write(`\n${Buffer.concat(pieces)}\n`);
      resolve();
    });
  });
}
