import { decodeCsv } from './csv/decode-csv.ts';
import { finishRide } from './finish-ride.ts';
import { decodeFit } from './fit/decode-fit.ts';
import { keepWithin } from './keep-within.ts';
import { rideFormat } from './ride-format.ts';
import type { RideLog } from './ride-log.ts';
import { decodeXml } from './xml/decode-xml.ts';

/**
 * Reads one ride of any format; the format is told by content. `file` is only a name for messages. What is packed with gzip is to be unpacked before
 * (`unpackGzip`).
 *
 * Every input ends in a ride or a `FileError`, in bounded time and memory. Nothing is invented: what is missing stays NaN, and what
 * was set aside, joined or derived is said in a warning.
 *
 * | found | outcome | code |
 * | --- | --- | --- |
 * | nothing; gzip, zip and the like; other content; unknown text encoding | refused | `empty`, `packed`, `unknown-format`, `encoding` |
 * | no ride records (settings, plans) | refused | `no-records` |
 * | records, but none with a time; CSV without a time column or a time that can be read | refused | `no-time` |
 * | only sports other than cycling | refused | `not-cycling` |
 * | a sport that says nothing (generic, other, none) | taken for cycling | |
 * | several sports in one file | the riding is kept | warns `other-sports-left-out` |
 * | over 500,000 records or 100,000 gear records | refused | `too-many-records` |
 * | XML nested over 64 deep or over 100 attributes on one element; a broken quote, a line over 64 K or many rows of too many cells in CSV | refused | `bad-xml`, `bad-csv` |
 * | FIT or XML cut off; FIT size 0, or wrong | whole records are kept | warns `cut-off`, `size-zero`, `size-wrong` |
 * | wrong CRC of a FIT header or file | all is kept | warns `crc-wrong` |
 * | broken FIT records | left out, up to where whole ones begin again | warns `bad-record` |
 * | bytes between or behind FIT segments | left out | warns `stray-bytes` |
 * | several FIT segments, laps, tracks | joined by time, gaps between them stay gaps; distance goes on from one to the next | |
 * | faulty XML | what can be read is kept | warns `bad-xml` |
 * | values that are no numbers or times; times before 1900 or from 2200 on | left out, named by line or point | warns `bad-values` |
 * | CSV columns unknown here; times without a zone | left out; taken as UTC | warns `unknown-columns`, `no-time-zone` |
 * | a few CSV rows of too many cells | left out | warns `long-rows` |
 * | a CSV row whose gear cannot be read | the gear is unknown until a row names it | warns `gear-lost` |
 * | times in `time_s` that go up by hundreds | read as milliseconds | warns `time-unit` |
 * | CSV gear cells left empty in a file that is not in order of time | unchanged from the row before in time | warns `gear-order` |
 * | a CSV column that is there more than once | the first is read | warns `repeated-columns` |
 * | records without a time among others with one | left out | warns `records-without-time` |
 * | pauses and gaps | stay gaps in `timeS`; where a timer tells of pauses they stand in `pauses` | |
 * | uneven (smart) recording | kept as it is | |
 * | several records of one moment | one record, of each column the last value known | warns `repeated-time` |
 * | a time out of order | the longest rising sequence is kept; where over a fifth would be lost, sorted instead | warns `backward-time`, `records-sorted` |
 * | times over a week from the rest, or a handful over half a day from it | set aside | warns `clock-jump` |
 * | a ride dated before 1995 | kept | warns `clock-not-set` |
 * | speed beyond 40 m/s, cadence beyond 230 rpm, power beyond 3000 W, anything below 0 | NaN | warns `impossible-speed`, `-cadence`, `-power` |
 * | power of hardly a watt over two minutes and more of turning cranks | NaN there | warns `power-zero` |
 * | distance that runs backwards | NaN there | warns `impossible-distance` |
 * | a cog beyond 7 to 60 teeth, a ring beyond 16 to 70 | those teeth unknown | warns `impossible-teeth` |
 * | positions in place of teeth | left out | warns `positions-for-teeth` |
 * | gear records over ten minutes outside the ride | set aside | warns `gear-outside-ride` |
 * | cadence 0 | is 0: not pedalling. A missing cadence is NaN | |
 * | no speed, but distance or positions | derived | warns `speed-from-distance`, `speed-from-positions` |
 * | recorded speed 3.6 times the way covered | read as km/h | warns `speed-unit` |
 * | cadence under 4 throughout, not in whole turns | read as turns a second | warns `cadence-unit` |
 * | neither speed, distance nor positions | speed is NaN throughout | |
 * | a virtual ride | kept; its speed was not ridden | warns `virtual-speed` |
 */
export function readRideLog(file: string, bytes: Uint8Array): RideLog {
  switch (rideFormat(file, bytes)) {
    case 'fit': {
      const { draft, fileTypes, sessions } = decodeFit(file, bytes);
      return finishRide(keepWithin(draft, sessions.riding(file)), fileTypes);
    }
    case 'csv':
      return finishRide(decodeCsv(file, bytes));
    case 'xml': {
      const { draft, fileTypes } = decodeXml(file, bytes);
      return finishRide(draft, fileTypes);
    }
  }
}
