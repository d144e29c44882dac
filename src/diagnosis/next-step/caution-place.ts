import { NEW_CHAIN } from './new-chain.ts';
import {
  cameOff,
  indexAgain,
  intoEither,
  intoFrame,
  intoSpokes,
  KEEP_OFF,
  keepsOffForHanger,
  settles,
  skipsUnderLoad,
} from './next-steps.ts';

/** Of these the rider has to know before the bike is ridden on, whoever works on it. */
const dangers: readonly string[] = [intoSpokes, intoFrame, intoEither, cameOff, skipsUnderLoad, NEW_CHAIN];

/** Whether a caution keeps off an end cog past which the chain was lost. */
export const isKeepOff = (caution: string): boolean => caution.startsWith(KEEP_OFF);

/** Whether a caution is of what can hurt who rides on before the step is done. */
export const isDanger = (caution: string): boolean =>
  dangers.includes(caution) || keepsOffForHanger(caution) || isKeepOff(caution);

/** Whether a caution is no danger but what is left to do once the work of the step is done. */
export const isSequel = (caution: string): boolean => caution === indexAgain || caution === settles;

/** Cautions with each danger said once: one for a chain that went past both ends. */
export function eachDangerOnce(cautions: readonly string[]): string[] {
  const both = [intoSpokes, intoFrame];
  if (!both.every((one) => cautions.includes(one))) return [...new Set(cautions)];
  const first = cautions.findIndex((one) => both.includes(one));
  return [...new Set(cautions.map((one, i) => (i === first ? intoEither : one)))].filter((one) => !both.includes(one));
}
