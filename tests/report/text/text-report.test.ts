import { parseHTML } from 'linkedom';
import { describe, expect, it } from 'vitest';
import { generalCautions } from '../../../src/diagnosis/next-step/step-cautions.ts';
import { htmlReport } from '../../../src/report/html/html-report.ts';
import type { Report } from '../../../src/report/report-schema.ts';
import { textReport } from '../../../src/report/text/text-report.ts';
import { textTable } from '../../../src/report/text/text-table.ts';
import { wrapText } from '../../../src/report/text/wrap-text.ts';
import { sampleReport } from '../sample-report.ts';

// biome-ignore lint/suspicious/noControlCharactersInRegex: escape codes are what is looked for
const escapes = /\u001B\[\d+m/g;

describe('textReport', () => {
  const report = sampleReport();

  it('reads as it was reviewed', async () => {
    await expect(textReport(report)).toMatchFileSnapshot('sample-report.golden.txt');
  });

  it('goes in the order of the page, the verdict and the next step first', () => {
    const titles = textReport(report)
      .match(/^.+(?=\n=+$)/gm)
      ?.slice(1);
    const { document } = parseHTML(htmlReport(report));
    const onPage = [...document.querySelectorAll('h2')].map((title) => title.textContent);
    const own = ['Cautions', 'Trouble over the rides', 'What was weighed'];
    expect(titles?.filter((title) => !own.includes(title))).toEqual(onPage.filter((title) => !own.includes(title)));
    expect(titles?.[0]).toBe('Verdict');
  });

  it.each([80, 90, 100])('keeps prose and tables within %i characters', (width) => {
    const lines = textReport(report, { width }).split('\n');
    for (const line of lines) expect(line.length).toBeLessThanOrEqual(width);
  });

  it('uses no escape codes without colour, and the same words with it', () => {
    const plain = textReport(report);
    const coloured = textReport(report, { colour: true });
    expect(plain).not.toMatch(escapes);
    expect(coloured).toMatch(escapes);
    expect(coloured.replace(escapes, '')).toBe(plain);
  });

  it('lets no control character of a file name or note through to the terminal', () => {
    const hostile: Report = {
      ...report,
      bike: { ...report.bike, name: 'bike\u001B[2J\u0007\u202Eevil' },
      rides: [
        { ...report.rides[0], file: 'a\u001B]0;x\u0007.fit', warnings: [{ code: 'x', message: 'm\u001B[31m\r' }] },
      ],
      failed: [{ file: 'b', code: 'x', message: 'b\u009B31m\n\n: bad' }],
    };
    const text = textReport(hostile);
    // biome-ignore lint/suspicious/noControlCharactersInRegex: control characters are what is looked for
    expect(text).not.toMatch(/[\u0000-\u0009\u000B-\u001F\u007F-\u009F\u202A-\u202E]/);
  });

  it('numbers the next step where it is more than one thing, and says none twice', () => {
    const steps = ['Look at the hanger.', 'If that is not it: look at the limit.'];
    const suggestion = { ...report.diagnosis.suggestion, steps, action: steps.join(' '), start: 'On a stand.' };
    const text = textReport({ ...report, diagnosis: { ...report.diagnosis, suggestion } });
    expect(text).toMatch(
      / {2}1\. Look at the hanger\. Begin: On a stand\.\n {2}2\. If that is not it: look at the limit\.\n/,
    );
    expect(text.match(/Look at the hanger|Begin:/g)).toHaveLength(2);
  });

  it('always carries cautions and what the logs cannot tell', () => {
    const text = textReport(report);
    expect(text).toContain('Keep fingers out of a turning drivetrain.');
    expect(text).toContain('nobody has looked at the bike');
  });

  it('asks a rider who has nothing to do for no work, and points to no look', () => {
    const { diagnosis } = report;
    const cautions = generalCautions.map((caution) => caution.text);
    const cautionKinds = generalCautions.map(({ kind }) => kind);
    const verify = 'Keep recording; the verdict is worked out again with every ride.';
    const leave = {
      ...diagnosis.suggestion,
      steps: ['Leave everything as it is.'],
      parameter: 'none',
      inspectFirst: false,
    };
    const said = (start: string, asks?: 'nothing'): string => {
      const suggestion = { ...leave, start, verify, cautions, cautionKinds, asks };
      const checkRide = { ...diagnosis.checkRide, sentences: [] };
      const between: ['no-fault', 'hanger-bent'] = ['no-fault', 'hanger-bent'];
      const separates = { between, bySkips: false, sentence: 'A look tells.' };
      return textReport({ ...report, diagnosis: { ...diagnosis, suggestion, checkRide, separates } });
    };
    const idle = said('Nothing needs to be turned.', 'nothing');
    expect(idle).not.toMatch(/Begin:|Adjust on a stand|Keep fingers|A look tells/);
    expect(idle).toContain("The maker's manual, local rules and a qualified mechanic come first.");
    const look = said('Look at the hanger.');
    for (const one of ['Begin: Look at', 'Adjust on a stand', 'Keep fingers', 'A look tells'])
      expect(look).toContain(one);
  });

  it('folds cogs without any trouble into one line, but none of which too little is known', () => {
    const cog = (teeth: number, shifts: number, late: number) =>
      ({
        ...report.cogs[0],
        teeth,
        direction: 'to-larger',
        shifts,
        late,
        missed: 0,
        overshot: 0,
        ghostShifts: 0,
      }) as const;
    const said = (...cogs: ReturnType<typeof cog>[]): string => textReport({ ...report, cogs });
    const folded = said(cog(13, 40, 0), cog(15, 30, 0), cog(18, 50, 2), cog(21, 1, 0));
    expect(folded).toMatch(/^ +18 +50 +2 /m);
    expect(folded).toMatch(/^ +21 +1 .*too few to tell$/m);
    expect(folded).toMatch(/^ +all others +70 +0 +0 +0 +0 +0 % +- +2 cogs$/m);
    expect(folded).not.toMatch(/^ +1[35] /m);
    expect(said(cog(13, 40, 0), cog(15, 30, 3))).toMatch(/^ +13 +40 /m);
  });

  it('says when nothing could be judged instead of naming a part', () => {
    const causes = report.diagnosis.causes.map((cause) => ({
      ...cause,
      probability: cause.cause === 'no-fault' ? 0.5 : 0.5 / 11,
    }));
    causes.sort((a, b) => b.probability - a.probability);
    const silent: Report = {
      ...report,
      rides: [{ ...report.rides[0], evidence: 'none' }],
      diagnosis: { ...report.diagnosis, causes, weighed: { ...report.diagnosis.weighed, judgedShifts: 0, events: 0 } },
    };
    const text = textReport(silent).replace(/\s+/g, ' ');
    expect(text).toContain('No shift could be judged and nothing was seen to go wrong');
    expect(text).toContain('before any ride: nothing mis-set (50 %)');
    expect(text).toContain('1 ride shows nothing about shifting and did not count.');
  });

  it('calls commands without a ratio to set them against weak evidence', () => {
    const weak: Report = { ...report, rides: [{ ...report.rides[0], evidence: 'commands-only' }] };
    expect(textReport(weak).replace(/\s+/g, ' ')).toContain(
      'Gear records without cadence, or without a speed that shows the gears: no shift can be judged, and how the rider answered a failed one is weak evidence',
    );
    expect(textReport(weak).replace(/\s+/g, ' ')).toContain(
      '1 ride has gear records but no cadence, or no speed that shows the gears:',
    );
  });
});

describe('wrapText', () => {
  it('breaks at spaces, hangs under the bullet and leaves long words whole', () => {
    expect(wrapText('one two three', 8, '- ')).toBe('- one\n  two\n  three');
    expect(wrapText('a verylongword b', 5)).toBe('a\nverylongword\nb');
    expect(wrapText('', 10, '- ')).toBe('- ');
  });
});

describe('textTable', () => {
  it('aligns columns and leaves no spaces at line ends', () => {
    const columns = [
      { title: 'Cog', align: 'right' },
      { title: 'Note', align: 'left' },
    ] as const;
    expect(
      textTable(
        columns,
        [
          ['11', 'few'],
          ['9', ''],
        ],
        0,
      ),
    ).toEqual(['Cog  Note', '---  ----', ' 11  few', '  9']);
  });
});
