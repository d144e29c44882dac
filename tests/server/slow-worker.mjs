// A worker that takes longer to start than its work may take. Its one task is done at once, or never.
import { register } from 'tsx/esm/api';

register();
const { takingUp } = await import('../../server/work/taken-up.ts');
await new Promise((resolve) => setTimeout(resolve, 3000));

export const conclude = takingUp(({ bikeId }) => {
  if (bikeId === 'hangs') for (;;);
  return null;
});
