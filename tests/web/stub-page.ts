import { parseHTML } from 'linkedom';
import { vi } from 'vitest';

/** Puts an empty page in the place of the browser's, for parts of the page that are built without one. */
export function stubPage(): Document {
  const { document, Node, HTMLElement } = parseHTML('<!doctype html><html><body></body></html>');
  vi.stubGlobal('document', document);
  vi.stubGlobal('Node', Node);
  vi.stubGlobal('HTMLElement', HTMLElement);
  vi.stubGlobal(
    'ResizeObserver',
    class {
      observe(): void {}
    },
  );
  return document;
}
