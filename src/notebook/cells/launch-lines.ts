/** What launches found, as lines of a car cell. */
import { item, nth } from '../../columns.ts';
import type { Effect, LaunchFit } from '../../fit/launch/measurement.ts';
import { hasRoom, LAUNCH_PARAMETERS, type LaunchParameter } from '../../fit/launch/parameters.ts';
import { meantBy, slopeOf } from '../../fit/launch/result.ts';
import type { Car } from '../../model/car.ts';
import { entryOf, type LocatedMap } from '../document/located.ts';
import { fromLine, said } from './written-lines.ts';

/** Fields of a car that are fitted, and those that go along with them. */
const PATHS: { readonly [key in LaunchParameter]: readonly string[] } = {
  power: ['drive.unit.peak_power', 'second_drive.unit.peak_power'],
  power_at_top: ['drive.unit.power_at_top', 'second_drive.unit.power_at_top'],
  grip: ['dry_peak', 'dry_slide', 'wet_peak', 'wet_slide'].flatMap(key => [
    `tyres.${key}`,
    `front_tyres.${key}`,
    `rear_tyres.${key}`,
  ]),
  torque: ['drive.unit.peak_torque', 'second_drive.unit.peak_torque'],
  torque_rise: ['drive.unit.torque_rise', 'second_drive.unit.torque_rise'],
  copper_loss: ['drive.unit.copper_loss', 'second_drive.unit.copper_loss'],
  mass: ['mass'],
};

/** The parameter that a path of a car is fitted by. */
export function parameterAt(path: string): LaunchParameter | undefined {
  return LAUNCH_PARAMETERS.find(each => PATHS[each].includes(path));
}

export function launchLines(found: LaunchFit, car: Car, map: LocatedMap, surface: string): readonly string[] {
  const tyres = tyreKey(car, map);
  const surfaces = surface === 'wet' ? 'wet' : 'dry';
  const of = (parameter: LaunchParameter): number | null => {
    const place = found.parameters.indexOf(parameter);
    return place < 0 ? null : meantBy(parameter, car)(nth(found.values, place));
  };
  const factor = (parameter: LaunchParameter): number => {
    const place = found.parameters.indexOf(parameter);
    return place < 0 ? 1 : nth(found.values, place);
  };
  const has = (parameter: LaunchParameter): boolean => found.parameters.includes(parameter);
  const together = togetherLines(found, car, [tyres, surfaces]);
  // What was measured with others has its uncertainty in their covariance.
  const loose = looseOf(found);
  const alone = (parameter: LaunchParameter, slope: number, unit: string): string => {
    if (loose.includes(parameter)) return ` ± 0${unit}`;
    const place = found.parameters.indexOf(parameter);
    return together.length > 0 ? '' : ` ± ${said(slope * Math.sqrt(nth(item(found.covariance, place), place)))}${unit}`;
  };
  const [first, second] = car.drives;
  const unitLines = (key: string, unit: Car['drives'][number]['unit']): string[] => {
    const lines = [
      ...(has('power')
        ? [`    peak_power: ${said(factor('power') * unit.peakPower)} W${alone('power', unit.peakPower, ' W')}`]
        : []),
      ...(has('power_at_top')
        ? [`    power_at_top: ${said(of('power_at_top') ?? 0)}${alone('power_at_top', 1, '')}`]
        : []),
      ...(has('torque')
        ? [
            `    peak_torque: ${said(factor('torque') * unit.peakTorque)} N m${alone('torque', unit.peakTorque, ' N m')}`,
          ]
        : []),
      ...(has('copper_loss')
        ? [
            `    copper_loss: ${said(factor('copper_loss') * unit.losses.copper)}${alone('copper_loss', unit.losses.copper, '')}`,
          ]
        : []),
      ...(has('torque_rise')
        ? [`    torque_rise: ${said(of('torque_rise') ?? 0)} s${alone('torque_rise', 1, ' s')}`]
        : []),
    ];
    if (lines.length === 0) return [];
    return [`${key}:`, '  unit:', ...fromLine(map, [key, 'unit'], 4), ...lines];
  };
  const tyre = first === undefined ? undefined : car.tyres[first.axle];
  const friction = surfaces === 'wet' ? tyre?.wet : tyre?.dry;
  return [
    ...(has('mass') ? [`mass: ${said(of('mass') ?? 0)} kg${alone('mass', slopeOf('mass', car), ' kg')}`] : []),
    ...(first === undefined ? [] : unitLines('drive', first.unit)),
    ...(second === undefined || second.unit === first?.unit ? [] : unitLines('second_drive', second.unit)),
    ...(has('grip') && friction !== undefined
      ? [
          `${tyres}:`,
          ...fromLine(map, [tyres], 2),
          `  ${surfaces}_peak: ${said(factor('grip') * friction.peak)}${alone('grip', friction.peak, '')}`,
          `  ${surfaces}_slide: ${said(factor('grip') * friction.slide)}`,
        ]
      : []),
    ...together,
  ];
}

