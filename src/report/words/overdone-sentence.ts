import { causeWords } from '../../diagnosis/cause-words.ts';
import { chance } from '../../numeric/percent.ts';
import { upperFirst } from '../../numeric/upper-first.ts';
import type { Report } from '../report-schema.ts';
import { wasOneCause } from '../verdict-kind.ts';
import type { SpokenOf } from './spoken-of.ts';

/** Which adjustment went too far. */
export const tooFarWords = ({ now }: Report['diagnosis']): string =>
  now.byLastAdjustment
    ? 'the last adjustment went too far'
    : 'an earlier adjustment went too far and is still too much';

/** Whether what was wrong at first is to be mended before what was turned too far is turned back: it is there still. */
export const firstIsThereStill = ({ causes, suggestion }: Report['diagnosis']): boolean =>
  causes[0].cause === 'cable-friction' && suggestion.parameter === 'cable-and-housing';

/** What was wrong, where that is one cause, and what is wrong now. */
export function overdoneSentence(report: SpokenOf): string {
  const { diagnosis, bike } = report;
  const { name, meaning } = causeWords(diagnosis.now.fault, bike.actuation);
  const [{ cause, probability }] = diagnosis.causes;
  const thereStill = firstIsThereStill(diagnosis);
  const was = wasOneCause(report)
    ? `It ${thereStill ? 'is' : 'was'} ${causeWords(cause, bike.actuation).name} (${chance(probability)}), and `
    : '';
  return upperFirst(`${was}${tooFarWords(diagnosis)}: now it is ${name}${thereStill ? ' as well' : ''}; ${meaning}.`);
}
