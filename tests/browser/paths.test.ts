import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Page } from 'playwright-core';
import { describe, expect, it } from 'vitest';
import { ZipFile } from 'yazl';
import { browserPath, loaded, seriousFindings, sidewaysPx, type Width, widths } from './browser.ts';
import { type SampleStory, sampleStories } from './real-server.ts';
import { withRealServer } from './with-real-server.ts';

const [first, second] = sampleStories();
/** One rider's bike at each width: a ride, an adjustment, a ride after it. */
const stories: Readonly<Record<Width, SampleStory & { name: string }>> = {
  desktop: { ...first, name: 'Hut bike one' },
  phone: { ...second, name: 'Hut bike two' },
};

/** Lets go of a file over the page, as a file manager would. */
async function drop(page: Page, file: string): Promise<void> {
  const transfer = await page.evaluateHandle(
    ([name, text]) => {
      const bytes = Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
      const dropped = new DataTransfer();
      dropped.items.add(new File([bytes], name));
      return dropped;
    },
    [basename(file), readFileSync(file).toString('base64')],
  );
  await page.dispatchEvent('.file-choice', 'drop', { dataTransfer: transfer });
}

/** Goes on with Tab until something of that name has the focus. */
async function tabTo(page: Page, name: RegExp): Promise<void> {
  for (let i = 0; i < 80; i++) {
    const names = await page.evaluate(() => {
      const element = document.activeElement as HTMLInputElement;
      const own = element.matches('a, button, summary') ? element.textContent : null;
      return [
        element.getAttribute('aria-label'),
        own,
        ...[...(element.labels ?? [])].map((label) => label.textContent),
      ];
    });
    if (names.some((one) => one && name.test(one.trim()))) return;
    await page.keyboard.press('Tab');
  }
  throw new Error(`nothing called ${name} can be reached with Tab`);
}

const bikeId = (page: Page): string => /\/bikes\/([^/?]+)/.exec(page.url())![1];

