import { type DiagnosisCase, runDiagnosisCase } from './diagnosis-case.ts';

/** A process of its own that diagnoses the bikes it is sent, one at a time. */
process.on('message', (one: DiagnosisCase) => {
  process.send?.(runDiagnosisCase(one));
});
