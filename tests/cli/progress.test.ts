import { describe, expect, it } from 'vitest';
import { type ProgressStream, progressOver } from '../../src/cli/progress.ts';

function shown(rides: number, stream: Partial<ProgressStream>): string {
  let text = '';
  const progress = progressOver(rides, {
    ...stream,
    write: (piece) => {
      text += piece;
    },
  });
  progress.tell('Reading', 1);
  progress.end();
  return text;
}

describe('progressOver', () => {
  it('shows one line on a terminal and takes it away at the end', () => {
    expect(shown(3, { isTTY: true, columns: 80 })).toBe('\r\u001B[KReading: 1 of 3 rides\r\u001B[K');
  });

  it('shows nothing for one ride or where there is no terminal', () => {
    expect(shown(1, { isTTY: true })).toBe('');
    expect(shown(3, { isTTY: false })).toBe('');
  });

  it('keeps within a narrow terminal', () => {
    expect(shown(3, { isTTY: true, columns: 21 })).toBe('\r\u001B[KReading: 1 of 3 ride\r\u001B[K');
  });
});
