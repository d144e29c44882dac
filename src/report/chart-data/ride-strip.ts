import type { LostSpell } from '../charts/lost-spells.ts';
import type { CogFrom, RideStrip, StripEvent } from '../charts/ride-strip-chart.ts';
import type { RideReport } from '../ride-report-schema.ts';
import { dropSideWords } from '../words/event-words.ts';
import { sure, sureOf } from '../words/number-words.ts';
import { sinceStart } from '../words/ride-time-words.ts';
import { chancesInWords, isUnclear } from '../words/unclear-outcome.ts';

/** A ride's report as the ride strip draws it: what was asked for, where the chain was, what went wrong. */
export function rideStrip(ride: RideReport, cassette: readonly number[]): RideStrip {
  const startMs = Date.parse(ride.start);
  const timeS = (iso: string): number => (Date.parse(iso) - startMs) / 1000;
  const actual = ride.gears.map((run) => ({ timeS: timeS(run.at), teeth: run.teeth }));
  return {
    durationS: ride.durationS,
    cassette,
    actual,
    commanded: commandedCogs(ride, timeS),
    lost: lostSpells(ride, timeS, actual),
    events: stripEvents(ride, timeS, actual, cassette),
  };
}

/** For each lost chain the seconds from it on in which no cog is named. */
function lostSpells(ride: RideReport, timeS: (iso: string) => number, actual: readonly CogFrom[]): LostSpell[] {
  const spells = ride.chainDrops.flatMap(({ at }): LostSpell[] => {
    const run = actual.findLastIndex((one) => one.timeS <= timeS(at));
    if (run < 0 || actual[run].teeth !== null) return [];
    return [{ fromS: actual[run].timeS, toS: actual[run + 1]?.timeS ?? ride.durationS }];
  });
  return spells.filter((spell, i) => spell.fromS !== spells[i - 1]?.fromS);
}

function commandedCogs(ride: RideReport, timeS: (iso: string) => number): CogFrom[] {
  if (ride.gearSource !== 'recorded' || ride.shifts.length === 0) return [];
  return [
    { timeS: 0, teeth: ride.shifts[0].fromTeeth },
    ...ride.shifts.map((shift) => ({ timeS: timeS(shift.at), teeth: shift.toTeeth })),
  ];
}

function stripEvents(
  ride: RideReport,
  timeS: (iso: string) => number,
  actual: readonly CogFrom[],
  cassette: readonly number[],
): StripEvent[] {
  const when = (iso: string): string => sinceStart(ride.start, iso);
  const teethAt = (seconds: number): number =>
    actual.findLast((run) => run.timeS <= seconds && run.teeth !== null)?.teeth ?? cassette[0];
  const shifts = ride.shifts.flatMap((shift): StripEvent[] => {
    const { at, fromTeeth, toTeeth, outcome, confidence } = shift;
    const how = isUnclear(shift) ? `unclear, counted as ${outcome}` : outcome;
    return outcome === 'late' || outcome === 'missed' || outcome === 'overshot'
      ? [
          {
            timeS: timeS(at),
            teeth: toTeeth,
            kind: outcome,
            words: `${when(at)}: shift from ${fromTeeth} to ${toTeeth} teeth ${how} (${(isUnclear(shift) && chancesInWords(shift)) || sure(confidence)})`,
          },
        ]
      : [];
  });
  const ghosts = ride.ghostShifts.map(
    ({ at, fromTeeth, toTeeth, towardsCommand, confidence }): StripEvent => ({
      timeS: timeS(at),
      teeth: toTeeth,
      kind: 'ghost',
      words: `${when(at)}: from ${fromTeeth} to ${toTeeth} teeth by itself${towardsCommand ? ', towards the cog missed before' : ''} (${sure(confidence)})`,
    }),
  );
  const drops = ride.chainDrops.map(
    (drop): StripEvent => ({
      timeS: timeS(drop.at),
      teeth: drop.afterShiftTo ?? teethAt(timeS(drop.at)),
      kind: 'drop',
      words: `${when(drop.at)}: chain dropped, ${dropSideWords[drop.side]} (${sureOf(drop)})`,
    }),
  );
  const skips = ride.skips.map(
    (skip): StripEvent => ({
      timeS: timeS(skip.at),
      teeth: skip.teeth,
      kind: 'skip',
      words: `${when(skip.at)}: skipped on ${skip.teeth} teeth (${sureOf(skip)})`,
    }),
  );
  return [...shifts, ...ghosts, ...drops, ...skips].sort((a, b) => a.timeS - b.timeS);
}
