import { describe, expect, it } from 'vitest';
import { leftOutEmpty } from '../../web/add-rides/left-out-empty.ts';

describe('leftOutEmpty', () => {
  it('names each empty file once, and says what to do', () => {
    const empty = { name: 'a.fit', size: 0 };
    expect(leftOutEmpty([empty, empty, { name: 'b.fit', size: 9 }])).toBe(
      'a.fit is empty and was left out. Copy it from the device again.',
    );
    expect(leftOutEmpty([empty, { name: 'c.csv', size: 0 }])).toBe(
      'a.fit is empty and was left out. c.csv is empty and was left out. Copy them from the device again.',
    );
  });

  it('is silent where none is empty', () => {
    expect(leftOutEmpty([{ name: 'b.fit', size: 9 }])).toBeNull();
  });
});
