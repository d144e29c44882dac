import { parseHTML } from 'linkedom';
import { describe, expect, it } from 'vitest';
import type { Cause } from '../../src/diagnosis/causes.ts';
import { htmlVerdict } from '../../src/report/html/html-verdict.ts';
import type { Report } from '../../src/report/report-schema.ts';
import { textReport } from '../../src/report/text/text-report.ts';
import { type Verdict, verdictOf } from '../../src/report/verdict-kind.ts';
import { verdictSentence } from '../../src/report/words/verdict-words.ts';
import { verdictHeadline } from '../../web/bike/verdict-headline.ts';
import { sampleReport, sampleWellSince } from './sample-report.ts';

const sample = sampleReport();
const nothingSeen = { ...sample.diagnosis.weighed, judgedShifts: 0, events: 0 };
const undecided = (a: Cause, b: Cause) => ({
  between: [a, b] as [Cause, Cause],
  becauseOf: ['x'],
  sentence: 'Undecided.',
});
const nothingToTurn = { ...sample.diagnosis.suggestion, namesCause: false, parameter: 'none' };

const nowIs = (now: Partial<Report['diagnosis']['now']>) => ({ now: { ...sample.diagnosis.now, ...now } });
const turnedOver = nowIs({ setting: 'overdone', fault: 'cable-tension-high', byLastAdjustment: true });
const { since } = sample.diagnosis.now;

interface Case {
  readonly top: Cause;
  readonly probability: number;
  readonly diagnosis?: Partial<Report['diagnosis']>;
  /** Of the one adjustment. */
  readonly probabilityBetter?: number;
  readonly kind: Verdict['kind'];
  /** Begins of the sentence in text and page of the report, and of the headline of the bike's page. */
  readonly sentence: string;
  readonly headline: string;
  /** Class of the sentence in the page of the report, and the code of its colour in the text. */
  readonly tone: 'good' | 'alarm' | 'open';
}

const left = {
  places: [{ teeth: 18, direction: null, shifts: 40, trouble: 40, foretold: 0.3 }],
  where: 'shifts onto the 18',
  sentence: 'Explained by none: 40 of 40 shifts onto the 18 went wrong.',
  look: 'Look at the 18.',
};

const codes = { good: 32, alarm: 33, open: 1 };

