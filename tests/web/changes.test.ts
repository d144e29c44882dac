import { afterEach, expect, it, vi } from 'vitest';

/** Streams that the page opened and did not close. */
const open = new Set<object>();
class Stream {
  constructor() {
    open.add(this);
  }
  addEventListener(): void {}
  close(): void {
    open.delete(this);
  }
}
vi.stubGlobal('EventSource', Stream);
vi.stubGlobal('document', { hidden: false, addEventListener: () => {} });
const { onChange } = await import('../../web/api/changes.ts');
afterEach(() => open.clear());

it('one stream of news serves all who listen, until the last of them has gone', () => {
  const [one, other] = [new AbortController(), new AbortController()];
  onChange(() => {}, one.signal);
  onChange(() => {}, other.signal);
  expect(open.size).toBe(1);
  one.abort();
  expect(open.size).toBe(1);
  other.abort();
  expect(open.size).toBe(0);
});

it('a view that has gone before it begins to listen keeps no stream open', () => {
  onChange(() => {}, AbortSignal.abort());
  expect(open.size).toBe(0);
});
