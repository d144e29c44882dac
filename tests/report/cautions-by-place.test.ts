import { parseHTML } from 'linkedom';
import { describe, expect, it } from 'vitest';
import type { Cause } from '../../src/diagnosis/causes.ts';
import { nextStep } from '../../src/diagnosis/next-step/next-steps.ts';
import { generalCautions, stepCautions } from '../../src/diagnosis/next-step/step-cautions.ts';
import { htmlReport } from '../../src/report/html/html-report.ts';
import type { Report } from '../../src/report/report-schema.ts';
import { textReport } from '../../src/report/text/text-report.ts';
import { cautionsByPlace } from '../../src/report/words/cautions-by-place.ts';
import { sampleReport } from './sample-report.ts';

const AGAIN = 'Check the indexing again afterwards.';

/** A report whose next step is for a cause. */
function reportFor(cause: Exclude<Cause, 'no-fault'>): Report {
  const { parameter, action, start, cautions: own } = nextStep(cause, false);
  const cautions = [...own, ...generalCautions];
  const report = sampleReport();
  const suggestion = {
    ...{ ...report.diagnosis.suggestion, inspectFirst: false, parameter, action, steps: [action], start },
    verify: 'Ride it.',
    cautions: cautions.map(({ text }) => text),
    cautionKinds: cautions.map(({ kind }) => kind),
  };
  return { ...report, diagnosis: { ...report.diagnosis, suggestion } };
}

/** The words of both reports, spaces alike. */
const bothReports = (report: Report): string[] => {
  const { document } = parseHTML(htmlReport(report));
  return [textReport(report), document.querySelector('main')?.textContent ?? ''].map((all) => all.replace(/\s+/g, ' '));
};

/** Where each of some words stands; all of them have to be there, once. */
function places(text: string, ...words: readonly string[]): number[] {
  for (const one of words) expect(text.split(one)).toHaveLength(2);
  return words.map((one) => text.indexOf(one));
}

const rising = (all: readonly number[]): boolean => all.every((place, i) => i === 0 || place > all[i - 1]);

describe('the cautions of a step', () => {
  it('stand before it where something can hurt who rides on, and what follows the work after it', () => {
    for (const [cause, danger] of [
      ['low-limit-loose', stepCautions.intoSpokes.text],
      ['high-limit-loose', stepCautions.intoFrame.text],
      ['hanger-bent', 'keep off the largest cog until it is checked'],
    ] as const) {
      const report = reportFor(cause);
      const [step] = report.diagnosis.suggestion.action.split('.');
      for (const text of bothReports(report))
        expect(rising(places(text, danger, step, AGAIN, 'Then check: '))).toBe(true);
    }
  });

  it('stand after it else', () => {
    for (const text of bothReports(reportFor('low-limit-tight')))
      expect(
        rising(places(text, 'until the guide pulley can stand', AGAIN, 'Then check: ', 'A low limit opened too far')),
      ).toBe(true);
  });

  it('are before it wherever a chain came off', () => {
    const { suggestion } = reportFor('cable-tension-high').diagnosis;
    expect(cautionsByPlace(suggestion).first).toBe(false);
    expect(cautionsByPlace({ ...suggestion, inspectFirst: true }).first).toBe(true);
  });

  it('all stand before it where an older engine did not write which of them can hurt', () => {
    const { cautionKinds: _, ...suggestion } = reportFor('cable-friction').diagnosis.suggestion;
    expect(cautionsByPlace(suggestion)).toMatchObject({ first: true, follows: null });
    expect(cautionsByPlace(suggestion).mind.map(({ text }) => text)).toEqual(suggestion.cautions);
  });

  it('speak of what follows a look only where it finds something to put right', () => {
    const { suggestion } = reportFor('hanger-bent').diagnosis;
    const when = (namesCause: boolean) => cautionsByPlace({ ...suggestion, namesCause }).follows?.when;
    expect(when(true)).toBe('Once done');
    expect(when(false)).toBe('If something is put right');
  });

  it('lose none by being parted, and where nothing follows the work say so', () => {
    for (const cause of ['cable-friction', 'pulley-gap-small', 'worn-drivetrain'] as const) {
      const { suggestion } = reportFor(cause).diagnosis;
      const { mind, follows } = cautionsByPlace(suggestion);
      for (const caution of suggestion.cautions)
        expect(mind.some(({ text }) => text === caution) !== !!follows?.what.includes(caution)).toBe(true);
    }
    expect(cautionsByPlace(reportFor('worn-drivetrain').diagnosis.suggestion).follows).toBeNull();
  });
});
