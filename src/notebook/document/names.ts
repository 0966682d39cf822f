/** The names of a notebook: its cells, and the values that formulas may use without the name of their cell. */

/** What is known of a cell before it runs. */
export interface KnownCell {
  readonly name: string;
  readonly kind: string;
  /** 1-based line of its fence. */
  readonly line: number;
  /** Names of values that may stand alone, where no other cell defines them too. */
  readonly defines: readonly string[];
}

export interface Names {
  readonly cells: readonly KnownCell[];
  cell(name: string): KnownCell | undefined;
  /** Cells that define a value of this name. */
  definers(name: string): readonly string[];
  /** `total` as `sums.total` where one cell defines it; other paths as they are. */
  fullPath(path: string): string;
  /** The cell behind a path; undefined for a path that leads to none. */
  owner(path: string): KnownCell | undefined;
  /** Values that may stand alone. */
  alone(): string[];
}

/** Names of the cells are unique. */
export function namesOf(cells: readonly KnownCell[]): Names {
  const byName = new Map(cells.map(cell => [cell.name, cell]));
  const definers = new Map<string, string[]>();
  for (const cell of cells) {
    for (const name of cell.defines) definers.set(name, [...(definers.get(name) ?? []), cell.name]);
  }
  const fullPath = (path: string): string => {
    if (byName.has(headOf(path))) return path;
    const [only, second] = definers.get(path) ?? [];
    return only !== undefined && second === undefined ? `${only}.${path}` : path;
  };
  return {
    cells,
    cell: name => byName.get(name),
    definers: name => definers.get(name) ?? [],
    fullPath,
    owner: path => byName.get(headOf(fullPath(path))),
    alone: () => [...definers].flatMap(([name, by]) => (by.length === 1 && !byName.has(name) ? [name] : [])),
  };
}

/** `dash` of `dash.time_to_100_km_h`. */
export function headOf(path: string): string {
  const dot = path.indexOf('.');
  return dot < 0 ? path : path.slice(0, dot);
}

/** `time_to_100_km_h` of `dash.time_to_100_km_h`; '' for a path of one name. */
export function tailOf(path: string): string {
  const dot = path.indexOf('.');
  return dot < 0 ? '' : path.slice(dot + 1);
}
