import { counted } from '../../src/numeric/counted.ts';
import { announce } from '../dom/announce.ts';
import { freshId } from '../dom/fresh-id.ts';
import { fill, listen, make } from '../dom/make.ts';
import { icon } from '../page/icons.ts';
import { fileSize } from '../words/numbers.ts';
import { droppedFiles, isVisible } from './dropped-files.ts';

/** The place to choose files in. */
export interface FileChoice {
  readonly element: HTMLElement;
  chosen(): readonly File[];
}

const sameFile = (a: File, b: File): boolean =>
  a.name === b.name && a.size === b.size && a.lastModified === b.lastModified;

/** Files to add, dropped or chosen; more can be added and single ones taken out. */
export function makeFileChoice(changed: () => void): FileChoice {
  let files: readonly File[] = [];
  const id = freshId('files');
  const input = make('input', { id, type: 'file', multiple: true, class: 'out-of-sight' });
  const list = make('ul', { class: 'file-list' });
  const label = make(
    'label',
    { class: 'drop-place', for: id },
    icon('add'),
    make(
      'span',
      { class: 'drop-words' },
      make('strong', {}, 'Drop ride files here'),
      ' or choose them. A dropped folder is read with all that lies in it.',
    ),
  );
  const folderInput = make('input', { type: 'file', hidden: true, webkitdirectory: true });
  const folderButton = listen(make('button', { type: 'button', class: 'plain small' }, 'Choose a whole folder'), {
    click: () => folderInput.click(),
  });
  // Some browsers can choose no folder.
  folderButton.hidden = !('webkitdirectory' in folderInput);
  const draw = (): void => {
    label.classList.toggle('has-files', files.length > 0);
    fill(
      list,
      ...files.map((file) =>
        make(
          'li',
          {},
          make('span', { class: 'file-name' }, file.name),
          make('span', { class: 'quiet' }, fileSize(file.size)),
          listen(
            make(
              'button',
              { type: 'button', class: 'plain small' },
              icon('cross'),
              make('span', { class: 'out-of-sight' }, `Take out ${file.name}`),
            ),
            { click: () => set(files.filter((one) => one !== file)) },
          ),
        ),
      ),
    );
  };
  const set = (next: readonly File[]): void => {
    files = next;
    draw();
    announce(files.length > 0 ? `${counted(files.length, 'file')} chosen` : 'No file chosen');
    changed();
  };
  const add = (more: readonly File[]): void =>
    set([...files, ...more.filter((file) => file.size > 0 && !files.some((one) => sameFile(one, file)))]);

  for (const one of [input, folderInput])
    listen(one, {
      change: () => {
        const chosen = [...(one.files ?? [])];
        add(one === folderInput ? chosen.filter(isVisible) : chosen);
        one.value = '';
      },
    });
  const over = (isOver: boolean) => (event: DragEvent) => {
    event.preventDefault();
    label.classList.toggle('is-over', isOver);
  };
  const element = listen(
    make(
      'section',
      { class: 'file-choice', 'aria-label': 'Files' },
      input,
      label,
      folderInput,
      make('p', {}, folderButton),
      list,
    ),
    {
      dragover: over(true),
      dragenter: over(true),
      dragleave: over(false),
      drop: (event) => {
        over(false)(event);
        if (event.dataTransfer) void droppedFiles(event.dataTransfer).then(add);
      },
    },
  );
  return { element, chosen: () => files };
}
