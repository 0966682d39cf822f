/** Mutations of a notebook, each with what must come out of it. The same seed gives the same mutations. */

/** What must come out. */
export type Expected =
  /** A problem in one of these lines that says this, with the cure that begins like this. */
  | {
      readonly outcome: 'problem';
      readonly lines: readonly number[];
      readonly says?: RegExp;
      readonly nearest?: string;
    }
  /** The same numbers in every launch to 1e-9, and no problem. */
  | { readonly outcome: 'same' }
  /** Either of the two, or a result of another launch. */
  | { readonly outcome: 'sound' };

export interface Mutation {
  /** What was done, for the name of the test. */
  readonly what: string;
  readonly text: string;
  readonly expected: Expected;
  /** Launches that do not use what was changed, and must come out as before. */
  readonly spared: readonly string[];
}

/** Random numbers from 0 to 1: mulberry32 (T. Ettinger, in the public domain; from memory). */
function random(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** A line `key: value` in a YAML cell. */
interface Field {
  /** 1-based. */
  readonly line: number;
  readonly cell: string;
  readonly key: string;
  readonly value: string;
}

/** A notebook to mutate: its lines, its cells, its fields. */
class Original {
  readonly lines: readonly string[];
  readonly fields: readonly Field[];
  /** Lines of the opening fences by the name of the cell. */
  readonly fences: ReadonlyMap<string, number>;
  readonly #users: ReadonlyMap<string, readonly string[]>;
  readonly #next: () => number;

  /** `users`: launches that use a cell, by its name; a cell that is not there is used by none. */
  constructor(text: string, users: ReadonlyMap<string, readonly string[]>, seed: number) {
    this.lines = text.split('\n');
    this.#users = users;
    this.#next = random(seed);
    const fields: Field[] = [];
    const fences = new Map<string, number>();
    let cell = '';
    for (const [index, source] of this.lines.entries()) {
      const opened = /^```(?:yaml \w+|calc) (\w+)$/.exec(source)?.[1];
      if (opened !== undefined) fences.set(opened, index + 1);
      if (source.startsWith('```')) cell = opened ?? '';
      const [, key, value] = /^ *(\w+): ([^#]*[^#\s])(?: +#.*)?$/.exec(source) ?? [];
      if (cell !== '' && key !== undefined && value !== undefined) fields.push({ line: index + 1, cell, key, value });
    }
    this.fields = fields;
    this.fences = fences;
  }

  below(count: number): number {
    return Math.floor(this.#next() * count);
  }

  pick<T>(from: readonly T[]): T {
    return from[this.below(from.length)]!;
  }

  /** Some of them, each once, in random order. */
  some<T>(from: readonly T[], count: number): T[] {
    const left = [...from];
    return Array.from({ length: Math.min(count, left.length) }, () => left.splice(this.below(left.length), 1)[0]!);
  }

  numbers(): Field[] {
    return this.fields.filter(({ value }) => /^\d/.test(value) && !/ R \d/.test(value));
  }

  withUnit(): Field[] {
    return this.numbers().filter(({ value }) => /[A-Za-z]/.test(value));
  }

  references(): Field[] {
    return this.fields.filter(({ value, key }) => /^\w*_\w*$/.test(value) && key !== 'kind');
  }

  field(cell: string, key: string): Field {
    return this.fields.find(field => field.cell === cell && field.key === key)!;
  }

  fence(cell: string): number {
    return this.fences.get(cell)!;
  }

  spared(cell: string): string[] {
    const used = this.#users.get(cell) ?? [];
    return [...this.#users.get('all')!].filter(launch => !used.includes(launch));
  }

  /** The text with one line in another wording. */
  with(line: number, wording: string | ((source: string) => string)): string {
    const source = this.lines[line - 1]!;
    const changed = typeof wording === 'string' ? wording : wording(source);
    return this.lines.with(line - 1, changed).join('\n');
  }

  /** Another value in a field, which must be told in its line. */
  refused(
    field: Field,
    value: string,
    expected: Omit<Expected & { outcome: 'problem' }, 'outcome' | 'lines'> = {},
  ): Mutation {
    return {
      what: `${field.cell}.${field.key}: ${value.slice(0, 60)}`,
      text: this.with(field.line, source => source.replace(`: ${field.value}`, () => `: ${value}`)),
      expected: { outcome: 'problem', lines: [field.line], ...expected },
      spared: this.spared(field.cell),
    };
  }

  /** Another wording of the same value. */
  same(field: Field, value: string): Mutation {
    return { ...this.refused(field, value), expected: { outcome: 'same' } };
  }

  /** Another text that means the same. */
  alike(what: string, text: string): Mutation {
    return { what, text, expected: { outcome: 'same' }, spared: [] };
  }
}

/** A word with one letter doubled, left out, or changed for its neighbour; figures stay, for those name another thing. */
function misspelled(word: string, original: Original): string {
  const places = [...word.matchAll(/(?<=[a-z])[a-z](?=[a-z])/g)].map(match => match.index);
  const at = original.pick(places);
  const [head, letter, next, tail] = [word.slice(0, at), word.charAt(at), word.charAt(at + 1), word.slice(at + 2)];
  const [doubled, left, swapped] = [
    head + letter + letter + next + tail,
    head + next + tail,
    head + next + letter + tail,
  ];
  return original.pick(swapped === word ? [doubled, left] : [doubled, left, swapped]);
}

type Class = (original: Original) => Mutation[];

const wrongUnit: Class = original =>
  original
    .some(original.withUnit(), 14)
    .map(field =>
      original.refused(
        field,
        `12 ${field.value.includes('kg') ? 's' : original.pick(['kg', 'kWh', 'V A s', 'kg m^2'])}`,
      ),
    );

const unknownUnit: Class = original =>
  original
    .some(original.withUnit(), 12)
    .map(field => original.refused(field, `12 ${original.pick(['kgs', 'stones', 'metre5', 'degX', 'Kmm', 'cubits'])}`));

const missingUnit: Class = original =>
  original.some(original.withUnit(), 12).map(field => original.refused(field, '12', { says: /no unit/ }));

const negative: Class = original =>
  original
    .some(
      original.numbers().filter(({ key }) => key !== 'temperature' && key !== 'altitude'),
      12,
    )
    .map(field =>
      original.refused(field, `-${/^[^±.]*(?:\.\d+)?[^±.]*/.exec(field.value)![0].trim()}`, { says: /too small/ }),
    );

const huge: Class = original =>
  original.some(original.numbers(), 15).map(field => {
    const unit = /[A-Za-z%]+$/.exec(field.value)?.[0] ?? '';
    return original.refused(field, `${original.pick(['1e999', '1e308', '9e30', '9'.repeat(400)])} ${unit}`.trim());
  });

const noNumber: Class = original =>
  original
    .some(original.numbers(), 16)
    .map((field, k) =>
      original.refused(
        field,
        [
          'NaN',
          '.nan',
          '.inf',
          '-.inf',
          'Infinity',
          'null',
          '~',
          'true',
          '""',
          '0x1F',
          '1,5 m',
          '1 010 kg',
          '١٢',
          '1__0',
          '--5',
          'undefined',
        ][k]!,
      ),
    );

const misspelledKey: Class = original =>
  original
    .some(
      original.fields.filter(({ key }) => key.length > 4),
      16,
    )
    .map(field => {
      const wrong = misspelled(field.key, original);
      return {
        what: `${field.cell}: ${wrong}`,
        text: original.with(field.line, source => source.replace(field.key, wrong)),
        expected: { outcome: 'problem', lines: [field.line], nearest: field.key },
        spared: original.spared(field.cell),
      };
    });

const misspelledReference: Class = original =>
  original
    .some(original.references(), 12)
    .map(field => original.refused(field, misspelled(field.value, original), { nearest: field.value }));

const misspelledHead: Class = original => [
  ...original.some([...original.fences], 5).map(([name, line]): Mutation => {
    const kind = original.lines[line - 1]!.split(' ').at(-2)!.replace('```', '');
    return {
      what: `${kind} as ${kind.slice(0, -1)}${kind.at(-1)}${kind.at(-1)}`,
      text: original.with(line, source => source.replace(kind, kind + kind.at(-1))),
      // What is no kind of cell at all stays a fence of prose: those who use it say what is missing.
      expected: { outcome: 'problem', lines: kind === 'calc' ? linesWith(original, /gain\./) : [line] },
      spared: original.spared(name),
    };
  }),
  ...original
    .some(
      [...original.fences].filter(([name]) => name !== 'promises'),
      5,
    )
    .map(
      ([name, line]): Mutation => ({
        what: `${name} under another name`,
        text: original.with(line, source => `${source}x`),
        expected: { outcome: 'problem', lines: linesWith(original, new RegExp(`\\b${name}\\b`)), nearest: `${name}x` },
        spared: original.spared(name).filter(launch => launch !== name),
      }),
    ),
  ...['1st', 'a-b', 'a b', '__proto__', '<script>', 'ü', '../x', '"; DROP'].map((name): Mutation => {
    const line = original.fence('road_tyres');
    return {
      what: `a cell called ${name}`,
      text: original.with(line, `\`\`\`yaml part ${name}`),
      expected: { outcome: 'problem', lines: [line] },
      spared: original.spared('road_tyres'),
    };
  }),
];

function linesWith(original: Original, pattern: RegExp): number[] {
  return original.lines.flatMap((source, k) => (pattern.test(source) ? [k + 1] : []));
}

const doubled: Class = original => [
  ...original.some(original.fields, 5).map((field): Mutation => {
    const source = original.lines[field.line - 1]!;
    const group = original.lines[field.line]!.endsWith(':');
    return {
      what: `${field.cell}.${field.key} twice`,
      text: original.with(field.line, `${source}\n${source}`),
      expected: { outcome: 'problem', lines: [field.line, field.line + (group ? 0 : 1)], says: /twice/ },
      spared: original.spared(field.cell),
    };
  }),
  ...original.some([...original.fences], 4).map(
    ([name, line]): Mutation => ({
      what: `${name} twice`,
      text: `${original.lines.join('\n')}\n\n${original.lines[line - 1]}\nx: 1\n\`\`\`\n`,
      expected: { outcome: 'problem', lines: [original.lines.length + 2], says: /used twice/ },
      spared: original.spared(''),
    }),
  ),
];

const leftOut: Class = original =>
  [
    original.field('pass_estate', 'mass'),
    original.field('pass_estate', 'ratio'),
    original.field('pass_estate', 'series'),
    original.field('old_tyres', 'kind'),
    original.field('road', 'car'),
    original.field('road_tyres', 'kind'),
  ].map(
    (field): Mutation => ({
      what: `${field.cell} without ${field.key}`,
      text: original.with(field.line, '# left out'),
      expected: {
        outcome: 'problem',
        lines: Array.from(
          { length: field.line - original.fence(field.cell) + 2 },
          (_, k) => original.fence(field.cell) + k,
        ),
        says: /is missing/,
      },
      spared: original.spared(field.cell),
    }),
  );

/** What is no YAML that a cell takes; each stands in place of one line. */
const BROKEN = [
  'wheelbase: [2.46 m',
  'wheelbase: {2.46 m',
  'wheelbase: "2.46 m',
  "wheelbase: 'x' y",
  '\twheelbase: 2.46 m',
  'wheelbase: 2.46 m: 3',
  'wheelbase 2.46 m',
  'wheelbase: &m 2.46 m',
  'wheelbase: *m',
  'wheelbase: !!js/function "() => 1"',
  'wheelbase: !!binary AAAA',
  'wheelbase: !!float 2.46',
  '<<: *base',
  '<<: { wheelbase: 2.46 m }',
  '? [wheelbase]\n: 2.46 m',
  '%YAML 1.1',
  '---\nwheelbase: 2.46 m',
  '- wheelbase',
  'wheelbase: |\n  2.46 m\n  more',
  'wheelbase: @2.46',
  'wheelbase: `2.46`',
  'wheelbase:\n  - 2.46 m',
  'wheelbase:\n  kg: 2.46',
  '[wheelbase]: 2.46 m',
  '{}: 1',
  'wheelbase: 2.46 m }',
  '__proto__: { wheelbase: 1 kg }',
  'constructor: 1',
  ': 2.46 m',
];

const brokenYaml: Class = original => {
  const { line } = original.field('pass_estate', 'wheelbase');
  return BROKEN.map(wording => ({
    what: wording,
    text: original.with(line, wording),
    expected: { outcome: 'problem', lines: [line, line + 1, line + 2] },
    spared: [],
  }));
};

const deep: Class = original => {
  const mass = original.field('pass_estate', 'mass');
  const nested = [20, 299, 5000, 100_000].flatMap(depth => [
    '['.repeat(depth),
    '['.repeat(depth) + ']'.repeat(depth),
    `${'{a: '.repeat(depth)}1${'}'.repeat(depth)}`,
    `= ${'('.repeat(depth)}1 kg${')'.repeat(depth)}`,
    `= ${'-'.repeat(depth)}1 kg`,
    `= 1 kg${' + 1 kg'.repeat(depth)}${' * 1 kg'.repeat(3)}`,
  ]);
  return nested.map(value => original.refused(mass, value));
};

/** Attempts at code, and words that mean something to the language underneath. */
const CODE = [
  'process.exit(1)',
  'constructor.constructor("return process")()',
  'import("fs")',
  'require("fs")',
  'eval("1")',
  'cos.constructor("return 1")()',
  'x => x',
  'f(x) = x',
  '[1, 2, 3]',
  '{a: 1}',
  '1 kg; 2 kg',
  'this',
  '__proto__',
  'pass_estate.__proto__.mass',
  'as_it_is.constructor',
  'toString()',
  'valueOf',
  'hasOwnProperty("mass")',
  '"a".length',
  '`${1}`',
  'unit("1 kg")',
  'createUnit("foo")',
  'mass[0]',
  'mass = 3 kg',
  '/(a+)+$/',
  '9^9^9^9 kg',
  '1/0 * 1 kg',
  '0/0 kg',
  'sqrt(-1) * 1 kg',
  '(-8)^(1/3) kg',
  'random() kg',
  'while(1){}',
  'new Function("return 1")()',
  '1 kg // comment',
  'i kg',
  'true kg',
];

const code: Class = original => {
  const mass = original.field('pass_estate', 'mass');
  const calc = original.fence('gain') + 1;
  const check = original.lines.indexOf('- road.time_to_100_km_h < 8 s') + 1;
  return [
    ...CODE.map(formula => original.refused(mass, `= ${formula}`)),
    ...original.some(CODE, 6).map(
      (formula): Mutation => ({
        what: `in a calc cell: ${formula}`,
        text: original.with(calc, `hack = ${formula}`),
        expected: { outcome: 'problem', lines: [calc] },
        spared: original.spared('gain'),
      }),
    ),
    ...original.some(CODE, 6).map(
      (formula): Mutation => ({
        what: `in a check: ${formula}`,
        text: original.with(check, `- '${formula.replaceAll("'", "''")} > 1'`),
        expected: { outcome: 'problem', lines: [check] },
        spared: original.spared(''),
      }),
    ),
    ...original
      .some(
        CODE.filter(formula => !formula.includes('`')),
        6,
      )
      .map(
        (formula): Mutation => ({
          what: `in prose: ${formula}`,
          text: `${original.lines.join('\n')}\n\`= ${formula}\`\n`,
          expected: { outcome: 'problem', lines: [original.lines.length + 1] },
          spared: original.spared(''),
        }),
      ),
  ];
};

const circles: Class = original => {
  const circle = (cell: string, key: string, value: string): Mutation => ({
    ...original.refused(original.field(cell, key), value, { says: /in a circle/ }),
  });
  return [
    circle('pass_estate', 'mass', '= pass_estate.mass'),
    circle('pass_estate', 'mass', '= 1 kg * as_it_is.time_to_100_km_h / 1 s'),
    circle('pass_estate', 'mass', '= 1 kg * gain.road_tyres_gain / 1 s'),
    circle('pass_estate', 'wheelbase', '= 1 m * sport_tyres_gain / 1 s'),
    circle('pass_estate', 'tyres', '{ from: old_tyres, radius: = road.time * 1 m/s }'),
    circle('road_tyres', 'from', 'road_tyres'),
    circle('on_road_tyres', 'from', 'on_road_tyres'),
    circle('road', 'altitude', '= road.top_speed * 1 s'),
    circle('wet', 'temperature', '= 1 K * wet.time / 1 s'),
  ];
};

const damagedFence: Class = original => {
  const last = original.fence('wet');
  const road = original.fence('road');
  const closing = original.lines.indexOf('```', last) + 1;
  const sound = (what: string, text: string, spared: readonly string[]): Mutation => ({
    what,
    text,
    expected: { outcome: 'sound' },
    spared,
  });
  return [
    {
      what: 'never closed',
      text: original.lines.slice(0, closing - 1).join('\n'),
      expected: { outcome: 'problem', lines: [last] },
      spared: ['as_it_is', 'road', 'sport'],
    },
    sound('closing fence gone', original.with(closing, ''), ['as_it_is', 'road', 'sport']),
    sound('opening fence gone', original.with(last, ''), ['as_it_is', 'road', 'sport']),
    sound(
      'fence of two',
      original.with(last, source => source.slice(1)),
      ['as_it_is', 'road', 'sport'],
    ),
    {
      what: 'in a quotation',
      text: original.with(road, source => `> ${source}`),
      expected: { outcome: 'problem', lines: [road] },
      spared: [],
    },
    {
      what: 'in a list',
      text: original.with(road, source => `- ${source}`),
      expected: { outcome: 'problem', lines: [road] },
      spared: [],
    },
    sound('cut off anywhere', original.lines.join('\n').slice(0, 500 + original.below(4000)), []),
    sound('nothing at all', '', []),
    sound('one fence', '```', []),
    sound('front matter alone', '---', []),
  ];
};

const frontMatter: Class = original => {
  const units = original.lines.indexOf('units: metric') + 1;
  return [
    ['units: furlongs', /unknown units/],
    ['tilte: x', /unknown key/],
    ['units: [metric]', /single value/],
    ['units: "metric', /never closed/],
    ['units: *a', /aliases/],
    ['units: !!js/function x', /tag/],
    ['__proto__: x', /unknown key/],
    ['title: again', /twice/],
    ['units', /./],
  ].map(
    ([wording, says]): Mutation => ({
      what: `front matter: ${String(wording)}`,
      text: original.with(units, String(wording)),
      expected: { outcome: 'problem', lines: [units, units - 1], says: says as RegExp },
      spared: original.spared(''),
    }),
  );
};

const otherUnits: Class = original => [
  original.same(original.field('pass_estate', 'mass'), `${985 / 0.45359237} lb`),
  original.same(original.field('pass_estate', 'mass'), '985000 g ± 10 kg'),
  original.same(original.field('pass_estate', 'mass'), '0.985 tonne ± 1 %'),
  original.same(original.field('pass_estate', 'mass'), '= 2 * 492.5 kg'),
  original.same(original.field('pass_estate', 'mass'), '= 1 kg * (1000 - 15)'),
  original.same(original.field('pass_estate', 'wheelbase'), '2460 mm'),
  original.same(original.field('pass_estate', 'wheelbase'), `${2.46 / 0.0254} in`),
  original.same(original.field('pass_estate', 'cg_height'), '500 .. 580 mm'),
  original.same(original.field('pass_estate', 'cg_height'), '0.54 m'),
  original.same(original.field('pass_estate', 'charge'), '0.85'),
  original.same(original.field('pass_estate', 'front_share'), '56/100'),
  original.same(original.field('as_it_is', 'altitude'), '0.9 km'),
  original.same(original.field('as_it_is', 'altitude'), '= 1000 m - 100 m'),
  original.same(original.field('as_it_is', 'temperature'), '288.15 K'),
  original.same(original.field('as_it_is', 'temperature'), '59 °F'),
  original.same(original.field('wet', 'temperature'), '8 °C'),
  original.same(original.field('road', 'altitude'), '= 1 m * 9 * 10^2'),
];

const otherWriting: Class = original => {
  const text = original.lines.join('\n');
  const [comment] = linesWith(original, /# on the workshop scales/);
  const [drive] = linesWith(original, /^drive:/);
  return [
    original.alike('CR LF', text.replaceAll('\n', '\r\n')),
    original.alike('CR', text.replaceAll('\n', '\r')),
    original.alike('a byte order mark', `\uFEFF${text}`),
    original.alike('blanks at the ends of lines', text.replaceAll('\n', '  \n').replaceAll('```  ', '```')),
    original.alike(
      'another comment',
      original.with(comment!, source => source.replace(/#.*/, '# = process.exit() <script> \u202e NaN')),
    ),
    original.alike(
      'another title',
      text.replace('title: The guesthouse estate', 'title: "<script>alert(1)</script> =1+1 \u202e"'),
    ),
    original.alike(
      'NUL and lone surrogates in prose',
      `${text}\nA \u0000 \ud800 \ufffd <img src=x onerror=alert(1)>\n`,
    ),
    original.alike('tildes for fences', text.replaceAll('```', '~~~')),
    original.alike('longer fences', text.replaceAll('```', '``````')),
    original.alike(
      'a group in one line',
      original
        .with(drive!, 'drive: { axle: front, unit: unit_200kw, ratio: 8.4 }')
        .replace('  axle: front\n  unit: unit_200kw\n  ratio: 8.4\n', ''),
    ),
    original.alike(
      'cells in another order',
      text
        .replace(/^---\n[^]*?\n---\n/, '')
        .split(/(?=^```(?:yaml|calc) )/m)
        .toReversed()
        .map(piece => `${piece}\n`)
        .join('\n'),
    ),
    original.alike('a fence of another language', `${text}\n\`\`\`js\nprocess.exit()\n\`\`\`\n`),
  ];
};

const SIGNS = '{}[]:,#&*!|>\'"%@=-+.()^/\\ \t\u0000\u202e°½é'.split('');

/** One sign put in, taken out or changed anywhere in a cell. */
const noise: Class = original =>
  Array.from({ length: 40 }, (): Mutation => {
    const field = original.pick(original.fields);
    const source = original.lines[field.line - 1]!;
    const at = original.below(source.length);
    const sign = original.pick(SIGNS);
    const changed = original.pick([
      source.slice(0, at) + sign + source.slice(at),
      source.slice(0, at) + source.slice(at + 1),
      source.slice(0, at) + sign + source.slice(at + 1),
    ]);
    return {
      what: JSON.stringify(changed),
      text: original.with(field.line, changed),
      expected: { outcome: 'sound' },
      spared: original.spared(field.cell),
    };
  });

const CLASSES: { readonly [name: string]: Class } = {
  'a wrong unit': wrongUnit,
  'an unknown unit': unknownUnit,
  'no unit': missingUnit,
  'a negative number': negative,
  'a huge number': huge,
  'no number': noNumber,
  'a misspelled key': misspelledKey,
  'a misspelled reference': misspelledReference,
  'a wrong head': misspelledHead,
  'said twice': doubled,
  'left out': leftOut,
  'broken YAML': brokenYaml,
  'deep nesting': deep,
  'code in a formula': code,
  'a circle': circles,
  'a damaged fence': damagedFence,
  'front matter': frontMatter,
  'other units': otherUnits,
  'other writing': otherWriting,
  noise,
};

/** Launches that use a cell of the guesthouse notebook, by its name. */
const USERS: ReadonlyMap<string, readonly string[]> = new Map(
  Object.entries({
    all: ['as_it_is', 'road', 'sport', 'wet'],
    pass_estate: ['as_it_is', 'road', 'sport', 'wet'],
    old_tyres: ['as_it_is', 'road', 'sport', 'wet'],
    road_tyres: ['road'],
    sport_tyres: ['sport'],
    on_road_tyres: ['road'],
    on_sport_tyres: ['sport'],
    as_it_is: ['as_it_is'],
    road: ['road'],
    sport: ['sport'],
    wet: ['wet'],
  }),
);

/** All mutations of the guesthouse notebook, by class. */
export function mutate(text: string, seed: number): ReadonlyMap<string, readonly Mutation[]> {
  return new Map(
    Object.entries(CLASSES).map(([name, make], k) => [name, make(new Original(text, USERS, seed + 1000 * k))]),
  );
}