describe.skipIf(!browserPath)('with the real server', () => {
  const real = withRealServer();
  const bikes: Partial<Record<Width, string>> = {};

  it('a rider chooses a file, puts the drivetrain right and reads the verdict, with the keyboard alone', async () => {
    const { page, faults } = await real.open();
    const { before, name } = stories.desktop;
    // The browser hands choosers over only to who listens beforehand.
    page.on('filechooser', () => undefined);
    await page.goto('/');
    await page.getByRole('heading', { name: 'No bike here yet' }).waitFor();
    await tabTo(page, /^Skip/);
    await tabTo(page, /^Add rides/);
    await page.keyboard.press('Enter');
    await loaded(page);
    await tabTo(page, /Choose ride files or drop them here/);
    const [chooser] = await Promise.all([page.waitForEvent('filechooser'), page.keyboard.press('Enter')]);
    await chooser.setFiles(before);
    await page.getByRole('heading', { name: 'Is this the bike?' }).waitFor();
    expect(await page.getByText('Understood:').count()).toBeGreaterThan(2);
    expect(await seriousFindings(page)).toEqual([]);
    // Nothing is taken without a name, and the field at fault has the focus.
    await tabTo(page, /^Save the bike/);
    await page.keyboard.press('Enter');
    await page.keyboard.type(name);
    await tabTo(page, /^(Cable|Electronic)$/);
    await page.keyboard.press('ArrowUp');
    await tabTo(page, /Chainrings/);
    await page.keyboard.press('Control+A');
    await page.keyboard.type('32');
    await tabTo(page, /rollout in mm/);
    await page.keyboard.type('2290');
    await tabTo(page, /^Save the bike/);
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { name: 'Done' }).waitFor();
    await page.getByRole('link', { name: 'Read the verdict' }).waitFor();
    await tabTo(page, /Read the verdict/);
    await page.keyboard.press('Enter');
    await page.getByRole('heading', { level: 1, name }).waitFor();
    await page.getByRole('region', { name: 'Verdict' }).getByText('likely').first().waitFor();
    await page.getByRole('heading', { name: /^(Before|Should) you touch it/ }).waitFor();
    expect(await page.locator('.cautions li').count()).toBeGreaterThan(0);
    expect(await seriousFindings(page)).toEqual([]);
    bikes.desktop = bikeId(page);
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it('a rider on a phone drops a file beside one that is no ride, and loses nothing', async () => {
    const { page, faults } = await real.open({ width: 'phone', dark: true });
    const { before, name } = stories.phone;
    await page.goto('/add');
    await loaded(page);
    await drop(page, before);
    await drop(page, fileURLToPath(new URL('browser.ts', import.meta.url)));
    await page.getByLabel('Name of the bike').fill(name);
    await page.getByLabel('Chainrings').fill('32');
    await page.getByLabel('Cable').check();
    expect(await sidewaysPx(page)).toBe(0);
    await page.getByRole('button', { name: 'Save the bike and work through 1 file' }).click();
    await page.getByRole('heading', { name: 'Done' }).waitFor();
    await page.getByRole('link', { name: 'Read the verdict' }).waitFor();
    expect(await page.getByRole('status').first().textContent()).toBe('1 ride worked through.');
    await page.getByRole('link', { name: 'Read the verdict' }).click();
    await page.getByRole('region', { name: 'Verdict' }).waitFor();
    expect(await sidewaysPx(page)).toBe(0);
    expect(await seriousFindings(page)).toEqual([]);
    bikes.phone = bikeId(page);
    expect(faults).toEqual([]);
    await page.context().close();
  });

  for (const width of ['desktop', 'phone'] as const)
    it(`a mechanic on a ${width} logs an adjustment, adds the next ride and reads before and after`, async () => {
      const { page, faults } = await real.open({ width });
      const { after, when, clicks } = stories[width];
      await page.goto(`/bikes/${bikes[width]}`);
      await loaded(page);
      await page.getByRole('button', { name: 'Log an adjustment' }).click();
      const form = page.getByRole('form', { name: 'Log an adjustment' });
      await form.getByLabel('What was done').selectOption('cable-tension');
      await form.getByRole('button', { name: 'Log it' }).click();
      await form.getByText('needs an amount in clicks').waitFor();
      await form.getByLabel('Amount in clicks').fill(`-${clicks}`);
      await form.getByRole('button', { name: 'Log it' }).click();
      await form.getByText('without a sign: the way is chosen beside it').waitFor();
      await form.getByLabel('Amount in clicks').fill(clicks);
      await form.getByLabel('Which way').selectOption('');
      await form.getByRole('button', { name: 'Log it' }).click();
      await form.getByText('Choose which way: anticlockwise or clockwise.').waitFor();
      await form.getByLabel('Which way').selectOption({ label: 'anticlockwise, more tension' });
      await form.getByLabel('When').fill(when);
      await form.getByText(/^Will be logged as: cable tension \+\d clicks? \(anticlockwise/).waitFor();
      await form.getByRole('button', { name: 'Log it' }).click();
      await page
        .locator('.entry')
        .getByText(/^Cable tension \+\d/)
        .waitFor();
      await page.getByRole('link', { name: 'Add rides' }).last().click();
      await loaded(page);
      await drop(page, after);
      await page.getByRole('button', { name: 'Work through 1 file' }).click();
      await page.getByRole('heading', { name: 'Done' }).waitFor();
      await page.getByRole('link', { name: 'Read the verdict' }).click();
      const entry = page.locator('.entry');
      await entry.getByText(/shifts? before, .* after; (better|worse) with a probability of/).waitFor();
      expect(await entry.getByRole('img').getAttribute('aria-label')).toMatch(
        /^To larger cogs\. Before: .*%.* trouble; after: .*%.* trouble\. To smaller cogs\. Before: .* trouble; after: .* trouble$/,
      );
      await page.getByRole('button', { name: 'Before and after' }).click();
      await page.getByRole('heading', { name: /^Before and after: cable tension/ }).waitFor();
      expect(await seriousFindings(page)).toEqual([]);
      expect(await sidewaysPx(page)).toBe(0);
      expect(faults).toEqual([]);
      await page.context().close();
    });

  it('files that cannot be read are each named with the reason, and a folder can be chosen, in which what is no ride is left alone', async () => {
    const { page, faults } = await real.open({ expectFailures: true });
    const folder = mkdtempSync(join(tmpdir(), 'cogwright-folder-'));
    mkdirSync(join(folder, 'within'));
    writeFileSync(join(folder, 'holiday.jpg'), Buffer.from([0xff, 0xd8, 0xff, 0xe0, 0, 0, 0, 0]));
    writeFileSync(join(folder, 'within', 'shopping.csv'), 'bread,2\n');
    writeFileSync(join(folder, 'walk.fit'), 'no ride at all');
    writeFileSync(join(folder, '.hidden'), 'x');
    await page.goto('/add');
    await loaded(page);
    const [chooser] = await Promise.all([
      page.waitForEvent('filechooser'),
      page.getByRole('button', { name: 'Choose a whole folder' }).click(),
    ]);
    await chooser.setFiles(folder);
    await page.getByRole('heading', { name: 'Describe the bike' }).waitFor();
    const told = page.locator('.understood > li');
    await page.getByText('holiday.jpg is no ride log').waitFor();
    expect((await told.getByRole('heading').allTextContents()).sort()).toEqual(['shopping.csv', 'walk.fit']);
    for (const name of ['shopping.csv', 'walk.fit'])
      expect(await told.filter({ hasText: name }).locator('.is-not-understood').count(), name).toBe(1);
    expect(await seriousFindings(page)).toEqual([]);
    expect(faults).toEqual([]);
    rmSync(folder, { recursive: true });
    await page.context().close();
  });

  it('an archive with a ride whose file is missing says what it brought and what it did not', async () => {
    const { page, faults } = await real.open({ width: 'phone' });
    const zip = new ZipFile();
    const put = (name: string, value: unknown): void => zip.addBuffer(Buffer.from(JSON.stringify(value)), name);
    put('manifest.json', { format: 'cogwright-archive', version: 1, madeAt: '2026-05-01T08:00:00Z' });
    put('bikes.json', []);
    const ride = { bikeId: null, file: 'lost.fit', sha256: 'a'.repeat(64), archivedSha256: 'a'.repeat(64) };
    put('rides.json', [{ ...ride, judgements: [] }]);
    zip.end();
    const chunks: Buffer[] = [];
    for await (const chunk of zip.outputStream) chunks.push(chunk as Buffer);
    await page.goto('/data');
    await loaded(page);
    await page
      .getByLabel('Archive from another machine')
      .setInputFiles({ name: 'archive.zip', mimeType: 'application/zip', buffer: Buffer.concat(chunks) });
    await page.getByRole('button', { name: 'Bring it in' }).click();
    await page.getByText('Nothing new was in it.').waitFor();
    const refused = page.getByRole('region', { name: 'Rides that were not taken in' });
    await refused.getByRole('heading', { name: 'lost.fit' }).waitFor();
    expect(await refused.locator('.is-not-understood').textContent()).toMatch(/Not understood: .{10}/);
    expect(await seriousFindings(page)).toEqual([]);
    expect(await sidewaysPx(page)).toBe(0);
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it('before a ride is removed the harmless answer has the focus, and a failure stays until it is closed', async () => {
    const { page, faults } = await real.open({ expectFailures: true });
    await page.clock.install();
    await page.goto(`/bikes/${bikes.desktop}`);
    await loaded(page);
    await page.route('**/api/rides/*', (route) =>
      route.request().method() === 'DELETE'
        ? route.fulfill({ status: 507, json: { error: { code: 'disk-full', message: 'The disk is full.' } } })
        : route.continue(),
    );
    const rows = page.locator('.rides tbody tr');
    const before = await rows.count();
    const remove = rows.first().getByRole('button', { name: /^Remove/ });
    await remove.click();
    await page.getByRole('dialog').waitFor();
    expect(await page.evaluate(() => document.activeElement?.textContent)).toBe('Keep it');
    await page.keyboard.press('Enter');
    await page.getByRole('dialog').waitFor({ state: 'detached' });
    expect(await rows.count()).toBe(before);
    for (let twice = 0; twice < 2; twice++) {
      await remove.click();
      await page.getByRole('dialog').getByRole('button').first().click();
      await page.getByRole('alert').getByText('The disk is full.').waitFor();
    }
    await page.clock.fastForward('10:00');
    expect(await page.getByRole('alert').getByText('The disk is full.').count()).toBe(1);
    expect(await seriousFindings(page)).toEqual([]);
    await page.getByRole('button', { name: 'Close this message' }).click();
    await page.getByText('The disk is full.').waitFor({ state: 'detached' });
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it('the same ride again is known, and said so', async () => {
    const { page, faults } = await real.open();
    await page.goto(`/add?bike=${bikes.desktop}`);
    await loaded(page);
    await drop(page, stories.desktop.before);
    await page.getByRole('button', { name: 'Work through 1 file' }).click();
    await page.getByRole('heading', { name: 'Nothing new to work through' }).waitFor();
    await page.getByText('1 already here.').first().waitFor();
    expect(await page.locator('.work-list li').textContent()).toContain(`already here, on ${stories.desktop.name}`);
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it('a ride that another ride holds whole is marked as not counted, in the table and on its own page', async () => {
    const { page, faults } = await real.open();
    const bike = {
      name: 'Copied bike',
      chainrings: [32],
      cassette: [11, 13, 15, 17, 19, 21, 24, 28],
      actuation: 'cable',
    };
    const { id } = (await (await page.request.post('/api/bikes', { data: bike })).json()) as { id: string };
    const rows = Array.from({ length: 400 }, (_, second) => {
      const time = new Date(Date.UTC(2026, 4, 1, 8, 0, second)).toISOString();
      return `${time},${5 + (second % 7) / 10},${80 + (second % 5)}`;
    });
    for (const [name, to] of [
      ['whole.csv', 400],
      ['trimmed.csv', 300],
    ] as const) {
      const buffer = Buffer.from(['time,speed_mps,cadence_rpm', ...rows.slice(0, to)].join('\n'));
      const sent = await page.request.post(`/api/uploads?bike=${id}`, {
        multipart: { files: { name, mimeType: 'text/csv', buffer } },
      });
      expect(sent.status()).toBe(202);
      await real.server.settled();
    }
    for (const width of ['desktop', 'phone'] as const) {
      await page.setViewportSize(widths[width]);
      await page.goto(`/bikes/${id}`);
      await loaded(page);
      const marked = (name: string): Promise<number> =>
        page
          .locator('.rides tbody tr')
          .filter({ hasText: name })
          .getByText('Not counted: another ride holds all of it')
          .filter({ visible: true })
          .count();
      expect([await marked('trimmed.csv'), await marked('whole.csv')], width).toEqual([1, 0]);
      expect(await sidewaysPx(page), width).toBe(0);
      expect(await seriousFindings(page), width).toEqual([]);
    }
    await page.locator('.rides tbody tr').filter({ hasText: 'trimmed.csv' }).getByRole('link').click();
    const remark = page.getByText('This ride does not count: it holds nothing but the ride whole.csv');
    await remark.waitFor({ state: 'visible' });
    await page.request.delete(`/api/bikes/${id}?withRides=true`);
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it('a rider rejects an event, and the tallies follow; taking it back brings it back', async () => {
    const { page, faults } = await real.open();
    await page.goto(`/bikes/${bikes.desktop}`);
    await loaded(page);
    const answer = await page.request.get(`/api/rides?bike=${bikes.desktop}`);
    const { rides } = (await answer.json()) as { rides: { id: string; counts: { late: number; missed: number } }[] };
    const troubled = rides.find(({ counts }) => counts.late + counts.missed > 0);
    await page.locator(`.rides a[href*="${troubled?.id}"]`).first().click();
    await page.locator('.event-row').first().waitFor();
    const sentence = page.locator('.lead');
    const said = await sentence.textContent();
    const row = page
      .locator('.event-row')
      .filter({ hasText: /^(Late|Missed)/ })
      .first();
    await row.click();
    await page.getByRole('button', { name: 'No, it did not' }).click();
    await page.getByText('You said that this did not happen; it is counted as a clean shift.').waitFor();
    await expect.poll(() => sentence.textContent()).not.toBe(said);
    await page.getByRole('button', { name: 'Take it back' }).click();
    await expect.poll(() => sentence.textContent()).toBe(said);
    expect(await seriousFindings(page)).toEqual([]);
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it('a ride that was added to the wrong bike is moved, and moved back', async () => {
    const { page, faults } = await real.open();
    await page.goto(`/bikes/${bikes.desktop}`);
    await loaded(page);
    await page.locator('.rides a').last().click();
    for (const name of [stories.phone.name, stories.desktop.name]) {
      await page.getByText('Ridden on another bike?').click();
      await page.getByLabel('Move it to').selectOption({ label: name });
      await page.getByRole('button', { name: 'Move', exact: true }).click();
      await page.getByRole('link', { name }).waitFor();
    }
    expect(faults).toEqual([]);
    await page.context().close();
  });

  for (const width of ['desktop', 'phone'] as const)
    it(`a fleet keeper on a ${width} finds the bike that needs a hand most and prints its sheet on one page`, async () => {
      const { page, faults } = await real.open({ width });
      await page.goto('/');
      await loaded(page);
      const row = page.locator('.rack-row').first();
      const needs = ['Look it over first', 'Needs service', 'Keep an eye on it', 'Too little data', 'Shifts well'];
      const states = await page.locator('.rack-state strong').allTextContents();
      expect(states.length).toBe(2);
      expect(states[0]).toBe('Look it over first');
      expect(states).toEqual([...states].sort((a, b) => needs.indexOf(a) - needs.indexOf(b)));
      const name = await row.getByRole('heading').textContent();
      await row.getByRole('link').click();
      await page.getByRole('link', { name: 'Service sheet' }).click();
      await page.getByRole('heading', { level: 1, name: name! }).waitFor();
      expect(await sidewaysPx(page)).toBe(0);
      expect(await seriousFindings(page)).toEqual([]);
      expect(await page.locator('.sheet-chart').getByRole('img').getAttribute('aria-label')).toMatch(
        /^Trouble by cog and direction\. (Most trouble: shifts onto \d+ teeth|No trouble on any cog|Too few judged shifts)/,
      );
      await page.evaluate(() => {
        window.print = () => document.documentElement.setAttribute('data-printed', '');
      });
      await page.getByRole('button', { name: 'Print' }).click();
      expect(await page.locator('html[data-printed]').count()).toBe(1);
      const paper = (await page.pdf({ preferCSSPageSize: true })).toString('latin1');
      expect(paper.match(/\/Type\s*\/Page\b(?!s)/g)?.length).toBe(1);
      expect(faults).toEqual([]);
      await page.context().close();
    });
});
