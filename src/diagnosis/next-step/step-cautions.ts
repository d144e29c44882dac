import type { Caution } from './caution.ts';

const mind = (text: string): Caution => ({ kind: 'mind', text });
const danger = (text: string): Caution => ({ kind: 'danger', text });
const sequel = (text: string): Caution => ({ kind: 'sequel', text });

/** The cautions of the steps, each once, so that one that two steps share is said once. Common practice in the trade, no source. */
export const stepCautions = {
  highLimitTension: mind(
    'Release cable tension before setting the high limit, count the clicks, and put them back afterwards.',
  ),
  unscrewed: mind(
    'Anticlockwise unscrews the barrel adjuster: leave it a full turn of thread, do not unscrew it to its end. Where it comes near, screw it in again and draw the cable tighter at its clamp, on the smallest cog.',
  ),
  screwedIn: mind(
    'Clockwise screws the barrel adjuster in: where it is fully in, do not force it. Give the cable slack at its clamp instead, on the smallest cog.',
  ),
  offsetEnds: mind(
    'Where the range of the setting ends first, stop: see then whether the hanger is bent, the derailleur is mounted straight and firmly, and anything is worn.',
  ),
  lowLimitTooOpen: mind('A low limit opened too far lets the chain into the spokes.'),
  highLimitTooOpen: mind('A high limit opened too far lets the chain into the frame.'),
  gapAtSag: mind('On a suspended frame set the gap with the rider on the bike, at sag.'),
  crackedHanger: mind('A cracked hanger, or one that was bent back before, is replaced and not bent.'),
  frayedCable: mind('A frayed cable is replaced at once.'),
  /** Follows new cable and housing. */
  settles: sequel('New cable and housing settle in the first rides and ask for tension again.'),
  /** Follows work that moves the guide pulley. */
  indexAgain: sequel('Check the indexing again afterwards.'),
  /** For a chain that went past the largest cog. */
  intoSpokes: danger(
    'A chain that went into the spokes: stop, look for damage to spokes and derailleur, and do not ride on until they are sound.',
  ),
  /** For a chain that went past the smallest cog. */
  intoFrame: danger(
    'A chain that went into the frame: stop, look for damage to frame and chain, and do not ride on until they are sound.',
  ),
  /** For a chain that went past both ends: what is done about it is the same. */
  intoEither: danger(
    'A chain that went into the spokes or the frame: stop, look for damage to spokes, derailleur, frame and chain, and do not ride on until they are sound.',
  ),
  /** For a chain that came off elsewhere, or nobody knows where. */
  cameOff: danger(
    'A chain that came off: before riding on look over chain, chainring, chain guide and the ends of the cassette for damage and for what let it off.',
  ),
  /** For a chain that slips over worn teeth. */
  skipsUnderLoad: danger('Do not stand on the pedals or sprint on a chain that skips.'),
  /** Worn cogs fit the worn chain that was on them, and a new one climbs over their teeth. */
  newChain: danger(
    'A new chain skips under load on worn cogs: look at the teeth of the most used cogs on a stand, and pedal firmly but seated, away from traffic, before any hard effort.',
  ),
  /** For a hanger that may be bent. */
  bentHanger: {
    kind: 'bent-hanger',
    text: 'A derailleur on a bent hanger can reach the spokes: keep off the largest cog until it is checked.',
  },
  /** The same of one that was aligned or found right: what is left is to see that it is. */
  hangerTried: {
    kind: 'bent-hanger',
    text: 'A derailleur on a bent hanger can reach the spokes: keep off the largest cog until it was tried on a stand and stays clear of them there.',
  },
} as const satisfies Readonly<Record<string, Caution>>;

const byHand = (text: string): Caution => ({ kind: 'by-hand', text });

/** Cautions that go with every suggestion. */
export const generalCautions: readonly Caution[] = [
  byHand('Adjust on a stand, or on smooth ground away from traffic.'),
  byHand('Keep fingers out of a turning drivetrain.'),
  mind("The maker's manual, local rules and a qualified mechanic come first."),
  mind('These are likelihoods from logs: nobody has looked at the bike.'),
];
