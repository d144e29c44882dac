import { NEW_CHAIN } from './new-chain.ts';
import {
  cameOff,
  indexAgain,
  intoFrame,
  intoSpokes,
  KEEP_OFF,
  keepsOffForHanger,
  settles,
  skipsUnderLoad,
} from './next-steps.ts';

/** Of these the rider has to know before the bike is ridden on, whoever works on it. */
const dangers: readonly string[] = [intoSpokes, intoFrame, cameOff, skipsUnderLoad, NEW_CHAIN];

/** Whether a caution is of what can hurt who rides on before the step is done. */
export const isDanger = (caution: string): boolean =>
  dangers.includes(caution) || keepsOffForHanger(caution) || caution.startsWith(KEEP_OFF);

/** Whether a caution is no danger but what is left to do once the work of the step is done. */
export const isSequel = (caution: string): boolean => caution === indexAgain || caution === settles;
