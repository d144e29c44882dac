import { parseHTML } from 'linkedom';
import { expect, it, vi } from 'vitest';
import { makeDrivetrainFields } from '../../web/drivetrain/drivetrain-fields.ts';

const { document, Node } = parseHTML('<!doctype html><html><body></body></html>');
vi.stubGlobal('document', document);
vi.stubGlobal('Node', Node);

it('takes teeth whichever way round they are written', () => {
  const fields = makeDrivetrainFields({ name: 'Pipit', chainrings: [46, 30], cassette: [34, 9, 11, 28, 13, 100] });
  expect(fields.read()).toMatchObject({ chainrings: [30, 46], cassette: [9, 11, 13, 28, 34, 100] });
});
