import { describe, expect, it } from 'vitest';
import { browserPath, loaded, seriousFindings, sidewaysPx, type Width } from './browser.ts';
import { openMadeUp } from './made-up/open-made-up.ts';

const views: Readonly<Record<string, string>> = {
  'all bikes': '/',
  'a bike that needs service': '/bikes/b1',
  'a bike with too little data': '/bikes/b3',
  'a ride': '/rides/b1r2',
  'an opened event': '/rides/b1r2?event=drop-4000',
  'adding rides': '/add',
  'entering a bike': '/enter',
  'the store': '/data',
  'what the words mean': '/words',
  'a service sheet': '/bikes/b1/sheet',
  'the workshop list': '/workshop',
  'an address that leads nowhere': '/nowhere/at/all',
};

describe.skipIf(!browserPath)('every view', () => {
  const open = openMadeUp();

  for (const [width, dark] of [
    ['desktop', false],
    ['phone', true],
  ] as [Width, boolean][])
    it(`stands on a ${width} in ${dark ? 'dark' : 'light'} colours: named, quiet, accessible, not too wide`, async () => {
      const { page, faults } = await open({ width, dark });
      for (const [name, path] of Object.entries(views)) {
        await page.goto(path);
        await loaded(page);
        await page.waitForTimeout(150);
        expect(await page.locator('h1').count(), `${name}: one first heading`).toBe(1);
        expect(await page.title(), name).toMatch(/.+ · cogwright$/);
        expect(await seriousFindings(page), name).toEqual([]);
        expect(await sidewaysPx(page), `${name} sideways`).toBe(0);
      }
      expect(faults).toEqual([]);
      await page.context().close();
    });

  for (const width of ['desktop', 'phone'] as const)
    it(`lets wide tables scroll by themselves on a ${width}`, async () => {
      const { page, faults } = await open({ width });
      for (const path of ['/bikes/b1', '/rides/b4r0']) {
        await page.goto(path);
        await loaded(page);
        const shows = page.getByRole('button', { name: 'Show as table' });
        await shows.first().waitFor();
        while ((await shows.count()) > 0) await shows.first().click();
        expect(await sidewaysPx(page), path).toBe(0);
        const overflows = await page
          .locator('.chart-figure')
          .evaluateAll((figures) => figures.filter((one) => one.scrollWidth > one.clientWidth + 1).length);
        expect(overflows, path).toBe(0);
        expect(await seriousFindings(page), path).toEqual([]);
      }
      expect(faults).toEqual([]);
      await page.context().close();
    });

  it('says so where a bike has more rides than are listed', async () => {
    const { page } = await open();
    await page.route('**/api/rides?*', async (route) => {
      const answer = await route.fetch();
      await route.fulfill({ json: { ...(await answer.json()), total: 1812 } });
    });
    await page.goto('/bikes/b1');
    await loaded(page);
    const said = page.locator('section[aria-labelledby=rides] > p:not(.zone)');
    expect(await said.textContent()).toMatch(/^The newest \d+ of 1,812 rides; the verdict rests on all that count\.$/);
    await page.unroute('**/api/rides?*');
    await page.reload();
    await loaded(page);
    expect(await said.count()).toBe(0);
    await page.context().close();
  });

  for (const width of ['desktop', 'phone'] as const)
    it(`says on a ${width} how each ride stands, and no 0 where its records cannot show a thing`, async () => {
      const isPhone = width === 'phone';
      const { page, faults } = await open({ width });
      await page.route('**/api/rides?*', async (route) => {
        const answer = await (await route.fetch()).json();
        const [first, second, third, ...rest] = answer.rides;
        Object.assign(first, { status: 'queued', counts: null, evidence: null });
        Object.assign(second, {
          status: 'failed',
          counts: null,
          evidence: null,
          error: { code: 'x', message: 'Cut.' },
        });
        const { shifts } = third.counts;
        Object.assign(third, { evidence: 'commands-only' });
        const none = {
          shifts: 0,
          unjudged: 0,
          late: 0,
          missed: 0,
          overshot: 0,
          ghostShifts: 0,
          chainDrops: 0,
          skips: 0,
        };
        Object.assign(third.counts, { ...none, shifts, unjudged: shifts });
        Object.assign(rest[0], { evidence: 'none' });
        Object.assign(rest[0].counts, none);
        await route.fulfill({ json: answer });
      });
      await page.goto('/bikes/b1');
      await loaded(page);
      const rows = page.locator('.rides tbody tr');
      const told = (row: number, words: RegExp): Promise<number> =>
        rows.nth(row).getByText(words).filter({ visible: true }).count();
      expect(await told(0, /^Waiting$/)).toBe(1);
      expect(await told(1, /^Cut\.$/)).toBe(1);
      expect(await told(2, /^\d+ shifts, none judged$/)).toBe(isPhone ? 1 : 0);
      expect(await told(3, /^no shifts recorded$/)).toBe(isPhone ? 1 : 0);
      expect(await told(4, /^\d+ shifts, \d+ in trouble( \([^)]+\))?(, \d+ (ghost shift|chain drop|skip)s?)*$/)).toBe(
        isPhone ? 1 : 0,
      );
      const cells = async (row: number): Promise<string> =>
        (await rows.nth(row).locator('td').filter({ visible: true }).allTextContents()).slice(1, -1).join(' ');
      expect(await cells(2)).toMatch(isPhone ? /^$/ : /^\d+ – – – – commands only$/);
      expect(await cells(3)).toMatch(isPhone ? /^$/ : /^0 – – – – none$/);
      expect(await cells(4)).toMatch(isPhone ? /^$/ : /^\d+ \d+( \([^)]+\))? \d+ \d+ \d+ full$/);
      const right = (buttons: Element[]): number[] => buttons.map((one) => one.getBoundingClientRect().right);
      expect(new Set(await rows.getByRole('button').evaluateAll(right)).size).toBe(1);
      expect(await sidewaysPx(page)).toBe(0);
      expect(await seriousFindings(page)).toEqual([]);
      expect(faults).toEqual([]);
      await page.context().close();
    });

  it('says on the page of a bike and on that of a ride what puts a ride in doubt', async () => {
    const { page, faults } = await open();
    const doubt = { code: 'another-bike', message: 'This ride looks like another bike.' };
    const read = { code: 'repeated-time', message: 'Two records had one time.' };
    await page.route('**/api/rides/b1r2', async (route) => {
      const answer = await (await route.fetch()).json();
      await route.fulfill({ json: { ...answer, warnings: [], report: { ...answer.report, warnings: [read, doubt] } } });
    });
    await page.route('**/api/bikes/b1?events=false', async (route) => {
      const answer = await (await route.fetch()).json();
      answer.report.rides.forEach((ride: { warnings: unknown[] }, i: number) => {
        ride.warnings = i === 2 ? [read, doubt] : [];
        if (i === 2) Object.assign(ride, { leftOut: 'another-bike' });
      });
      await route.fulfill({ json: answer });
    });
    await page.goto('/rides/b1r2');
    await loaded(page);
    const said = page.locator('.remark').filter({ visible: true });
    expect(await said.allTextContents()).toEqual([read.message, doubt.message]);
    await page.goto('/bikes/b1');
    await loaded(page);
    expect(await said.allTextContents()).toEqual([expect.stringMatching(/^\d+ \w+ 2026, \d\d:\d\d: This ride looks/)]);
    expect(await said.getByRole('link').getAttribute('href')).toBe('/rides/b1r2');
    const uncounted = page.locator('.rides tbody tr').filter({ hasText: 'Not counted: it looks like another bike’s' });
    expect(
      await uncounted.getByRole('link').evaluateAll((links) => links.map((link) => link.getAttribute('href'))),
    ).toEqual(['/rides/b1r2']);
    expect(await seriousFindings(page)).toEqual([]);
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it('names a ride without a date once, and heads the cautions by what is advised', async () => {
    const { page, faults } = await open();
    let namesCause = true;
    let inspectFirst = false;
    await page.route('**/api/rides?*', async (route) => {
      const answer = await (await route.fetch()).json();
      answer.rides[0] = { ...answer.rides[0], start: null, file: 'undated.csv' };
      await route.fulfill({ json: answer });
    });
    await page.route('**/api/bikes/b1?events=false', async (route) => {
      const answer = await (await route.fetch()).json();
      Object.assign(answer.report.diagnosis.suggestion, { namesCause, inspectFirst });
      await route.fulfill({ json: answer });
    });
    const shown = async (): Promise<(string | null)[]> => {
      await page.goto('/bikes/b1');
      await loaded(page);
      const name = page.locator('.rides tbody th').first().locator('> :not(.only-narrow)');
      return [(await name.allTextContents()).join(' / '), await page.locator('.cautions h3').textContent()];
    };
    expect(await shown()).toEqual(['undated.csv', 'Before you touch it']);
    namesCause = false;
    expect(await shown()).toEqual(['undated.csv', 'Should you touch it all the same']);
    inspectFirst = true;
    expect(await shown()).toEqual(['undated.csv', 'Before you ride on']);
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it('says how long a ride was pedalled only where its records tell', async () => {
    const { page, faults } = await open();
    let pedallingS = 0;
    await page.route('**/api/rides/b1r2', async (route) => {
      const answer = await (await route.fetch()).json();
      await route.fulfill({ json: { ...answer, report: { ...answer.report, pedallingS } } });
    });
    const facts = async (): Promise<string | null> => {
      await page.goto('/rides/b1r2');
      await loaded(page);
      return page.locator('.view-head .quiet:not(.zone)').textContent();
    };
    expect(await facts()).not.toContain('pedalled');
    pedallingS = 3000;
    expect(await facts()).toContain(' · 50 min pedalled · ');
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it('keeps the shares on the sheet clear of the causes they belong to', async () => {
    const { page } = await open({ width: 'phone' });
    await page.route('**/api/bikes/b1/sheet', async (route) => {
      const sheet = await (await route.fetch()).json();
      sheet.causes[0].probability = 0.999;
      sheet.causes[1].probability = 0.0001;
      await route.fulfill({ json: sheet });
    });
    await page.goto('/bikes/b1/sheet');
    const shares = page.locator('.sheet-causes strong');
    await shares.first().waitFor();
    expect((await shares.allTextContents()).slice(0, 2).map((share) => share[0])).toEqual(['>', '<']);
    const sparePx = await shares.evaluateAll((all) =>
      all.map((share) => {
        const words = document.createRange();
        words.selectNodeContents(share);
        return share.nextElementSibling!.getBoundingClientRect().left - words.getBoundingClientRect().right;
      }),
    );
    expect(Math.min(...sparePx)).toBeGreaterThan(6);
    await page.context().close();
  });

  it('is looked at by a check that does find faults', async () => {
    const { page } = await open();
    await page.goto('/data');
    await loaded(page);
    await page.evaluate(() => {
      const button = document.createElement('button');
      document.querySelector('main')!.append(button);
      document.querySelector('h1')!.style.color = '#ddd';
    });
    const found = (await seriousFindings(page)).join(' ');
    expect(found).toContain('button-name');
    expect(found).toContain('color-contrast');
    await page.context().close();
  });

  it('says so while loading, when nothing is there, and when the server fails, and tries again', async () => {
    const { page, faults } = await open({ expectFailures: true });
    let answer: 'wait' | 'empty' | 'fail' = 'wait';
    let release = (): void => undefined;
    await page.route('**/api/bikes', async (route) => {
      if (answer === 'wait') await new Promise<void>((resolve) => (release = resolve));
      if (answer === 'fail')
        await route.fulfill({
          status: 500,
          json: { error: { code: 'internal', message: 'The store could not be read.' } },
        });
      else await route.fulfill({ json: { bikes: [] } });
    });
    await page.goto('/');
    await page.getByText('Loading all bikes').waitFor();
    answer = 'empty';
    release();
    await page.getByRole('heading', { name: 'No bike here yet' }).waitFor();
    expect(await seriousFindings(page)).toEqual([]);
    answer = 'fail';
    await page.reload();
    await page.getByText('The store could not be read.').waitFor();
    expect(await seriousFindings(page)).toEqual([]);
    answer = 'empty';
    await page.getByRole('button', { name: 'Try again' }).click();
    await page.getByRole('heading', { name: 'No bike here yet' }).waitFor();
    await page.goto('/bikes/none-such');
    await page.getByRole('heading', { name: 'This bike is not here' }).waitFor();
    expect(await page.getByRole('button', { name: 'Try again' }).count()).toBe(0);
    expect(await page.getByRole('main').getByRole('link', { name: 'All bikes' }).count()).toBe(1);
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it('keeps the colours chosen by hand, and follows the system again when they agree', async () => {
    const { page, faults } = await open();
    const ground = (): Promise<string> => page.evaluate(() => getComputedStyle(document.body).backgroundColor);
    await page.goto('/');
    const light = await ground();
    await page.getByRole('button', { name: 'Switch to dark colours' }).click();
    expect(await ground()).not.toBe(light);
    await page.reload();
    await page.getByRole('button', { name: 'Switch to light colours' }).click();
    expect(await ground()).toBe(light);
    expect(await page.evaluate(() => localStorage.length)).toBe(0);
    expect(faults).toEqual([]);
    await page.context().close();
  });
});
