import { counted } from '../../src/numeric/counted.ts';
import type { UploadAnswer, UploadProgress } from '../api/answers.ts';
import { getBike, removeEmptyBike } from '../api/bikes.ts';
import { onChange } from '../api/changes.ts';
import { getRide } from '../api/rides.ts';
import { followUpload, type UploadListener, uploadRides } from '../api/uploads.ts';
import { announce } from '../dom/announce.ts';
import { fill, listen, make } from '../dom/make.ts';
import { icon } from '../page/icons.ts';
import { soon } from '../page/soon.ts';
import type { Work } from './chosen.ts';
import { endSentence } from './end-sentence.ts';
import type { FileStatus, WorkFile } from './file-status-row.ts';
import { refusedFiles } from './refused-files.ts';
import { ridesElsewhere } from './rides-elsewhere.ts';
import { type SentAdjustments, sendAdjustments } from './send-adjustments.ts';
import { Progress } from './time-left.ts';
import { understoodList } from './understood-list.ts';
import { WorkList } from './work-list.ts';

interface WorkPlan {
  readonly place: HTMLElement;
  readonly work: Work;
  readonly signal: AbortSignal;
  /** Back to choosing files. */
  readonly again: () => void;
}

const settled: readonly FileStatus[] = ['done', 'failed', 'duplicate', 'refused'];

/** The bike that a ride which was here already belongs to; null where there is none. */
async function bikeOf(files: readonly WorkFile[]): Promise<string | null> {
  const known = files.find(({ status, rideId }) => status === 'duplicate' && rideId);
  return known?.rideId ? (await getRide(known.rideId)).bikeId : null;
}

/** Sends the files, then shows file by file how the work goes, and at the end where to read the verdict. */
export function followWork(plan: WorkPlan): void {
  const step = new WorkStep(plan);
  workThrough(plan, step).catch((error: Error) => {
    if (!plan.signal.aborted) step.fail(error);
  });
}

async function workThrough({ work, signal }: WorkPlan, step: WorkStep): Promise<void> {
  const { bikeId, rides, adjustments, made } = work;
  const answer = rides.length > 0 ? await uploadRides(bikeId, rides) : null;
  const open = answer && step.begin(answer.files);
  // what was done to a bike that is here under another name is not kept on one made for nothing
  const elsewhere = made && answer !== null && ridesElsewhere(answer.files);
  for (const [i, file] of adjustments.entries())
    step.takeLog(i, elsewhere ? notSent : await sendAdjustments(bikeId, file));
  try {
    if (open) await followUpload(answer.uploadId, step, signal);
    if (!signal.aborted) await step.finish();
  } catch (error) {
    if (!signal.aborted) step.loseSight(error as Error);
  }
}

/** Whether the verdict on a bike is still to be worked out. */
const isBehind = async (bikeId: string, signal: AbortSignal): Promise<boolean> =>
  (await getBike(bikeId, signal)).pending > 0;

const VERDICT_FOLLOWS = 'The verdict is being worked out from them and follows here.';

const notSent: SentAdjustments = {
  status: 'refused',
  message: 'Not taken in: the rides are on another bike already. Take it in on the page of that bike.',
  added: 0,
};

/** What is shown of the work on the files. */
class WorkStep implements UploadListener {
  readonly #plan: WorkPlan;
  readonly #heading: HTMLElement;
  readonly #words: HTMLElement;
  readonly #bar: HTMLProgressElement;
  readonly #list = new WorkList();
  readonly #end = make('div', { class: 'row' });
  /** Files of adjustments. */
  readonly #logs: WorkFile[];
  #logged = 0;
  readonly #pace = new Progress();
  /** Whether the server answered when it was last asked. */
  #reached = true;
  #rides: WorkFile[];

