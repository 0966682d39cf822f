/// <reference lib="dom" />
/** The controls of a page: native inputs with labels, which the report wrote. */
import { settingText } from '../notebook/document/knob.ts';
import type { Setting } from '../notebook/document/written-setting.ts';

export interface Controls {
  /** What is turned away from the notebook. */
  settings(): readonly Setting[];
  /** Settings of one control each, a step away from the notebook. */
  near(): readonly (readonly Setting[])[];
  /** Puts the controls where settings say; what a control can not be turned to is passed over. */
  set(settings: readonly Setting[]): void;
  /** Says beside each control where it stands. */
  show(): void;
  /** For who sees the page, and for who hears it. */
  state(text: string): void;
  tell(text: string): void;
  /** The changed cells. */
  lines(text: string): void;
  onTurn(turned: () => void): void;
}

interface Control {
  readonly path: string;
  readonly input: HTMLInputElement | HTMLSelectElement;
  readonly label: string;
  /** Where it stands for the notebook. */
  readonly own: string;
  /** What the notebook says there. */
  readonly ownText: string;
  readonly text: () => string;
  readonly set: (text: string) => void;
  /** What it says a step away from the notebook. */
  readonly near: () => readonly string[];
}

export function controlsOf(panel: HTMLElement): Controls {
  const one = <E extends Element>(selector: string, kind: new () => E): E => {
    const found = panel.querySelector(selector);
    if (found instanceof kind) return found;
    throw new Error(`the page has no ${selector}`);
  };
  const [reset, copy] = [one('.reset', HTMLButtonElement), one('.copy', HTMLButtonElement)];
  const area = one('.lines', HTMLTextAreaElement);
  const [state, status] = [one('.state', HTMLElement), one('[role=status]', HTMLElement)];
  const summary = document.getElementById('settings');
  const controls = [...panel.querySelectorAll<HTMLElement>('[data-path]')].flatMap(controlOf);
  const turned = (): readonly Control[] => controls.filter(({ input, own }) => input.value !== own);
  let heard = (): void => {};

  panel.addEventListener('input', event => {
    if (event.target !== area) heard();
  });
  reset.addEventListener('click', () => {
    for (const { input, own } of controls) input.value = own;
    heard();
    controls[0]?.input.focus();
  });
  copy.addEventListener('click', () => {
    area.hidden = false;
    area.select();
    void copied(area).then(done => {
      state.textContent = done ? 'copied' : 'marked: copy it by hand';
      status.textContent = state.textContent;
    });
  });
  return {
    settings: () => turned().map(({ path, text }) => ({ path, text: text() })),
    near: () => controls.flatMap(({ path, near }) => near().map(text => [{ path, text }])),
    set(settings) {
      const texts = new Map(settings.map(({ path, text }) => [path, text]));
      for (const control of controls) {
        const text = texts.get(control.path);
        if (text === undefined) control.input.value = control.own;
        else control.set(text);
      }
    },
    show() {
      for (const { input, text, own, ownText } of controls) {
        const away = input.value !== own;
        const shown = away ? text() : ownText;
        const row = input.closest('.knob');
        row?.classList.toggle('turned', away);
        const now = row?.querySelector('.now');
        if (now instanceof HTMLElement) now.textContent = shown.replace(/^-/u, '−');
        if (input instanceof HTMLInputElement)
          input.setAttribute('aria-valuetext', away ? `${shown}, in the notebook ${ownText}` : ownText);
      }
      const away = turned();
      reset.disabled = copy.disabled = away.length === 0;
      if (away.length === 0) area.hidden = true;
      if (summary === null) return;
      summary.hidden = away.length === 0;
      const told = away.map(
        ({ label, text, ownText }) => `${label} ${text().replaceAll('_', ' ')} (notebook: ${ownText})`,
      );
      summary.textContent = `Turned away from the notebook: ${told.join('; ')}.`;
    },
    state: text => void (state.textContent = text),
    tell: text => void (status.textContent = text),
    lines: text => void (area.value = text),
    onTurn: turned => void (heard = turned),
  };
}

function controlOf(row: HTMLElement): readonly Control[] {
  const input = row.querySelector('input,select');
  const path = row.dataset['path'] ?? '';
  const label = row.querySelector('label')?.textContent ?? path;
  if (input instanceof HTMLSelectElement) {
    const own = input.dataset['own'] ?? '';
    input.value = own;
    const known = [...input.options].map(({ value }) => value);
    return [
      {
        path,
        input,
        label,
        own,
        ownText: own.replaceAll('_', ' '),
        text: () => input.value,
        set: text => void (input.value = known.includes(text) ? text : own),
        near: () => known.filter(text => text !== own).slice(0, 2),
      },
    ];
  }
  if (!(input instanceof HTMLInputElement)) return [];
  const { unit = '', text: ownText = '' } = input.dataset;
  input.value = input.defaultValue;
  // The browser has put it on the nearest step: that one stands for the notebook.
  const own = input.value;
  const step = Number(input.step);
  return [
    {
      path,
      input,
      label,
      own,
      ownText,
      text: () => settingText(Number(input.value), { unit, step }),
      set: text => void (input.value = String(Number.parseFloat(text))),
      near: () =>
        [Number(own) - step, Number(own) + step]
          .filter(value => value >= Number(input.min) && value <= Number(input.max))
          .map(value => settingText(value, { unit, step })),
    },
  ];
}

async function copied(area: HTMLTextAreaElement): Promise<boolean> {
  try {
    await navigator.clipboard.writeText(area.value);
    return true;
  } catch {
    return false;
  }
}
