import { expect, it } from 'vitest';
import { readableFiles } from '../../web/add-rides/readable-files.ts';

const file = (name: string): File => new File(['x'], name);
const read = (name: string, ...understood: string[]) => ({
  name,
  understood,
  notUnderstood: ['No speed.'],
  remarks: [],
});

it('leaves out files in which nothing was understood, and none that was not read or may be another of that name', () => {
  const files = ['good.fit', 'bad.fit', 'later.fit', 'twice.fit', 'twice.fit'].map(file);
  const told = [read('good.fit', '20 records'), read('bad.fit'), read('twice.fit', '5 records'), read('twice.fit')];
  expect(readableFiles(files, told)).toEqual([files[0], files[2], files[3], files[4]]);
  expect(readableFiles(files, told.slice(0, 3))).toEqual([files[0], files[2], files[3], files[4]]);
  expect(readableFiles(files.slice(3), [read('twice.fit'), read('twice.fit')])).toEqual([]);
});
