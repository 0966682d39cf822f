/** Written by `npm run defaults` from the tables of outputs: do not edit. */
import type { LaunchCurrents } from './currents.ts';

/** Figures of a launch; null where there is none, with the reason in `reasons`. */
export type LaunchSummary = LaunchCurrents & {
  /** Target speed: named by `to`; 100 km/h where it is left out. In m/s. */
  readonly target_speed: number | null;
  /** To the target speed: from the pedal going down to the speed named by `to`. In s. */
  readonly time: number | null;
  /** To 50 km/h: from the pedal going down. In s. */
  readonly time_to_50_km_h: number | null;
  /** To 80 km/h: from the pedal going down. In s. */
  readonly time_to_80_km_h: number | null;
  /** To 60 mph: from the pedal going down. In s. */
  readonly time_to_60_mph: number | null;
  /** To 100 km/h: from the pedal going down. In s. */
  readonly time_to_100_km_h: number | null;
  /** To 120 km/h: from the pedal going down. In s. */
  readonly time_to_120_km_h: number | null;
  /** To 160 km/h: from the pedal going down. In s. */
  readonly time_to_160_km_h: number | null;
  /** 50 to 80 km/h: at full pedal, taken out of the same run. In s. */
  readonly time_50_to_80_km_h: number | null;
  /** 80 to 120 km/h: at full pedal, taken out of the same run. In s. */
  readonly time_80_to_120_km_h: number | null;
  /** 60 ft: from the pedal going down. In s. */
  readonly time_60_ft: number | null;
  /** Speed at 60 ft: at the end of the distance. In m/s. */
  readonly speed_60_ft: number | null;
  /** 1/8 mile: from the pedal going down. In s. */
  readonly time_eighth_mile: number | null;
  /** Speed at 1/8 mile: at the end of the distance. In m/s. */
  readonly speed_eighth_mile: number | null;
  /** 400 m: from the pedal going down. In s. */
  readonly time_400_m: number | null;
  /** Speed at 400 m: at the end of the distance. In m/s. */
  readonly speed_400_m: number | null;
  /** 1/4 mile: from the pedal going down. In s. */
  readonly time_quarter_mile: number | null;
  /** Speed at 1/4 mile: at the end of the distance. In m/s. */
  readonly speed_quarter_mile: number | null;
  /** 1000 m: from the pedal going down. In s. */
  readonly time_1000_m: number | null;
  /** Speed at 1000 m: at the end of the distance. In m/s. */
  readonly speed_1000_m: number | null;
  /** To 50 km/h, after rollout: as above, the clock starting when the car has moved one foot (0.3048 m). In s. */
  readonly time_to_50_km_h_rollout: number | null;
  /** To 80 km/h, after rollout: as above, the clock starting when the car has moved one foot (0.3048 m). In s. */
  readonly time_to_80_km_h_rollout: number | null;
  /** To 60 mph, after rollout: as above, the clock starting when the car has moved one foot (0.3048 m). In s. */
  readonly time_to_60_mph_rollout: number | null;
  /** To 100 km/h, after rollout: as above, the clock starting when the car has moved one foot (0.3048 m). In s. */
  readonly time_to_100_km_h_rollout: number | null;
  /** To 120 km/h, after rollout: as above, the clock starting when the car has moved one foot (0.3048 m). In s. */
  readonly time_to_120_km_h_rollout: number | null;
  /** To 160 km/h, after rollout: as above, the clock starting when the car has moved one foot (0.3048 m). In s. */
  readonly time_to_160_km_h_rollout: number | null;
  /** 60 ft, after rollout: as above, the clock starting when the car has moved one foot (0.3048 m). In s. */
  readonly time_60_ft_rollout: number | null;
  /** 1/8 mile, after rollout: as above, the clock starting when the car has moved one foot (0.3048 m). In s. */
  readonly time_eighth_mile_rollout: number | null;
  /** 400 m, after rollout: as above, the clock starting when the car has moved one foot (0.3048 m). In s. */
  readonly time_400_m_rollout: number | null;
  /** 1/4 mile, after rollout: as above, the clock starting when the car has moved one foot (0.3048 m). In s. */
  readonly time_quarter_mile_rollout: number | null;
  /** 1000 m, after rollout: as above, the clock starting when the car has moved one foot (0.3048 m). In s. */
  readonly time_1000_m_rollout: number | null;
  /** Top speed: where drive and resistance balance, at the charge of the start. In m/s. */
  readonly top_speed: number | null;
  /** Top speed is set by: what holds the car back there. */
  readonly top_speed_limiter: string | null;
  /** Peak acceleration: greatest of the run. In m/s^2. */
  readonly peak_acceleration: number | null;
  /** Peak wheel torque: at both driven wheels together. In N m. */
  readonly peak_wheel_torque: number | null;
  /** Peak half-shaft torque: both half shafts together, spin-up of the wheels included. In N m. */
  readonly peak_shaft_torque: number | null;
  /** Peak motor torque: at the motor shaft. In N m. */
  readonly peak_motor_torque: number | null;
  /** Peak motor power: at the motor shaft. In W. */
  readonly peak_motor_power: number | null;
  /** Peak motor speed: greatest of the run. In rad/s. */
  readonly peak_motor_speed: number | null;
  /** Peak slip: of the driven tyres (ISO 8855). A pure number. */
  readonly peak_slip: number | null;
  /** Peak pack current: greatest of the run. In A. */
  readonly peak_pack_current: number | null;
  /** Peak pack power: at the terminals of the pack. In W. */
  readonly peak_pack_power: number | null;
  /** Lowest pack voltage: at the inverter, under load. In V. */
  readonly lowest_pack_voltage: number | null;
  /** Energy out of the pack: at the terminals, over the whole run. In J. */
  readonly energy_used: number | null;
  /** Drive unit at the end: lumped, where a continuous power is given. In K. */
  readonly unit_temperature: number | null;
  /** Pack at the end: lumped. In K. */
  readonly pack_temperature: number | null;
  /** Time at the grip limit: of the whole run. In s. */
  readonly grip_time: number | null;
  /** Distance at the grip limit: of the whole run. In m. */
  readonly grip_distance: number | null;
  /** Drive energy held back by grip: share of what the drive unit could have given up to 100 km/h, or to a target speed below it, that the tyres could not put down. A pure number. */
  readonly grip_withheld: number | null;
  /** Energy lost in tyre slip: up to 100 km/h, or to a target speed below it. In J. */
  readonly slip_energy: number | null;
  /** Time without traction control: to 100 km/h, or to a target speed below it: the same car with the pedal flat and the wheels free to spin. In s. */
  readonly time_without_control: number | null;
  /** What traction control is worth: that time less the one with the slip held at the peak. In s. */
  readonly control_worth: number | null;
  /** Tyre slip without traction control: up to 100 km/h, or to a target speed below it, with the wheels free to spin. In J. */
  readonly slip_energy_without_control: number | null;
  /** Tyre slip with ideal traction control: up to 100 km/h, or to a target speed below it, with the slip held at the peak of friction. In J. */
  readonly slip_energy_with_control: number | null;
  /** Grip no longer matters above: speed at which the grip limit is left for good. In m/s. */
  readonly grip_free_speed: number | null;
  /** To 100 km/h with unlimited grip: the same car on tyres that never slip away. In s. */
  readonly time_unlimited_grip: number | null;
  /** Friction that would be enough: peak friction at which grip never limits up to 100 km/h. A pure number. */
  readonly friction_enough: number | null;
  /** Gained by 0.1 more friction: off the time to 100 km/h. In s. */
  readonly gain_per_friction: number | null;
  /** Power beyond which nothing is gained: peak power of all drive units together above which the time to 100 km/h falls by less than 0.01 s more, torque unchanged. In W. */
  readonly power_enough: number | null;
};
