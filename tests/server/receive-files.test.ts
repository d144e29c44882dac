import { readdirSync } from 'node:fs';
import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { join } from 'node:path';
import type { Request } from 'express';
import { afterEach, describe, expect, it } from 'vitest';
import { type ReceivedFile, receiveFiles } from '../../server/intake/receive-files.ts';
import { temporaryFolder } from './test-server.ts';

// Nobody is hung up on for silence within a test: what hangs lets it fail.
const limits = { files: 10, fileBytes: 50e6, silentMs: 3_600_000 };
const folder = temporaryFolder();
let server: Server | undefined;
afterEach(() => {
  server?.closeAllConnections();
  server?.close();
});

/** Sends files of so many bytes to a server that receives them into a folder: what it answers, and what became of them. */
async function sent(into: string, sizes: readonly number[], take: (file: ReceivedFile) => Promise<string>) {
  let received: Promise<unknown> = Promise.resolve();
  server = createServer((request, response) => {
    received = receiveFiles(request as Request, into, limits, take).catch((error: unknown) => error);
    void received.then(() => response.end('answered'));
  });
  await new Promise<void>((resolve) => server?.listen(0, '127.0.0.1', resolve));
  const form = new FormData();
  sizes.forEach((size, i) => {
    form.append('files', new Blob([new Uint8Array(size)]), `ride-${i + 1}.fit`);
  });
  const { port } = server.address() as AddressInfo;
  const answer = await fetch(`http://127.0.0.1:${port}`, { method: 'POST', body: form });
  return { answer: await answer.text(), received: await received };
}

const named = async ({ name }: ReceivedFile): Promise<string> => name;

describe('receiving files', () => {
  it('hands each on in turn and keeps none', async () => {
    const { received } = await sent(folder.path, [10, 3e6, 10], named);
    expect(received).toEqual(['ride-1.fit', 'ride-2.fit', 'ride-3.fit']);
    expect(readdirSync(folder.path)).toEqual([]);
  });

  it.each([[[3e6]], [[10, 3e6]], [[3e6, 3e6, 10]]])(
    'of %j bytes answers at once where they cannot be written',
    async (sizes) => {
      const { answer, received } = await sent(join(folder.path, 'gone'), sizes, named);
      expect(answer).toBe('answered');
      expect(received).toMatchObject({ code: 'ENOENT' });
    },
  );
});
