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
  const [said, step] = [parts.indexOf('cautions'), parts.indexOf('tag-action')];
  expect(Math.min(said, step)).toBeGreaterThanOrEqual(0);
  return said < step;
}

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
