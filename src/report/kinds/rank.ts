/** A ranking in full: what it says, the tornado, the choices. */
import { capital, digits } from '../../units/rounding.ts';
import { summaryNumber } from '../../plots/kit/series.ts';
import { numbers, texts } from '../../runs/series.ts';
import { tornado } from '../../plots/tornado.ts';
import type { Result } from '../../runs/result.ts';
import type { System } from '../../units.ts';
import type { ReportKind } from '../kind.ts';
import { figureOf, numbersTable } from '../page/figures.ts';
import { type Html, html } from '../page/html.ts';
import { cappedTable, everyOutput, firstVerdict, note, verdictList, verdictWords } from './study.ts';

export const rankReport: ReportKind = { kind: 'rank', card: firstVerdict, words, body: rankBody };

const NOTHING = 'the run has no answer: there is nothing to rank.';

function words(result: Result): string {
  return summaryNumber(result, 'value') === null ? capital(NOTHING) : verdictWords(result);
}

/** Rows of the table of inputs on the page. */
const ROWS = 40;

/** The body of a rank cell below its warnings. Ids inside begin with `id`. */
async function rankBody(result: Result, system: System, id: string): Promise<Html> {
  if (summaryNumber(result, 'value') === null) return html`${note(NOTHING)}`;
  const picture = tornado(result, system);
  const { columns, rows } = picture.table;
  return html`${verdictList(result.verdicts ?? [])}${await figureOf(picture, `${id}-tornado`)}${choicesTable(result)}<details class="numbers"><summary>All uncertain inputs</summary>${cappedTable(columns, rows.length, k => rows[k] ?? [], 'All uncertain inputs', ROWS)}</details>
${note('the shares are Sobol indices, by themselves and with what an input does together with others; they are told for the inputs with the widest bars.')}${everyOutput(result, system)}`;
}

function choicesTable(result: Result): Html | null {
  const choices = result.series['choices'] ?? {};
  const paths = texts(choices, 'path');
  if (paths.length === 0) return null;
  const elasticity = numbers(choices, 'elasticity_1');
  const label = result.outputs['value']?.label ?? 'the result';
  return numbersTable(
    {
      columns: ['choice', `${label}: change for 1 % more, %`],
      rows: paths.map((path, k) => {
        const value = elasticity[k] ?? Number.NaN;
        return [path, Number.isNaN(value) ? 'no answer' : `${value > 0 ? '+' : ''}${digits(value, 2)}`];
      }),
    },
    'What the choices do',
  );
}
