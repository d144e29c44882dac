import { browserPath, loaded, openBrowser, type Width, watchedPage } from '../browser/browser.ts';
import { buildPage } from '../browser/build-page.ts';
import { madeUpFleet } from '../browser/made-up/made-up-bikes.ts';
import { serveMadeUp } from '../browser/made-up/made-up-server.ts';

/**
 * Time that one drawing of the timeline takes while a ten-hour ride (36,000 records) is zoomed and moved, and the time
 * from asking for the ride's page to its first drawing. In Chromium without a graphics card.
 */
interface Watch extends Window {
  drawingMs: number[];
}

if (browserPath) {
  buildPage();
  const { address, server } = await serveMadeUp(madeUpFleet());
  const browser = await openBrowser();
  for (const width of ['desktop', 'phone'] as Width[]) {
    const { page } = await watchedPage(browser, address, { width });
    await page.addInitScript(() => {
      const watch = window as unknown as Watch;
      const ask = window.requestAnimationFrame.bind(window);
      watch.drawingMs = [];
      window.requestAnimationFrame = (draw) =>
        ask((now) => {
          const start = performance.now();
          draw(now);
          watch.drawingMs.push(performance.now() - start);
        });
    });
    const start = performance.now();
    await page.goto('/rides/b4r0');
    await loaded(page);
    const plot = page.getByRole('application', { name: /^Timeline/ });
    await plot.waitFor();
    const openMs = performance.now() - start;
    await page.evaluate(() => {
      (window as unknown as Watch).drawingMs = [];
    });
    await plot.focus();
    for (let i = 0; i < 60; i++) await page.keyboard.press(i % 3 === 0 ? 'PageDown' : i < 30 ? '+' : '-');
    const taken = await page.evaluate(() => (window as unknown as Watch).drawingMs.sort((a, b) => a - b));
    console.log(
      `  ten hours on a ${width}: ${taken[taken.length >> 1].toFixed(1)} ms a drawing (median of ${taken.length}; worst ${taken[taken.length - 1].toFixed(1)}), page open after ${openMs.toFixed(0)} ms`,
    );
    await page.context().close();
  }
  await browser.close();
  server.closeAllConnections();
  server.close();
}
