/** Masses, places and shares of a weighing in words: as exact as scales and a tape measure are. */
import type { System } from '../../units.ts';
import { formatNumber } from '../../units/number-text.ts';
import { toUsual } from '../../units/usual.ts';

/** `732 kg`, `5.2 kg`; a tenth of a kilogram is still told, because it may be a tenth too much. */
export function massText(mass: number, system: System): string {
  const unit = system === 'metric' ? 'kg' : 'lb';
  const shown = toUsual(mass, 'kg', unit);
  const rounded = Math.abs(shown) < 9.95 ? Number(shown.toPrecision(2)) : Math.round(shown);
  return `${minus(formatNumber(rounded, 6))}\u00a0${unit}`;
}

/** `1.08 m`, `12 mm`, `3.4 in`. */
export function lengthText(length: number, system: System): string {
  if (system === 'imperial') return `${minus(toUsual(length, 'm', 'in').toFixed(1))}\u00a0in`;
  const millimetres = Math.round(1000 * length);
  return Math.abs(millimetres) < 100 ? `${minus(String(millimetres))}\u00a0mm` : `${minus(length.toFixed(2))}\u00a0m`;
}

/** `51.9 %`. */
export function shareText(share: number): string {
  return `${minus((100 * share).toFixed(1))}\u00a0%`;
}

function minus(text: string): string {
  return text.replace('-', '−');
}
