/** `axlewatt/studies`: many answers at once. */
export { studyOf, studyOfRuns } from '../studies/question/figures.ts';
export type { Study, StudyFigure, StudyRun } from '../studies/question/figures.ts';
export { axisAlong } from '../studies/question/axis.ts';
export type { Axis, AxisSpec } from '../studies/question/axis.ts';
export { uncertainOf } from '../notebook/uncertain-inputs.ts';
export type { Uncertain } from '../studies/sampling/uncertain.ts';
export { compare } from '../studies/answers/compare.ts';
export type { CompareSpec } from '../studies/answers/compare-spec.ts';
export { rank } from '../studies/answers/rank.ts';
export type { Choice, RankOptions } from '../studies/answers/rank.ts';
export { seek } from '../studies/answers/seek.ts';
export type { Condition } from '../studies/answers/seek.ts';
export type { SeekGoal } from '../studies/search/problem.ts';
export { spread } from '../studies/answers/spread.ts';
export type { MonteCarloPlan } from '../studies/statistics/monte-carlo.ts';
export { sweep } from '../studies/answers/sweep.ts';
export type { Wish } from '../studies/answers/sweep.ts';
