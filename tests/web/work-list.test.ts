import { parseHTML } from 'linkedom';
import { describe, expect, it, vi } from 'vitest';
import { endSentence } from '../../web/add-rides/end-sentence.ts';
import { WorkList } from '../../web/add-rides/work-list.ts';

const { document, Node } = parseHTML('<!doctype html><html><body></body></html>');
vi.stubGlobal('document', document);
vi.stubGlobal('Node', Node);

const files = (count: number, status: 'done' | 'failed' | 'queued', stem: string) =>
  Array.from({ length: count }, (_, i) => ({ name: `${stem}-${i + 1}.fit`, status }));
const names = (place: Element | null): (string | null)[] =>
  [...(place?.querySelectorAll('.file-name') ?? [])].map(({ textContent }) => textContent);

describe('the files of an upload', () => {
  it('all stand there where they are few', () => {
    const list = new WorkList();
    list.show([...files(6, 'done', 'good'), ...files(2, 'failed', 'bad')]);
    expect(names(list.element.querySelector('ul'))).toHaveLength(8);
    expect(list.element.querySelector('details')).toBeNull();
  });

  it('are folded away where they are many, but for those that could not be read', () => {
    const list = new WorkList();
    list.show([...files(7, 'done', 'good'), ...files(2, 'failed', 'bad'), ...files(5, 'queued', 'late')]);
    const fold = list.element.querySelector('details');
    expect(names(list.element.querySelector('ul'))).toEqual(['bad-1.fit', 'bad-2.fit']);
    expect(names(fold)).toHaveLength(12);
    expect(fold?.querySelector('summary')?.textContent).toBe('12 files: 7 done and 5 waiting');
  });
});

describe('what is said at the end', () => {
  it('names the files that could not be read, and of many the first', () => {
    expect(endSentence(files(2, 'done', 'good'), [], 0)).toBe('2 rides worked through.');
    expect(endSentence([...files(1, 'done', 'good'), ...files(2, 'failed', 'bad')], [], 0)).toBe(
      '1 ride worked through. 2 could not be read: bad-1.fit and bad-2.fit.',
    );
    expect(endSentence(files(6, 'failed', 'bad'), files(1, 'failed', 'log'), 0)).toBe(
      '6 could not be read: bad-1.fit, bad-2.fit, bad-3.fit, bad-4.fit and 2 more. 1 adjustments file not taken in: log-1.fit.',
    );
  });
});
