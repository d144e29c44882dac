import { createWriteStream } from 'node:fs';
import { rm } from 'node:fs/promises';
import { join } from 'node:path';
import type { Readable } from 'node:stream';
import { pipeline } from 'node:stream/promises';
import busboy from 'busboy';
import type { Request } from 'express';
import { counted } from '../../src/numeric/counted.ts';
import { storageFault } from '../data-folder/storage-fault.ts';
import { RequestError } from '../http/request-error.ts';
import { newId } from '../store/new-id.ts';
import { displayName } from './display-name.ts';
import { drained } from './drained.ts';

/** Bounds on one request with files. */
export interface ReceiveLimits {
  readonly files: number;
  readonly fileBytes: number;
  readonly silentMs: number;
}

/** A file that came in whole, at a path the server made up; `name` is the sender's, for showing only. */
export interface ReceivedFile {
  readonly name: string;
  readonly path: string;
}

/** A file that was not taken, and why. */
export interface RefusedFile {
  readonly name: string;
  readonly code: string;
  readonly message: string;
}

/**
 * Streams the files of a request to disk, one after the other as they come, and hands each to `take` as soon as it is
 * whole; the file is removed when `take` has ended. A file that is too large is refused by name and the others go on.
 * Where the disk takes no more, the file is refused by name and nothing after it is read.
 *
 * @returns what `take` made of each file, in the order they were sent, up to the one that the disk did not take
 * @throws RequestError `too-many-files`, `invalid-request`, `too-slow`, or what `take` throws; not before every file that was handed on is done with
 */
export async function receiveFiles<Taken>(
  request: Request,
  folder: string,
  limits: ReceiveLimits,
  take: (file: ReceivedFile) => Promise<Taken>,
): Promise<(Taken | RefusedFile)[]> {
  const results: Promise<Taken | RefusedFile>[] = [];
  await parse(request, limits, (stream, name, halt) => {
    const path = join(folder, `${newId()}.part`);
    const result: Promise<Taken | RefusedFile> = store(stream, name, path, limits, halt)
      .then(async (refused) => refused ?? (await take({ name, path })))
      .finally(() => rm(path, { force: true }));
    // Waited for below; a request that breaks off before then must not make it count as unhandled.
    result.catch(() => {});
    results.push(result);
  }).finally(() => Promise.allSettled(results));
  return Promise.all(results);
}

/** Ends the reading for good because of an error on the disk; returns the first such error. */
type Halt = (error: unknown) => unknown;

/** Draws the request through the parser; ends when every file has begun and been read to its end, or when one of them halts it. */
function parse(
  request: Request,
  limits: ReceiveLimits,
  onFile: (stream: Readable, name: string, halt: Halt) => void,
): Promise<void> {
  return new Promise((resolve, reject) => {
    const parser = formParser(request, limits);
    const done = (): void => {
      request.setTimeout(0);
      resolve();
    };
    let halted: { readonly because: unknown } | null = null;
    // A parser whose file went wrong would wait for that file to be read on, until the sender is hung up on.
    const halt: Halt = (error) => {
      if (halted) return halted.because;
      halted = { because: error };
      request.unpipe(parser);
      parser.destroy();
      void drained(request).then(done);
      return error;
    };
    const fail = (error: RequestError): void => {
      request.unpipe(parser);
      request.resume();
      parser.destroy(error);
      reject(error);
    };
    parser.on('file', (_field, stream, info) => onFile(stream, displayName(info.filename), halt));
    parser.on('filesLimit', () => fail(tooMany(limits)));
    parser.on('partsLimit', () => fail(tooMany(limits)));
    parser.on('error', () => halted || fail(brokeOff()));
    parser.on('close', () => halted || done());
    request.on('aborted', () => fail(brokeOff()));
    request.setTimeout(limits.silentMs, () => {
      fail(tooSlow(limits));
      request.destroy();
    });
    request.pipe(parser);
  });
}

/** @throws RequestError `invalid-request` where the request is no form with files */
function formParser({ headers }: Request, limits: ReceiveLimits): busboy.Busboy {
  try {
    return busboy({
      headers,
      defParamCharset: 'utf8',
      limits: {
        files: limits.files,
        // Busboy calls a file too large as soon as it reaches the limit.
        fileSize: limits.fileBytes + 1,
        fields: 10,
        fieldSize: 1024,
        parts: limits.files + 10,
        headerPairs: 50,
      },
    });
  } catch {
    throw new RequestError(400, 'invalid-request', 'The files are not sent as multipart/form-data should be.');
  }
}

const tooMany = ({ files }: ReceiveLimits): RequestError =>
  new RequestError(
    413,
    'too-many-files',
    `At most ${counted(files, 'file')} can be sent at once. Send the others in a second go.`,
  );

const brokeOff = (): RequestError =>
  new RequestError(
    400,
    'invalid-request',
    'The files broke off while being sent. Send them again; what was kept already is not taken twice.',
  );

const tooSlow = ({ silentMs }: ReceiveLimits): RequestError =>
  new RequestError(
    408,
    'too-slow',
    `Nothing came for ${silentMs / 1000} seconds. Look to the connection, then send the files again; what was kept already is not taken twice.`,
  );

async function store(
  stream: Readable,
  name: string,
  path: string,
  limits: ReceiveLimits,
  halt: Halt,
): Promise<RefusedFile | null> {
  let tooLarge = false;
  stream.on('limit', () => {
    tooLarge = true;
  });
  try {
    await pipeline(stream, createWriteStream(path, { flags: 'wx', mode: 0o600 }));
  } catch (error) {
    // a file behind the one that the disk did not take breaks off with it
    const fault = storageFault(halt(error));
    if (!fault) throw error;
    return { name, code: fault, message: `${name}: could not be written to the disk. Nothing of it was kept.` };
  }
  if (!tooLarge) return null;
  const most = Math.round(limits.fileBytes / 1e6);
  const message = `${name}: is larger than ${most} MB. Split it, or export a single ride.`;
  return { name, code: 'too-large', message };
}
