/** docs/LANGUAGE.md: every cell with its fields and what it answers with, printed from the tables that read them. */
import { scheduleNamed, scheduleNames } from '../../src/cycles/schedules.ts';
import { statistics } from '../../src/cycles/statistics.ts';
import type { Field, Fields } from '../../src/model/fields/field.ts';
import { notebookKey } from '../../src/model/fields/filler.ts';
import { shippedParts } from '../../src/model/parts/shipped.ts';
import { CELL_KINDS } from '../../src/notebook/cells/registry.ts';
import { partFields } from '../../src/notebook/cells/part.ts';
import { describeField, describeLimits } from '../../src/notebook/fields/describe.ts';
import { RUN_KINDS } from '../../src/runs/kinds.ts';
import type { Output } from '../../src/runs/result.ts';
import { weighOutputs } from '../../src/runs/weigh/outputs.ts';
import { formatQuantity, unitLabel } from '../../src/units.ts';

const HEAD = `# The language of a notebook

Written by \`npm run defaults\` from the tables that read it: do not edit. A cell is fenced as \`\`\`\` \`\`\`yaml KIND NAME \`\`\`\`, a \`calc\` cell as
\`\`\`\` \`\`\`calc NAME \`\`\`\`. Every quantity has a unit; any number may be a formula (\`= 2 * 38 kg\`) and may carry its spread (\`± 15 kg\`, \`0.8 .. 1.0\`). Where a
field is left out, [DEFAULTS.md](DEFAULTS.md) says what is taken, with its spread and source. \`axlewatt cells KIND\` prints the same on a terminal.
Prose quotes a result as \`\` \`= dash.time\` \`\`, and with its interval as \`\` \`= dash.time []\` \`\`.
`;

/** The page. */
export function languagePage(): string {
  return [HEAD, ...[...partFields].map(part), ...CELL_KINDS.map(cell), schedules(), parts()].join('\n');
}

function part([kind, fields]: readonly [string, Fields]): string {
  return `## A ${kind}\n\n${table(fields)}`;
}

function cell({ kind, doc, fields, notes: own = [] }: (typeof CELL_KINDS)[number]): string {
  const answers = RUN_KINDS.filter(run => run.kind === kind || run.within?.cell === kind);
  const notes = [...own, ...answers.flatMap(run => run.notes ?? [])].map(note => `- ${text(note)}\n`).join('');
  const outputs = [
    ...answers.map(run => [run.kind, run.outputs] as const),
    ...(kind === 'weigh' ? [['weigh', weighOutputs] as const] : []),
  ];
  const told = outputs.map(
    ([name, each]) => `What ${name === kind ? 'it' : `with \`${name}\` it`} answers with:\n\n${answered(each)}`,
  );
  const said = Object.keys(fields).length === 0 ? '' : `${table(fields)}\n`;
  return [`## \`${kind}\`\n\n${doc}.\n`, notes, said, ...told].filter(text => text !== '').join('\n');
}

function table(fields: Fields): string {
  return `| field | what may stand there | |\n| --- | --- | --- |\n${rows(fields, '')}`;
}

function rows(fields: Fields, above: string): string {
  return Object.entries(fields)
    .map(([key, field]) => {
      const path = above === '' ? notebookKey(key) : `${above}.${notebookKey(key)}`;
      const own = `| \`${path}\`${field.required === true ? ' (required)' : ''} | ${text(whatStands(field))} | ${text(field.doc)} |\n`;
      if (field.kind === 'group' && field.part === '') return own + rows(field.fields, path);
      return field.kind === 'groups' ? own + rows(field.fields, `${path}[]`) : own;
    })
    .join('');
}

function whatStands(field: Field): string {
  if (field.kind === 'number') return `${describeField(field)}; ${describeLimits(field, 'metric')}`;
  if (field.kind === 'text') return 'a text';
  return field.kind === 'group' && field.part !== '' ? `a ${field.part}: its name, or a group` : describeField(field);
}

function answered(outputs: { readonly [key: string]: Output }): string {
  const lines = Object.entries(outputs).map(([key, { unit, display, label, doc }]) => {
    const units = unit === '' ? 'word' : unitLabel(display.metric) || 'number';
    return `| \`${key}\` | ${units} | ${text(`${label}: ${doc}`)} |\n`;
  });
  return `| name | unit | meaning |\n| --- | --- | --- |\n${lines.join('')}`;
}

function schedules(): string {
  const lines = scheduleNames.map(name => {
    const schedule = scheduleNamed(name);
    const { distance, duration, meanSpeed, maxSpeed } = statistics(schedule);
    const [mean, most] = [meanSpeed, maxSpeed].map(speed => formatQuantity(speed, 'm/s', 'km/h'));
    return `| \`${name}\` | ${(distance / 1000).toFixed(2)} km | ${duration.toFixed(0)} s | ${mean} | ${most} | ${text(schedule.source)} |\n`;
  });
  return `## Schedules that ship\n\n| name | length | time | mean | greatest | source |\n| --- | --- | --- | --- | --- | --- |\n${lines.join('')}`;
}

function parts(): string {
  const lines = shippedParts().map(({ kind, name, title }) => `| \`${name}\` | ${kind} | ${text(title)} |\n`);
  return `## Parts that ship\n\nTheir numbers, with sources and spreads, stand in [DEFAULTS.md](DEFAULTS.md).\n\n| name | kind | |\n| --- | --- | --- |\n${lines.join('')}`;
}

/** A bar would end the cell of a table, a brace or an angle is none of the page. */
function text(words: string): string {
  return words.replaceAll('|', '\\|').replaceAll('<', '&lt;');
}
