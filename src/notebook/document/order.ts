/** In which order cells can run, and which of them need each other in a circle. */

/** One cell as far as the order is concerned. Names are unique. */
export interface Needs {
  readonly name: string;
  /** Names of the cells it uses; names that stand for no cell are passed over here. */
  readonly needs: readonly string[];
}

export interface RunOrder {
  /** Every cell that is in no circle, after all that it needs; otherwise in the order given. */
  readonly order: readonly string[];
  /** Circles in the order they go round, without the first name repeated at the end: a needs b needs a is `[a, b]`. */
  readonly circles: readonly (readonly string[])[];
}

/**
 * Sorts cells so that each stands after what it needs (Kahn, "Topological sorting of large networks", CACM 5, 1962).
 * Where that stops, the rest holds a circle: it is found by walking, reported and taken out, and the sort goes on, so
 * that cells that only need a member of a circle still get their place after it.
 */
export function orderCells(cells: readonly Needs[]): RunOrder {
  const known = new Set(cells.map(cell => cell.name));
  const open = new Map<string, Set<string>>();
  const users = new Map<string, string[]>();
  for (const { name, needs } of cells) {
    const inside = new Set(needs.filter(need => known.has(need)));
    open.set(name, inside);
    for (const need of inside) {
      const known = users.get(need);
      if (known === undefined) users.set(need, [name]);
      else known.push(name);
    }
  }
  const order: string[] = [];
  const circles: string[][] = [];
  const ready = cells.map(cell => cell.name).filter(name => open.get(name)?.size === 0);
  const settle = (name: string) => {
    open.delete(name);
    for (const user of users.get(name) ?? []) {
      const left = open.get(user);
      if (left?.delete(name) === true && left.size === 0) ready.push(user);
    }
  };
  // It grows while it is walked through; taking names off its front would move all others.
  let walked = 0;
  for (;;) {
    for (let name = ready[walked]; name !== undefined; name = ready[++walked]) {
      if (!open.has(name)) continue;
      order.push(name);
      settle(name);
    }
    if (open.size === 0) return { order, circles };
    const circle = findCircle(open);
    circles.push(circle);
    for (const name of circle) settle(name);
  }
}

/** Walks from need to need until a name comes back. Every cell left in `open` needs another one left in it. */
function findCircle(open: ReadonlyMap<string, ReadonlySet<string>>): string[] {
  const path: string[] = [];
  const place = new Map<string, number>();
  let [name] = open.keys();
  while (name !== undefined && !place.has(name)) {
    place.set(name, path.length);
    path.push(name);
    [name] = open.get(name) ?? [];
  }
  return path.slice(place.get(name ?? '') ?? 0);
}
