/// <reference lib="dom" />
/** The script of a page that is served while its notebook is edited: puts what has changed into the page, and keeps the reader's place. */
import { LOOKS, NEWS, type News, OPEN_DATA, type OpenData, SLIM } from '../report/page/open-data.ts';
import { RENEW, RENEWED } from './events.ts';
import { placeIn, putPlace, type Place } from './kept-place.ts';
import { laidOver } from './laid-over.ts';

/** Where the place is kept while the page is loaded as a whole. */
const PLACE = 'axlewatt-place';

/** The page as the server sent it: scripts change the one that is seen. */
let sent = document.body.cloneNode(true) as HTMLElement;
document.addEventListener('DOMContentLoaded', () => {
  // What stands behind this script.
  for (const element of [...document.body.children].slice(sent.children.length)) sent.append(element.cloneNode(true));
});
let edition = dataIn(document).edition;
let fetching = false;
let newest: News | null = null;

const state = line('open-state', 'status');
const trouble = line('open-trouble', 'alert');
trouble.className = 'problem';
trouble.hidden = true;

function line(id: string, role: string): HTMLElement {
  const element = document.createElement('p');
  element.id = id;
  element.setAttribute('role', role);
  // Beside the body: it is put anew.
  document.documentElement.append(element);
  return element;
}

function dataIn(page: Document): OpenData {
  return JSON.parse(page.getElementById(OPEN_DATA)?.textContent ?? '') as OpenData;
}

const policy = document.querySelector('meta[http-equiv]')?.getAttribute('content') ?? '';

function heard(news: News): void {
  newest = news;
  trouble.hidden = news.trouble === '';
  trouble.textContent = news.trouble === '' ? '' : `${news.trouble}\nThe page stands as it was before.`;
  if (news.edition === '' || news.edition === edition) say(news);
  else void follow();
}

function say({ busy }: News): void {
  state.textContent = busy ? 'working it out' : '';
}

/** Takes the newest edition over. */
async function follow(): Promise<void> {
  if (fetching) return;
  fetching = true;
  try {
    const answer = await fetch(location.pathname);
    const text = await answer.text();
    const place = placeIn(document);
    // Other scripts are only taken with the page as a whole. Our own policy stands in its text as it is.
    if (!text.includes(`http-equiv="Content-Security-Policy" content="${policy}"`)) {
      sessionStorage.setItem(PLACE, JSON.stringify(place));
      location.reload();
      return;
    }
    put(new DOMParser().parseFromString(text, 'text/html'), place);
  } finally {
    fetching = false;
  }
  if (newest !== null && newest.edition !== edition) void follow();
  else if (newest !== null) say(newest);
}

function put(page: Document, place: Place): void {
  const data = dataIn(page);
  document.dispatchEvent(new Event(RENEW));
  const pristine = page.body.cloneNode(true) as HTMLElement;
  sent = laidOver(document.body, sent, pristine, data.late);
  document.title = page.title;
  edition = data.edition;
  document.dispatchEvent(new Event(RENEWED));
  // After what other scripts add to new pictures: their observers are heard before.
  queueMicrotask(() => putPlace(document, place));
  lookSoon();
}

function listen(): void {
  const source = new EventSource(location.pathname + NEWS);
  source.addEventListener('message', ({ data }: MessageEvent<string>) => heard(JSON.parse(data) as News));
  source.addEventListener('error', () => {
    state.textContent = 'axlewatt open has ended: this page follows no more';
  });
}

/** Says which pictures are in the window, so that they come first. */
function tellLooks(): void {
  const slim = matchMedia('(max-width: 799px)').matches;
  const seen = [...document.querySelectorAll('.picture')].filter(picture => {
    const { top, bottom } = picture.getBoundingClientRect();
    return bottom > -innerHeight / 2 && top < 1.5 * innerHeight;
  });
  const said = `${LOOKS}${[slim ? SLIM : 'wide', ...seen.map(({ id }) => id)].join(',')}`;
  if (said === looks) return;
  looks = said;
  // Nothing hangs on it.
  void fetch(location.pathname + said).catch(() => {});
}

let looks = '';
let still: ReturnType<typeof setTimeout> | undefined;
function lookSoon(): void {
  clearTimeout(still);
  still = setTimeout(tellLooks, 100);
}
for (const kind of ['scroll', 'resize', 'toggle']) addEventListener(kind, lookSoon, { passive: true, capture: true });
lookSoon();

/** A place that was kept over a whole loading. */
function placeAgain(): void {
  const kept = sessionStorage.getItem(PLACE);
  if (kept === null) return;
  sessionStorage.removeItem(PLACE);
  putPlace(document, JSON.parse(kept) as Place);
}

placeAgain();
listen();