/** What was found so loosely that a normal draw may be no number of its field: it stands at its value, and the others have its uncertainty in theirs. */
function looseOf(found: LaunchFit): readonly LaunchParameter[] {
  return found.parameters.filter(
    (each, k) => !hasRoom(each, nth(found.values, k), Math.sqrt(nth(item(found.covariance, k), k))),
  );
}

function togetherLines(whole: LaunchFit, car: Car, [tyres, surface]: readonly [string, string]): readonly string[] {
  const path: { readonly [key in LaunchParameter]: string } = {
    power: 'drive.unit.peak_power',
    power_at_top: 'drive.unit.power_at_top',
    grip: `${tyres}.${surface}_peak`,
    torque: 'drive.unit.peak_torque',
    torque_rise: 'drive.unit.torque_rise',
    copper_loss: 'drive.unit.copper_loss',
    mass: 'mass',
  };
  const loose = looseOf(whole);
  const kept = [...whole.parameters.keys()].filter(k => !loose.includes(item(whole.parameters, k)));
  const found = {
    parameters: kept.map(k => item(whole.parameters, k)),
    covariance: kept.map(i => kept.map(j => nth(item(whole.covariance, i), j))),
    effects: whole.effects.map(each => ({ ...each, shift: kept.map(k => nth(each.shift, k)) })),
  };
  const unit = car.drives[0]?.unit;
  const slopes = found.parameters.map(each => (each === 'power' ? (unit?.peakPower ?? 1) : slopeOf(each, car)));
  const others = found.effects.filter(each => each.input !== null && countsFor(each, found));
  if (found.parameters.length + others.length < 2) return [];
  // Parameters first, then the inputs that they lean on: of those the launch says nothing, but how they hang together.
  const columns = [
    ...found.parameters.map(
      (_, i) =>
        (j: number): number =>
          j < slopes.length
            ? nth(item(found.covariance, i), j) * nth(slopes, i) * nth(slopes, j)
            : nth(item(others, j - slopes.length).shift, i) *
              nth(slopes, i) *
              standardOf(item(others, j - slopes.length)),
    ),
    ...others.map(
      (other, k) =>
        (j: number): number =>
          j < slopes.length
            ? nth(other.shift, j) * nth(slopes, j) * standardOf(other)
            : j - slopes.length === k
              ? standardOf(other) ** 2
              : 0,
    ),
  ];
  const triangle = columns.flatMap((at, i) => Array.from({ length: i + 1 }, (_, j) => Number(at(j).toPrecision(12))));
  const paths = [...found.parameters.map(each => path[each]), ...others.map(({ input }) => input?.path ?? '')];
  return ['together:', `  - inputs: [${paths.join(', ')}]`, `    covariance: [${triangle.join(', ')}]`];
}

/** Share of the variance of a parameter from which on an input is named beside it. */
const COUNTS = 0.02;

function countsFor({ shift }: Effect, { covariance }: Pick<LaunchFit, 'covariance'>): boolean {
  return shift.some((each, i) => each * each > COUNTS * nth(item(covariance, i), i));
}

function standardOf({ input }: Effect): number {
  return input?.standard ?? 0;
}

/** The tyres of the driven axle, as the car cell writes them. */
function tyreKey(car: Car, map: LocatedMap): string {
  const own = `${item(car.drives, 0).axle}_tyres`;
  return entryOf(map, own) === undefined ? 'tyres' : own;
}
