import { describe, expect, it } from 'vitest';
import { readingAt } from '../../web/charts/timeline/reading-words.ts';
import { makeTrack } from '../../web/charts/timeline/ride-track.ts';
import { timelineCaption } from '../../web/charts/timeline/timeline-caption.ts';
import { trackTable } from '../../web/charts/timeline/track-table.ts';
import { withoutLag } from '../../web/charts/timeline/without-lag.ts';
import { madeColumns } from './made-columns.ts';

const seconds = (count: number): Float64Array => Float64Array.from({ length: count }, (_, s) => s);
const none = Number.NaN;
const moved = (
  cogs: readonly number[],
  lagS: number | null,
  { timeS = seconds(cogs.length), lost = [] as { fromS: number; toS: number }[] } = {},
): number[] => [...withoutLag(Float32Array.from(cogs), { timeS, lagS, lost, gapS: 10 })];

describe('the line of the chain without the sensors’ lag', () => {
  it('steps as much earlier as the sensors are late, and later where they are early', () => {
    expect(moved([0, 0, 0, 0, 1, 1, 1, 1], 2)).toEqual([0, 0, 1, 1, 1, 1, 1, 1]);
    expect(moved([0, 0, 0, 0, 1, 1, 1, 1], -1)).toEqual([0, 0, 0, 0, 0, 1, 1, 1]);
    expect(moved([0, 0, 1, 1], null)).toEqual([0, 0, 1, 1]);
  });

  it('takes along the seconds in which no cog is sure, as a shift leaves them', () => {
    expect(moved([0, 0, 0, 0, none, 1, 1, 1], 2)).toEqual([0, 0, none, 1, 1, 1, 1, 1]);
  });

  it('leaves a spell without drive where it stands, and takes no cog from beyond it', () => {
    const lost = [{ fromS: 3, toS: 5 }];
    expect(moved([0, 0, 0, none, none, 2, 2, 1], 2, { lost })).toEqual([0, 0, 0, none, none, 1, 1, 1]);
  });

  it('goes by time, and takes no cog from beyond a pause', () => {
    expect(moved([0, 0, 1, 1], 2, { timeS: Float64Array.of(0, 6, 7, 8) })).toEqual([0, 1, 1, 1]);
    expect(moved([0, 0, 1, 1], 11, { timeS: Float64Array.of(0, 1, 12, 13) })).toEqual([0, 0, 1, 1]);
  });
});

describe('the timeline of sensors that follow late', () => {
  const shift = (lateS: number) => ({
    commandedTeeth: Array.from(seconds(20), (s) => (s < 10 ? 21 : 18)),
    actualTeeth: Array.from(seconds(20), (s) => (s < 10 + lateS ? 21 : 18)),
  });

  it('reads and saves a shift that came through at once as one', () => {
    const track = makeTrack(madeColumns(20, shift(2)), 2);
    expect(readingAt(track, 10, []).find(({ name }) => name === 'Chain on')?.text).toBe('18');
    expect(trackTable(track).rows[10].slice(1, 3)).toEqual([18, 18]);
    expect([...track.actual.values.slice(9, 13)]).toEqual([2, 2, 2, 1]);
  });

  it('says what is shaded and what was taken off', () => {
    const caption = (lagS: number | null): string => timelineCaption(makeTrack(madeColumns(20, shift(2)), lagS));
    expect(caption(2)).toMatch(/^Shaded.*another cog.*2\.0 s after it.*earlier\.$/);
    expect(caption(-1)).toMatch(/1\.0 s before it.*later\.$/);
    expect(caption(0.1)).toMatch(/asked for\.$/);
    expect(timelineCaption(makeTrack(madeColumns(20, { actualTeeth: Array(20).fill(null) }), 2))).toBe('');
  });
});