  constructor(plan: WorkPlan) {
    this.#plan = plan;
    const { place, work } = plan;
    const count = work.rides.length + work.adjustments.length;
    this.#heading = make('h1', { tabindex: -1 }, `Working through ${counted(count, 'file')}`);
    this.#words = make('p', { class: 'lead', role: 'status' }, `Sending them to ${work.bikeName} …`);
    this.#bar = make('progress', { max: count, value: 0, 'aria-label': 'Files worked through' });
    this.#logs = work.adjustments.map(({ name }) => ({ name, status: 'sending' }));
    this.#rides = work.rides.map(({ name }) => ({ name, status: 'sending' }));
    const head = make('div', { class: 'view-head' }, make('div', {}, this.#heading, this.#words));
    fill(place, head, this.#bar, this.#end, this.#list.element);
    this.#heading.focus();
    this.#draw();
  }

  /** Shows what became of the file of adjustments in this place. */
  takeLog(place: number, { added, status, message }: SentAdjustments): void {
    this.#logged += added;
    Object.assign(this.#logs[place], { status, message });
    this.#draw();
  }

  /** Shows the rides as the server took them in. True where work on any of them goes on. */
  begin(files: UploadAnswer['files']): boolean {
    this.#rides = files.map((file) => ({ ...file }));
    this.#draw();
    const open = this.#settled() < this.#all().length;
    if (open) this.#words.textContent = this.#progress();
    return open;
  }

  /** Shows how one ride got on. */
  take({ rideId, file, status, message }: UploadProgress): void {
    const rides = this.#rides;
    const one = rides.find((candidate) => candidate.rideId === rideId) ?? rides.find(({ name }) => name === file);
    if (one && one.status !== 'duplicate') Object.assign(one, { status, message, rideId });
    this.#words.textContent = this.#progress();
    this.#draw();
  }

  /** Says that the server is gone, or goes on where it was. */
  reached(isReached: boolean): void {
    this.#reached = isReached;
    this.#words.textContent = this.#progress();
  }

  /** Says what became of the files, and leads on. */
  async finish(): Promise<void> {
    const { made, bikeId, bikeName, rides } = this.#plan.work;
    const anyNew = this.#all().some(({ status }) => status === 'done');
    // A bike made for rides that are all on another bike already would stand empty.
    const isEmpty = made && !anyNew && rides.length > 0;
    if (isEmpty) await removeEmptyBike(bikeId);
    const leadsTo = isEmpty ? await bikeOf(this.#rides) : bikeId;
    const said = endSentence(this.#rides, this.#logs, this.#logged);
    this.#close(anyNew ? 'Done' : 'Nothing new to work through', said);
    announce(said);
    const way = make('a', { class: 'button', href: `/bikes/${leadsTo}` }, `To ${bikeName}`, icon('right'));
    fill(this.#end, leadsTo && way, this.#againButton('Add more', 'plain'));
    if (leadsTo && rides.length > 0) await this.#awaitVerdict(leadsTo, way, said);
  }

  /** Leads to the verdict once it is there; until then says that it is being worked out. */
  async #awaitVerdict(bikeId: string, way: HTMLElement, said: string): Promise<void> {
    const { signal } = this.#plan;
    const look = async (): Promise<void> => {
      const behind = await isBehind(bikeId, signal);
      this.#words.textContent = behind ? `${said} ${VERDICT_FOLLOWS}` : said;
      if (!behind) fill(way, 'Read the verdict', icon('right'));
    };
    const lookSoon = soon(look, signal);
    onChange((change) => (!change.bikeId || change.bikeId === bikeId) && lookSoon(), signal);
    await look();
  }

  /** Says that the files are in, though what becomes of them cannot be followed here. */
  loseSight(error: Error): void {
    const { bikeId, bikeName } = this.#plan.work;
    this.#close(
      'The files are in',
      `${error.message} The work on them goes on: what came of it stands on the page of the bike.`,
    );
    const way = make('a', { class: 'button', href: `/bikes/${bikeId}` }, `To ${bikeName}`, icon('right'));
    fill(this.#end, way, this.#againButton('Add more', 'plain'));
  }

  /** Says why the files could not be taken in. */
  fail(error: Error): void {
    const { bikeId, bikeName } = this.#plan.work;
    this.#close('The files could not be taken in', error.message);
    fill(
      this.#end,
      this.#againButton('Choose again', null),
      make('a', { class: 'button plain', href: `/bikes/${bikeId}` }, `To ${bikeName}`),
    );
    const refused = understoodList(refusedFiles(error));
    if (refused) this.#list.element.replaceWith(make('h2', {}, 'Why'), refused);
  }

  #close(heading: string, words: string): void {
    this.#bar.hidden = true;
    this.#heading.textContent = heading;
    this.#words.textContent = words;
  }

  #againButton(text: string, look: string | null): HTMLElement {
    return listen(make('button', { type: 'button', class: look }, text), { click: this.#plan.again });
  }

  #all(): readonly WorkFile[] {
    return [...this.#logs, ...this.#rides];
  }

  #settled(): number {
    return this.#all().filter(({ status }) => settled.includes(status)).length;
  }

  #progress(): string {
    const worked = this.#rides.filter(({ status }) => status === 'done' || status === 'failed').length;
    const done = this.#pace.words(this.#settled(), this.#all().length, worked);
    return this.#reached
      ? `${done}. You may leave this page: the work goes on.`
      : `${done}. The server does not answer. Your files are safe: as soon as it is back, the work goes on by itself.`;
  }

  #draw(): void {
    this.#bar.value = this.#settled();
    this.#list.show(this.#all());
  }
}
