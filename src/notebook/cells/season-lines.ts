/** What a season found, as lines of a car cell. */
import { item, nth } from '../../columns.ts';
import type { Measured } from '../../fit/coast/measured.ts';
import type { SeasonFit, SeasonParameter } from '../../fit/season/season-fit.ts';
import type { Car } from '../../model/car.ts';
import { entryOf, type LocatedMap } from '../document/located.ts';
import { fromLine, said, triangleOf } from './written-lines.ts';

export interface FoundSeason {
  readonly fit: SeasonFit | null;
  readonly health: Measured | null;
  readonly charger: Measured | null;
  readonly car: Car;
  readonly map: LocatedMap;
}

export function seasonLines({ fit, health, charger, car, map }: FoundSeason): readonly string[] {
  const valueOf = (parameter: SeasonParameter): number | null => {
    const place = fit?.parameters.indexOf(parameter) ?? -1;
    return fit === null || place < 0 ? null : nth(fit.values, place);
  };
  const measured = entryOf(map, 'road_load') !== undefined;
  const [more, drag, rolling] = [valueOf('auxiliaries'), valueOf('drag'), valueOf('rolling')];
  const tyre = car.tyres.rear.rolling;
  const pm = (value: Measured): string => `${said(100 * value.value)} % ± ${said(100 * value.standard)} %`;
  return [
    ...(more === null
      ? []
      : [
          'auxiliaries:',
          ...fromLine(map, ['auxiliaries'], 2),
          `  power: ${said(Math.max(0, car.auxiliaries.power + more))} W`,
        ]),
    // A road load that was measured is better than what a season says of it: it stays, and only the rest is taken over.
    ...(drag === null || measured ? [] : [`drag_area: ${said(drag * car.body.dragArea)} m^2`]),
    ...(rolling === null || measured
      ? []
      : [
          'tyres:',
          ...fromLine(map, ['tyres'], 2),
          `  rolling_resistance: ${said(rolling * tyre.c0)}`,
          `  rolling_linear: ${said(rolling * tyre.c1)} s/m`,
          `  rolling_quadratic: ${said(rolling * tyre.c2)} s^2/m^2`,
        ]),
    ...(health === null ? [] : ['pack:', ...fromLine(map, ['pack'], 2), `  health: ${pm(health)}`]),
    ...(charger === null ? [] : ['charger:', ...fromLine(map, ['charger'], 2), `  efficiency: ${pm(charger)}`]),
    ...togetherLines(fit, car, measured),
  ];
}

function togetherLines(fit: SeasonFit | null, car: Car, measured: boolean): readonly string[] {
  if (fit === null) return [];
  const kept = fit.parameters.filter(each => each === 'auxiliaries' || !measured);
  if (kept.length < 2) return [];
  const path = { auxiliaries: 'auxiliaries.power', drag: 'drag_area', rolling: 'tyres.rolling_resistance' };
  const slope = { auxiliaries: 1, drag: car.body.dragArea, rolling: car.tyres.rear.rolling.c0 };
  const places = kept.map(each => fit.parameters.indexOf(each));
  const covariance = places.map((i, a) =>
    places.map((j, b) => nth(item(fit.covariance, i), j) * slope[item(kept, a)] * slope[item(kept, b)]),
  );
  return [
    'together:',
    `  - inputs: [${kept.map(each => path[each]).join(', ')}]`,
    `    covariance: [${triangleOf(covariance)}]`,
  ];
}
