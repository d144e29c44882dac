import { causeWords } from '../../diagnosis/cause-words.ts';
import { FEWEST_SHIFTS } from '../../diagnosis/fewest-shifts.ts';
import { counted } from '../../numeric/counted.ts';
import { figure } from '../../numeric/figure.ts';
import { chance, percent } from '../../numeric/percent.ts';
import type { NothingToJudge } from '../nothing-to-judge.ts';
import type { NamedCause, StateSigns } from './state-signs.ts';
import { type StateWord, showsNoFault, TROUBLE_TO_WATCH, WATCH_FROM } from './state-word.ts';
import type { TroubleNow } from './trouble-now.ts';

/** Why a bike is in the state that the word says, a sentence each; what is dangerous, `stateDangers` says. */
export function stateReasons(signs: StateSigns, word: StateWord): string[] {
  const { trouble, enough, allLeftOut, heldBack, unexplained, onlyUnexplained } = signs;
  if (heldBack) return [heldBack.sentence];
  const unproven = enough && showsNoFault(signs);
  const reasons: string[] = [];
  if (!unproven && !onlyUnexplained) reasons.push(...faultReason(signs));
  if (unexplained) reasons.push(unexplained.sentence);
  if (trouble.low > TROUBLE_TO_WATCH)
    reasons.push(
      `${counted(trouble.count, 'shift')} of ${figure(trouble.shifts)} late, missed or overshot${sinceInWords[trouble.since]} (${percent(trouble.rate ?? 0)}).`,
    );
  if (word === 'too little data' && !enough) reasons.push(allLeftOut > 0 ? leftOut(allLeftOut) : tooFew(signs));
  if (word === 'fine' || unproven)
    reasons.push(
      `${figure(trouble.count)} of ${figure(trouble.shifts)} judged shifts late, missed or overshot${unproven ? ': no sign of a fault, but not enough to rule faults out' : ''}.`,
    );
  return reasons;
}

const sinceInWords: Readonly<Record<TroubleNow['since'], string>> = {
  'first-ride': '',
  'last-adjustment': ' since the last adjustment',
  onset: ' since a fault began suddenly',
};

const nameOf = ({ cause }: NamedCause, actuation: StateSigns['actuation']): string => causeWords(cause, actuation).name;

/** What is likeliest wrong, or was. A fault is called likely only where one of them is, not where many together are. */
function faultReason(signs: StateSigns): string[] {
  const { actuation, fault, noFault, topFault, wellSince, overdone, cured, aboutLast, enough, namesCause, easeOff } =
    signs;
  if (aboutLast && (overdone || cured || enough)) return [aboutLast];
  if (!topFault) return [];
  const likeliest = `${nameOf(topFault, actuation)} (${chance(topFault.probability)})`;
  if (wellSince) return [wellSince];
  if (easeOff) return [easeOff];
  if (!enough || fault < WATCH_FROM) return [];
  // what is not named is not said as a verdict: the evidence stands for it; and wear shows in no rate of trouble
  const [shown] = namesCause && topFault.cause !== 'worn-drivetrain' ? [] : topFault.evidence;
  return [
    topFault.probability <= noFault && signs.faultLeads
      ? `Open between nothing mis-set (${chance(noFault)}) and ${likeliest}.`
      : topFault.probability > noFault
        ? `A fault is ${chance(fault)} likely; the likeliest is ${likeliest}.${shown ? ` ${shown}` : ''}`
        : `No fault stands out: nothing mis-set (${chance(noFault)}) is likelier than any, the next is ${likeliest}.`,
  ];
}

/** Where nothing can be judged: why, and what to record. */
const noneToJudge: Readonly<Record<NothingToJudge, string>> = {
  'no-gear-changes':
    'Its rides hold no gear changes, so no shift can be judged: more rides with this recorder will not change that.',
  'no-cadence':
    'Its rides hold gear changes but no cadence, so no shift can be judged: pair a cadence sensor with the recorder.',
  'too-short':
    'Its rides are too short to show where the chain was, so no shift can be judged: pedal for longer with the recorder on.',
  'no-chain-seen':
    'Its rides do not show where the chain was, so no shift can be judged: record cadence and speed beside the gear changes.',
};

function tooFew({ trouble, weighed, nothingToJudge }: StateSigns): string {
  if (trouble.shifts === 0 && nothingToJudge) return noneToJudge[nothingToJudge];
  if (trouble.shifts >= FEWEST_SHIFTS)
    return `${weighed.judgedShifts === 0 ? 'None' : `Only ${weighed.judgedShifts}`} of ${counted(trouble.shifts, 'judged shift')} could be weighed; ${FEWEST_SHIFTS} are needed.`;
  return `${trouble.shifts === 0 ? 'No shift' : `Only ${counted(trouble.shifts, 'shift')}`} could be judged; ${FEWEST_SHIFTS} are needed.`;
}

/** Where no ride counts: why, and how to make them count. */
function leftOut(rides: number): string {
  const [left, look, each] =
    rides === 1
      ? ['Its only ride is left out', 'it looks', 'it']
      : [`All ${figure(rides)} of its rides are left out`, 'they look', 'each'];
  return `${left}: by the gear records ${look} like another bike's. Move ${each} to the bike that it was ridden on; if it was this one, put right how many rings and cogs it has, and their teeth.`;
}
