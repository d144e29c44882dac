import { FileError } from '../../errors/file-error.ts';
import type { RideDraft } from '../ride-draft.ts';
import { GpxVisitor } from './gpx-visitor.ts';
import { TcxVisitor } from './tcx-visitor.ts';
import { walkXml } from './walk-xml.ts';

/** One TCX or GPX file, read. `fileTypes`: what it calls itself where it is a plan, no ride. */
export interface DecodedXml {
  readonly draft: RideDraft;
  readonly fileTypes: readonly string[];
}

/**
 * Reads TCX or GPX, told apart by the root element, into a draft. Whole points are kept from a file that is cut off or
 * faulty, with a warning. Throws `unknown-format` for other XML, `not-cycling`, `bad-xml`, `encoding`, `too-many-records`.
 */
export function decodeXml(file: string, bytes: Uint8Array): DecodedXml {
  let visitor: TcxVisitor | GpxVisitor | undefined;
  const { cutOff, fault } = walkXml(file, bytes, (root) => {
    if (root !== 'gpx' && root !== 'trainingcenterdatabase') throw unknownRoot(file, root);
    visitor = root === 'gpx' ? new GpxVisitor(file) : new TcxVisitor(file);
    return visitor;
  });
  if (!visitor) throw unknownRoot(file, '');
  const draft = visitor.tracks.end();
  if (cutOff) draft.warn('cut-off', 'The file ends before it is closed. What is whole was kept.');
  if (fault !== null) draft.warn('bad-xml', `The XML is faulty (${fault}). What could be read was kept.`);
  return { draft, fileTypes: visitor.fileType === null ? [] : [visitor.fileType] };
}

function unknownRoot(file: string, root: string): FileError {
  const found = root === '' ? 'looks like XML, but holds no element' : `is XML of another kind (${root.slice(0, 40)})`;
  return new FileError(file, 'unknown-format', found, 'Give a FIT, TCX, GPX or CSV ride.');
}
