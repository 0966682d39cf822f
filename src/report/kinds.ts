/** What a report says of every kind of result. A new one is an entry here. */
import type { Result } from '../runs/result.ts';
import type { ReportKind } from './kind.ts';
import { chargeReport } from './kinds/charge.ts';
import { coastReport } from './kinds/coast.ts';
import { coastDownReport } from './kinds/coast-down.ts';
import { compareReport } from './kinds/compare.ts';
import { dutyReport } from './kinds/duty.ts';
import { launchLogReport } from './kinds/launch-log.ts';
import { launchReport } from './kinds/launch-body.ts';
import { rankReport } from './kinds/rank.ts';
import { repeatReport } from './kinds/repeat.ts';
import { seasonReport } from './kinds/season.ts';
import { seekReport } from './kinds/seek.ts';
import { sheetReport } from './kinds/sheet.ts';
import { spreadReport } from './kinds/spread.ts';
import { standardReport } from './kinds/standard.ts';
import { steadyReport } from './kinds/steady.ts';
import { sweepReport } from './kinds/sweep.ts';
import { driveReport, rangeReport } from './kinds/trip.ts';
import { weighReport } from './kinds/weigh.ts';

const KINDS: readonly ReportKind[] = [
  weighReport,
  launchReport,
  sheetReport,
  repeatReport,
  driveReport,
  rangeReport,
  standardReport,
  steadyReport,
  chargeReport,
  coastReport,
  coastDownReport,
  dutyReport,
  launchLogReport,
  seasonReport,
  compareReport,
  sweepReport,
  spreadReport,
  rankReport,
  seekReport,
];

const BY_NAME: ReadonlyMap<string, ReportKind> = new Map(KINDS.map(each => [each.kind, each]));

/** @throws RangeError for a kind of result that no report knows. */
export function reportOf({ kind }: Result): ReportKind {
  const found = BY_NAME.get(kind);
  if (found === undefined) throw new RangeError(`no report on a ${kind}; known are ${[...BY_NAME.keys()].join(', ')}`);
  return found;
}
