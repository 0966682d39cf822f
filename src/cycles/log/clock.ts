/** Reads the times of a log. */

/** Elapsed time as on a clock; hours may go beyond 24. */
const CLOCK = /^(\d+):([0-5]\d):([0-5]\d(?:[.,]\d+)?)$/u;
/** ISO 8601 in the extended form, with T or a blank; the zone may be left out. */
const STAMP = /^(\d{4})-(\d\d)-(\d\d)[T ](\d\d):([0-5]\d):([0-5]\d)([.,]\d+)?(Z|[+-]\d\d(?::?\d\d)?)?$/u;

export type ClockForm = 'number' | 'clock' | 'stamp';

/** The form of a time that is no plain number; undefined for none. */
export function clockFormOf(text: string): 'clock' | 'stamp' | undefined {
  if (CLOCK.test(text)) return 'clock';
  return STAMP.test(text) ? 'stamp' : undefined;
}

/**
 * A time as whole seconds and the fraction of a second, kept apart because a date in seconds leaves a number of 64 bits few
 * digits for it; undefined where the text is no such time. A time without a zone is taken as it stands.
 */
export function readClock(
  text: string,
  form: 'clock' | 'stamp',
): readonly [whole: number, fraction: number] | undefined {
  if (form === 'clock') {
    const [, hours, minutes, seconds = ''] = CLOCK.exec(text) ?? [];
    if (hours === undefined) return undefined;
    const [whole = '', fraction = '0'] = seconds.split(/[.,]/u);
    return [Number(hours) * 3600 + Number(minutes) * 60 + Number(whole), Number(`0.${fraction}`)];
  }
  const found = STAMP.exec(text);
  if (found === null) return undefined;
  const [, year, month, day, hour, minute, second, fraction = '.0', zone = 'Z'] = found;
  const at = Date.UTC(Number(year), Number(month) - 1, Number(day), Number(hour), Number(minute), Number(second));
  const date = new Date(at);
  if (date.getUTCMonth() !== Number(month) - 1 || date.getUTCHours() !== Number(hour)) return undefined;
  return [at / 1000 - secondsOfZone(zone), Number(`0.${fraction.slice(1)}`)];
}

function secondsOfZone(zone: string): number {
  if (zone === 'Z') return 0;
  const digits = zone.slice(1).replace(':', '').padEnd(4, '0');
  const seconds = Number(digits.slice(0, 2)) * 3600 + Number(digits.slice(2)) * 60;
  return zone.startsWith('-') ? -seconds : seconds;
}
