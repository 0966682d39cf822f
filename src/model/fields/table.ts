/** What the tables of fields are written with: numbers, their defaults, and the type of a specification. */
import type { Below, FieldDefault, Fields, NumberField, StatedSpread } from './field.ts';

/** Base of most sources below. */
export const COMMON = 'common practice, no source';

/** A number field; `display` is one unit for both systems or one for each. */
export function number(
  unit: string,
  display: string | readonly [string, string],
  range: readonly [number, number],
  doc: string,
  rest: Partial<
    Pick<
      NumberField,
      'required' | 'default' | 'derived' | 'computed' | 'stated' | 'below' | 'usual' | 'whole' | 'words'
    >
  > = {},
): NumberField {
  const [metric, imperial] = typeof display === 'string' ? [display, display] : display;
  return { kind: 'number', unit, display: { metric, imperial }, min: range[0], max: range[1], doc, ...rest };
}

/** The default of a field, with the limits of its spread where it has one. */
export function assume(value: number, source: string, spread?: readonly [number, number]): { default: FieldDefault } {
  return {
    default:
      spread === undefined
        ? { value, source }
        : { value, source, spread: { kind: 'rectangular', low: spread[0], high: spread[1] } },
  };
}

/** A field that is drawn on its own side of a mark between itself and another. */
export function ordered(path: string, times?: string): { below: Below } {
  return { below: { as: 'order', path, ...(times !== undefined && { times }) } };
}

/** Values outside of which a field is questioned. */
export function usually(low: number, high: number): { usual: readonly [number, number] } {
  return { usual: [low, high] };
}

/** What a maker's figure may be off by where it is given without a spread. */
export function stated(share: number, source: string): { stated: StatedSpread } {
  return { stated: { share, source } };
}

export const KG = ['kg', 'lb'] as const;
export const KMH = ['km/h', 'mph'] as const;
export const NM = ['N m', 'lbf ft'] as const;
/** rad/s of one turn a minute. */
export const RPM = 2 * (Math.PI / 60);

/** Values of a field table as the notebook reads them: SI numbers, words, lists, nested groups; all may be missing. */
export type SpecOf<F extends Fields> = {
  readonly [K in keyof F]?: F[K] extends { kind: 'number' }
    ? number
    : F[K] extends { kind: 'choice'; choices: infer C extends readonly string[] }
      ? C[number]
      : F[K] extends { kind: 'text' | 'reference' }
        ? string
        : F[K] extends { kind: 'words' }
          ? readonly string[]
          : F[K] extends { kind: 'numbers' }
            ? readonly number[]
            : F[K] extends { kind: 'group'; fields: infer G extends Fields }
              ? SpecOf<G>
              : F[K] extends { kind: 'groups'; fields: infer G extends Fields }
                ? readonly SpecOf<G>[]
                : never;
};
