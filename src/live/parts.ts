/** What of a page is put anew for other settings: written by the report itself. */
import { doubtsOf } from '../runs/doubts.ts';
import type { Result } from '../runs/result.ts';
import type { Again, Turned } from '../notebook/again.ts';
import type { Cells } from '../notebook/context.ts';
import { type CellState, cellBlock } from '../notebook/cell-state.ts';
import { FormulaError } from '../notebook/formula/formula.ts';
import { quotedFormulas } from '../notebook/document/inline.ts';
import { quoted } from '../notebook/document/quote.ts';
import type { Setting } from '../notebook/document/written-setting.ts';
import { createGuard, type Guard } from '../report/guard.ts';
import { reportOf } from '../report/kinds.ts';
import { alarmBox, besides, cardHtml, mindsAndNotes } from '../report/page/answer.ts';
import type { Answered } from '../report/page/answered.ts';
import { carStrip } from '../report/page/car-strip.ts';
import { cellSection, cellTitle } from '../report/page/cell.ts';
import { type Html, html } from '../report/page/html.ts';
import { ALARMS, BESIDES, CARS, cardId, type LiveData, MINDS } from '../report/page/live-data.ts';
import { problemBox } from '../report/page/problem.ts';
import type { System } from '../units.ts';
import { drawOnly } from '../report/page/draw-only.ts';
import { changesOf } from './changes.ts';
import type { Parts, Redrawn } from './messages.ts';
import { wasText } from './was.ts';

/** How the page is looked at. */
export interface View {
  readonly slim: boolean;
  /** The pictures that are seen, and which drawing of this writer stands there; null where all are wanted. */
  readonly seen: ReadonlyMap<string, number> | null;
  readonly settings: readonly Setting[];
  readonly working: string;
  /** Whether anybody still waits for it. */
  readonly current: () => boolean;
}

export interface Writer {
  write(turned: Turned, view: View): Promise<Parts>;
}

export function createWriter(again: Again, data: LiveData): Writer {
  const { system } = again.document.frontMatter;
  const places = new Map(data.cells.map(cell => [cell.name, cell]));
  // What the author answers stands first in the page.
  const prose = again.document.pieces.filter(piece => piece.kind === 'prose');
  const formulas = [...prose.filter(({ answers }) => answers), ...prose.filter(({ answers }) => !answers)].flatMap(
    ({ tokens }) => quotedFormulas(tokens),
  );

  const answeredOf = (state: CellState): Answered | null => {
    const { name, line } = state.piece;
    const id = places.get(name)?.id ?? '';
    const product = state.given?.product;
    if (product?.kind !== 'result' || failed(state)) return null;
    return { name: cellTitle(name), line, result: product.result, href: `#${id}`, id };
  };
  const before = (name: string): Result | null => {
    const product = again.own.states.get(name)?.given?.product;
    return product?.kind === 'result' ? product.result : null;
  };

  const cardOf = (state: CellState): readonly [string, string][] => {
    const { name } = state.piece;
    const id = places.get(name)?.id ?? '';
    const own = before(name);
    const answered = answeredOf(state);
    if (answered === null) return own === null ? [] : [[cardId(id), failedCard(state, id).html]];
    const was =
      own === null
        ? ''
        : wasText(reportOf(own).card(own, system), reportOf(answered.result).card(answered.result, system));
    return cardHtml(answered, system, 'live', { id: cardId(id), was }).map(card => [cardId(id), card.html]);
  };

  const sectionOf = async (state: CellState, guard: Guard, cells: Cells): Promise<string> => {
    const place = places.get(state.piece.name);
    if (place === undefined) return '';
    const { problems } = state;
    const block = cellBlock(state, cells);
    return (await cellSection(block, { system, file: data.file, ...place, problems, guard })).html;
  };

  const textsOf = ({ cells }: Turned) =>
    formulas.map(formula => {
      try {
        return { text: quoted(formula, cells), wrong: false };
      } catch (error) {
        if (!(error instanceof FormulaError)) throw error;
        return { text: `⚠ ${error.message}`, wrong: true };
      }
    });
  // What is as it was keeps the interval that it has in the page: here nobody has taken its samples.
  const own = textsOf(again.own);
  const quotes = (turned: Turned): Parts['quotes'] =>
    textsOf(turned).map(({ text, wrong }, place) => ({ place, text: text === own[place]?.text ? null : text, wrong }));

  const sent = new Map<string, { readonly drawing: number; readonly svg: string }>();
  let drawings = 0;
  const redrawn = ({ id, svg, caption }: Found, stands: number): Redrawn => {
    const before = sent.get(id);
    const drawing = ++drawings;
    sent.set(id, { drawing, svg });
    const changes = before === undefined || before.drawing !== stands ? null : changesOf(before.svg, svg);
    return { id, drawing, svg: changes === null ? svg : { over: stands, changes }, caption };
  };

  return {
    async write(turned, { slim, seen, settings, working, current }) {
      const guard = createGuard(data.file, 'the report');
      const shown = seen === null ? null : new Set(seen.keys());
      drawOnly({ slim, seen: shown, current });
      const fresh = [...turned.fresh].flatMap(name => turned.states.get(name) ?? []);
      const elements: (readonly [string, string])[] = [];
      const pictures: Redrawn[] = [];
      const late: string[] = [...turned.late].flatMap(name => lateIds(places.get(name)?.id));
      for (const state of fresh) {
        elements.push(...cardOf(state));
        const id = places.get(state.piece.name)?.id ?? '';
        if (shown === null || !isRun(state) || failed(state))
          elements.push([id, await sectionOf(state, guard, turned.cells)]);
        else {
          late.push(id);
          if ([...shown].some(each => each.startsWith(`${id}-`)))
            for (const found of picturesIn(await sectionOf(state, guard, turned.cells), shown))
              pictures.push(redrawn(found, seen?.get(found.id) ?? 0));
        }
      }
      const answered = [...again.own.states.keys()].flatMap(name => {
        const state = turned.states.get(name);
        return state === undefined ? [] : (answeredOf(state) ?? []);
      });
      const launched = fresh.some(state => (answeredOf(state)?.result.kind ?? '') === 'launch');
      if (shown === null) {
        const blocks = [...again.own.states.keys()].flatMap(name => {
          const state = turned.states.get(name);
          return state === undefined ? [] : [cellBlock(state, turned.cells)];
        });
        elements.push([CARS, wrapped(CARS, carStrip(blocks))]);
        elements.push([ALARMS, wrapped(ALARMS, alarmBox(answered, system, guard))]);
        elements.push([MINDS, wrapped(MINDS, mindsAndNotes(answered))]);
      }
      if (launched && (shown === null || shown.has('side-by-side')))
        elements.push([BESIDES, wrapped(BESIDES, await besides(answered, system, guard))]);
      return {
        elements,
        pictures,
        slim,
        quotes: quotes(turned),
        late,
        told: toldOf(
          fresh.flatMap(state => answeredOf(state) ?? []),
          system,
        ),
        lines: linesOf(again, settings),
        core: shown !== null,
        rested: shown === null && working === '',
        working,
      };
    },
  };
}

