import { parseHTML } from 'linkedom';
import { describe, expect, it, vi } from 'vitest';
import type { Caution, CautionKind } from '../../src/diagnosis/next-step/caution.ts';
import { nextStep } from '../../web/bike/next-step.ts';
import { waitFirst } from '../../web/bike/wait-first.ts';
import { madeUpFleet } from '../browser/made-up/made-up-bikes.ts';

const { document, Node } = parseHTML('<!doctype html><html><body></body></html>');
vi.stubGlobal('document', document);
vi.stubGlobal('Node', Node);

const danger = 'The chain left the cassette once: inspect before riding.';

const AGAIN = 'Check the indexing again afterwards.';

/** Whether the cautions stand before the first sentence of the step. */
function cautionsFirst({ dangers = [] as string[], inspectFirst = false, pending = false }): boolean {
  const { detail } = madeUpFleet()[0];
  const bike = { ...detail, state: { ...detail.state, dangers } };
  const { diagnosis } = bike.report!;
  diagnosis.suggestion.inspectFirst = inspectFirst;
  const tag = pending ? waitFirst({ bike }) : nextStep({ bike, log: () => {} }, diagnosis, (sentence) => sentence);
  const parts = [...tag.children].map(({ className }) => className);
  const [said, step] = [parts.indexOf('cautions'), parts.indexOf('tag-step')];
  expect(Math.min(said, step)).toBeGreaterThanOrEqual(0);
  return said < step;
}

it('a step that turns nothing is no leave to ride on where something can hurt', () => {
  const titled = (dangers: string[]): string | null | undefined => {
    const { detail } = madeUpFleet()[0];
    const bike = { ...detail, state: { ...detail.state, dangers } };
    const { diagnosis } = bike.report!;
    Object.assign(diagnosis.suggestion, { parameter: 'none', looksFirst: null });
    return nextStep({ bike, log: () => {} }, diagnosis, (sentence) => sentence).querySelector('h2')?.textContent;
  };
  expect(titled([])).toBe('Nothing to turn');
  expect(titled([danger])).toBe('Look it over; nothing to turn yet');
});

describe('the cautions of the next step', () => {
  it('stand before it where something can hurt who rides on', () => {
    expect(cautionsFirst({ dangers: [danger] })).toBe(true);
    expect(cautionsFirst({ inspectFirst: true })).toBe(true);
    expect(cautionsFirst({ dangers: [danger], pending: true })).toBe(true);
  });

  it('stand after it else', () => {
    expect(cautionsFirst({})).toBe(false);
    expect(cautionsFirst({ pending: true })).toBe(false);
  });

  it('leave out what the dangers above them say already in other words', () => {
    const told: readonly Caution[] = [
      { kind: 'bent-hanger', text: 'Keep off the largest cog for the hanger.' },
      { kind: 'keep-off', text: 'Keep off the smallest cog.' },
      { kind: 'by-hand', text: 'Keep fingers out.' },
    ];
    const left = (cautionsSaid: CautionKind[]): (string | null)[] => {
      const { detail } = madeUpFleet()[0];
      const bike = { ...detail, state: { ...detail.state, dangers: [danger], cautionsSaid } };
      const { diagnosis } = bike.report!;
      diagnosis.suggestion.cautions = told.map(({ text }) => text);
      diagnosis.suggestion.cautionKinds = told.map(({ kind }) => kind);
      const tag = nextStep({ bike, log: () => {} }, diagnosis, (sentence) => sentence);
      return [...tag.querySelectorAll('.cautions li')].map(({ textContent }) => textContent);
    };
    const [hanger, keepOff, fingers] = told.map(({ text }) => text);
    expect(left([])).toEqual([hanger, keepOff, fingers]);
    expect(left(['bent-hanger'])).toEqual([keepOff, fingers]);
    expect(left(['keep-off'])).toEqual([hanger, fingers]);
    expect(left(['bent-hanger', 'keep-off'])).toEqual([fingers]);
  });

  it('leave to the step what only follows the work, between how to begin and how to check', () => {
    const { detail } = madeUpFleet()[0];
    const bike = { ...detail, state: { ...detail.state, dangers: [danger] } };
    const { diagnosis } = bike.report!;
    diagnosis.suggestion.namesCause = true;
    diagnosis.suggestion.cautions = [AGAIN, 'Keep fingers out.'];
    diagnosis.suggestion.cautionKinds = ['sequel', 'by-hand'];
    const tag = nextStep({ bike, log: () => {} }, diagnosis, (sentence) => sentence);
    expect(tag.querySelector('.cautions')?.textContent).not.toContain(AGAIN);
    const terms = [...tag.querySelectorAll('.steps dt')].map(({ textContent }) => textContent);
    const once = terms.indexOf('Once done');
    expect(tag.querySelectorAll('.steps dd')[once].textContent).toBe(AGAIN);
    expect(terms.slice(once)).toEqual(['Once done', 'Then check']);
    expect(waitFirst({ bike }).textContent).not.toContain(AGAIN);
  });
});
