/** Drives and charges of a season as a calibrate cell gives them. */
import { item, nth } from '../../columns.ts';
import type { Measured } from '../../fit/coast/measured.ts';
import { noSeason, seasonResult } from '../../fit/season/result.ts';
import {
  capacityTold,
  chargerOf,
  SEASON_PARAMETERS,
  type SeasonDrive,
  type SeasonFit,
  seasonFit,
  type SeasonParameter,
} from '../../fit/season/season-fit.ts';
import type { Car, Tyre } from '../../model/car.ts';
import { UNLISTED } from '../../model/fields/filler.ts';
import { SpecError } from '../../model/fields/spec-error.ts';
import type { Result } from '../../runs/result.ts';
import { runKindOf } from '../../runs/kinds.ts';
import type { FieldValues } from '../fields/read-context.ts';
import type { Calibrating } from './calibrating.ts';
import { newCapacity, readCharges, standardAt } from './calibrate-charges.ts';
import { movedInputs } from './moved-inputs.ts';
import { seasonLines } from './season-lines.ts';
import { readTrip } from './trip.ts';
import { rowsOf } from './trip-way.ts';

/** Standard uncertainty of an energy where a row says none, as a share. Common practice, no source. */
const METER = 0.02;
/** Inputs of a car that a consumption leans on beside what is fitted. */
const LEANS =
  /^(mass|drag_area|drag_coefficient|frontal_area|hub_drag|tyres\.rolling_resistance|auxiliaries\.(power|converter_efficiency)|drive\.efficiency|drive\.unit\.(inverter_efficiency|efficiency|.*loss.*))$/u;
/** Those that a parameter takes the place of. */
const TAKEN: { readonly [key in SeasonParameter]: RegExp } = {
  auxiliaries: /^auxiliaries\.power$/u,
  drag: /^(drag_area|drag_coefficient|frontal_area)$/u,
  rolling: /^(tyres\.rolling_resistance|hub_drag)$/u,
};

export function calibrateSeason(asked: Calibrating): Result {
  const { values, car } = asked;
  const rows = rowsOf(values['drives']);
  const notes: string[] = [];
  const wanted = wantedOf(asked);
  const drives = rows.length === 0 ? [] : drivesOf(asked, rows, wanted, notes);
  const fit =
    drives.length === 0
      ? null
      : seasonFit(
          drives.map(({ drive }) => drive),
          wanted,
        );
  const { charges, short, notes: told } = readCharges(asked);
  notes.push(...told);
  if (fit !== null && 'short' in fit && charges.length === 0) return noSeason(fit.short, notes);
  const found = fit === null || 'short' in fit ? null : fit;
  const missing: { [key: string]: string } = {};
  if (fit !== null && 'short' in fit) {
    const { what, cure } = item(fit.short, 0);
    for (const each of wanted) missing[KEYS[each]] = `${what}; it takes ${cure}`;
  }
  const whole = newCapacity(car.car.pack);
  const { capacity, missing: why } = capacityTold(charges, short, whole);
  const charger = chargerOf(charges);
  if (charges.length > 0 && why !== null) {
    missing['capacity'] = why;
    missing['health'] = why;
  }
  if (charges.length > 0 && charger === null) {
    missing['charger_efficiency'] = 'the charger can not be told: it needs the energy from the wall and into the pack';
  }
  const health = capacity === null ? null : { value: capacity.value / whole, standard: capacity.standard / whole };
  const figures = { ...driveFigures(car.car, found), capacity, health, charger_efficiency: charger };
  return seasonResult({
    figures,
    missing,
    fit: found,
    drives: drives.map(({ title, drive, time }) => ({ title, time, energy: drive.energy.value })),
    charges: charges.length,
    lines: seasonLines({ fit: found, health, charger, car: car.car, map: asked.map }),
    warnings: notes,
  });
}

const KEYS: { readonly [key in SeasonParameter]: string } = {
  auxiliaries: 'auxiliaries',
  drag: 'drag_area',
  rolling: 'rolling_resistance',
};