/** The second place always has `cable-friction` with 12 %. */
const cases: Case[] = [
  {
    top: 'no-fault',
    probability: 0.8,
    probabilityBetter: 0.5,
    kind: 'sound',
    sentence: 'Nothing points to a mis-set part (80 % sure).',
    headline: 'Nothing points to a mis-set part',
    tone: 'good',
  },
  {
    top: 'no-fault',
    probability: 0.35,
    diagnosis: {
      riderPart: { ...sample.diagnosis.riderPart, goneWithSoftLegs: true },
      suggestion: nothingToTurn,
      ...nowIs({ setting: 'same' }),
    },
    kind: 'under-load',
    sentence: 'No part is named: shifts go wrong under hard pedalling alone.',
    headline: 'Shifts fail under hard pedalling alone',
    tone: 'open',
  },
  {
    top: 'no-fault',
    probability: 0.8,
    diagnosis: { unexplained: left },
    kind: 'unexplained',
    sentence: 'Explained by none: 40 of 40 shifts onto the 18 went wrong.',
    headline: 'Shifts onto the 18 go wrong, and no cause explains it',
    tone: 'alarm',
  },
  {
    top: 'cable-tension-low',
    probability: 0.78,
    diagnosis: { unexplained: left },
    kind: 'named',
    sentence: 'Likeliest, if it is one fault: cable tension too low (78 %);',
    headline: 'Cable tension too low',
    tone: 'alarm',
  },
  {
    // what was cured leaves the rest as it is
    top: 'cable-tension-low',
    probability: 0.78,
    diagnosis: { suggestion: nothingToTurn, cured: true, stillThere: 0.1, unexplained: left },
    kind: 'cured',
    sentence:
      'It was cable tension too low (78 %), and what was done on 2026-04-12 (cable tension +2 clicks) seems to have cured it. Explained by none: 40 of 40',
    headline: 'Cable tension too low: it seems cured',
    tone: 'alarm',
  },
  {
    top: 'no-fault',
    probability: 0.8,
    probabilityBetter: 0.5,
    diagnosis: { undecided: undecided('no-fault', 'hanger-bent') },
    kind: 'open',
    sentence: 'Open between nothing mis-set (80 %) and derailleur hanger bent (1 %).',
    headline: 'Open between nothing mis-set and derailleur hanger bent',
    tone: 'open',
  },
  {
    top: 'no-fault',
    probability: 0.45,
    probabilityBetter: 0.5,
    kind: 'open',
    sentence:
      'No fault stands out: nothing mis-set (45 %) is likelier than any, the next is friction in cable and housing (12 %).',
    headline: 'No fault stands out',
    tone: 'open',
  },
  {
    top: 'cable-tension-low',
    probability: 0.78,
    kind: 'named',
    sentence: 'Likeliest: cable tension too low (78 %);',
    headline: 'Cable tension too low',
    tone: 'alarm',
  },
  {
    // a cause may be named that has nothing to turn
    top: 'worn-drivetrain',
    probability: 0.98,
    diagnosis: { suggestion: { ...nothingToTurn, namesCause: true } },
    probabilityBetter: 0.5,
    kind: 'named',
    sentence: 'Likeliest: chain and cogs worn (98 %);',
    headline: 'Chain and cogs worn',
    tone: 'alarm',
  },
  {
    top: 'cable-tension-low',
    probability: 0.45,
    kind: 'open',
    sentence: 'Open between cable tension too low (45 %) and friction in cable and housing (12 %).',
    headline: 'Open between cable tension too low and friction in cable and housing',
    tone: 'alarm',
  },
  {
    // an assumption turns it to the cause that comes third or later
    top: 'cable-tension-low',
    probability: 0.78,
    diagnosis: { undecided: undecided('cable-tension-low', 'pulley-gap-large') },
    kind: 'open',
    sentence: 'Open between cable tension too low (78 %) and guide pulley too far from the cogs (1 %).',
    headline: 'Open between cable tension too low and guide pulley too far from the cogs',
    tone: 'alarm',
  },
  {
    top: 'cable-tension-low',
    probability: 0.78,
    diagnosis: { suggestion: nothingToTurn },
    kind: 'unnamed',
    sentence: 'No part is named yet: cable tension too low comes first (78 %)',
    headline: 'Too little evidence to name a part',
    tone: 'open',
  },
  {
    top: 'cable-tension-low',
    probability: 0.78,
    diagnosis: { suggestion: nothingToTurn, cured: true, stillThere: 0.1 },
    kind: 'cured',
    sentence:
      'It was cable tension too low (78 %), and what was done on 2026-04-12 (cable tension +2 clicks) seems to have cured it.',
    headline: 'Cable tension too low: it seems cured',
    tone: 'good',
  },
  {
    // what was cured is gone, whichever of the two it was
    top: 'cable-tension-low',
    probability: 0.78,
    diagnosis: {
      suggestion: nothingToTurn,
      cured: true,
      stillThere: 0.1,
      undecided: undecided('cable-tension-low', 'cable-friction'),
    },
    kind: 'cured',
    sentence:
      'What was done on 2026-04-12 (cable tension +2 clicks) seems to have cured what was wrong: since then 10 of 73 judged shifts went wrong. What it was stays open: cable tension too low (78 %) or friction in cable and housing (12 %).',
    headline: 'Shifts well since the last adjustment',
    tone: 'good',
  },
  {
    top: 'cable-tension-low',
    probability: 0.98,
    diagnosis: turnedOver,
    kind: 'overdone',
    sentence:
      'It was cable tension too low (98 %), and the last adjustment went too far: now it is cable tension too high; the guide pulley stands too far inboard,',
    headline: 'The last adjustment went too far: cable tension too high',
    tone: 'alarm',
  },
  {
    // what was wrong before is open, what is wrong now is not
    top: 'cable-tension-low',
    probability: 0.78,
    diagnosis: {
      ...nowIs({ setting: 'overdone', fault: 'low-limit-loose', byLastAdjustment: false }),
      undecided: undecided('cable-tension-low', 'pulley-gap-large'),
    },
    kind: 'overdone',
    sentence:
      'An earlier adjustment went too far and is still too much: now it is low limit screw too far out; the chain can go past the largest cog',
    headline: 'An earlier adjustment went too far and is still too much: low limit screw too far out',
    tone: 'alarm',
  },
  {
    top: 'no-fault',
    probability: 0.8,
    diagnosis: turnedOver,
    kind: 'overdone',
    sentence: 'The last adjustment went too far: now it is cable tension too high;',
    headline: 'The last adjustment went too far: cable tension too high',
    tone: 'alarm',
  },
  {
    top: 'cable-tension-low',
    probability: 0.78,
    diagnosis: nowIs({
      setting: 'unsettled',
      since: { ...since, chainDrops: { ...since.chainDrops, pastLargest: 0 } },
    }),
    kind: 'unsettled',
    sentence:
      'It was cable tension too low (78 %); the rides since the last adjustment do not tell yet whether it is cured.',
    headline: 'Cable tension too low: not known yet whether it is cured',
    tone: 'open',
  },
  {
    top: 'cable-tension-low',
    probability: 0.78,
    diagnosis: nowIs({ setting: 'unsettled' }),
    kind: 'unsettled',
    sentence:
      'It was cable tension too low (78 %); since the last adjustment the chain was lost past the largest cog, so that limit is looked at first.',
    headline: 'Cable tension too low: not known yet whether it is cured',
    tone: 'open',
  },
  {
    top: 'cable-tension-low',
    probability: 0.78,
    diagnosis: {
      suggestion: nothingToTurn,
      undecided: undecided('cable-tension-low', 'pulley-gap-large'),
      shiftsWellSince: sampleWellSince,
    },
    kind: 'not-shown',
    sentence: 'The trouble did not show in the rides since 2026-04-14 (',
    headline: 'Hardly any trouble in the newest rides',
    tone: 'open',
  },
  {
    // what the log holds is not put down to what it does not hold
    top: 'cable-tension-low',
    probability: 0.78,
    diagnosis: {
      suggestion: nothingToTurn,
      shiftsWellSince: { ...sampleWellSince, adjusted: true, entryAt: '2026-04-13T18:00:00Z' },
    },
    kind: 'put-right',
    sentence:
      'Since what was logged on 2026-04-13 the bike shifts well; before it, cable tension too low was likeliest (78 %).',
    headline: 'Shifts well since it was adjusted',
    tone: 'good',
  },
  {
    // where no fault was sure, nothing was there to put right, however well the newest rides went
    top: 'no-fault',
    probability: 0.45,
    probabilityBetter: 0.5,
    diagnosis: { suggestion: nothingToTurn, shiftsWellSince: { ...sampleWellSince, putRight: false } },
    kind: 'open',
    sentence: 'No fault stands out: nothing mis-set (45 %) is likelier than any,',
    headline: 'No fault stands out',
    tone: 'open',
  },
  {
    // what helped for sure mended something, though it hangs on an assumption what that was
    top: 'cable-tension-low',
    probability: 0.78,
    diagnosis: { suggestion: nothingToTurn, cured: true, undecided: undecided('cable-tension-low', 'no-fault') },
    probabilityBetter: 0.97,
    kind: 'cured',
    sentence: 'What was done on 2026-04-12 (cable tension +2 clicks) seems to have cured what was wrong',
    headline: 'Shifts well since the last adjustment',
    tone: 'good',
  },
  {
    // whether there was a fault at all hangs on an assumption: then the step is to ride on, and nothing is called cured
    top: 'cable-tension-low',
    probability: 0.78,
    diagnosis: {
      suggestion: nothingToTurn,
      cured: true,
      undecided: undecided('cable-tension-low', 'no-fault'),
    },
    probabilityBetter: 0.8,
    kind: 'unnamed',
    sentence: 'No part is named yet:',
    headline: 'Too little evidence to name a part',
    tone: 'open',
  },
  {
    top: 'no-fault',
    probability: 0.6,
    diagnosis: { weighed: nothingSeen },
    kind: 'nothing-seen',
    sentence: 'No shift could be judged and nothing was seen to go wrong, which says little',
    headline: 'Too few judged shifts yet to say',
    tone: 'open',
  },
  {
    top: 'no-fault',
    probability: 0.6,
    diagnosis: { weighed: { ...nothingSeen, weakShifts: 80 } },
    kind: 'nothing-seen',
    sentence: "No shift could be judged: of 80 shifts only the rider's answer is known,",
    headline: 'Too few judged shifts yet to say',
    tone: 'open',
  },
  {
    // the rides may hold judged shifts all the same, for example where none has a date
    top: 'no-fault',
    probability: 0.22,
    diagnosis: { weighed: { ...nothingSeen, rides: 0 } },
    kind: 'nothing-seen',
    sentence: 'No ride could be weighed, so nothing speaks',
    headline: 'Too few judged shifts yet to say',
    tone: 'open',
  },
];

