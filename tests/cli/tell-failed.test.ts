import { expect, test, vi } from 'vitest';
import { tellFailed } from '../../src/cli/tell-failed.ts';

const copies = (count: number) =>
  Array.from({ length: count }, (_, i) => ({
    file: `copy-${i}.fit`,
    code: 'duplicate',
    message: `copy-${i}.fit: is the same ride as a.fit. It was counted once.`,
  }));
const broken = { file: 'b.fit', code: 'truncated', message: 'b.fit: ends too early.' };

function linesOf(failed: Parameters<typeof tellFailed>[0]): string[] {
  const spy = vi.spyOn(process.stderr, 'write').mockReturnValue(true);
  try {
    tellFailed(failed);
    return spy.mock.calls.flatMap(([chunk]) => String(chunk).trimEnd().split('\n'));
  } finally {
    spy.mockRestore();
  }
}

test('files left out are told one by one, but many copies in one line', () => {
  expect(linesOf([...copies(3), broken])).toHaveLength(4);
  const lines = linesOf([...copies(491), broken]);
  expect(lines).toHaveLength(2);
  expect(lines[0]).toBe('cogwright: b.fit: ends too early.');
  expect(lines[1]).toMatch(
    /491 files hold rides that other files hold too.* The first: copy-0\.fit: is the same ride as a\.fit\./,
  );
});
