import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { expect, it } from 'vitest';

const root = fileURLToPath(new URL('..', import.meta.url));
const MOST_LINES = 50;

const codeFiles = ['src', 'server', 'web'].flatMap((folder) =>
  readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
    .filter((file) => /\.(ts|mjs)$/.test(file))
    .map((file) => join(folder, file)),
);

/** Functions of a text that have more lines than are allowed, as `file:line (lines)`. */
function longFunctions(file: string, text: string): string[] {
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.Latest);
  const lineAt = (position: number): number => source.getLineAndCharacterOfPosition(position).line + 1;
  const long: string[] = [];
  const visit = (node: ts.Node): void => {
    if (ts.isFunctionLike(node) && 'body' in node && node.body) {
      const [first, last] = [lineAt(node.getStart(source)), lineAt(node.end)];
      if (last - first + 1 > MOST_LINES) long.push(`${file}:${first} (${last - first + 1} lines)`);
    }
    ts.forEachChild(node, visit);
  };
  visit(source);
  return long;
}

it('tells a function that is too long', () => {
  const withBody = (lines: number): string => `class A {\n  b() {\n${'    c();\n'.repeat(lines - 2)}  }\n}\n`;
  expect(longFunctions('a.ts', withBody(MOST_LINES))).toEqual([]);
  expect(longFunctions('a.ts', withBody(MOST_LINES + 1))).toEqual(['a.ts:2 (51 lines)']);
});

it(`functions have at most ${MOST_LINES} lines`, () => {
  const long = codeFiles.flatMap((file) => longFunctions(file, readFileSync(join(root, file), 'utf8')));
  expect(long).toEqual([]);
});
