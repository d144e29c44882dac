import type { Adjustment } from '../../adjustments/adjustment.ts';
import { repairCures } from '../assumptions.ts';
import type { Draw } from './draw.ts';
import type { Setup } from './setup.ts';

/**
 * Moves a setup as an adjustment does. Directions are sure (the contract's table: positive cable tension and index
 * offset move inboard, a limit screw clockwise moves its stop in, the B-screw clockwise widens the gap), sizes are the
 * draw's. A repair brings its own part back to the healthy setting, most of the time.
 */
export function adjustSetup(setup: Setup, healthy: Setup, adjustment: Adjustment, draw: Draw): void {
  const amount = adjustment.amount ?? 0;
  const perMm = 1 / setup.toleranceMm;
  const curesOwn = draw.shape.cureOwn < repairCures.own;
  const curesByTheWay = draw.shape.cureByTheWay < repairCures.byTheWay;
  switch (adjustment.parameter) {
    case 'cable-tension':
      setup.offset += amount * draw.assumed.clickMm * perMm;
      return;
    case 'index-offset':
      setup.offset += amount * draw.assumed.stepMm * perMm;
      return;
    case 'low-limit':
      setup.lowClear -= amount * draw.assumed.limitTurnMm * perMm;
      return;
    case 'high-limit':
      setup.highClear -= amount * draw.assumed.limitTurnMm * perMm;
      return;
    case 'pulley-gap':
      setup.gap += amount * draw.assumed.gapTurn;
      return;
    case 'hanger':
      if (curesOwn) straighten(setup, healthy);
      return;
    case 'cable-and-housing':
      if (curesOwn) {
        setup.frictionOut = healthy.frictionOut;
        setup.frictionIn = healthy.frictionIn;
        setup.frictionSlope = healthy.frictionSlope;
        setup.frictionBothWays = healthy.frictionBothWays;
        setup.softness = healthy.softness;
      }
      if (curesByTheWay) setup.offset = healthy.offset;
      return;
    case 'chain':
    case 'cassette':
      if (curesOwn) setup.skipPerS = healthy.skipPerS;
      return;
    case 'wheel':
      if (curesByTheWay) setup.skipPerS = healthy.skipPerS;
      return;
  }
}

/** Takes a bend out of the hanger; one that is as straight as before has none. The clicks that were turned meanwhile stay. */
function straighten(setup: Setup, healthy: Setup): void {
  if (setup.tilt === healthy.tilt) return;
  setup.lowClear -= setup.tilt * (1 - setup.pivot) - healthy.tilt * (1 - healthy.pivot);
  setup.highClear -= setup.tilt * setup.pivot - healthy.tilt * healthy.pivot;
  setup.tilt = healthy.tilt;
  setup.pivot = healthy.pivot;
  // a bent hanger stands in place of the bike's own small offset
  setup.offset += healthy.offset;
}
