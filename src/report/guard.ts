/** Keeps a fault of ours in one part of a report from taking the other parts along. */
import { faultAt } from '../notebook/document/located.ts';
import type { ProblemData } from '../notebook/document/problem.ts';

/** What a part is about: a cell by its name and the line of its fence. */
export interface About {
  readonly name: string;
  readonly line: number;
}

export interface Guard {
  /** What `make` gives; where it fails, what `instead` makes of the fault. */
  part<T>(about: About, make: () => T, instead: (fault: ProblemData) => T): T;
  /** The same for what takes its time. */
  later<T>(about: About, make: () => Promise<T>, instead: (fault: ProblemData) => T): Promise<T>;
  /** All that failed so far. */
  readonly faults: readonly ProblemData[];
}

/** @param file of the notebook. @param task that is done in parts, such as `the report`. */
export function createGuard(file: string, task: string): Guard {
  const faults: ProblemData[] = [];
  const told = ({ name, line }: About, error: unknown): ProblemData => {
    const fault = faultAt({ file, line, column: 1, length: 1, source: '' }, name, task, error);
    faults.push(fault);
    return fault;
  };
  return {
    faults,
    part(about, make, instead) {
      try {
        return make();
      } catch (error) {
        return instead(told(about, error));
      }
    },
    async later(about, make, instead) {
      try {
        return await make();
      } catch (error) {
        return instead(told(about, error));
      }
    },
  };
}
