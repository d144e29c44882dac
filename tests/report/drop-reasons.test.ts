import { describe, expect, it } from 'vitest';
import { dropSignsReport } from '../../src/report/drop-signs-report.ts';
import { dropReasons } from '../../src/report/words/drop-reasons.ts';
import type { DropSign } from '../../src/shifts/drops/drop-candidate.ts';

const reasons = (...signs: [sign: DropSign, value: number, logOdds: number][]): string[] =>
  dropReasons(dropSignsReport(signs.map(([sign, value, logOdds]) => ({ sign, value, logOdds }))));

describe('dropReasons', () => {
  it('says in one sentence what was seen, with its numbers', () => {
    expect(
      reasons(
        ['beforehand', Number.NaN, -9],
        ['legs-faster', Math.log(1.4), 4],
        ['legs-fast-for', 3, 0],
        ['records-below', 3, 3],
        ['power-gone', 12.3, 5],
        ['halt-after', 9, 0],
        ['halt-lasts', 41, 2],
      ),
    ).toEqual([
      'Why: the legs ran 40 % faster than before for 3 s, power fell to 12 W and 9 s later the bike stood for 41 s.',
    ]);
  });

  it('says when the legs stopped, and of a halt without an end that it lasted to the end', () => {
    expect(
      reasons(
        ['beforehand', Number.NaN, -2.05],
        ['end-cog-asked', 0, 0],
        ['legs-stopped-after', 2, 0],
        ['legs-faster', 0, 0],
        ['past-gear', Number.POSITIVE_INFINITY, 1],
        ['halt-after', 0, 0],
        ['halt-lasts', Number.POSITIVE_INFINITY, 1],
        ['braking', 1, 0],
      ),
    ).toEqual([
      'Why: the legs turned while the wheel stood, the end cog had been asked for just before, the legs stopped 2 s after that and the bike stood to the end of the recording.',
    ]);
  });

  it('says for how long the legs had turned on in vain', () => {
    expect(
      reasons(
        ['end-cog-asked', 0, 0],
        ['legs-stopped-after', 9, 0],
        ['turned-in-vain', 5, 3.5],
        ['halt-after', 14, 0],
        ['halt-lasts', 50, 1],
      ),
    ).toEqual([
      'Why: the end cog had been asked for just before, the legs stopped 9 s after that, they had turned on for 5 s faster than the gear asked for or the one before allows and 14 s later the bike stood for 50 s.',
    ]);
  });

  it('says of an end cog that was asked for long before only where the derailleur stood: while coasting the chain stays behind', () => {
    const [told] = reasons(['beforehand', Number.NaN, -5.5], ['end-cog-held', Number.NaN, 1.5], ['power-gone', 20, 1]);
    expect(told).toBe('Why: power fell to 20 W and the derailleur stood on an end cog.');
  });

  it('tells how often the bike halted so after shifts onto that cog, and what may be chance', () => {
    expect(
      reasons(
        ['halts-so-often', 9, Math.log(9)],
        ['halts-on-cog', 3, 0],
        ['shifts-onto-cog', 10, 0],
        ['legs-stopped-after', 2, 0],
        ['halt-lasts', 50, 1],
      ),
    ).toEqual([
      'Why: the bike halted so soon after 3 of 10 shifts onto that cog, the legs stopped 2 s after that and the bike stood for 50 s.',
    ]);
    const [, against] = reasons(
      ['halts-so-often', 0.2, Math.log(0.2)],
      ['halts-on-cog', 1, 0],
      ['shifts-onto-cog', 1, 0],
      ['legs-faster', Math.log(1.6), 4],
      ['halt-lasts', Number.POSITIVE_INFINITY, -1],
    );
    expect(against).toBe('Against it: so few such halts may be chance and the recording ends in that halt.');
  });

  it('tells of the smaller cog that was asked for while the bike stood', () => {
    const [why] = reasons(['end-cog-asked', 2, 0], ['asked-off-standing', 6, 2.5], ['halt-lasts', 55, 0]);
    expect(why).toBe(
      'Why: the end cog had been asked for 2 s before, the bike stood for 55 s and 6 s after the last turn of the legs a smaller cog was asked for.',
    );
  });

  it('tells by how much only once where the legs set off with the chain off', () => {
    const [why] = reasons(
      ['legs-set-off-faster', Math.log(1.9), 4],
      ['legs-fast-for', 4, 0],
      ['past-gear', Math.log(1.9), 3],
    );
    expect(why).toBe('Why: setting off, the legs ran away for 4 s and the legs outran the gear by 90 %.');
  });

  it('says what speaks against it apart', () => {
    const [, against] = reasons(
      ['legs-faster', Math.log(1.6), 4],
      ['no-halt', 60, -2],
      ['braking', 2.14, -2],
      ['cog-reached', 3, -2],
      ['cadence-leaps', Number.NaN, -3],
    );
    expect(against).toBe(
      'Against it: no halt followed within 60 s, the chain drove on the cog that was asked for (3 s), the bike was braked hard (2.1 m/s²) and the cadence of this ride leaps time and again.',
    );
  });

  it('says nothing where no signs were kept', () => {
    expect(dropReasons(undefined)).toEqual([]);
  });
});
