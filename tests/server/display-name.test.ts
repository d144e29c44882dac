import fc from 'fast-check';
import { expect, it } from 'vitest';
import { displayName } from '../../server/intake/display-name.ts';

it('shows the last part of a path, and a name where there is none', () => {
  expect(displayName('../../etc/my ride.fit')).toBe('my ride.fit');
  expect(displayName('C:\\rides\\a\u0007b.gpx')).toBe('ab.gpx');
  for (const name of [undefined, '', '..', 'a/']) expect(displayName(name)).toBe('unnamed file');
});

it('shortens a long name between whole characters, and keeps what kind of file it is', () => {
  const name = displayName(`${'\u{1F6B5}'.repeat(150)}${'x'.repeat(100)}.fit.gz`);
  expect(name.endsWith('x.fit.gz')).toBe(true);
  expect(Array.from(name)).toHaveLength(200);
  fc.assert(
    fc.property(fc.string({ unit: 'binary', maxLength: 400 }), (any) => Array.from(displayName(any)).length <= 200),
  );
  expect(() => encodeURIComponent(displayName('\u{1F6B5}'.repeat(300)))).not.toThrow();
});
