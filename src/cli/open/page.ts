/** A page that is served and made anew when its source changes. */
import type { News } from '../../report/page/open-data.ts';

export interface ServedPage {
  /** As it stands, made now where there is none yet. */
  html(): Promise<string>;
  news(): News;
  /** @returns what ends it. */
  listen(told: () => void): () => void;
  /** The files and folders it is made from. */
  sources(): readonly string[];
  /** One of them has changed. */
  changed(): void;
  /** A reader looks at it so. */
  looked?(at: Looks): void;
  close(): void;
}

/** What of a page is in a window. */
export interface Looks {
  /** Whether it shows the slim drawings. */
  readonly slim: boolean;
  /** Ids of the pictures. */
  readonly seen: ReadonlySet<string>;
}

/** Editions of another start of the server are others. */
const START = `${process.pid.toString(36)}${Date.now().toString(36)}`;

/** Edition, trouble and listeners of a page. */
export class Editions {
  #number = 0;
  #news: News = { edition: '', trouble: '', busy: false };
  readonly #listeners = new Set<() => void>();

  get news(): News {
    return this.#news;
  }

  /** Name of the edition that is made next. */
  next(): string {
    this.#number += 1;
    return `${START}-${this.#number}`;
  }

  tell(news: Partial<News>): void {
    this.#news = { ...this.#news, ...news };
    for (const told of this.#listeners) told();
  }

  listen(told: () => void): () => void {
    this.#listeners.add(told);
    return () => void this.#listeners.delete(told);
  }
}
