import { sum } from 'd3-array';
import { counted } from '../../src/numeric/counted.ts';
import { listed } from '../../src/numeric/listed.ts';
import type { UploadProgress } from '../api/answers.ts';
import { followUpload } from '../api/uploads.ts';
import { announce } from '../dom/announce.ts';
import { fill, listen, make } from '../dom/make.ts';
import { icon } from '../page/icons.ts';
import type { Fleet, FleetBike, LeftOutFolder } from './fleet.ts';
import { type FolderStatus, filesTold, fleetRow, leftOutRow, ridesOf, type SettledRide } from './fleet-row.ts';
import { isAboutFolder, sendBike } from './fleet-send.ts';
import { Progress } from './time-left.ts';

interface FleetPlan {
  readonly place: HTMLElement;
  readonly fleet: Fleet;
  readonly signal: AbortSignal;
  /** Back to choosing files. */
  readonly again: () => void;
}

/** Makes the bikes and sends what is theirs, folder by folder, then shows how the work on the rides goes, and at the end what was made. */
export async function followFleet({ place, fleet, signal, again }: FleetPlan): Promise<void> {
  const { bikes } = fleet;
  const shown = new FleetShown(place, fleet, again);
  for (const [i, bike] of bikes.entries()) {
    if (signal.aborted) return;
    shown.set(i, { step: 'sending' });
    try {
      shown.set(i, { step: 'sent', sent: await sendBike(bike), settled: new Map() });
    } catch (error) {
      shown.set(i, { step: 'refused', why: (error as Error).message });
      if (isAboutFolder(error)) continue;
      shown.stopSending(i + 1);
      break;
    }
  }
  // one after the other, as the server works: browsers allow few connections to one server
  try {
    for (const i of bikes.keys()) await shown.follow(i, signal);
    if (!signal.aborted) shown.finish();
  } catch (error) {
    if (!signal.aborted) shown.lost(error as Error);
  }
}

/** What is shown of the work on a fleet. */
class FleetShown {
  readonly #bikes: readonly FleetBike[];
  readonly #leftOut: readonly LeftOutFolder[];
  readonly #states: FolderStatus[];
  readonly #again: () => void;
  readonly #heading: HTMLElement;
  readonly #words = make('p', { class: 'lead', role: 'status' });
  readonly #bar: HTMLProgressElement;
  readonly #end = make('div', { class: 'row' });
  readonly #list = make('ul', { class: 'work-list' });
  readonly #progress = new Progress();
  #reached = true;

  constructor(place: HTMLElement, { bikes, leftOut }: Fleet, again: () => void) {
    this.#bikes = bikes;
    this.#leftOut = leftOut;
    this.#again = again;
    this.#states = bikes.map(() => ({ step: 'waiting' }));
    this.#heading = make('h1', { tabindex: -1 }, `Working through ${counted(bikes.length, 'bike')}`);
    this.#bar = make('progress', { max: 1, value: 0, 'aria-label': 'Folders sent' });
    const head = make('div', { class: 'view-head' }, make('div', {}, this.#heading, this.#words));
    fill(place, head, this.#bar, this.#end, this.#list);
    this.#heading.focus();
    this.#draw();
  }

  set(i: number, state: FolderStatus): void {
    this.#states[i] = state;
    this.#draw();
  }

  /** Nothing more is sent from this folder on: what kept the one before it from being sent would keep these too. */
  stopSending(from: number): void {
    for (let i = from; i < this.#states.length; i++) this.#states[i] = { step: 'refused', why: NOT_SENT };
    this.#draw();
  }

  /** Shows how the rides of a folder get on, until all are done. */
  async follow(i: number, signal: AbortSignal): Promise<void> {
    const state = this.#states[i];
    if (state.step !== 'sent' || ridesOf(state).taken === 0) return;
    const settled = new Map<string, SettledRide>();
    const take = ({ rideId, file, status, message }: UploadProgress): void => {
      if (status !== 'done' && status !== 'failed') return;
      settled.set(rideId, { file, failed: status === 'failed' ? (message ?? 'could not be read') : null });
      this.set(i, { ...state, settled });
    };
    const reached = (isReached: boolean): void => {
      this.#reached = isReached;
      this.#draw();
    };
    for (const uploadId of state.sent.uploadIds) await followUpload(uploadId, { take, reached }, signal);
  }

  /** Says what was made, and leads on. */
  finish(): void {
    const made = this.#bikes.filter((_, i) => this.#madeNew(i)).length;
    const refused = this.#states.filter(({ step }) => step === 'refused').length + this.#leftOut.length;
    const { settled } = this.#rides();
    const { known, faulty } = filesTold(this.#bikes, this.#states);
    const words = [
      made > 0 && `${counted(made, 'bike')} made`,
      settled > 0 && `${counted(settled, 'ride')} worked through`,
      known > 0 && `${counted(known, 'ride')} already here`,
      faulty > 0 && `${counted(faulty, 'file')} not taken`,
      refused > 0 && `${counted(refused, 'folder')} not taken`,
    ].filter((text): text is string => Boolean(text));
    const said = words.length > 0 ? `${listed(words)}.` : 'All of it was here already.';
    this.#bar.hidden = true;
    this.#heading.textContent = made + settled > 0 ? 'Done' : 'Nothing new';
    this.#words.textContent = said;
    announce(said);
    fill(
      this.#end,
      this.#toBikes(),
      listen(make('button', { type: 'button', class: 'plain' }, refused > 0 ? 'Choose again' : 'Add more'), {
        click: this.#again,
      }),
    );
  }

  /** What was sent is worked through all the same, unseen. */
  lost({ message }: Error): void {
    this.#bar.hidden = true;
    this.#words.textContent = `${message} What was sent is safe, and the work on it goes on: the list of bikes shows how far it is.`;
    fill(this.#end, this.#toBikes());
  }

  #toBikes(): HTMLElement {
    return make('a', { class: 'button', href: '/' }, 'To the bikes', icon('right'));
  }

  #madeNew(i: number): boolean {
    const state = this.#states[i];
    return state.step === 'sent' && state.sent.bikeId !== null && this.#bikes[i].here === null;
  }

  #rides(): { readonly taken: number; readonly settled: number } {
    const all = this.#states.map(ridesOf);
    return {
      taken: sum(all, ({ taken }) => taken),
      settled: sum(all, ({ settled }) => settled),
    };
  }

  #draw(): void {
    const open = this.#states.filter(({ step }) => step === 'waiting' || step === 'sending').length;
    const { taken, settled } = this.#rides();
    const [done, all] = open > 0 ? [this.#states.length - open, this.#states.length] : [settled, taken];
    this.#bar.max = Math.max(1, all);
    this.#bar.value = done;
    this.#bar.setAttribute('aria-label', open > 0 ? 'Folders sent' : 'Rides worked through');
    const words =
      open > 0
        ? `${done} of ${counted(all, 'folder')} sent. Keep this page open until all are.`
        : `All sent. Of the rides, ${this.#progress.words(settled, taken, settled)}. You may leave this page: the work goes on.`;
    this.#words.textContent = this.#reached ? words : `${words} ${NOT_REACHED}`;
    fill(
      this.#list,
      ...this.#bikes.map((bike, i) => fleetRow(bike, this.#states[i])),
      ...this.#leftOut.map(leftOutRow),
    );
  }
}

const NOT_SENT = 'Not sent. Choose the folder again: what was taken in before is not taken twice.';
const NOT_REACHED =
  'The server does not answer. What was sent is safe: as soon as it is back, the work goes on by itself.';
