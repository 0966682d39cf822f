/// <reference lib="dom" />
/** The script of a page with knobs: hears the controls, asks its workers, puts their answers into the page. */
import { DATA, ENGINE, type LiveData, PANEL } from '../report/page/live-data.ts';
import { type Controls, controlsOf } from './controls.ts';
import { RENEW, RENEWED } from './events.ts';
import { settingsIn, settingsText } from './fragment.ts';
import { showHere } from './here.ts';
import type { FromWorker, Rehearsal, ToWorker } from './messages.ts';
import { createPlaces, type Places } from './places.ts';

/** A page in which the slim drawings are shown. */
const SLIM = '(max-width: 799px)';

/** ms without a turn after which a control rests. */
const REST = 150;

type Start = (rehearsal: Rehearsal | null) => Worker;

/** Asks for what follows a control: the newest settings win. */
class Asker {
  readonly #panel: HTMLElement;
  readonly #controls: Controls;
  readonly #places: Places;
  readonly #start: Start;
  readonly #slim = matchMedia(SLIM);
  /** Answers while a control moves. */
  readonly #quick: Worker;
  /** Works out what takes its time, so that the other one is always free. */
  #thorough: Worker | null = null;
  #ready = false;
  #turn = 0;
  #shown = 0;
  /** Whether the quick one has not answered yet, and whether something newer is wanted of it. */
  #waits = false;
  #again = false;
  #timer: ReturnType<typeof setTimeout> | undefined;

