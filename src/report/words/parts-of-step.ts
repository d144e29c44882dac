import type { Adjustment } from '../../adjustments/adjustment.ts';
import type { DiagnosisReport } from '../diagnosis-report-schema.ts';
import { stepIsAbout } from './step-is-about.ts';
import { stepList } from './step-list.ts';

/** The words by which a step asks for work on a part, in the order of work. */
const askedBy: Readonly<Record<Adjustment['parameter'], RegExp>> = {
  hanger: /\bhanger\b/,
  wheel: /\bdropouts\b/,
  chain: /\bchain checker\b/,
  cassette: /\blockring\b|\bspacers?\b/,
  'cable-and-housing': /\bcable and housing\b/,
  'cable-tension': /\bcable tension\b|\bbarrel adjuster\b/,
  'index-offset': /\bindex offset\b/,
  'low-limit': /\blow limit\b/,
  'high-limit': /\bhigh limit\b/,
  'pulley-gap': /\bB-screw\b|\bpulley gap\b/,
};

type Told = Pick<DiagnosisReport['suggestion'], 'steps' | 'action' | 'start' | 'parameter' | 'looksFirst'>;

/**
 * The parts that the next step has work on, by the names under which that is logged: the one that it is about first, then the others that it
 * asks to be looked at or turned. What it says to leave as it is is none of them.
 */
export function partsOfStep(suggestion: Told): string[] {
  const sentences = stepList(suggestion).steps.flatMap((step) => step.split(/(?<=\.)\s+/));
  const asked = sentences.filter((sentence) => !/\bleave\b/i.test(sentence)).join(' ');
  const named = Object.entries(askedBy).flatMap(([part, words]) => (words.test(asked) ? [part] : []));
  const about = stepIsAbout(suggestion);
  const { looksFirst } = suggestion;
  return [...new Set([...(about === null ? [] : [about]), ...(looksFirst ? [looksFirst] : []), ...named])];
}
