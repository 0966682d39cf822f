/** Checks the YAML of a plot cell and turns it into plain data, with a list of what it needs from the results. */
import { entryOf, type LocatedMap, type LocatedNode, type Place, problemAt } from '../document/located.ts';
import { NotebookProblem } from '../document/problem.ts';
import { expressionColumns } from './plot-expression.ts';
import { encodingOf, mark, resolve, title, transformOf } from './plot-grammar.ts';
import { either, list, mapping, number, pattern, type Shape, text, word } from './shape.ts';

/** A column that a plot uses, and where it says so. */
export interface ColumnUse {
  readonly column: string;
  readonly place: Place;
  /** Series it is looked for in, as written: `dash.time`; '' where no view around it names one. */
  readonly data: string;
}

export interface PlotShape {
  /** The specification with `data` as `{name: reference}`. */
  readonly spec: View;
  /** References to series, each once. */
  readonly data: readonly string[];
  readonly columns: readonly ColumnUse[];
  /** Columns that transforms make. */
  readonly made: ReadonlySet<string>;
  readonly growth: readonly Growth[];
}

/** What the transforms of one view, and those around it, make of the rows of its data. */
export interface Growth {
  /** As in `ColumnUse`. */
  readonly data: string;
  /** Rows behind the transforms for each row before them, at most. */
  readonly factor: number;
  readonly place: Place;
}

/** Plain data of a view, as far as it is worked on afterwards. */
export interface View {
  readonly title?: unknown;
  readonly data?: { readonly name: string };
  readonly encoding?: { readonly [channel: string]: unknown };
  readonly layer?: readonly View[];
  readonly hconcat?: readonly View[];
  readonly vconcat?: readonly View[];
}

/** The deepest nesting of views, and the most of them in one plot. */
const DEEPEST = 4;
const MOST_VIEWS = 24;

/** Checks the specification of the cell with this name. Throws NotebookProblem. */
export function readPlot(map: LocatedMap, cell: string): PlotShape {
  const reader = new PlotReader();
  const spec = reader.view(map, cell) as View;
  return { spec, data: [...reader.data], columns: reader.columns, made: reader.made, growth: reader.growth };
}

const REFERENCE = pattern(
  /^[A-Za-z]\w*(\.[A-Za-z]\w*)?$/,
  'a cell with a result: dash, or one of its series: dash.time',
);
/** Not what every object has: the drawing library would take it for that. */
const NEW_COLUMN = pattern(
  new RegExp(`^(?!(?:${Object.getOwnPropertyNames(Object.prototype).join('|')})$)[A-Za-z]\\w*$`),
  'a name of letters, digits and "_"',
);

/** Rows that the transforms of a view make of one: each `fold` makes one for every column it names. */
function foldsOf(view: LocatedNode): number {
  const steps = view.kind === 'map' ? entryOf(view, 'transform')?.value : undefined;
  return (steps?.kind === 'list' ? steps.items : []).reduce((factor, step) => {
    const fold = step.kind === 'map' ? entryOf(step, 'fold')?.value : undefined;
    return fold?.kind === 'list' ? factor * Math.max(1, fold.items.length) : factor;
  }, 1);
}

/** Collects what the views say while they are checked. */
class PlotReader {
  readonly data = new Set<string>();
  readonly columns: ColumnUse[] = [];
  readonly made = new Set<string>();
  readonly growth: Growth[] = [];
  /** The views around the place that is read, the outermost first: columns belong to the innermost. */
  readonly #around: Pick<Growth, 'data' | 'factor'>[] = [];
  readonly #views: Shape;
  readonly #encoding: Shape;
  readonly #transform: Shape;
  #count = 0;

  constructor() {
    const column: Shape = (node, path) => this.#use(String(text(node, path)), node);
    const made: Shape = (node, path) => {
      const name = NEW_COLUMN(node, path);
      this.made.add(String(name));
      return name;
    };
    this.#encoding = encodingOf(column);
    this.#transform = transformOf(column, made, (node, path) => this.#expression(node, path));
    this.#views = list((node, path) => this.view(node, path), MOST_VIEWS);
  }

  view(node: LocatedNode, path: string): unknown {
    this.#count += 1;
    const wrong =
      this.#count > MOST_VIEWS
        ? `has more than ${MOST_VIEWS} views`
        : this.#around.length >= DEEPEST
          ? `nests views deeper than ${DEEPEST}`
          : '';
    if (wrong !== '') throw new NotebookProblem(problemAt(node, path, wrong));
    const own = node.kind === 'map' ? entryOf(node, 'data')?.value : undefined;
    const outer = this.#around.at(-1) ?? { data: '', factor: 1 };
    const name = own === undefined ? outer.data : String(REFERENCE(own, `${path}.data`));
    if (own !== undefined) this.data.add(name);
    const factor = (own === undefined ? outer.factor : 1) * foldsOf(node);
    this.growth.push({ data: name, factor, place: node });
    this.#around.push({ data: name, factor });
    const keys = node.kind === 'map' ? node.entries.map(({ key }) => key.text) : [];
    const found = mapping({
      data: () => ({ name }),
      title,
      description: text,
      width: either(word('container'), number(20, 2000)),
      height: number(20, 2000),
      mark,
      encoding: this.#encoding,
      transform: this.#transform,
      resolve,
      layer: this.#views,
      hconcat: this.#views,
      vconcat: this.#views,
    })(node, path);
    if (!['mark', 'layer', 'hconcat', 'vconcat'].some(key => keys.includes(key))) {
      throw new NotebookProblem(problemAt(node, path, 'shows nothing', 'a mark, or layer, hconcat or vconcat'));
    }
    this.#around.pop();
    return found;
  }

  #use(column: string, place: Place): string {
    this.columns.push({ column, place, data: this.#around.at(-1)?.data ?? '' });
    return column;
  }

  #expression(node: LocatedNode, path: string): string {
    const source = String(text(node, path));
    let columns: string[];
    try {
      columns = expressionColumns(source);
    } catch (error) {
      const message = error instanceof Error ? error.message : String(error);
      throw new NotebookProblem(problemAt(node, path, message, 'arithmetic over datum.COLUMN'));
    }
    for (const column of columns) this.#use(column, node);
    return source;
  }
}
