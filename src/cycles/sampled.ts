/** From the compact figures in data/ to numbers: what every schedule that ships is made of. */

/** m/s for one step of 0.1 km/h: the step over so many. */
const TENTHS_OF_KM_H = 36;

/** Figures in 0.1 km/h, set apart by blanks, as speeds in m/s. */
export function fromTenthsOfKmH(figures: string): Float64Array {
  return numbers(figures).map(tenths => tenths / TENTHS_OF_KM_H);
}

/** Figures in 0.1 mph, set apart by blanks, as speeds in m/s; the mile is 1609.344 m exactly, so 0.1 mph is 0.044704 m/s. */
export function fromTenthsOfMph(figures: string): Float64Array {
  return numbers(figures).map(tenths => (tenths * 44_704) / 1_000_000);
}

/** Break points of s and km/h in turn, as times in s and speeds in m/s. */
export function fromBreakPoints(figures: string): { readonly time: Float64Array; readonly speed: Float64Array } {
  const pairs = numbers(figures);
  return {
    time: pairs.filter((_, k) => k % 2 === 0),
    speed: pairs.filter((_, k) => k % 2 === 1).map(kmh => kmh / 3.6),
  };
}

/** 0, 1, 2 ... s, one for each speed. */
export function everySecond(speed: Float64Array): Float64Array {
  return speed.map((_, second) => second);
}

function numbers(figures: string): Float64Array {
  return Float64Array.from(figures.trim().split(/\s+/u), Number);
}
