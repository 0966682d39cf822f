/** What a weighing must say in words. */
import { type AxleCheck, type AxleLimits, type Limits, tooSlow } from '../../model/body/axle-check.ts';
import { indexForLoad, speedOfSymbol } from '../../model/tyre/load-index.ts';
import type { CompletedLedger, Hitched } from '../../model/body/complete-ledger.ts';
import type { Balance, Weighed } from '../../model/body/mass-ledger.ts';
import type { System } from '../../units.ts';
import { formatNumber } from '../../units/number-text.ts';
import { toUsual } from '../../units/usual.ts';
import { massText, shareText } from './text.ts';

/** Points of front share from which the change is worth a word. Our own choice; the figure always stands beside it. */
const NOTABLE = 0.03;
/** m/s up to which a tyre carries what its load index says; faster tyres carry less there (ETRTO, from memory). */
const FULL_LOAD_SPEED = 210 / 3.6;

/** Sentences, the gravest first. */
export function weighWarnings(
  states: Weighed,
  { limits, hitched }: Pick<CompletedLedger, 'limits' | 'hitched'>,
  checks: { readonly front: AxleCheck; readonly rear: AxleCheck },
  system: System,
): readonly string[] {
  return [
    ...overloads(states, { limits, hitched }, checks, system),
    ...(hitched === null ? [] : [TOWING]),
    ...(['front', 'rear'] as const).flatMap(axle => tyresBelowAxle(axle, checks[axle], limits[axle], system)),
    ...tyreSpeed(limits, system),
    ...share(states),
  ];
}

/** What is loaded beyond what it is permitted. */
export function overloads(
  states: Weighed,
  { limits, hitched }: Pick<CompletedLedger, 'limits' | 'hitched'>,
  checks: { readonly front: AxleCheck; readonly rear: AxleCheck },
  system: System,
): readonly string[] {
  return [
    ...gross(states, limits.gross, system),
    ...(hitched === null ? [] : train(states, hitched, limits, system)),
    ...(['front', 'rear'] as const).flatMap(axle => [
      ...axleLoad(axle, states, checks[axle], system),
      ...tyreLoad(axle, checks[axle], limits[axle], system),
    ]),
  ];
}

function speed(value: number, system: System): string {
  const unit = system === 'metric' ? 'km/h' : 'mph';
  return `${formatNumber(toUsual(value, 'm/s', unit), 4)}\u00a0${unit}`;
}

/** The emptiest state in which a limit is broken already, in words; null when none is. */
function since(states: Weighed, over: (state: Balance) => boolean): { words: string; state: Balance } | null {
  if (over(states.kerb)) return { words: 'Even empty', state: states.kerb };
  if (over(states.driven)) return { words: 'With the driver alone', state: states.driven };
  return over(states.full) ? { words: 'Fully loaded', state: states.full } : null;
}

/** What is over its limit, from the emptiest state in which it is; nothing where no limit is known. */
function beyond(
  states: Weighed,
  carried: (state: Balance) => number,
  permitted: number | null,
  tell: (when: string, kilograms: number, over: number, limit: number) => string,
): readonly string[] {
  const found = permitted === null ? null : since(states, state => carried(state) > permitted);
  if (found === null || permitted === null) return [];
  const kilograms = carried(found.state);
  return [tell(found.words, kilograms, kilograms - permitted, permitted)];
}

function gross(states: Weighed, permitted: number | null, system: System): readonly string[] {
  const text = (kilograms: number): string => massText(kilograms, system);
  return beyond(
    states,
    ({ mass }) => mass,
    permitted,
    (when, mass, over, limit) =>
      `${when} the car weighs ${text(mass)}, ${text(over)} over its permitted gross mass of ${text(limit)}`,
  );
}

const TOWING =
  'Whether this car may tow this trailer, and with which brakes and coupling, is not looked at here: the papers of both and the law say so';

/** kg of the loaded car and its trailer: what rests on the hitch is in both. */
export function trainMass(full: Balance, { mass, item }: Hitched): number {
  return full.mass - item.mass + mass;
}

