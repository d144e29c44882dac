import { listBikes } from '../api/bikes.ts';
import { moveRide } from '../api/rides.ts';
import { announce } from '../dom/announce.ts';
import { freshId } from '../dom/fresh-id.ts';
import { fill, listen, make } from '../dom/make.ts';
import { attempt } from '../page/attempt.ts';
import { reopen } from '../router/go.ts';
import { bikesByName } from '../words/bikes-by-name.ts';
import { samplesApart } from '../words/samples-apart.ts';

/** Puts a ride that was added to the wrong bike where it belongs. The bikes are asked for when it is opened. */
export function moveRideTool(rideId: string, bikeId: string | null, signal: AbortSignal): HTMLElement {
  const contents = make('div', { class: 'move-ride' });
  const details = make('details', {}, make('summary', {}, 'Ridden on another bike?'), contents);
  const show = async (): Promise<void> => {
    const { bikes } = await listBikes();
    const { own, samples } = samplesApart(bikesByName(bikes).filter(({ id }) => id !== bikeId));
    const others = [...own, ...samples];
    if (others.length === 0) {
      fill(contents, make('p', { class: 'quiet' }, 'There is no other bike yet.'));
      return;
    }
    const id = freshId('bike');
    const select = make(
      'select',
      { id },
      ...others.map(({ id: value, bike, sample }) =>
        make('option', { value }, `${bike.name}${sample ? ' (sample)' : ''}`),
      ),
    );
    const move = async (): Promise<void> => {
      await moveRide(rideId, select.value);
      announce('Moved. Both bikes are worked out again.');
      if (!signal.aborted) reopen();
    };
    fill(
      contents,
      make('label', { for: id }, 'Move it to'),
      select,
      listen(make('button', { type: 'button', class: 'plain small' }, 'Move'), { click: () => void attempt(move) }),
    );
  };
  listen(details, {
    toggle: () => {
      if (details.open && contents.childElementCount === 0) void attempt(show);
    },
  });
  return details;
}
