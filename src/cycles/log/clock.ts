/** Reads the times of a log. */

/** Elapsed time as on a clock, or the time of day; hours may go beyond 24. */
const CLOCK =
  /^(?<hour>\d+):(?<minute>[0-5]\d):(?<second>[0-5]\d)(?<fraction>[.,]\d+)?(?:\s*(?<half>[AaPp])\.?[Mm]\.?)?$/u;
/** ISO 8601 in the extended form, with T or a blank; the zone may be left out. */
const STAMP = /^(?<year>\d{4})-(?<month>\d\d)-(?<day>\d\d)[T ](?<rest>.+)$/u;
/** 31.01.2026 12:34:56, the day first. */
const DOTTED = /^(?<day>\d{1,2})\.(?<month>\d{1,2})\.(?<year>\d{4}|\d\d),?\s+(?<rest>.+)$/u;
/** 01/31/2026 12:34:56 PM, or 31/01/2026 12:34:56. */
const SLASHED = /^(?<first>\d{1,2})[/-](?<second>\d{1,2})[/-](?<year>\d{4}|\d\d),?\s+(?<rest>.+)$/u;
const TIME_OF_DAY =
  /^(?<hour>\d{1,2}):(?<minute>[0-5]\d)(?::(?<second>[0-5]\d)(?<fraction>[.,]\d+)?)?(?:\s*(?<half>[AaPp])\.?[Mm]\.?)?(?<zone>\s*(?:Z|[+-]\d\d(?::?\d\d)?))?$/u;

/**
 * How the times of a log are written. Between slashes the day or the month may come first; `either` where the first time fits
 * both ways, which matters only once the date changes.
 */
export type ClockForm = 'number' | 'clock' | 'stamp' | 'day first' | 'month first' | 'either';

const EXAMPLES: { readonly [form in Exclude<ClockForm, 'number'>]: string } = {
  clock: '12:34:56',
  stamp: '2026-01-31T12:34:56',
  'day first': '31.01.2026 12:34:56',
  'month first': '01/31/2026 12:34:56 PM',
  either: '2026-01-31T12:34:56',
};

/** A time of this form, for messages. */
export function clockExample(form: Exclude<ClockForm, 'number'>): string {
  return EXAMPLES[form];
}

/** The form of a time that is no plain number; undefined for none. */
export function clockFormOf(text: string): Exclude<ClockForm, 'number'> | undefined {
  if (CLOCK.test(text)) return 'clock';
  if (STAMP.test(text)) return readStamp(text, STAMP, 'stamp') === undefined ? undefined : 'stamp';
  if (DOTTED.test(text)) return 'day first';
  const slashed = SLASHED.exec(text)?.groups;
  if (slashed === undefined) return undefined;
  // Only where the month comes first are hours of the day counted in halves as a rule.
  if (/[ap]\.?m\.?$/iu.test(text)) return Number(slashed['first']) > 12 ? 'day first' : 'month first';
  if (Number(slashed['first']) > 12) return 'day first';
  return Number(slashed['second']) > 12 ? 'month first' : 'either';
}

/** The date of a time whose day and month may be taken for each other; '' where there is none. */
export function dateOf(text: string): string {
  return /^[^\s,]*/u.exec(text)?.[0] ?? '';
}

/**
 * A time as whole seconds and the fraction of a second, kept apart because a date in seconds leaves a number of 64 bits few
 * digits for it; undefined where the text is no such time. A time without a zone is taken as it stands.
 */
export function readClock(
  text: string,
  form: Exclude<ClockForm, 'number'>,
): readonly [whole: number, fraction: number] | undefined {
  if (form === 'stamp') return readStamp(text, STAMP, form);
  if (form !== 'clock') return readStamp(text, DOTTED.test(text) ? DOTTED : SLASHED, form);
  const found = CLOCK.exec(text)?.groups;
  if (found === undefined) return undefined;
  const hours = hoursOf(found['hour'], found['half']);
  if (hours === undefined) return undefined;
  return [hours * 3600 + Number(found['minute']) * 60 + Number(found['second']), fractionOf(found['fraction'])];
}

function readStamp(
  text: string,
  pattern: RegExp,
  form: Exclude<ClockForm, 'number' | 'clock'>,
): readonly [whole: number, fraction: number] | undefined {
  const found = pattern.exec(text)?.groups;
  const clock = TIME_OF_DAY.exec(found?.['rest'] ?? '')?.groups;
  if (found === undefined || clock === undefined) return undefined;
  // Only in the local forms are seconds left out, or half days told.
  if (form === 'stamp' && (clock['second'] === undefined || clock['half'] !== undefined)) return undefined;
  const dayFirst = form !== 'month first';
  const day = Number(found['day'] ?? (dayFirst ? found['first'] : found['second']));
  const month = Number(found['month'] ?? (dayFirst ? found['second'] : found['first']));
  const year = Number(found['year']) + (found['year']?.length === 2 ? 2000 : 0);
  const hour = hoursOf(clock['hour'], clock['half']);
  if (hour === undefined) return undefined;
  const at = Date.UTC(year, month - 1, day, hour, Number(clock['minute']), Number(clock['second'] ?? 0));
  const date = new Date(at);
  if (date.getUTCMonth() !== month - 1 || date.getUTCHours() !== hour) return undefined;
  return [at / 1000 - secondsOfZone((clock['zone'] ?? 'Z').trim()), fractionOf(clock['fraction'])];
}

/** Hours from midnight; undefined for 13 PM. */
function hoursOf(written: string | undefined, half: string | undefined): number | undefined {
  const hours = Number(written);
  if (half === undefined) return hours;
  if (hours < 1 || hours > 12) return undefined;
  return (hours % 12) + (half.toLowerCase() === 'p' ? 12 : 0);
}

function fractionOf(text: string | undefined): number {
  return text === undefined ? 0 : Number(`0.${text.slice(1)}`);
}

function secondsOfZone(zone: string): number {
  if (zone === 'Z') return 0;
  const digits = zone.slice(1).replace(':', '').padEnd(4, '0');
  const seconds = Number(digits.slice(0, 2)) * 3600 + Number(digits.slice(2)) * 60;
  return zone.startsWith('-') ? -seconds : seconds;
}
