/** An output of a run, by the quantity that it is: its unit, and the units that it is shown in. */
import type { Output } from './result.ts';

export function output(label: string, unit: string, metric: string, imperial: string, doc: string): Output {
  return { label, unit, display: { metric, imperial }, doc };
}

export const seconds = (label: string, doc: string): Output => output(label, 's', 's', 's', doc);
export const hours = (label: string, doc: string): Output => output(label, 's', 'h', 'h', doc);
export const speed = (label: string, doc: string): Output => output(label, 'm/s', 'km/h', 'mph', doc);
export const share = (label: string, doc: string): Output => output(label, '1', '%', '%', doc);
export const number = (label: string, doc: string): Output => output(label, '1', '1', '1', doc);
export const words = (label: string, doc: string): Output => output(label, '', '', '', doc);
export const mass = (label: string, doc: string): Output => output(label, 'kg', 'kg', 'lb', doc);
export const distance = (label: string, doc: string): Output => output(label, 'm', 'km', 'mile', doc);
export const place = (label: string, doc: string): Output => output(label, 'm', 'm', 'in', doc);
export const temperature = (label: string, doc: string): Output => output(label, 'K', 'degC', 'degF', doc);
export const torque = (label: string, doc: string): Output => output(label, 'N m', 'N m', 'lbf ft', doc);
export const power = (label: string, doc: string): Output => output(label, 'W', 'kW', 'kW', doc);
export const amperes = (label: string, doc: string): Output => output(label, 'A', 'A', 'A', doc);
export const volts = (label: string, doc: string): Output => output(label, 'V', 'V', 'V', doc);
export const wattHours = (label: string, doc: string): Output => output(label, 'J', 'Wh', 'Wh', doc);
export const kilowattHours = (label: string, doc: string): Output => output(label, 'J', 'kWh', 'kWh', doc);
export const perDistance = (label: string, doc: string): Output => output(label, 'J/m', 'Wh/km', 'Wh/mile', doc);
