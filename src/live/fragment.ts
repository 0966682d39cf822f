/** Settings as they travel behind the `#` of an address. */
import type { Setting } from '../notebook/document/written-setting.ts';

const START = 'set/';

export function settingsText(settings: readonly Setting[]): string {
  return START + settings.map(({ path, text }) => `${encodeURIComponent(path)}=${encodeURIComponent(text)}`).join('&');
}

/** Null for a fragment that is about something else. */
export function settingsIn(hash: string): readonly Setting[] | null {
  if (!hash.startsWith(`#${START}`)) return null;
  try {
    return hash
      .slice(1 + START.length)
      .split('&')
      .flatMap(pair => {
        const [path = '', text = ''] = pair.split('=').map(decodeURIComponent);
        return path === '' || text === '' ? [] : [{ path, text }];
      });
  } catch {
    // Not as we write it.
    return null;
  }
}
