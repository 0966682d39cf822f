/** Written by `npm run defaults` from the tables of outputs: do not edit. */
import type { TravelCurrents } from './currents.ts';

/** Figures of a drive; null where there is none, with the reason in `reasons`. */
export type DriveSummary = TravelCurrents & {
  /** Trip: what is driven. */
  readonly trip: string | null;
  /** Air: temperature of the air. In K. */
  readonly air_temperature: number | null;
  /** Distance: driven. In m. */
  readonly distance: number | null;
  /** Time: of driving, stops of the trip left aside. In s. */
  readonly time: number | null;
  /** Mean speed: over the time of driving. In m/s. */
  readonly mean_speed: number | null;
  /** Highest speed: of the car. In m/s. */
  readonly max_speed: number | null;
  /** Consumption at the pack: energy out of the terminals of the pack, what came back taken off, over distance. In J/m. */
  readonly consumption: number | null;
  /** Consumption at the wall: energy that charging with the chargers on board takes from the wall, over distance. In J/m. */
  readonly consumption_wall: number | null;
  /** L/100 km equivalent: at the wall; 33.705 kWh for a US gallon of petrol (fueleconomy.gov). A pure number. */
  readonly litres_equivalent: number | null;
  /** Mpg equivalent: at the wall; 33.705 kWh for a US gallon of petrol (fueleconomy.gov). A pure number. */
  readonly mpg_equivalent: number | null;
  /** Energy out of the pack: at its terminals, what came back taken off. In J. */
  readonly energy: number | null;
  /** Energy that came back: into the terminals of the pack while slowing down. In J. */
  readonly returned: number | null;
  /** Energy in the brakes: what slowing down did not bring back. In J. */
  readonly brakes: number | null;
  /** Braking recovered: what came back over what came back and what went into the brakes. A pure number. */
  readonly braking_recovered: number | null;
  /** Share of the consumers: lights, pumps, heating and cooling, of the energy out of the pack. A pure number. */
  readonly auxiliaries_share: number | null;
  /** Energy at the plugs: from the wall at the stops of the trip. In J. */
  readonly energy_plugged: number | null;
  /** State of charge at the start: before the first schedule. A pure number. */
  readonly charge_start: number | null;
  /** State of charge at the end: after the last schedule. A pure number. */
  readonly charge_end: number | null;
  /** Time too slow: more than 2 km/h below the schedule within 1 s (UN GTR No. 15). In s. */
  readonly time_too_slow: number | null;
  /** Arrives late by: what is missed of the way, at the speeds that the schedule has there. In s. */
  readonly time_lost: number | null;
  /** Distance missed: that the schedules have and the car did not drive. In m. */
  readonly distance_missed: number | null;
  /** Time at a limit: in which the car could not do what the schedule asks. In s. */
  readonly limited_time: number | null;
  /** Held back by: what held the car back for the longest time while it could not follow. */
  readonly limiter: string | null;
  /** Lowest pack voltage: mean over an interval of the schedule. In V. */
  readonly min_voltage: number | null;
  /** Highest pack current: mean over an interval of the schedule. In A. */
  readonly max_current: number | null;
  /** Highest pack power: mean over an interval of the schedule. In W. */
  readonly max_power: number | null;
  /** Warmest pack: lumped. In K. */
  readonly pack_temperature: number | null;
  /** Pack at the end: lumped. In K. */
  readonly pack_temperature_end: number | null;
  /** Warmest drive unit: lumped. In K. */
  readonly unit_temperature: number | null;
  /** Changes of gear: with a gearbox. A pure number. */
  readonly shifts: number | null;
};
