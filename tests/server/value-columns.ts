/** The columns of a ride that hold a value for each record, beside `timeS`. */
export const valueColumns = [
  'speedMps',
  'cadenceRpm',
  'powerW',
  'commandedTeeth',
  'actualTeeth',
  'ring',
  'driving',
  'cogProbability',
] as const;
