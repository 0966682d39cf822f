/** `axlewatt/report`: the outcome of a notebook as a page, a sheet, a text; with Node. */
export { writeReport } from '../report/report.ts';
export type { ReportOptions } from '../report/report.ts';
export { terminalSummary } from '../report/terminal.ts';
export { picture, pictureNames } from '../report/picture.ts';
export type { DrawnPicture, PictureOptions } from '../report/picture.ts';
