/** True for a header byte with a compressed time stamp: a data record of local message 0 to 3. Source: FIT protocol, revision 1.1, 4.1. */
export const hasCompressedTime = (header: number): boolean => (header & 0x80) !== 0;

/** True for the header byte of a definition, false for that of a data record. */
export const beginsDefinition = (header: number): boolean => (header & 0xc0) === 0x40;

/** Local message that a record's header byte names, 0 to 15. */
export const localMessage = (header: number): number => (hasCompressedTime(header) ? (header >> 5) & 3 : header & 0x0f);

/** True for a header byte with a bit set that must not be: no record begins with it. */
export const isReserved = (header: number): boolean =>
  !hasCompressedTime(header) && (header & (beginsDefinition(header) ? 0x10 : 0x30)) !== 0;
