import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('..', import.meta.url));

/** Stages of src from first to last: a file imports from its own stage and from stages before it, types included. */
const stageOrder = [
  'errors',
  'numeric',
  'hmm',
  'drivetrain',
  'ride-log',
  'gear-trace',
  'shifts',
  'cogs',
  'adjustments',
  'diagnosis',
  'report',
  'analyse.ts',
  'cli',
];
/** Makes rides to test the engine with, so it shares nothing with the stages that judge them. */
const simulator = 'simulate';
const judgingStages = ['gear-trace', 'shifts', 'cogs', 'adjustments', 'diagnosis'];
const simulatorMayUse = ['errors', 'numeric', 'drivetrain', 'ride-log', simulator];
/** Plain scripts that make the project ready; they import nothing of src. */
const setup = 'setup';
const mayTouchFiles = ['cli', setup];
const MOST_LINES = 400;
const bannedNames = /(^|-)(utils?|helpers?|types?|common|managers?)$/;

/**
 * Folders of the larger stages from first to last: a file imports from its own folder and from folders before it, types
 * included. The files beside the folders are not held to it: shapes that all share, and what puts the folders together.
 * Only the server's `engine.ts`, which pulls in all stages of src, has its place among them.
 */
const folderOrders: Readonly<Record<string, readonly string[]>> = {
  'src/ride-log': ['xml', 'csv', 'fit'],
  'src/gear-trace': [
    'samples',
    'ladder',
    'commands',
    'decoding',
    'levels',
    'unsteady',
    'belonging',
    'disagreement',
    'guess',
  ],
  'src/shifts': ['turns', 'commands', 'stories', 'outcomes', 'ghosts', 'drops', 'skips'],
  'src/diagnosis': [
    'evidence',
    'imagined-bike',
    'likelihood',
    'posterior',
    'unexplained',
    'sentences',
    'now',
    'next-step',
    'check-ride',
  ],
  'src/report': ['words', 'held', 'state', 'charts', 'chart-data', 'text', 'html'],
  'src/simulate': ['setting', 'rider', 'mechanics', 'sensors', 'truth', 'files'],
  server: [
    'positions',
    'raw',
    'store',
    'data-folder',
    'judgements',
    'state',
    'shapes',
    'engine.ts',
    'work',
    'http',
    'strangers',
    'intake',
    'archive',
    'samples',
    'routes',
  ],
  web: [
    'router',
    'dom',
    'api',
    'words',
    'page',
    'drivetrain',
    'charts',
    'sheet',
    'add-rides',
    'enter-bike',
    'data',
    'meanings',
    'ride',
    'bike',
    'bikes',
    'workshop',
  ],
};

interface Import {
  readonly from: string;
  readonly to: string;
  /** Nothing of it is left at run time. */
  readonly typesOnly: boolean;
}

const codeFiles = ['src', 'server', 'web', 'tests']
  .filter((folder) => existsSync(join(root, folder)))
  .flatMap(list)
  .filter((file) => /\.(ts|mts|mjs|js)$/.test(file));
const srcFiles = codeFiles.filter((file) => file.startsWith('src/'));
const imports = codeFiles.flatMap(importsOf);

function list(folder: string): string[] {
  const entries = readdirSync(join(root, folder), { withFileTypes: true, recursive: true });
  return entries.filter((entry) => entry.isFile()).map((entry) => relative(root, join(entry.parentPath, entry.name)));
}

