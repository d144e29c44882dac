// `npm start`: makes the project ready, then prints the reports of the sample bikes.
import { existsSync, readdirSync } from 'node:fs';
import { allParts } from './build-parts.mjs';
import { makeReady } from './make-ready.mjs';
import { root } from './project.mjs';

makeReady(allParts());
const { main } = await import('../../dist/src/cli/main.js');
process.chdir(root);
for (const bike of sampleBikes()) {
  const adjustments = `${bike}/adjustments.csv`;
  await main([
    'analyse',
    bike,
    '--bike',
    `${bike}/bike.json`,
    ...(existsSync(adjustments) ? ['--adjustments', adjustments] : []),
  ]);
  process.stdout.write('\n\n');
}

/** Folders under sample-rides that hold a bike, in the order of their names. */
function sampleBikes() {
  return readdirSync('sample-rides')
    .sort()
    .map((name) => `sample-rides/${name}`)
    .filter((folder) => existsSync(`${folder}/bike.json`));
}
