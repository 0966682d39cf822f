/** `axlewatt/notebook`: notebooks in, outcomes out. */
export { runNotebook } from '../notebook/run.ts';
export type {
  Block,
  CellBlock,
  CheckOutcome,
  NamedValue,
  NotebookOutcome,
  ProseBlock,
} from '../notebook/document/outcome.ts';
export { NotebookProblem, problemText } from '../notebook/document/problem.ts';
export type { ProblemData } from '../notebook/document/problem.ts';
export { readCar } from '../notebook/read-car.ts';
export type { ReadCar, ReadCarOptions } from '../notebook/read-car.ts';
export { readLossTable, readTorqueTable } from '../notebook/files/map-file.ts';
