import type { CassetteEnd } from '../../adjustments/end-cog-count.ts';
import { lowerFirst } from '../../numeric/lower-first.ts';
import type { Suggestion } from '../diagnosis.ts';
import type { Caution } from './caution.ts';
import type { Step } from './step.ts';

/** Something that is done beside the step by itself: its place in the order is not its own to say. */
export interface Work {
  /** What is done and how, as a sentence that begins with its verb. */
  readonly step: string;
  /** How it begins, said only where nothing comes before it. */
  readonly start: string;
  /** The ends whose cog `start` says to keep off. */
  readonly keepsOff?: readonly CassetteEnd[];
  /** What it looks at, by the name under which that is logged. */
  readonly parameter?: Suggestion['parameter'];
  readonly cautions?: readonly Caution[];
}

/** What else is done, in order: before the step by itself, once its first part is done, and after all of it. */
interface OtherWork {
  readonly before: readonly Work[];
  readonly amid: readonly Work[];
  readonly after: readonly Work[];
}

/** A step with the other work, each a step of the list. What is done first says so, and only that; how the step by itself begins is then said where it stands. */
export function inOrder(own: Step, { before, amid, after }: OtherWork): Step {
  const [first, ...more] = before;
  const [next, ...rest] = own.steps;
  const then = ({ step }: Work): string => `Then ${lowerFirst(step)}`;
  return {
    ...own,
    steps: [
      ...(first ? [`First ${lowerFirst(first.step)}`] : []),
      ...more.map(then),
      first && own.start !== '' ? `${next} ${own.start}` : next,
      ...amid.map(then),
      ...rest,
      ...after.map(then),
    ],
    start: first?.start ?? own.start,
    ...(first ? { firstAbout: first.parameter ?? 'none', first: undefined } : {}),
    keepsOff: [...(first?.keepsOff ?? []), ...(own.keepsOff ?? [])],
    cautions: [...new Set([...[...before, ...amid, ...after].flatMap((work) => work.cautions ?? []), ...own.cautions])],
  };
}
