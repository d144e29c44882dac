import { counted } from '../../src/numeric/counted.ts';
import { listed, listedUpTo } from '../../src/numeric/listed.ts';
import { type FileStatus, isBad, type WorkFile } from './file-status-row.ts';

/** What became of the files; `logged`: how many adjustments were taken in. */
export function endSentence(rides: readonly WorkFile[], logs: readonly WorkFile[], logged: number): string {
  const count = (files: readonly WorkFile[], ...statuses: FileStatus[]): number =>
    files.filter(({ status }) => statuses.includes(status)).length;
  const all = [...rides, ...logs];
  const said = [
    count(rides, 'done') > 0 && `${counted(count(rides, 'done'), 'ride')} worked through`,
    logged > 0 && `${counted(logged, 'adjustment')} taken in`,
    count(all, 'duplicate') > 0 && `${count(all, 'duplicate')} already here`,
  ].filter((text): text is string => Boolean(text));
  return [
    said.length > 0 && `${listed(said)}.`,
    namesOfBad(rides, (count) => `${count} could not be read`),
    namesOfBad(logs, (count) => `${counted(count, 'adjustments file')} not taken in`),
  ]
    .filter(Boolean)
    .join(' ');
}

/** So many names at most stand in a sentence. */
const MOST_NAMES = 4;

/** "2 could not be read: a.fit and b.fit."; null where none could not. */
function namesOfBad(files: readonly WorkFile[], what: (count: number) => string): string | null {
  const names = files.filter(({ status }) => isBad(status)).map(({ name }) => name);
  if (names.length === 0) return null;
  return `${what(names.length)}: ${listedUpTo(MOST_NAMES, names)}.`;
}
