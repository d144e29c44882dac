import { type CassetteEnd, cassetteEnds } from '../../adjustments/end-cog-count.ts';
import type { Look } from '../../adjustments/looks.ts';
import { limitAt } from '../cassette-ends.ts';
import { lastLostMs } from './last-lost.ts';
import { type Since, seenTo } from './looks-that-stand.ts';

/** A part that was seen to, and that is to be looked at again for one reason alone: a chain was lost past an end since. */
export interface OvertakenLook extends Look {
  readonly end: CassetteEnd;
  /** When the chain was last lost there, ISO time. */
  readonly lostAt: string;
}

/** The last look at each part that would stand but for a chain lost since; none where nobody knows when that was. In order of time. */
export function overtakenLooks(looks: readonly Look[], since: Since): OvertakenLook[] {
  const noneLost = since.rides.map((ride) => ({ ...ride, events: { chainDrops: [] } }));
  const butForThat = seenTo(looks, { ...since, rides: noneLost });
  const last = butForThat.filter((look, i) => !butForThat.slice(i + 1).some(isAt(look.parameter)));
  const standing = seenTo(looks, since);
  return last
    .filter(({ parameter }) => !standing.some(isAt(parameter)))
    .flatMap((look) => {
      const lost = cassetteEnds
        .filter((end) => look.parameter === 'hanger' || look.parameter === limitAt[end].parameter)
        .map((end) => ({ end, ms: lastLostMs(end, since.rides) }))
        .sort((a, b) => b.ms - a.ms);
      return lost.length > 0 && Number.isFinite(lost[0].ms)
        ? [{ ...look, end: lost[0].end, lostAt: new Date(lost[0].ms).toISOString() }]
        : [];
    });
}

const isAt =
  (parameter: Look['parameter']) =>
  (look: Look): boolean =>
    look.parameter === parameter;
