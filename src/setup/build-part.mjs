import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { root } from './project.mjs';
import { orStop, run } from './run.mjs';

/**
 * A part of dist that is made from sources by a command.
 *
 * @typedef {{ name: string, sources: string[], args: string[] }} BuildPart `args`: what Node is to run
 */

/** True where the part was made from its sources as they stand now. */
export function isBuilt(part) {
  const stamp = stampFile(part);
  return existsSync(stamp) && readFileSync(stamp, 'utf8') === listing(part);
}

/** Makes the part. Ends the program with a message where that fails. */
export function build(part) {
  const from = listing(part);
  process.stderr.write(`cogwright: building ${part.name} ...\n`);
  orStop(run(process.execPath, part.args), `${part.name} could not be built; see the lines above.`);
  mkdirSync(`${root}dist`, { recursive: true });
  writeFileSync(stampFile(part), from);
}

function stampFile(part) {
  return `${root}dist/.${part.name.replaceAll(' ', '-')}-built-from`;
}

/** Every source file with its size and time of change, one a line. */
function listing(part) {
  return part.sources.flatMap(list).join('\n');
}

function list(path) {
  const stat = statSync(root + path, { throwIfNoEntry: false });
  if (!stat) return [];
  if (!stat.isDirectory()) return [`${path} ${stat.size} ${stat.mtimeMs}`];
  return readdirSync(root + path)
    .sort()
    .flatMap((name) => list(`${path}/${name}`));
}