/** Static imports and re-exports, imports of types, and dynamic imports with a literal name. */
function importsOf(file: string): Import[] {
  const text = readFileSync(join(root, file), 'utf8');
  const names = text.matchAll(
    /(?:(^(?:import|export)\s+type\b[^;'"]*?)?\bfrom\s*|\bimport\s*\(\s*|^import\s+)(['"])([^'"]+)\2/gm,
  );
  return [...names].map(([, types, , name]) => ({
    from: file,
    to: name.startsWith('.') ? relative(root, join(root, dirname(file), name)) : name,
    typesOnly: types !== undefined,
  }));
}

const stageOf = (file: string): string | null => /^src\/([^/]+)/.exec(file)?.[1] ?? null;
const shown = (list: readonly Import[]): string[] => list.map(({ from, to }) => `${from} -> ${to}`);

describe('stages of src', () => {
  it('are all known here', () => {
    const stages = new Set(srcFiles.map(stageOf));
    expect([...stages].filter((stage) => ![...stageOrder, simulator, setup].includes(stage ?? ''))).toEqual([]);
  });

  it('import only from themselves and from stages before them', () => {
    const backwards = imports.filter(({ from, to }) => {
      const [own, other] = [stageOf(from), stageOf(to)];
      if (own === null || other === null || own === other || own === simulator || own === setup) return false;
      if (other === simulator) return own !== 'cli';
      return stageOrder.indexOf(other) > stageOrder.indexOf(own);
    });
    expect(shown(backwards)).toEqual([]);
  });

  it('import neither the server nor the page, but for the command line that starts the server', () => {
    const outward = imports.filter(
      ({ from, to }) => from.startsWith('src/') && stageOf(from) !== 'cli' && /^(server|web|tests)\//.test(to),
    );
    expect(shown(outward)).toEqual([]);
  });

  it('share nothing between simulator and judging stages', () => {
    const shared = imports.filter(
      ({ from, to }) =>
        (stageOf(from) === simulator && stageOf(to) !== null && !simulatorMayUse.includes(stageOf(to) ?? '')) ||
        (judgingStages.includes(stageOf(from) ?? '') && stageOf(to) === simulator),
    );
    expect(shown(shared)).toEqual([]);
  });

  it('touch no file system, process or network but for the command line and setup', () => {
    const touching = imports.filter(
      ({ from, to }) =>
        from.startsWith('src/') &&
        !mayTouchFiles.includes(stageOf(from) ?? '') &&
        /^(node:)?(fs|fs\/promises|child_process|http|https|net|worker_threads|process|os)$/.test(to),
    );
    expect(shown(touching)).toEqual([]);
  });
});

describe('server and page', () => {
  const between = (own: string, other: string): Import[] =>
    imports.filter(({ from, to }) => from.startsWith(`${own}/`) && to.startsWith(`${other}/`));

  it('share shapes alone: the page takes types from the server and nothing that runs', () => {
    const shapes = between('web', 'server');
    expect(shapes.length).toBeGreaterThan(0);
    expect(shown(shapes.filter(({ typesOnly }) => !typesOnly))).toEqual([]);
  });

  it('are one upon the other: the server knows nothing of the page', () => {
    expect(shown(between('server', 'web'))).toEqual([]);
  });
});

describe.each(Object.entries(folderOrders))('folders of %s', (stage, order) => {
  const folderOf = (file: string): string | null => {
    const [own, ...below] = file.startsWith(`${stage}/`) ? file.slice(stage.length + 1).split('/') : [''];
    return below.length > 0 || order.includes(own) ? own : null;
  };

  it('are all known here', () => {
    const folders = new Set(codeFiles.map(folderOf).filter((folder) => folder !== null));
    expect([...folders].sort()).toEqual([...order].sort());
  });

  it('import only from themselves and from folders before them', () => {
    const backwards = imports.filter(({ from, to }) => {
      const [own, other] = [folderOf(from), folderOf(to)];
      return own !== null && other !== null && order.indexOf(other) > order.indexOf(own);
    });
    expect(shown(backwards)).toEqual([]);
  });
});

describe('the server', () => {
  it('takes from src what analyses rides by way of engine.ts alone', () => {
    const past = imports.filter(
      ({ from, to }) => from.startsWith('server/') && from !== 'server/engine.ts' && to === 'src/analyse.ts',
    );
    expect(shown(past)).toEqual([]);
  });
});

describe('libraries', () => {
  it('for charts are single packages of D3, never all of it', () => {
    expect(shown(imports.filter(({ to }) => to === 'd3'))).toEqual([]);
  });
});

describe('files', () => {
  it('import one another in no circle', () => {
    expect(circles()).toEqual([]);
  });

  it(`have at most ${MOST_LINES} lines`, () => {
    const styles = list('web').filter((file) => file.endsWith('.css'));
    const lines = (file: string): number => readFileSync(join(root, file), 'utf8').split('\n').length - 1;
    const long = [...codeFiles, ...styles].filter((file) => lines(file) > MOST_LINES);
    expect(long).toEqual([]);
  });

  it('are named for one idea', () => {
    const named = codeFiles.flatMap((file) =>
      file
        .replace(/\.[^/]*$/, '')
        .split('/')
        .filter((part) => bannedNames.test(part))
        .map(() => file),
    );
    expect(named).toEqual([]);
  });

  it('turn their own address into a path by fileURLToPath, so that a clone may lie under any name', () => {
    const broken = codeFiles.filter((file) =>
      /import\.meta\.url\)\.pathname/.test(readFileSync(join(root, file), 'utf8')),
    );
    expect(broken).toEqual([]);
  });

  it('are named in kebab-case', () => {
    expect(codeFiles.filter((file) => !/^[a-z0-9/.-]+$/.test(file))).toEqual([]);
  });
});

/** Circles of imports, each as the path that leads back to its start. */
function circles(): string[] {
  const next = new Map<string, string[]>();
  for (const { from, to } of imports) next.set(from, [...(next.get(from) ?? []), to]);
  const done = new Set<string>();
  const found: string[] = [];
  const walk = (file: string, path: readonly string[]): void => {
    const at = path.indexOf(file);
    if (at >= 0) found.push([...path.slice(at), file].join(' -> '));
    if (at >= 0 || done.has(file)) return;
    for (const to of next.get(file) ?? []) walk(to, [...path, file]);
    done.add(file);
  };
  for (const file of codeFiles) walk(file, []);
  return found;
}
