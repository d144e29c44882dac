import { rollup } from 'd3-array';
import { counted } from '../../src/numeric/counted.ts';
import { listed } from '../../src/numeric/listed.ts';
import { fill, make } from '../dom/make.ts';
import { folded, isLong } from '../page/folded.ts';
import { fileStatusRow, isBad, statusWords, type WorkFile } from './file-status-row.ts';

/** "40 files: 12 done and 28 waiting". */
function inShort(files: readonly WorkFile[]): string {
  const counts = rollup(
    files,
    ({ length }) => length,
    ({ status }) => statusWords[status],
  );
  return `${counted(files.length, 'file')}: ${listed([...counts].map(([words, count]) => `${count} ${words}`))}`;
}

/** The files of an upload and how each stands. Of many, those that could not be read or taken stand by themselves, and the others are folded away. */
export class WorkList {
  readonly #open = make('ul', { class: 'work-list' });
  readonly #rest = make('ul', { class: 'work-list' });
  readonly #fold = folded('work-files', '', this.#rest);
  readonly element = make('div', {}, this.#open);

  show(files: readonly WorkFile[]): void {
    const fold = isLong(files);
    const rest = fold ? files.filter(({ status }) => !isBad(status)) : [];
    fill(this.#open, ...files.filter((file) => !rest.includes(file)).map(fileStatusRow));
    fill(this.#rest, ...rest.map(fileStatusRow));
    this.#fold.querySelector('summary')!.textContent = inShort(rest);
    if (rest.length === 0) this.#fold.remove();
    else if (this.#fold.parentElement !== this.element) this.element.append(this.#fold);
  }
}