function reportOf({ top, probability, diagnosis, probabilityBetter }: Case): Report {
  const adjustments = sample.adjustments.map((made) => ({
    ...made,
    probabilityBetter: probabilityBetter ?? made.probabilityBetter,
  }));
  const others = sample.diagnosis.causes.filter(({ cause }) => cause !== top && cause !== 'cable-friction');
  const friction = { cause: 'cable-friction', probability: 0.12, evidence: [] } as const;
  const causes = [{ cause: top, probability, evidence: [] }, { ...friction, evidence: [] }, ...others];
  return { ...sample, adjustments, diagnosis: { ...sample.diagnosis, causes, ...diagnosis } };
}

describe.each(cases)('a verdict of $probability for $top that is $kind', (one) => {
  const report = reportOf(one);

  it('is the same in text, page and headline', () => {
    expect(verdictOf(report).kind).toBe(one.kind);
    const sentence = verdictSentence(report);
    expect(sentence.slice(0, one.sentence.length)).toBe(one.sentence);
    const words = { bike: report.bike, state: { word: 'watch' }, report };
    expect(verdictHeadline(words as never)).toBe(one.headline);
  });

  it('is marked alike in text and page', () => {
    const { document } = parseHTML(`<html><body>${htmlVerdict(report).text}</body></html>`);
    const shown = document.querySelector('.verdict');
    expect(shown?.textContent).toBe(verdictSentence(report));
    expect(shown?.className).toBe(`verdict ${one.tone}`);
    const lines = textReport(report, { width: 200, colour: true }).split('\n');
    const line = lines.find((text) => text.includes(one.sentence.slice(0, 20)));
    expect(line?.startsWith(`\u001B[${codes[one.tone]}m`), line).toBe(true);
  });
});

describe('rides that show nothing', () => {
  const textOf = (weighed: Report['diagnosis']['weighed']): string => {
    const report = { ...sample, diagnosis: { ...sample.diagnosis, weighed } };
    return (
      textReport(report, { width: 2000 }) +
      parseHTML(`<body>${htmlVerdict(report).text}</body>`).document.body.textContent
    );
  };

  it('are not said to have moved nothing, since that no chain was lost says a little', () => {
    const text = textOf(nothingSeen);
    expect(text).toMatch(/mostly by what is taken for granted before any ride: cable tension too low \(78 %\)/);
    expect(text).not.toMatch(/About as likely as before any ride/);
  });

  it('get no probabilities at all where none could be weighed', () => {
    expect(textOf({ ...nothingSeen, rides: 0 })).not.toMatch(/cable tension too low \(78 %\)|How likely each/);
  });
});
