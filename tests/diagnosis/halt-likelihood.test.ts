import { describe, expect, it } from 'vitest';
import { diagnose } from '../../src/diagnosis/diagnose.ts';
import type { DiagnosisRide } from '../../src/diagnosis/diagnosis.ts';
import { type EvidenceSegment, emptySegment } from '../../src/diagnosis/evidence/evidence-table.ts';
import { fillSegment } from '../../src/diagnosis/evidence/fill-segment.ts';
import { haltLogLikelihood, prepareHalts } from '../../src/diagnosis/likelihood/halt-likelihood.ts';
import { observe } from '../../src/diagnosis/observed.ts';
import { evidenceSentences } from '../../src/diagnosis/sentences/evidence-sentences.ts';
import type { PromptHalts } from '../../src/shifts/ride-events.ts';
import { cableBike, cassette, patternRide } from './pattern-ride.ts';
import { probabilityOf } from './probability-of.ts';

const LARGEST = 0;
const SMALLEST = 1;
const NEVER = 1e-5;

/** A stretch of so many shifts onto the largest cog and onto others, after so many of which the rider halted. */
function segment(onto: number, halts: number, others = 200, otherHalts = 2): EvidenceSegment {
  const one = emptySegment(12, { period: 0, startMs: 0, ride: 0, placed: true });
  one.endShifts[LARGEST] = onto;
  one.endHalts[LARGEST].push(...Array(halts).fill(0));
  one.otherShifts[LARGEST] = others;
  one.otherHalts[LARGEST] = otherHalts;
  return one;
}

/** How much likelier the halts of stretches are where a share of the shifts onto the largest cog loses the chain than where none does, log odds. */
function speaksFor(rate: number, ...stretches: EvidenceSegment[]): number {
  const at = (largest: number): number =>
    prepareHalts(stretches).reduce((sum, one) => sum + haltLogLikelihood(one, [largest, NEVER]), 0);
  return at(rate) - at(NEVER);
}

describe('halts that follow shifts onto an end cog at once', () => {
  it('speak for chains lost there where they follow more often than after the same rider’s other shifts', () => {
    expect(speaksFor(0.2, segment(20, 7))).toBeGreaterThan(3);
    expect(speaksFor(0.2, segment(20, 0))).toBeLessThan(0);
    expect(speaksFor(0.2, segment(20, 7, 200, 60))).toBeLessThan(1);
  });

  it('tell more over several rides than one of them tells', () => {
    const one = segment(7, 2, 70, 1);
    expect(speaksFor(0.2, segment(21, 6, 210, 3))).toBeGreaterThan(1.3 * speaksFor(0.2, one));
  });

  it('count for less where legs and halt speak against a lost chain, and for no more where one by itself looks like it', () => {
    const like = (logOdds: number): number => {
      const one = segment(20, 3);
      one.endHalts[LARGEST].fill(logOdds);
      return speaksFor(0.1, one);
    };
    expect(like(-2)).toBeLessThan(like(0) - 1);
    expect(like(3)).toBe(like(0));
  });

  it('say nothing of an end that nobody shifted onto', () => {
    const [largest, smallest] = prepareHalts([segment(20, 3)])[0];
    expect(largest).not.toBeNull();
    expect(smallest).toBeNull();
    const prepared = prepareHalts([segment(20, 3)])[0];
    expect(haltLogLikelihood(prepared, [0.1, 0.5])).toBe(haltLogLikelihood(prepared, [0.1, NEVER]));
    expect(SMALLEST).toBe(1);
  });
});

/** Halts after so many of so many shifts onto the 51, evenly over the ride, and after 2 of 100 onto others. */
const halting = (shifts: number, halts: number): PromptHalts => ({
  ontoEnd: Array.from({ length: shifts }, (_, i) => ({
    timeS: 20 + i * 10,
    end: 'largest' as const,
    haltLogOdds: i < halts ? 0 : null,
  })),
  elsewhere: { largest: { shifts: 100, halts: 2 }, smallest: { shifts: 110, halts: 0 } },
});
const sound = patternRide({ pattern: () => ({}) });
const withHalts = (promptHalts: PromptHalts, lostAt: readonly number[] = []): DiagnosisRide => ({
  ...sound,
  events: {
    ...sound.events,
    promptHalts,
    chainDrops: lostAt.map((timeS) => ({ timeS, side: 'past-largest', afterShiftTo: 11, confidence: 0.9 })),
  },
});

describe('a bike on which the rider halts at once after shifts onto the largest cog', () => {
  it('is suspected of a low limit that is too loose, though no single halt tells of a lost chain', () => {
    const loose = (halts: number): number =>
      probabilityOf(
        diagnose({ bike: cableBike, rides: [withHalts(halting(12, halts))], adjustments: [] }),
        'low-limit-loose',
      );
    expect(loose(6)).toBeGreaterThan(4 * loose(0));
    expect(loose(6)).toBeGreaterThan(0.2);
  });

  it('has the halts of chains that are told as lost counted once', () => {
    const counted = (lostAt: readonly number[]): number => {
      const stretch = emptySegment(cassette.length, { period: 0, startMs: 0, ride: 0, placed: true });
      const { events } = withHalts(halting(12, 6), lostAt);
      fillSegment(
        stretch,
        { events, evidence: 'full', fromS: 0, toS: 100, timeShare: 0.5 },
        { edges: { middleNm: Number.NaN, highNm: Number.NaN }, timing: { median: 1, spread: 0.5 } },
      );
      expect(stretch.otherShifts).toEqual(Float64Array.of(50, 55));
      expect(stretch.endShifts[LARGEST] - stretch.endHalts[LARGEST].length).toBe(2);
      return stretch.endHalts[LARGEST].length;
    };
    expect(counted([])).toBe(6);
    expect(counted([20])).toBe(4);
  });

  it('is told so with both counts, and not where other shifts halt as often', () => {
    const told = (halts: number, lostAt: readonly number[] = []): string[] =>
      evidenceSentences('low-limit-loose', observe([withHalts(halting(12, halts), lostAt)], cableBike));
    const like = 'so it looks where a chain is lost and noticed at once, and where a stop was meant.';
    expect(told(4)).toEqual([
      'No chain was plainly lost past the largest cog in 12 shifts asked for onto the 51, judged or not.',
      `After 4 of 12 shifts onto the 51 the legs stopped within seconds and the bike halted, after 2 of 100 onto other cogs that way: ${like}`,
    ]);
    expect(told(4, [20])[1]).toMatch(/^After 2 of 10 more shifts onto the 51 /);
    expect(told(1)).toHaveLength(1);
    expect(told(1)[0]).toMatch(/^No chain was lost past the largest cog/);
  });
});
