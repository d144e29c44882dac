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
export function followWork({ place, bikeId, bikeName, made, files, signal, again }: WorkPlan): void {
  const heading = make('h1', { tabindex: -1 }, `Working through ${counted(files.length, 'file')}`);
  const words = make('p', { class: 'lead', role: 'status' }, `Sending them to ${bikeName} …`);
  const bar = make('progress', { max: files.length, value: 0, 'aria-label': 'Files worked through' });
  const list = make('ul', { class: 'work-list' });
  const end = make('div', { class: 'row' });
  let work: WorkFile[] = files.map(({ name }) => ({ name, status: 'sending' }));

  const draw = (): void => {
    bar.value = work.filter(({ status }) => settled.includes(status)).length;
    fill(list, ...work.map(fileStatusRow));
  };
  const take = ({ rideId, file, status, message }: UploadProgress): void => {
    const one = work.find((candidate) => candidate.rideId === rideId) ?? work.find(({ name }) => name === file);
    if (one && one.status !== 'duplicate') Object.assign(one, { status, message, rideId });
    words.textContent = `${work.filter((each) => settled.includes(each.status)).length} of ${work.length} done`;
    draw();
  };
  const finish = async (): Promise<void> => {
    const anyNew = work.some(({ status }) => status === 'done');
    // A bike made for rides that are all on another bike already would stand empty.
    if (made && !anyNew) await removeEmptyBike(bikeId);
    const leadsTo = made && !anyNew ? await bikeOf(work) : bikeId;
    bar.hidden = true;
    heading.textContent = anyNew ? 'Done' : 'Nothing new to work through';
    words.textContent = endSentence(work);
    announce(words.textContent);
    fill(
      end,
      leadsTo && make('a', { class: 'button', href: `/bikes/${leadsTo}` }, 'Read the verdict', icon('right')),
      listen(make('button', { type: 'button', class: 'plain' }, 'Add more'), { click: again }),
    );
  };
  const fail = (error: Error): void => {
    if (signal.aborted) return;
    bar.hidden = true;
    heading.textContent = 'The files could not be taken in';
    words.textContent = error.message;
    fill(
      end,
      listen(make('button', { type: 'button' }, 'Choose again'), { click: again }),
      make('a', { class: 'button plain', href: `/bikes/${bikeId}` }, `To ${bikeName}`),
    );
    list.replaceWith(understoodList(refusedFiles(error)) ?? list);
  };
  fill(place, make('div', { class: 'view-head' }, make('div', {}, heading, words)), bar, end, list);
  heading.focus();
  draw();
  uploadRides(bikeId, files)
    .then((answer: UploadAnswer) => {
      work = answer.files.map((file) => ({ ...file }));
      draw();
      if (work.every(({ status }) => settled.includes(status))) return undefined;
      words.textContent = `0 of ${work.length} done`;
      return followUpload(answer.uploadId, take, signal);
    })
    .then(() => (signal.aborted ? undefined : finish()))
    .catch(fail);
}
