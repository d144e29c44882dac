import { parseHTML } from 'linkedom';
import { describe, expect, it } from 'vitest';
import { htmlReport } from '../../../src/report/html/html-report.ts';
import { escapeHtml, html } from '../../../src/report/html/markup.ts';
import type { Report } from '../../../src/report/report-schema.ts';
import { sampleReport } from '../sample-report.ts';

const report = sampleReport();
const page = htmlReport(report);
const { document } = parseHTML(page);

describe('htmlReport', () => {
  it('stands on its own: no script, nothing loaded from elsewhere', () => {
    expect(document.querySelectorAll('script, link, img, iframe, object, embed').length).toBe(0);
    expect(page).not.toMatch(/\b(src|href|action)\s*=/i);
    expect(page).not.toMatch(/\bon[a-z]+\s*=/i);
    expect(page.replaceAll('http://www.w3.org/2000/svg', '')).not.toMatch(/https?:|url\(|@import/);
  });

  it('says nothing of where the guide pulley stands where no shift was judged, whatever else was seen', () => {
    const title = 'Where the guide pulley is thought to stand';
    expect(page).toContain(title);
    const { diagnosis } = report;
    const weighed = { ...diagnosis.weighed, judgedShifts: 0, events: 2 };
    expect(htmlReport({ ...report, diagnosis: { ...diagnosis, weighed } })).not.toContain(title);
  });

  it('holds the verdict, next step, cautions, limits, its tables and six kinds of charts', () => {
    const titles = [...document.querySelectorAll('h2')].map((title) => title.textContent);
    expect(titles).toEqual([
      'Verdict',
      'Next step',
      'What was weighed',
      'Shifts by cog and direction, all rides',
      'Trouble over the rides',
      'Did the adjustments help?',
      'What was seen in each ride',
      'What the logs cannot tell',
      'Files left out',
    ]);
    const rideColumns = [...document.querySelectorAll('table')]
      .map((table) => [...table.querySelectorAll('th[scope=col]')].map((head) => head.textContent))
      .find((heads) => heads.includes('Started (UTC)'));
    expect(rideColumns?.slice(0, 5)).toEqual(['#', 'Started (UTC)', 'Pedalled', 'Evidence', 'Shifts']);
    expect(document.querySelectorAll('.cautions li').length).toBe(2);
    expect(document.querySelectorAll('table').length).toBe(4);
    for (const drawing of ['is-wide', 'is-narrow'])
      expect(document.querySelectorAll(`figure svg.${drawing}`).length).toBe(5 + report.rides.length);
  });

  it('gives every chart a text for those who do not see it', () => {
    for (const svg of document.querySelectorAll('figure svg')) {
      expect(svg.getAttribute('role')).toBe('img');
      expect(svg.getAttribute('aria-label')?.length).toBeGreaterThan(20);
    }
  });

  it('is styled for light, dark and paper', () => {
    expect(page).toContain('prefers-color-scheme: dark');
    expect(page).toContain('@media print');
  });

  it('escapes every text from outside', () => {
    const evil = `"><script>alert('x')</script>`;
    const hostile: Report = {
      ...report,
      bike: { ...report.bike, name: evil },
      bikeNotes: [{ code: 'x', message: evil }],
      rides: report.rides.map((ride) => ({ ...ride, file: evil, warnings: [{ code: evil, message: evil }] })),
      failed: [{ file: evil, code: evil, message: evil }],
      adjustments: report.adjustments.map((made) => ({ ...made, parameter: evil, unit: evil })),
      diagnosis: {
        ...report.diagnosis,
        notes: [evil],
        causes: report.diagnosis.causes.map((cause) => ({ ...cause, evidence: [evil] })),
        suggestion: {
          namesCause: true,
          inspectFirst: false,
          sense: null,
          parameter: evil,
          action: evil,
          start: evil,
          verify: evil,
          cautions: [evil],
        },
      },
    };
    const text = htmlReport(hostile);
    expect(text).not.toMatch(/<script/i);
    expect(text).not.toContain('">&lt;');
    expect(parseHTML(text).document.querySelectorAll('script').length).toBe(0);
    expect(parseHTML(text).document.querySelector('h1')?.textContent).toContain(evil);
  });

  it('leaves out charts of rides when there was none', () => {
    const empty = htmlReport({ ...report, rides: [], cogs: [], adjustments: [] });
    expect(empty).toContain('Verdict');
    expect(empty).not.toContain('Trouble over the rides');
  });

  it('colours no verdict and likens no cause where no shift could be judged', () => {
    const weighed = { ...report.diagnosis.weighed, judgedShifts: 0, events: 0 };
    const silent = parseHTML(htmlReport({ ...report, diagnosis: { ...report.diagnosis, weighed } })).document;
    expect(silent.querySelector('.verdict')?.className).toBe('verdict open');
    const captions = (of: Document): string => [...of.querySelectorAll('figcaption')].map((c) => c.textContent).join();
    expect(captions(silent)).toContain(
      'Mostly what is taken for granted before any ride, since no shift could be judged.',
    );
    expect(captions(silent)).not.toContain('Likeliest');
    expect(captions(document)).toContain('Likeliest: ');
    expect(document.querySelector('.verdict.open')).toBeNull();
  });

  it('draws only the latest rides of many and says so', () => {
    const many = htmlReport({ ...report, rides: Array.from({ length: 30 }, () => report.rides[0]) });
    expect(many).toContain('Only the latest 24 rides are drawn; the first 6 rides stand in the table.');
  });
});

describe('html', () => {
  it('escapes text, takes markup as it is, leaves out nothing-values', () => {
    expect(
      html`<b title="${'"a"'}">${'<i>'}${html`<i>`}${null}${false}${undefined}${3}${['a', html`&`]}</b>`.text,
    ).toBe('<b title="&quot;a&quot;">&lt;i&gt;<i>3a&</b>');
  });

  it('replaces characters that HTML forbids', () => {
    expect(escapeHtml('a\u0000b\u001Bc')).toBe('a\uFFFDb\uFFFDc');
  });
});
