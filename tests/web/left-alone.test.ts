import { describe, expect, it } from 'vitest';
import { placedAt } from '../../web/add-rides/file-path.ts';
import { leftAloneSentence, withoutCompany } from '../../web/add-rides/left-alone.ts';

const inFolder = (name: string, ...parts: BlobPart[]): File => placedAt(`hut/${name}`, new File(parts, name));

describe('withoutCompany', () => {
  it('leaves alone what only lay in the folder', async () => {
    const { files, leftAlone } = await withoutCompany([
      inFolder('notes.txt', 'cable looked tired\n'),
      inFolder('stand.jpg', new Uint8Array([0xff, 0xd8, 0xff, 0xe0])),
      inFolder('empty.txt'),
    ]);
    expect(files).toEqual([]);
    expect(leftAlone).toEqual(['hut/notes.txt', 'hut/stand.jpg', 'hut/empty.txt']);
  });

  it('keeps rides by name or by content, bike files and adjustments, broken ones too', async () => {
    const all = [
      inFolder('broken.fit', 'no ride at all'),
      inFolder('ride.txt', 'time_s,speed_mps,cadence_rpm\n0,5,80\n'),
      inFolder('track', '<?xml version="1.0"?><gpx version="1.1">'),
      inFolder('bike.json', '{ "chainrings": [32], "cassette": [10, 12'),
      inFolder('log.txt', 'at,parameter,amount,unit,note\n'),
      inFolder('ride.fit.gz', new Uint8Array([0x1f, 0x8b, 8, 0])),
    ];
    expect(await withoutCompany(all)).toEqual({ files: all, leftAlone: [] });
  });

  it('keeps whatever was chosen by itself, to be refused with its reason', async () => {
    const alone = new File(['cable looked tired\n'], 'notes.txt');
    expect((await withoutCompany([alone])).files).toEqual([alone]);
  });
});

describe('leftAloneSentence', () => {
  it('names one, and no more than three of several', () => {
    expect(leftAloneSentence([])).toBeNull();
    expect(leftAloneSentence(['hut/notes.txt'])).toMatch(/^hut\/notes\.txt is no ride log/);
    expect(leftAloneSentence(['a', 'b', 'c', 'd'])).toMatch(/^4 files are .*: a, b, c and 1 more\.$/);
  });
});