  constructor(panel: HTMLElement, controls: Controls, places: Places, start: Start) {
    this.#panel = panel;
    this.#controls = controls;
    this.#places = places;
    this.#start = start;
    const [turns, slim] = [controls.near(), this.#slim.matches];
    this.#quick = this.#started({ turns, slim, seen: places.all() });
    controls.state('getting ready');
  }

  turned(): void {
    const settings = this.#controls.settings();
    this.#controls.show();
    showHere(this.#panel);
    clearTimeout(this.#timer);
    this.#turn += 1;
    this.#thorough?.postMessage({ kind: 'stop', turn: this.#turn } satisfies ToWorker);
    if (settings.length === 0) return this.#asItWas();
    if (!this.#ready) return;
    if (this.#waits) this.#again = true;
    else this.#ask(false);
    this.#timer = setTimeout(() => {
      this.#address();
      this.#ask(true);
    }, REST);
  }

  /** Browsers take it amiss when an address changes with every move. */
  #address(): void {
    const settings = this.#controls.settings();
    const address = settings.length === 0 ? location.pathname + location.search : `#${settingsText(settings)}`;
    history.replaceState(null, '', address);
  }

  #ask(rest: boolean): void {
    const message: ToWorker = {
      kind: 'turn',
      turn: this.#turn,
      settings: this.#controls.settings(),
      slim: this.#slim.matches,
      seen: this.#places.seen(this.#slim.matches),
      rest,
    };
    if (rest) {
      this.#thorough ??= this.#started(null);
      this.#thorough.postMessage(message);
      this.#controls.state('working out the rest');
    } else {
      this.#quick.postMessage(message);
      this.#waits = true;
      this.#again = false;
    }
  }

  /** The page itself is the answer. */
  #asItWas(): void {
    this.#address();
    this.#quick.postMessage({ kind: 'stop', turn: this.#turn } satisfies ToWorker);
    this.#waits = false;
    this.#again = false;
    this.#places.restore();
    showHere(this.#panel);
    this.#controls.state('');
    this.#controls.tell('As in the notebook');
  }

  end(): void {
    clearTimeout(this.#timer);
    // Whoever starts next takes the settings from there.
    this.#address();
    this.#quick.terminate();
    this.#thorough?.terminate();
    this.#places.restore();
  }

  #started(rehearsal: Rehearsal | null): Worker {
    const worker = this.#start(rehearsal);
    worker.addEventListener('message', ({ data }: MessageEvent<FromWorker>) => this.#heard(worker, data));
    worker.addEventListener('error', ({ message }) => this.#failed(message));
    return worker;
  }

  #heard(worker: Worker, message: FromWorker): void {
    if (message.kind === 'failed') {
      if (worker === this.#quick) this.#waits = false;
      this.#failed(message.message);
    } else if (message.kind === 'ready') {
      if (worker !== this.#quick || this.#ready) return;
      this.#ready = true;
      this.#controls.state('');
      if (this.#controls.settings().length > 0) this.turned();
    } else if (message.kind === 'rehearsed') this.#thorough ??= this.#started(null);
    else if (message.kind === 'turned') this.#put(worker, message);
  }

  #put(worker: Worker, message: Extract<FromWorker, { kind: 'turned' }>): void {
    if (worker === this.#quick) this.#waits = false;
    // While a control moves, an answer that is a little late is better than none; the whole one belongs to one setting.
    const wanted = worker === this.#quick ? message.turn >= this.#shown : message.turn === this.#turn;
    if (wanted && this.#controls.settings().length > 0) {
      this.#shown = worker === this.#quick ? message.turn : this.#turn + 1;
      this.#places.put(message);
      showHere(this.#panel);
      this.#controls.lines(message.lines);
      if (worker !== this.#quick) this.#controls.state(message.working);
      if (message.rested) this.#controls.tell(message.told);
    }
    if (worker === this.#quick && this.#again) this.#ask(false);
  }

  #failed(reason: string): void {
    this.#controls.state(`not worked out: ${reason}`);
    this.#controls.tell(`This can not be worked out: ${reason}`);
  }
}

interface Started {
  /** Puts the page back as the notebook has it. */
  end(): void;
}

function start(panel: HTMLElement, address: string): Started {
  const data = JSON.parse(document.getElementById(DATA)?.textContent ?? '') as LiveData;
  const controls = controlsOf(panel);
  const asker = new Asker(panel, controls, createPlaces(), rehearsal => {
    const worker = new Worker(address);
    worker.postMessage({ kind: 'open', data, rehearsal } satisfies ToWorker);
    return worker;
  });
  controls.onTurn(() => asker.turned());
  const fromAddress = (): void => {
    const settings = settingsIn(location.hash);
    if (settings === null) return;
    controls.set(settings);
    asker.turned();
  };
  const here = (): void => showHere(panel);
  addEventListener('hashchange', fromAddress);
  for (const kind of ['resize', 'toggle']) addEventListener(kind, here, true);
  fromAddress();
  here();
  panel.hidden = false;
  // Where it would stand over what it turns, it is a bar until somebody wants it.
  const fold = panel.querySelector('details');
  if (fold !== null && matchMedia(SLIM).matches) fold.open = false;
  return {
    end() {
      removeEventListener('hashchange', fromAddress);
      for (const kind of ['resize', 'toggle']) removeEventListener(kind, here, true);
      controls.onTurn(() => {});
      asker.end();
    },
  };
}

/** The engine as a file that a worker starts from. */
function unpacked(packed: string): Promise<Blob> {
  const bytes = Uint8Array.from(atob(packed.trim()), letter => letter.charCodeAt(0));
  const stream = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('gzip'));
  return new Response(stream, { headers: { 'content-type': 'text/javascript' } }).blob();
}

let started: Started | null = null;
let engine: string | null = null;

async function begin(): Promise<void> {
  const panel = document.getElementById(PANEL);
  if (panel === null) return;
  engine ??= URL.createObjectURL(await unpacked(document.getElementById(ENGINE)?.textContent ?? ''));
  started = start(panel, engine);
}

// Where the notebook is edited: its page is put anew under the reader's eyes.
document.addEventListener(RENEW, () => {
  started?.end();
  started = null;
});
document.addEventListener(RENEWED, () => void begin());
void begin();
