import { parseHTML } from 'linkedom';
import { describe, expect, it, vi } from 'vitest';
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
    const said = (cautions: string[], dangers: string[]): string => {
      const { detail } = madeUpFleet()[0];
      const bike = { ...detail, state: { ...detail.state, dangers } };
      const { diagnosis } = bike.report!;
      diagnosis.suggestion.cautions = [...cautions, 'Keep fingers out.'];
      const tag = nextStep({ bike, log: () => {} }, diagnosis, (sentence) => sentence);
      return [...tag.querySelectorAll('.cautions li')].map(({ textContent }) => textContent).join('|');
    };
    const hanger = 'A derailleur on a bent hanger can reach the spokes: keep off the largest cog until it is checked.';
    const bent = 'Derailleur hanger bent (98 %): the derailleur can reach the spokes.';
    expect(said([hanger], [`${bent} Keep off the largest cog until it is checked.`])).toBe('Keep fingers out.');
    for (const dangers of [[], [danger], [bent]]) expect(said([hanger], dangers)).toBe(`${hanger}|Keep fingers out.`);
    const keepOff = 'Keep off the largest cog until its limit was looked at on a stand: the chain was lost past it.';
    const lost = 'The chain left the cassette once: inspect before riding, and keep off the 51 until its limit was';
    expect(said([keepOff], [lost])).toBe('Keep fingers out.');
    // one danger says what a bent hanger lets happen, another until when the cog is kept off for its sake
    expect(said([hanger], [`${lost} looked at on a stand.`, bent])).toBe(`${hanger}|Keep fingers out.`);
    expect(said([hanger], [lost.replace('limit was', 'limit and the hanger were looked at on a stand.'), bent])).toBe(
      'Keep fingers out.',
    );
    expect(said([keepOff], [danger])).toBe(`${keepOff}|Keep fingers out.`);
  });

  it('leave to the step what only follows the work, between how to begin and how to check', () => {
    const { detail } = madeUpFleet()[0];
    const bike = { ...detail, state: { ...detail.state, dangers: [danger] } };
    const { diagnosis } = bike.report!;
    diagnosis.suggestion.namesCause = true;
    diagnosis.suggestion.cautions = [AGAIN, 'Keep fingers out.'];
    const tag = nextStep({ bike, log: () => {} }, diagnosis, (sentence) => sentence);
    expect(tag.querySelector('.cautions')?.textContent).not.toContain(AGAIN);
    const terms = [...tag.querySelectorAll('.steps dt')].map(({ textContent }) => textContent);
    const once = terms.indexOf('Once done');
    expect(tag.querySelectorAll('.steps dd')[once].textContent).toBe(AGAIN);
    expect(terms.slice(once)).toEqual(['Once done', 'Then check']);
    expect(waitFirst({ bike }).textContent).not.toContain(AGAIN);
  });
});
