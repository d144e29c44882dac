import { describe, expect, it } from 'vitest';
import { lostSpells } from '../../web/charts/timeline/lost-spells.ts';
import { readingAt } from '../../web/charts/timeline/reading-words.ts';
import { makeTrack } from '../../web/charts/timeline/ride-track.ts';
import { columnsWithLostDrive } from './made-columns.ts';

const track = makeTrack(columnsWithLostDrive(60, 20, 40));
const drop = (timeS: number, rejected: boolean) => ({ kind: 'drop' as const, timeS, rejected });
const chainOn = (timeS: number, events: Parameters<typeof lostSpells>[1]) =>
  readingAt(track, timeS, lostSpells(track, events)).find(({ name }) => name === 'Chain on')?.text;

describe('spells without drive', () => {
  it('are read as such until the chain drives again', () => {
    const events = [drop(21, false)];
    expect([19, 20, 39, 40].map((s) => chainOn(s, events))).toEqual([
      '21',
      'no cog: drive lost',
      'no cog: drive lost',
      '21',
    ]);
  });

  it('are no longer told where the rider rejects every lost chain of theirs', () => {
    expect(chainOn(30, [drop(21, true)])).toBe('not known');
    expect(chainOn(30, [drop(21, true), drop(35, false)])).toBe('no cog: drive lost');
    expect(chainOn(30, [drop(21, false), drop(50, true)])).toBe('no cog: drive lost');
  });
});
