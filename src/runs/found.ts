/** The figures of a run as they are found, with a reason for each that is missing. */

/** Notes a figure; where it is null, why. */
export type Put = (key: string, value: number | string | null, reason?: string) => void;

/** A note-taker of figures and reasons. */
export function putInto(
  values: { [key: string]: number | string | null | undefined },
  reasons: { [key: string]: string },
): Put {
  return (key, value, reason = '') => {
    values[key] = value;
    if (value === null) reasons[key] = reason;
  };
}
