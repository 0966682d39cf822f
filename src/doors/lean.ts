/** `axlewatt/lean`: a launch and a range in as few bytes as there can be, for pages. */
export { launch, range } from '../runs/lean.ts';
