import { describe, expect, it } from 'vitest';
import { noRideSentences, withoutNoRides } from '../../web/add-rides/no-rides.ts';
import { withoutPacking } from '../../web/add-rides/without-packing.ts';

const jpeg = new Uint8Array([0xff, 0xd8, 0xff, 0xe0]);
const document = new File([`PK\u0003\u0004${'\0'.repeat(26)}[Content_Types].xml`], 'notes.docx');

describe('files that are plainly no rides', () => {
  it('are left out at once by what they hold, whatever they are called', async () => {
    const ride = new File(['time_s,speed_mps,cadence_rpm\n0,5,80\n'], 'ride.jpg');
    const packed = new File([new Uint8Array([0x1f, 0x8b, 8, 0])], 'ride.fit.gz');
    const text = new File(['cable looked tired\n'], 'notes.txt');
    const { files, noRides } = await withoutNoRides([
      new File([jpeg], 'holiday.fit'),
      ride,
      new File(['%PDF-1.7'], 'bill.pdf'),
      text,
      new File([new Uint8Array([0x42, 0x5a, 0x68])], 'ride.fit.bz2'),
      packed,
    ]);
    expect(files).toEqual([ride, text, packed]);
    expect(noRideSentences(noRides)).toEqual([
      'holiday.fit is a JPEG picture and no ride log, and was left out. Give a FIT, TCX, GPX or CSV ride.',
      'bill.pdf is a PDF document and no ride log, and was left out. Give a FIT, TCX, GPX or CSV ride.',
      'ride.fit.bz2 is packed with bzip2, and was left out. Unpack it and give the file within.',
    ]);
  });

  it('are told together where they are many, and not at all where there are none', async () => {
    const many = Array.from({ length: 5 }, (_, i) => new File([jpeg], `${i}.jpg`));
    const { noRides } = await withoutNoRides(many);
    expect(noRideSentences(noRides)).toEqual([
      '5 files cannot be read as rides and were left out: 0.jpg (a JPEG picture), 1.jpg (a JPEG picture), 2.jpg (a JPEG picture) and 2 more. Give a FIT, TCX, GPX or CSV ride.',
    ]);
    expect(noRideSentences([])).toEqual([]);
  });

  it('may be zip files, which are not unpacked then', async () => {
    expect(await withoutPacking([document])).toEqual({ files: [document], faults: [] });
    expect((await withoutNoRides([document])).noRides).toMatchObject([
      { found: 'is an office document and no ride log' },
    ]);
  });
});
