/** Keys of fields, as a notebook writes them and as the code has them. */

/** `peakPower` -> `peak_power`: the key as a notebook writes it. */
export function notebookKey(key: string): string {
  return key.replace(/[A-Z]/g, letter => `_${letter.toLowerCase()}`);
}

/** `peak_power` -> `peakPower`: the key as the code has it. */
export function fieldKey(written: string): string {
  return written.replace(/_([a-z])/g, (_, letter: string) => letter.toUpperCase());
}
