import { addRidesView } from './add-rides/add-rides-view.ts';
import { bikeView } from './bike/bike-view.ts';
import { bikesView } from './bikes/bikes-view.ts';
import { adoptChartStyle } from './charts/adopt-chart-style.ts';
import { dataView } from './data/data-view.ts';
import { enterBikeView } from './enter-bike/enter-bike-view.ts';
import { meaningsView } from './meanings/meanings-view.ts';
import { nowhereView } from './page/nowhere-view.ts';
import { makeShell } from './page/shell.ts';
import { applyTheme } from './page/theme.ts';
import { rideView } from './ride/ride-view.ts';
import { followLinks } from './router/follow-links.ts';
import { addressChanged } from './router/go.ts';
import { findRoute, makeRoutes } from './router/router.ts';
import { sheetView } from './sheet/sheet-view.ts';
import { workshopView } from './workshop/workshop-view.ts';

const routes = makeRoutes({
  '/': bikesView,
  '/bikes/:bikeId': bikeView,
  '/bikes/:bikeId/sheet': sheetView,
  '/rides/:rideId': rideView,
  '/add': addRidesView,
  '/enter': enterBikeView,
  '/data': dataView,
  '/words': meaningsView,
  '/workshop': workshopView,
});

applyTheme();
adoptChartStyle();
const shell = makeShell();
let visit = new AbortController();

/** Shows the view of the present address. `moved`: the reader came by a link, so the view's start is brought to them. */
function show(moved: boolean): void {
  visit.abort();
  visit = new AbortController();
  const found = findRoute(routes, location.pathname);
  shell.mark(location.pathname);
  if (moved) {
    scrollTo(0, 0);
    shell.place.focus({ preventScroll: true });
  }
  (found?.view ?? nowhereView)({
    place: shell.place,
    parts: found?.parts ?? {},
    query: new URLSearchParams(location.search),
    signal: visit.signal,
  });
}

followLinks();
addEventListener(addressChanged, () => show(true));
addEventListener('popstate', () => show(false));
show(false);
