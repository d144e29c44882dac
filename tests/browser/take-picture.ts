import { statSync } from 'node:fs';
import { join } from 'node:path';
import { openBrowser, watchedPage } from './browser.ts';
import { buildPage } from './build-page.ts';
import { startRealServer } from './real-server.ts';

/**
 * Takes the README's picture of the page anew: the sample bike that needs a hand most, as it opens.
 *
 *     npx tsx tests/browser/take-picture.ts
 */
const picture = join(import.meta.dirname, '../../web/pictures/page.png');
buildPage();
const server = await startRealServer({ samples: true });
const browser = await openBrowser();
try {
  const { page } = await watchedPage(browser, server.address);
  await server.settled();
  await page.setViewportSize({ width: 1280, height: 2400 });
  await page.goto('/');
  await page.locator('.rack-row').first().getByRole('link').click();
  await page.getByRole('region', { name: 'Verdict' }).waitFor();
  await page.waitForTimeout(800);
  const { y, height } = (await page.locator('.is-cogs .plot').first().boundingBox())!;
  await page.screenshot({ path: picture, clip: { x: 0, y: 0, width: 1280, height: Math.round(y + height + 20) } });
  console.log(`${picture}: ${Math.round(statSync(picture).size / 1024)} kB`);
} finally {
  await browser.close();
  await server.close();
}
