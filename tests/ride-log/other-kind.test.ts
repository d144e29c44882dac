import { describe, expect, it } from 'vitest';
import { otherKind } from '../../src/ride-log/other-kind.ts';
import { readRideLog } from '../../src/ride-log/read-ride-log.ts';
import { fitRide, plainRecords } from './fit-ride.ts';

const bytes = (text: string): Uint8Array => Uint8Array.from(text, (character) => character.charCodeAt(0));

describe('what is plainly no ride', () => {
  it.each([
    ['a PNG picture', '\x89PNG\r\n\x1a\n'],
    ['a JPEG picture', '\xFF\xD8\xFF\xE0\0\x10JFIF'],
    ['a GIF picture', 'GIF89a\x01\0'],
    ['a WebP picture', 'RIFF\x24\0\0\0WEBPVP8 '],
    ['a picture', '\0\0\0\x18ftypheic'],
    ['a film', '\0\0\0\x18ftypmp42'],
    ['a sound recording', 'RIFF\x24\0\0\0WAVEfmt '],
    ['a PDF document', '%PDF-1.7\n'],
    ['an RTF document', '{\\rtf1\\ansi'],
    ['an office document', `PK\x03\x04${'\0'.repeat(26)}[Content_Types].xml`],
    ['an office document', `PK\x03\x04${'\0'.repeat(26)}mimetypeapplication/vnd.oasis`],
    ['an SVG picture', '<?xml version="1.0"?>\n<!-- drawn --><svg xmlns="">'],
    ['a web page', '\xEF\xBB\xBF<!-- saved -->\n<!doctype html>\n<title>'],
  ])('is told by its first bytes: %s', (words, start) => {
    expect(otherKind(bytes(start))).toBe(words);
    // whatever it is called
    expect(() => readRideLog('ride.fit', bytes(start))).toThrow(`ride.fit: is ${words} and no ride log.`);
  });

  it('is no ride, no bike file and no other text', () => {
    const rest = [
      'time_s,speed_mps,cadence_rpm\n',
      '<?xml version="1.0"?><gpx version="1.1">',
      '<TrainingCenterDatabase>',
      '{ "chainrings": [32] }',
      'at,parameter,amount,unit,note\n',
      `PK\x03\x04${'\0'.repeat(26)}ride.fit`,
      '',
    ];
    expect(rest.map((text) => otherKind(bytes(text)))).toEqual(rest.map(() => null));
    expect(otherKind(fitRide(plainRecords(5)))).toBeNull();
  });

  it('ends on a beginning made to keep it busy', () => {
    const busy = ['<!--'.repeat(1024), '<!---->'.repeat(585), `<?xml ${' '.repeat(4000)}`];
    expect(busy.map((text) => otherKind(bytes(text)))).toEqual([null, null, null]);
  });
});
