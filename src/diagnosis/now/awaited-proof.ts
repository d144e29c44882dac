import { type CassetteEnd, wentWrong } from '../../adjustments/end-cog-count.ts';
import { endWords } from '../../adjustments/end-cog-words.ts';
import { counted } from '../../numeric/counted.ts';
import { type MadeOnce, whatWasDone } from './what-was-done.ts';

type EndCount = Parameters<typeof wentWrong>[0];

/** What an entry's shifts told before and after: also of one from a report. */
interface Told {
  readonly before: { readonly late: number; readonly missed: number; readonly overshot: number };
  readonly endCog?: { readonly end: CassetteEnd; readonly before: EndCount; readonly after: EndCount } | null;
  readonly probabilityBetter: number;
  readonly shiftsStillNeeded: number | null;
}

/** As much of an adjustment's comparison as tells what it still needs. */
interface AwaitingProof extends MadeOnce, Told {
  readonly together?: Told | null;
  readonly skipping?: object | null;
  readonly cancelledOut?: boolean;
}

/** What was done last, as long as it looks better since and more shifts will tell whether it is. */
interface AwaitedProof {
  /** What was done, within a sentence. */
  readonly words: string;
  /** More judged shifts until it is decided. */
  readonly shifts: number;
  /** The end cog onto which they are made; null: onto any. */
  readonly end: CassetteEnd | null;
}

/**
 * What was done last and has no answer yet. Null where it has one, where none is within reach, where nothing went wrong before it, where it rather
 * got worse, and where a chain was lost past the end cog that would tell.
 *
 * @param made in order of time
 */
export function awaitedProof(made: readonly AwaitingProof[]): AwaitedProof | null {
  const last = made.findLast(({ cancelledOut }) => !cancelledOut);
  if (!last || last.skipping) return null;
  const { before, endCog, probabilityBetter, shiftsStillNeeded } = last.together ?? last;
  const wrong = endCog ? wentWrong(endCog.before) : before.late + before.missed + before.overshot;
  const lost = endCog ? endCog.before.lost + endCog.after.lost : 0;
  if (!shiftsStillNeeded || probabilityBetter <= 0.5 || wrong === 0 || lost > 0) return null;
  return { words: whatWasDone(made, last), shifts: shiftsStillNeeded, end: endCog?.end ?? null };
}

/** The shifts that it still needs, as a sentence. */
export const awaitedSentence = ({ words, shifts, end }: AwaitedProof): string =>
  end
    ? `About ${counted(shifts, 'more judged shift')} onto the ${endWords[end]} cog, softly, away from traffic, will tell whether ${words} helped.`
    : `About ${counted(shifts, 'more judged shift')} will tell whether ${words} helped.`;
