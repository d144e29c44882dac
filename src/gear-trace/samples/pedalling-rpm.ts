/** Cadence above which a rider is pedalling, rpm: that of the contract, by which shifts are judged and seconds counted. */
export const PEDALLING_RPM = 30;
