import { spawnSync } from 'node:child_process';
import {
  chmodSync,
  cpSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  rmSync,
  utimesSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';

const setup = fileURLToPath(new URL('../../src/setup', import.meta.url));

/**
 * A small project with the real setup scripts, an `npm` that only writes down that it was called and leaves npm's
 * record behind, and a compiler that does likewise.
 */
let project: string;
const at = (...path: string[]): string => join(project, ...path);
const calls = (): string[] => (existsSync(at('calls')) ? readFileSync(at('calls'), 'utf8').trim().split('\n') : []);
const lock = (version: string): string =>
  JSON.stringify({
    packages: { '': {}, 'node_modules/a': { version }, 'node_modules/b': { version: '1.0.0', optional: true } },
  });

const needNode = (node: string): void => writeFileSync(at('package.json'), JSON.stringify({ engines: { node } }));

const fakeNpm = `#!/bin/sh
echo "npm $1" >> "$PROJECT/calls"
[ -n "$NPM_FAILS" ] && exit 1
mkdir -p "$PROJECT/node_modules/typescript/bin"
sleep 0.1
printf 'require("node:fs").appendFileSync(process.env.PROJECT + "/calls", "tsc\\\\n");' > "$PROJECT/node_modules/typescript/bin/tsc"
cp "$PROJECT/package-lock.json" "$PROJECT/node_modules/.package-lock.json"
`;

function makeReady(env: Record<string, string> = {}): ReturnType<typeof spawnSync> {
  return spawnSync(process.execPath, [at('ready.mjs')], {
    env: { ...process.env, PATH: `${at('bin')}:${process.env.PATH}`, PROJECT: project, ...env },
    encoding: 'utf8',
  });
}

beforeEach(() => {
  project = mkdtempSync(join(tmpdir(), 'cogwright-setup-'));
  mkdirSync(at('src'));
  cpSync(setup, at('src/setup'), { recursive: true });
  writeFileSync(
    at('ready.mjs'),
    `import { program } from './src/setup/build-parts.mjs';
import { makeReady } from './src/setup/make-ready.mjs';
makeReady([program]);
`,
  );
  writeFileSync(at('package-lock.json'), lock('1.0.0'));
  needNode('>=20');
  writeFileSync(at('tsconfig.json'), '{}');
  writeFileSync(at('src/a.ts'), '');
  mkdirSync(at('bin'));
  writeFileSync(at('bin/npm'), fakeNpm);
  chmodSync(at('bin/npm'), 0o755);
});
afterEach(() => rmSync(project, { recursive: true, force: true }));

describe('makeReady', () => {
  it('installs and builds a clean clone, and does nothing the second time', () => {
    const first = makeReady();
    expect(first.stderr).toContain('installing');
    expect(calls()).toEqual(['npm ci', 'tsc']);
    const second = makeReady();
    expect(calls()).toEqual(['npm ci', 'tsc']);
    expect(second.stdout).toBe('');
    expect(second.stderr).toBe('');
  });

  it('installs again when the lock file asks for another version, not when only its time changed', () => {
    makeReady();
    utimesSync(at('package-lock.json'), new Date(), new Date());
    makeReady();
    expect(calls().filter((call) => call === 'npm ci')).toHaveLength(1);
    writeFileSync(at('package-lock.json'), lock('1.0.1'));
    makeReady();
    expect(calls().filter((call) => call === 'npm ci')).toHaveLength(2);
  });

  it('takes libraries that were installed by hand, optional ones left out', () => {
    makeReady();
    rmSync(at('node_modules/.cogwright-installed'));
    const present = JSON.stringify({ packages: { 'node_modules/a': { version: '1.0.0' } } });
    writeFileSync(at('node_modules/.package-lock.json'), present);
    makeReady();
    expect(calls().filter((call) => call === 'npm ci')).toHaveLength(1);
  });

  it('installs again where an install was broken off', () => {
    makeReady();
    rmSync(at('node_modules/.package-lock.json'));
    makeReady();
    expect(calls().filter((call) => call === 'npm ci')).toHaveLength(2);
  });

  it('builds again when a source changed, came or went', () => {
    makeReady();
    const built = (): number => calls().filter((call) => call === 'tsc').length;
    writeFileSync(at('src/a.ts'), 'export {};');
    makeReady();
    expect(built()).toBe(2);
    writeFileSync(at('src/b.ts'), '');
    makeReady();
    expect(built()).toBe(3);
    rmSync(at('src/b.ts'));
    makeReady();
    expect(built()).toBe(4);
    makeReady();
    expect(built()).toBe(4);
  });

  it('says what failed and ends with 70, and tries again the next time', () => {
    const failed = makeReady({ NPM_FAILS: '1' });
    expect(failed.status).toBe(70);
    expect(failed.stderr).toContain('could not be installed');
    expect(makeReady().status).toBe(0);
  });

  it('says which versions of Node do where this one does not, and starts nothing', () => {
    needNode('^18.3.0 || >=99');
    const { status, stderr } = makeReady();
    expect(status).toBe(70);
    expect(stderr).toBe(
      `cogwright: Node.js ${process.versions.node} does not do: the libraries need 18.3 or a later 18, or 99 or newer. Install one of these and run the command again.\n`,
    );
    expect(calls()).toEqual([]);
  });

  it('takes over a lock that a killed program left behind', () => {
    mkdirSync(at('dist/.making-ready'), { recursive: true });
    writeFileSync(at('dist/.making-ready/pid'), '999999999');
    expect(makeReady().status).toBe(0);
    expect(calls()).toEqual(['npm ci', 'tsc']);
  });

  it.each([
    ['without a word of its owner', () => {}],
    ['with an owner half written', () => writeFileSync(at('dist/.making-ready/pid'), '')],
  ])('takes over a lock that was left half made, %s', (_what, leave) => {
    for (let time = 1; time <= 2; time++) {
      mkdirSync(at('dist/.making-ready'), { recursive: true });
      leave();
      writeFileSync(at('src/a.ts'), `${time}`);
      expect(makeReady().status).toBe(0);
      expect(existsSync(at('dist/.making-ready'))).toBe(false);
    }
  });

  it('installs once when two commands start together', () => {
    expect(together(2)).toBe(0);
    expect(calls()).toEqual(['npm ci', 'tsc']);
  });

  it('installs once when several wait for a lock that a killed program left behind', () => {
    mkdirSync(at('dist/.making-ready'), { recursive: true });
    writeFileSync(at('dist/.making-ready/pid'), '999999999');
    expect(together(6)).toBe(0);
    expect(calls()).toEqual(['npm ci', 'tsc']);
  });

  it('leaves the lock of another alone when it ends', () => {
    writeFileSync(
      at('ready.mjs'),
      `import { mkdirSync } from 'node:fs';
import { oneAtATime } from './src/setup/one-at-a-time.mjs';
oneAtATime(() => {});
mkdirSync('${at('dist/.making-ready')}');
`,
    );
    expect(makeReady().status).toBe(0);
    expect(existsSync(at('dist/.making-ready'))).toBe(true);
  });

  /** The exit code of so many commands that start at once: 0 where each of them ended well. */
  function together(count: number): number | null {
    const commands = Array.from({ length: count }, () => `"${process.execPath}" "${at('ready.mjs')}" & all="$all $!"`);
    return spawnSync('sh', ['-c', `${commands.join('\n')}\nfor one in $all; do wait $one || exit 1; done`], {
      env: { ...process.env, PATH: `${at('bin')}:${process.env.PATH}`, PROJECT: project },
    }).status;
  }
});

describe('partsFor', () => {
  it.each([
    [['serve'], ['the program', 'the page']],
    [
      ['serve', '--port', '0'],
      ['the program', 'the page'],
    ],
    [['serve', '--help'], ['the program']],
    [['serve', '--port', '0', '-h'], ['the program']],
    [['help', 'serve'], ['the program']],
    [['analyse', 'serve'], ['the program']],
  ])('%j builds %j', (args, parts) => {
    mkdirSync(at('web'));
    writeFileSync(at('web/vite.config.ts'), '');
    writeFileSync(
      at('parts.mjs'),
      `import { partsFor } from './src/setup/build-parts.mjs';
process.stdout.write(JSON.stringify(partsFor(process.argv.slice(2)).map(({ name }) => name)));
`,
    );
    const { stdout } = spawnSync(process.execPath, [at('parts.mjs'), ...args], { encoding: 'utf8' });
    expect(JSON.parse(stdout)).toEqual(parts);
  });
});

describe('a script on the built program', () => {
  const runOnBuilt = (...options: string[]): ReturnType<typeof spawnSync> =>
    spawnSync(process.execPath, [at('src/setup/run-on-built.mjs'), 'script.mjs', ...options], {
      env: { ...process.env, PATH: `${at('bin')}:${process.env.PATH}`, PROJECT: project },
      encoding: 'utf8',
    });

  it('builds what is out of date alone, hands on its options and ends as the script does', () => {
    mkdirSync(at('node_modules/tsx'), { recursive: true });
    writeFileSync(at('node_modules/tsx/index.js'), '');
    writeFileSync(
      at('script.mjs'),
      "import { appendFileSync } from 'node:fs';\nappendFileSync('calls', process.argv.slice(2).join(' ') + '\\n');\nprocess.exitCode = 3;\n",
    );
    expect(runOnBuilt('--help').status).toBe(3);
    expect(calls()).toEqual(['npm ci', '--help']);
    for (const kills of ['2', '5']) expect(runOnBuilt('--kills', kills).status).toBe(3);
    expect(calls().slice(2)).toEqual(['tsc', '--kills 2', '--kills 5']);
  });
});
