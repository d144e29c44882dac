import { existsSync, mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { root } from './project.mjs';
import { orStop, run } from './run.mjs';

const stampFile = `${root}dist/.built-from`;
const sources = ['src', 'server', 'tsconfig.json', 'package-lock.json'];

/** True where the build in dist was made from the sources as they stand now. */
export function isBuilt() {
  return existsSync(stampFile) && readFileSync(stampFile, 'utf8') === listing();
}

/** Compiles the program to dist where its sources have changed since; else does nothing. */
export function ensureBuilt() {
  const from = listing();
  if (existsSync(stampFile) && readFileSync(stampFile, 'utf8') === from) return;
  process.stderr.write('cogwright: building the program ...\n');
  orStop(
    run(process.execPath, ['node_modules/typescript/bin/tsc', '-p', 'src/setup/tsconfig.build.json']),
    'the build failed; see the lines above.',
  );
  mkdirSync(`${root}dist`, { recursive: true });
  writeFileSync(stampFile, from);
}

/** Every source file with its size and time of change, one a line. */
function listing() {
  return sources.flatMap((path) => list(path)).join('\n');
}

function list(path) {
  const stat = statSync(root + path, { throwIfNoEntry: false });
  if (!stat) return [];
  if (!stat.isDirectory()) return [`${path} ${stat.size} ${stat.mtimeMs}`];
  return readdirSync(root + path)
    .sort()
    .flatMap((name) => list(`${path}/${name}`));
}