function train({ full }: Weighed, hitched: Hitched, limits: Limits, system: System): readonly string[] {
  const mass = trainMass(full, hitched);
  const over = (found: number, permitted: number | null, what: string): readonly string[] =>
    permitted === null || found <= permitted
      ? []
      : [
          `${what} ${massText(found, system)}, ${massText(found - permitted, system)} over the permitted ${massText(permitted, system)}`,
        ];
  return [
    ...over(mass, limits.train, 'Fully loaded, car and trailer together weigh'),
    ...over(hitched.item.mass, limits.hitch, 'On the hitch there rest'),
  ];
}

function axleLoad(
  axle: 'front' | 'rear',
  states: Weighed,
  { permitted }: AxleCheck,
  system: System,
): readonly string[] {
  const text = (kilograms: number): string => massText(kilograms, system);
  return beyond(
    states,
    state => state[axle],
    permitted,
    (when, load, over, limit) =>
      `${when} the ${axle} axle carries ${text(load)}, ${text(over)} over the ${text(limit)} it is permitted`,
  );
}

function tyreLoad(axle: string, check: AxleCheck, limits: AxleLimits, system: System): readonly string[] {
  const { tyres, tyreMargin, load, indexNeeded } = check;
  if (tyres === null || tyreMargin === null || tyreMargin >= 0) return [];
  return [
    `Fully loaded the ${axle} axle carries ${massText(load, system)}, but ${pairText(limits, tyres, system)}, ${massText(-tyreMargin, system)} too little: ${enough(indexNeeded)}`,
  ];
}

/** Tyres that stand what is loaded, and not what the axle is permitted. */
function tyresBelowAxle(axle: string, check: AxleCheck, limits: AxleLimits, system: System): readonly string[] {
  const { tyres, tyreMargin, permitted } = check;
  if (tyres === null || tyreMargin === null || tyreMargin < 0 || permitted === null || tyres >= permitted) return [];
  return [
    `The ${axle} axle is permitted ${massText(permitted, system)}, but ${pairText(limits, tyres, system)}: for the permitted load, ${enough(indexForLoad(permitted / 2))}`,
  ];
}

function pairText({ loadIndex }: AxleLimits, tyres: number, system: System): string {
  return `two tyres of load index ${loadIndex} carry ${massText(tyres, system)}`;
}

function enough(index: number | null): string {
  return index === null ? 'no load index of a car tyre would do' : `load index ${index} or more would do`;
}

function tyreSpeed({ topSpeed, ...limits }: Limits, system: System): readonly string[] {
  if (topSpeed === null) return [];
  const symbols = [...new Set([limits.front.speedSymbol, limits.rear.speedSymbol])].filter(symbol => symbol !== null);
  const slow = symbols.flatMap(symbol => {
    const found = tooSlow(symbol, topSpeed);
    if (found === null) return [];
    const needed =
      found.needed === null ? 'no speed symbol known here would do' : `speed symbol ${found.needed} or faster would do`;
    return [
      `The car reaches ${speed(topSpeed, system)}, but tyres marked ${symbol} may run up to ${speed(speedOfSymbol(symbol) ?? 0, system)}: ${needed}`,
    ];
  });
  if (slow.length > 0 || symbols.length === 0 || topSpeed <= FULL_LOAD_SPEED) return slow;
  return [
    `Above ${speed(FULL_LOAD_SPEED, system)} a tyre carries less than its load index says; the maker of the tyre says how much less`,
  ];
}

function share({ before, kerb }: Weighed): readonly string[] {
  const change = kerb.frontShare - before.frontShare;
  if (Math.abs(change) <= NOTABLE) return [];
  const points = (100 * Math.abs(change)).toFixed(1);
  return [
    `The front share of the empty car goes from ${shareText(before.frontShare)} to ${shareText(kerb.frontShare)}, ${points} points ${change < 0 ? 'less' : 'more'}: springs, brake balance and headlamps were set for the old one`,
  ];
}
