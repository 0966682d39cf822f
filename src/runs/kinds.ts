/** Every kind of question that can be put to a car. A new one is an entry here. */
import { chargeKind } from './charge/kind.ts';
import { coastKind } from './coast/kind.ts';
import { dutyKind } from './duty/kind.ts';
import type { RunKind } from './kind.ts';
import { launchKind } from './launch/kind.ts';
import { repeatKind } from './launch/repeat-kind.ts';
import { sheetKind } from './sheet/kind.ts';
import { standardKind } from './standard/kind.ts';
import { driveKind, rangeKind, steadyKind } from './trip/kinds.ts';

export const RUN_KINDS: readonly RunKind[] = [
  launchKind,
  sheetKind,
  repeatKind,
  driveKind,
  rangeKind,
  standardKind,
  steadyKind,
  chargeKind,
  coastKind,
];

/** What is asked of other runs, and of no car by itself. */
const OF_RUNS: readonly RunKind[] = [dutyKind(runKindOf)];

const BY_NAME: ReadonlyMap<string, RunKind> = new Map([...RUN_KINDS, ...OF_RUNS].map(each => [each.kind, each]));

/** @throws RangeError where there is none of that name. */
export function runKindOf(kind: string): RunKind {
  const found = BY_NAME.get(kind);
  if (found === undefined)
    throw new RangeError(`no kind of run "${kind}"; known are ${[...BY_NAME.keys()].join(', ')}`);
  return found;
}

/** What a figure of a kind of run is called now that was called otherwise before; '' where it never was, or where there is no such kind. */
export function renamedFigure(kind: string, key: string): string {
  const kinds = [...BY_NAME.values()].filter(each => each.kind === kind || each.within?.cell === kind);
  return kinds.map(({ renamed }) => renamed?.[key]).find(name => name !== undefined) ?? '';
}