function lateIds(id: string | undefined): readonly string[] {
  return id === undefined ? [] : [id, cardId(id)];
}

function isRun(state: CellState): boolean {
  return state.given?.product?.kind === 'result';
}

/** Whether nothing leans on a cell: what it found, if anything, is not to be relied on. */
function failed(state: CellState): boolean {
  const product = state.given?.product;
  return state.problems.length > 0 || (product?.kind === 'result' && doubtsOf(product.result).length > 0);
}

function failedCard(state: CellState, id: string): Html {
  return html`<article class="card" data-name="${cellTitle(state.piece.name)}" id="${cardId(id)}">
<h3><a href="#${id}">${cellTitle(state.piece.name)}</a></h3>
${state.problems.slice(0, 1).map(problemBox)}</article>
`;
}

function wrapped(id: string, content: Html | null): string {
  return html`<div id="${id}">${content}</div>`.html;
}

interface Found {
  readonly id: string;
  readonly svg: string;
  readonly caption: string;
}

/** The drawings in a section that were wanted, with what is seen in them. */
function picturesIn(section: string, wanted: ReadonlySet<string>): readonly Found[] {
  const found = section.matchAll(
    /<figure class="picture" id="(?<id>[^"]*)">(?<inside>[\s\S]*?)<figcaption>(?<caption>[\s\S]*?)<\/figcaption>/gu,
  );
  return [...found].flatMap(({ groups }) => {
    const { id = '', inside = '', caption = '' } = groups ?? {};
    const svg = /<svg[\s\S]*<\/svg>/u.exec(inside)?.[0] ?? '';
    return svg === '' || !wanted.has(id) ? [] : [{ id, svg, caption }];
  });
}

/** `dash: 8.12 s 0 to 100 km/h`. */
function toldOf(answered: readonly Answered[], system: System): string {
  return answered
    .flatMap(({ name, result }) => {
      const headline = reportOf(result).card(result, system)?.headline ?? null;
      return headline === null ? [] : [`${name}: ${headline.figure ?? headline.reason} ${headline.of}`];
    })
    .join('; ');
}

/** The changed cells, fences and all. */
export function linesOf(again: Again, settings: readonly Setting[]): string {
  return [...again.written(settings)]
    .map(([name, source]) => {
      const kind = again.own.states.get(name)?.piece.cell ?? '';
      return `\`\`\`yaml ${kind} ${name}\n${source.trimEnd()}\n\`\`\`\n`;
    })
    .join('\n');
}
