import { parseHTML } from 'linkedom';
import { describe, expect, it, vi } from 'vitest';
import { verdictSection } from '../../web/bike/verdict-section.ts';
import { madeUpFleet } from '../browser/made-up/made-up-bikes.ts';

const { document, Node } = parseHTML('<!doctype html><html><body></body></html>');
vi.stubGlobal('document', document);
vi.stubGlobal('Node', Node);

/** Headline and the line below it, of a bike with such causes. */
function said(
  causes: readonly (readonly [cause: string, probability: number])[],
  undecided: boolean,
  { named = true, limitOrHanger = false } = {},
) {
  const { detail } = madeUpFleet()[0];
  const { diagnosis } = detail.report!;
  const [first] = diagnosis.causes;
  Object.assign(diagnosis, {
    causes: causes.map(([cause, probability]) => ({ ...first, cause, probability })),
    limitOrHanger,
    undecided: undecided ? { between: causes.slice(0, 2).map(([cause]) => cause), sentence: 'Undecided.' } : null,
  });
  diagnosis.suggestion.namesCause = named;
  const bike = { ...detail, report: { ...detail.report!, adjustments: [] } };
  const section = verdictSection({ bike, log: () => {} } as never);
  const text = (selector: string) => section.querySelector(selector)?.textContent;
  return [text('.verdict-headline'), text('.verdict-likely')];
}

describe('the line below the headline of a verdict', () => {
  it('says which cause it is of where the headline names two, and not where it names one', () => {
    const two = [
      ['cable-tension-low', 0.76],
      ['pulley-gap-large', 0.14],
    ] as const;
    const [open, likely] = said(two, true);
    expect(open).toMatch(/^Open between cable tension too low and /);
    expect(likely).toMatch(/^Cable tension too low 76 % likely: /);
    const [headline, alone] = said(two, false);
    expect(headline).toBe('Cable tension too low');
    expect(alone).toMatch(/^76 % likely: /);
    const [either, limit] = said([['low-limit-loose', 0.8], two[1]], false, { limitOrHanger: true });
    expect(either).toBe('Chain past the largest cog: low limit or hanger');
    expect(limit).toMatch(/^Low limit screw too far out 80 % likely: /);
  });

  it('says how sure it is that nothing is wrong, and not once more that nothing is', () => {
    expect(
      said(
        [
          ['no-fault', 0.9],
          ['pulley-gap-large', 0.05],
        ],
        false,
        { named: false },
      ),
    ).toEqual(['Nothing points to a mis-set part', expect.stringMatching(/^90 % sure/)]);
  });
});
