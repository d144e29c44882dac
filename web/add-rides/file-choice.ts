import { sum } from 'd3-array';
import { counted } from '../../src/numeric/counted.ts';
import { announce } from '../dom/announce.ts';
import { freshId } from '../dom/fresh-id.ts';
import { fill, listen, make } from '../dom/make.ts';
import { folded, isLong } from '../page/folded.ts';
import { iconButton } from '../page/icon-button.ts';
import { icon } from '../page/icons.ts';
import { fileSize } from '../words/numbers.ts';
import { droppedFiles, isVisible } from './dropped-files.ts';
import { pathOf } from './file-path.ts';
import { leftAloneSentence, withoutCompany } from './left-alone.ts';
import { leftOutEmpty } from './left-out-empty.ts';
import { noRideSentences, withoutNoRides } from './no-rides.ts';
import { withoutPacking } from './without-packing.ts';

/** The place to choose files in. */
export interface FileChoice {
  readonly element: HTMLElement;
  chosen(): readonly File[];
}

const sameFile = (a: File, b: File): boolean =>
  pathOf(a) === pathOf(b) && a.size === b.size && a.lastModified === b.lastModified;

/** One chosen file, with a button that takes it out again. */
function fileRow(file: File, takeOut: () => void): HTMLLIElement {
  return make(
    'li',
    {},
    make('span', { class: 'file-name' }, pathOf(file)),
    make('span', { class: 'quiet' }, fileSize(file.size)),
    iconButton({ name: 'cross', words: `Take out ${pathOf(file)}`, click: takeOut }),
  );
}

/** The chosen files; many are folded away. */
class ChosenList {
  readonly #list = make('ul', { class: 'file-list' });
  readonly #fold = folded('chosen-files', '');
  readonly element = make('div', {}, this.#list);

  show(files: readonly File[], takeOut: (file: File) => void): void {
    const bytes = sum(files, ({ size }) => size);
    fill(this.#list, ...files.map((file) => fileRow(file, () => takeOut(file))));
    this.#fold.querySelector('summary')!.textContent = `${counted(files.length, 'file')} chosen, ${fileSize(bytes)}`;
    // moved only when it has to be: where it stands it keeps what was scrolled to
    const home = isLong(files) ? this.#fold : this.element;
    if (this.#list.parentElement !== home) home.append(this.#list);
    if (!isLong(files)) this.#fold.remove();
    else if (this.#fold.parentElement !== this.element) this.element.append(this.#fold);
  }
}

/** Button that chooses a whole folder; hidden where the browser can choose none. */
function folderChoice(choose: (files: readonly File[]) => void): HTMLElement {
  const input = make('input', { type: 'file', hidden: true, webkitdirectory: true });
  const button = make('button', { type: 'button', class: 'plain small' }, 'Choose a whole folder');
  button.hidden = !('webkitdirectory' in input);
  listen(button, { click: () => input.click() });
  onChosen(input, (files) => choose(files.filter(isVisible)));
  return make('p', {}, input, button);
}

/** Calls `take` with what is chosen in an input, which is then ready for the same files again. */
function onChosen(input: HTMLInputElement, take: (files: readonly File[]) => void): void {
  listen(input, {
    change: () => {
      take([...(input.files ?? [])]);
      input.value = '';
    },
  });
}

/** Takes files and folders that are dropped on an element; `over` is told when something hangs above it. */
function takeDrops(
  element: HTMLElement,
  over: (isOver: boolean) => void,
  take: (files: readonly File[]) => void,
): void {
  const hang = (isOver: boolean) => (event: DragEvent) => {
    event.preventDefault();
    over(isOver);
  };
  listen(element, {
    dragover: hang(true),
    dragenter: hang(true),
    dragleave: hang(false),
    drop: (event) => {
      hang(false)(event);
      if (event.dataTransfer) void droppedFiles(event.dataTransfer).then(take);
    },
  });
}

/** The large label of the input for files, to press or to drop files on. */
function dropPlace(inputId: string): HTMLLabelElement {
  return make(
    'label',
    { class: 'drop-place', for: inputId },
    icon('add'),
    make(
      'span',
      { class: 'drop-words' },
      make('strong', {}, 'Choose ride files or drop them here'),
      '. Their bike file and adjustments may come along. A dropped folder or zip file is read with all that lies in it; of several bikes, each has a folder of its own there.',
    ),
  );
}

/** Files to add, dropped or chosen; more can be added and single ones taken out. */
export function makeFileChoice(changed: () => void): FileChoice {
  let files: readonly File[] = [];
  const id = freshId('files');
  const input = make('input', { id, type: 'file', multiple: true, class: 'out-of-sight' });
  const list = new ChosenList();
  const leftOut = make('div', { class: 'fault left-out', role: 'alert', hidden: true });
  const leftAlone = make('p', { class: 'quiet', role: 'status', hidden: true });
  const label = dropPlace(id);
  const set = (next: readonly File[]): void => {
    files = next;
    label.classList.toggle('has-files', files.length > 0);
    list.show(files, (file) => set(files.filter((one) => one !== file)));
    announce(files.length > 0 ? `${counted(files.length, 'file')} chosen` : 'No file chosen');
    changed();
  };
  const add = async (chosen: readonly File[]): Promise<void> => {
    const { files: unpacked, faults } = await withoutPacking(chosen);
    const { files: ofUse, leftAlone: company } = await withoutCompany(unpacked);
    const { files: more, noRides } = await withoutNoRides(ofUse);
    leftAlone.hidden = company.length === 0;
    leftAlone.textContent = leftAloneSentence(company);
    const empty = leftOutEmpty(more.map((file) => ({ name: pathOf(file), size: file.size })));
    const said = [...faults, ...noRideSentences(noRides), ...(empty === null ? [] : [empty])];
    leftOut.hidden = said.length === 0;
    fill(leftOut, ...said.map((one) => make('p', {}, one)));
    set([...files, ...more.filter((file) => file.size > 0 && !files.some((one) => sameFile(one, file)))]);
  };
  const take = (chosen: readonly File[]): void => void add(chosen);

  onChosen(input, take);
  const element = make(
    'section',
    { class: 'file-choice', 'aria-label': 'Files' },
    input,
    label,
    folderChoice(take),
    list.element,
    leftOut,
    leftAlone,
  );
  takeDrops(element, (isOver) => label.classList.toggle('is-over', isOver), take);
  return { element, chosen: () => files };
}
