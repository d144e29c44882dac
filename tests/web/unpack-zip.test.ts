import { describe, expect, it } from 'vitest';
import { ZipFile } from 'yazl';
import { pathOf } from '../../web/add-rides/file-path.ts';
import { unpackZip } from '../../web/add-rides/unpack-zip.ts';
import { withoutPacking } from '../../web/add-rides/without-packing.ts';

const long = 'time_s,speed_mps\n0,1\n'.repeat(2000);

/** A zip file of texts by their paths; those named `.raw` are stored, all others deflated. */
async function packed(files: Readonly<Record<string, string>>): Promise<Uint8Array<ArrayBuffer>> {
  const zip = new ZipFile();
  for (const [path, text] of Object.entries(files))
    zip.addBuffer(Buffer.from(text), path, { compress: !path.endsWith('.raw') });
  zip.end();
  const chunks: Buffer[] = [];
  for await (const chunk of zip.outputStream) chunks.push(chunk as Buffer);
  return new Uint8Array(Buffer.concat(chunks));
}

const fleet = { 'f1/bike.json': '{"a": 1}', 'f1/ride.csv': long, 'f2/é.raw': 'stored', 'f2/empty.csv': '' };

describe('a zip file', () => {
  it('is unpacked with its folders below its own name', async () => {
    const files = await unpackZip(new File([await packed(fleet)], 'fleet.zip'));
    const texts = await Promise.all(files.map((file) => file.text()));
    expect(Object.fromEntries(files.map((file, i) => [pathOf(file), texts[i]]))).toEqual(
      Object.fromEntries(Object.entries(fleet).map(([path, text]) => [`fleet/${path}`, text])),
    );
    expect(files.map(({ name }) => name)).toEqual(['bike.json', 'ride.csv', 'é.raw', 'empty.csv']);
  });

  it('gives all that it holds, or is refused by name: cut off, or with any byte changed', async () => {
    const bytes = await packed(fleet);
    for (const end of [4, 100, bytes.length - 1])
      await expect(unpackZip(new File([bytes.slice(0, end)], 'cut.zip'))).rejects.toThrow(/^cut\.zip: is damaged/);
    for (let at = 0; at < bytes.length; at += 7) {
      const changed = bytes.slice();
      changed[at] ^= 0x55;
      const files = await unpackZip(new File([changed], 'bad.zip')).catch((error: Error) => {
        expect(error.name, `byte ${at}`).toBe('ZipFault');
        return [];
      });
      // names and dates carry no checksum; what is in the files does
      const texts = await Promise.all(files.map((file) => file.text()));
      for (const text of texts) expect(Object.values(fleet)).toContain(text);
    }
  });

  it('stands for what is in it among chosen files, without what is hidden; one that cannot be unpacked is told', async () => {
    const zip = new File([await packed({ ...fleet, '__MACOSX/f1/._bike.json': 'x', '.git/a': 'x' })], 'fleet.zip');
    const plain = new File(['PK but no zip'], 'ride.csv');
    const own = await packed({ 'manifest.json': '{}', 'bikes.json': '[]', 'rides.json': '[]' });
    const { files, faults } = await withoutPacking([plain, zip, new File([own], 'saved.zip')]);
    expect(files.map(pathOf)).toEqual(['ride.csv', ...Object.keys(fleet).map((path) => `fleet/${path}`)]);
    expect(faults).toEqual([expect.stringMatching(/^saved\.zip: .*Your data/)]);
  });
});
