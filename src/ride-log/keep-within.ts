import { counted } from '../numeric/counted.ts';
import { RideDraft } from './ride-draft.ts';

/**
 * The draft with only what was recorded within `stretches` (Unix ms, ends excluded): the riding in a file of several
 * sports. The draft itself where there are none.
 */
export function keepWithin(
  draft: RideDraft,
  stretches: readonly { startMs: number; endMs: number }[] | null,
): RideDraft {
  if (stretches === null) return draft;
  const within = (timeMs: number): boolean =>
    stretches.some(({ startMs, endMs }) => timeMs >= startMs && timeMs < endMs);
  const kept = new RideDraft(draft.file, draft.format);
  Object.assign(kept, { sport: draft.sport, subSport: draft.subSport, speedSource: draft.speedSource });
  kept.timeless = draft.timeless;
  kept.warnings.push(...draft.warnings);
  kept.pausesMs.push(...draft.pausesMs);
  const time = draft.timeMs.values();
  const starts = new Set(draft.runStarts);
  for (let i = 0; i < time.length; i++) {
    if (starts.has(i)) kept.beginRun();
    if (!within(time[i])) continue;
    kept.add({
      timeMs: time[i],
      speedMps: draft.speedMps.values()[i],
      cadenceRpm: draft.cadenceRpm.values()[i],
      powerW: draft.powerW.values()[i],
      distanceM: draft.distanceM.values()[i],
      pathM: draft.pathM.values()[i],
    });
  }
  for (const gear of draft.gears) if (within(gear.timeMs)) kept.addGear(gear);
  kept.warn(
    'other-sports-left-out',
    `${counted(time.length - kept.length, 'record')} of other sports in the same file: left out.`,
  );
  return kept;
}
