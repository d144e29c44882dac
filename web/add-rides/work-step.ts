import { counted } from '../../src/numeric/counted.ts';
import type { UploadAnswer, UploadProgress } from '../api/answers.ts';
import { removeEmptyBike } from '../api/bikes.ts';
import { getRide } from '../api/rides.ts';
import { followUpload, uploadRides } from '../api/uploads.ts';
import { announce } from '../dom/announce.ts';
import { fill, listen, make } from '../dom/make.ts';
import { icon } from '../page/icons.ts';
import { inARow } from '../words/numbers.ts';
import { type FileStatus, fileStatusRow } from './file-status-row.ts';
import { refusedFiles } from './refused-files.ts';
import { understoodList } from './understood-list.ts';

interface WorkPlan {
  readonly place: HTMLElement;
  readonly bikeId: string;
  readonly bikeName: string;
  /** The bike has just been made for these files. */
  readonly made: boolean;
  readonly files: readonly File[];
  readonly signal: AbortSignal;
  /** Back to choosing files. */
  readonly again: () => void;
}

interface WorkFile {
  name: string;
  status: FileStatus;
  rideId?: string;
  message?: string;
}

const settled: readonly FileStatus[] = ['done', 'failed', 'duplicate', 'refused'];

function endSentence(files: readonly WorkFile[]): string {
  const count = (...statuses: FileStatus[]): number => files.filter(({ status }) => statuses.includes(status)).length;
  const said = [
    count('done') > 0 && `${counted(count('done'), 'ride')} worked through`,
    count('duplicate') > 0 && `${count('duplicate')} already here`,
    count('failed', 'refused') > 0 && `${count('failed', 'refused')} could not be read`,
  ].filter((text): text is string => Boolean(text));
  return `${inARow(said)}.`;
}

/** The bike that a ride which was here already belongs to; null where there is none. */
async function bikeOf(files: readonly WorkFile[]): Promise<string | null> {
  const known = files.find(({ status, rideId }) => status === 'duplicate' && rideId);
  return known?.rideId ? (await getRide(known.rideId)).bikeId : null;
}

/** Sends the files, then shows file by file how the work goes, and at the end where to read the verdict. */
export function followWork(plan: WorkPlan): void {
  const { bikeId, files, signal } = plan;
  const step = new WorkStep(plan);
  uploadRides(bikeId, files)
    .then((answer) => {
      const open = step.begin(answer.files);
      return open ? followUpload(answer.uploadId, (progress) => step.take(progress), signal) : undefined;
    })
    .then(() => (signal.aborted ? undefined : step.finish()))
    .catch((error: Error) => {
      if (!signal.aborted) step.fail(error);
    });
}

/** What is shown of the work on the files. */
class WorkStep {
  readonly #plan: WorkPlan;
  readonly #heading: HTMLElement;
  readonly #words: HTMLElement;
  readonly #bar: HTMLProgressElement;
  readonly #list = make('ul', { class: 'work-list' });
  readonly #end = make('div', { class: 'row' });
  #work: WorkFile[];

  constructor(plan: WorkPlan) {
    this.#plan = plan;
    const { place, files, bikeName } = plan;
    this.#heading = make('h1', { tabindex: -1 }, `Working through ${counted(files.length, 'file')}`);
    this.#words = make('p', { class: 'lead', role: 'status' }, `Sending them to ${bikeName} …`);
    this.#bar = make('progress', { max: files.length, value: 0, 'aria-label': 'Files worked through' });
    this.#work = files.map(({ name }) => ({ name, status: 'sending' }));
    const head = make('div', { class: 'view-head' }, make('div', {}, this.#heading, this.#words));
    fill(place, head, this.#bar, this.#end, this.#list);
    this.#heading.focus();
    this.#draw();
  }

  /** Shows the files as the server took them in. True where work on any of them goes on. */
  begin(files: UploadAnswer['files']): boolean {
    this.#work = files.map((file) => ({ ...file }));
    this.#draw();
    const open = this.#settled() < this.#work.length;
    if (open) this.#words.textContent = `0 of ${this.#work.length} done`;
    return open;
  }

  /** Shows how one file got on. */
  take({ rideId, file, status, message }: UploadProgress): void {
    const work = this.#work;
    const one = work.find((candidate) => candidate.rideId === rideId) ?? work.find(({ name }) => name === file);
    if (one && one.status !== 'duplicate') Object.assign(one, { status, message, rideId });
    this.#words.textContent = `${this.#settled()} of ${work.length} done`;
    this.#draw();
  }

  /** Says what became of the files, and leads on. */
  async finish(): Promise<void> {
    const { made, bikeId } = this.#plan;
    const anyNew = this.#work.some(({ status }) => status === 'done');
    // A bike made for rides that are all on another bike already would stand empty.
    if (made && !anyNew) await removeEmptyBike(bikeId);
    const leadsTo = made && !anyNew ? await bikeOf(this.#work) : bikeId;
    this.#close(anyNew ? 'Done' : 'Nothing new to work through', endSentence(this.#work));
    announce(endSentence(this.#work));
    fill(
      this.#end,
      leadsTo && make('a', { class: 'button', href: `/bikes/${leadsTo}` }, 'Read the verdict', icon('right')),
      this.#againButton('Add more', 'plain'),
    );
  }

  /** Says why the files could not be taken in. */
  fail(error: Error): void {
    const { bikeId, bikeName } = this.#plan;
    this.#close('The files could not be taken in', error.message);
    fill(
      this.#end,
      this.#againButton('Choose again', null),
      make('a', { class: 'button plain', href: `/bikes/${bikeId}` }, `To ${bikeName}`),
    );
    this.#list.replaceWith(understoodList(refusedFiles(error)) ?? this.#list);
  }

  #close(heading: string, words: string): void {
    this.#bar.hidden = true;
    this.#heading.textContent = heading;
    this.#words.textContent = words;
  }

  #againButton(text: string, look: string | null): HTMLElement {
    return listen(make('button', { type: 'button', class: look }, text), { click: this.#plan.again });
  }

  #settled(): number {
    return this.#work.filter(({ status }) => settled.includes(status)).length;
  }

  #draw(): void {
    this.#bar.value = this.#settled();
    fill(this.#list, ...this.#work.map(fileStatusRow));
  }
}