function wantedOf({ name, values }: Calibrating): readonly SeasonParameter[] {
  const { fit } = values;
  if (!Array.isArray(fit)) return SEASON_PARAMETERS;
  return fit.map((word: unknown) => {
    const known = SEASON_PARAMETERS.find(each => each === word);
    if (known !== undefined) return known;
    throw new SpecError(`${name}.fit`, `"${String(word)}" is nothing that drives give`, SEASON_PARAMETERS.join(', '));
  });
}

/** What the factors mean for this car. */
function driveFigures(car: Car, fit: SeasonFit | null): { readonly [key: string]: Measured | null } {
  const of = (parameter: SeasonParameter, factor: number, start = 0): Measured | null => {
    const place = fit?.parameters.indexOf(parameter) ?? -1;
    if (fit === null || place < 0) return null;
    const standard = Math.sqrt(nth(item(fit.covariance, place), place));
    return { value: start + factor * nth(fit.values, place), standard: factor * standard };
  };
  return {
    auxiliaries: of('auxiliaries', 1, car.auxiliaries.power),
    drag_area: of('drag', car.body.dragArea),
    rolling_resistance: of('rolling', car.tyres.rear.rolling.c0),
  };
}

interface MeteredDrive {
  readonly title: string;
  readonly time: number;
  readonly drive: SeasonDrive;
}

function drivesOf(
  asked: Calibrating,
  rows: readonly FieldValues[],
  wanted: readonly SeasonParameter[],
  notes: string[],
): readonly MeteredDrive[] {
  const { name, car, world } = asked;
  const answer = runKindOf('drive').createAnswer(['energy', 'time']);
  const day = { temperature: 293.15, altitude: 0, humidity: 0.5, wind: 0, slope: 0, surface: 'dry' } as const;
  const taken = (path: string): boolean => wanted.some(each => TAKEN[each].test(path));
  const moved = movedInputs(asked, 'drive', day, path => LEANS.test(path) && !taken(path));
  return rows.map((row, i) => {
    const path = `${name}.drives[${i + 1}]`;
    const { energy, temperature, charge, ...way } = row;
    const read = readTrip(way, path, file => world.readFile(file));
    notes.push(...read.notes);
    const values = {
      ...(typeof temperature === 'number' && { temperature }),
      ...(typeof charge === 'number' && { charge }),
    };
    const of = (each: Car, key: 'energy' | 'time'): number => {
      const { summary, reasons } = answer({
        name: path,
        carName: car.carName,
        car: each,
        values,
        trip: read.trip,
        inputs: UNLISTED,
      });
      const found = summary[key];
      if (typeof found === 'number') return found;
      throw new SpecError(path, `has no answer with this car: ${reasons[key] ?? 'it can not be driven'}`);
    };
    if (typeof energy !== 'number') throw new SpecError(`${path}.energy`, 'is missing');
    return {
      title: read.trip.title,
      time: of(car.car, 'time'),
      drive: {
        energy: { value: energy, standard: standardAt(asked, `${path}.energy`) ?? METER * energy },
        modelled: change => of(changed(car.car, change), 'energy'),
        effects: moved.map(({ up, down }) => (of(up.car, 'energy') - of(down.car, 'energy')) / 2),
      },
    };
  });
}

function changed(car: Car, change: { readonly [key in SeasonParameter]: number }): Car {
  const rolls = (tyre: Tyre): Tyre => {
    const { c0, c1, c2 } = tyre.rolling;
    return { ...tyre, rolling: { c0: change.rolling * c0, c1: change.rolling * c1, c2: change.rolling * c2 } };
  };
  return {
    ...car,
    body: { ...car.body, dragArea: change.drag * car.body.dragArea },
    tyres: { front: rolls(car.tyres.front), rear: rolls(car.tyres.rear) },
    auxiliaries: { ...car.auxiliaries, power: Math.max(0, car.auxiliaries.power + change.auxiliaries) },
  };
}
