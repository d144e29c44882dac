import { describe, expect, it } from 'vitest';
import { hutBike } from '../server/made-rides.ts';
import { browserPath, loaded, seriousFindings, sidewaysPx } from './browser.ts';
import { withRealServer } from './with-real-server.ts';

describe.skipIf(!browserPath)('a bike that was removed', () => {
  const real = withRealServer();

  it.each(['', '/sheet'])(
    'is said to be gone at its address%s, and while it is looked at, with a way to the list',
    async (below) => {
      const { page, faults } = await real.open({ width: 'phone', expectFailures: true });
      const api = `${real.server.address}/api/bikes`;
      const { id } = await (await page.request.post(api, { data: hutBike })).json();
      await page.goto(`/bikes/${id}${below}`);
      await page.getByRole('heading', { level: 1, name: hutBike.name }).waitFor();
      await page.request.delete(`${api}/${id}`);
      const gone = page.getByRole('heading', { name: 'This bike is not here' });
      await gone.waitFor();
      await page.reload();
      await gone.waitFor();
      const said = await page.getByRole('alert').textContent();
      expect(said).toContain('It was removed');
      expect(said).not.toMatch(/load|try again/i);
      expect(await seriousFindings(page)).toEqual([]);
      expect(await sidewaysPx(page)).toBe(0);
      await page.getByRole('alert').getByRole('link', { name: 'All bikes' }).click();
      await loaded(page);
      expect(new URL(page.url()).pathname).toBe('/');
      expect(faults).toEqual([]);
      await page.context().close();
    },
  );
});
