/**
 * What a caution is of, which tells where it is read:
 *
 * - `danger`: what can hurt who rides on before the step is done
 * - `bent-hanger`: the same of a derailleur on a hanger that may be bent, which keeps off the largest cog
 * - `keep-off`: the same of an end cog that the chain is not to be ridden onto
 * - `sequel`: what is left to do once the work of the step is done
 * - `by-hand`: what holds for whatever is done by hand
 * - `mind`: anything else to mind
 */
export const cautionKinds = ['danger', 'bent-hanger', 'keep-off', 'sequel', 'by-hand', 'mind'] as const;

/** One of these kinds. */
export type CautionKind = (typeof cautionKinds)[number];

/** What to heed with a step. */
export interface Caution {
  readonly kind: CautionKind;
  readonly text: string;
}

const hurts: ReadonlySet<CautionKind> = new Set(['danger', 'bent-hanger', 'keep-off']);

/** Whether a caution is of what can hurt who rides on before the step is done: the rider has to know it, whoever works on the bike. */
export const isDanger = ({ kind }: Caution): boolean => hurts.has(kind);
