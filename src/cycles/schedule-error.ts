/** Something that nobody can drive. */
export class ScheduleError extends RangeError {
  readonly code = 'schedule';
  /** What of it, as a program writes it: `speed[3]`, `parts[1].seconds`. */
  readonly path: string;
  constructor(path: string, message: string) {
    super(`${path}: ${message}`);
    this.name = 'ScheduleError';
    this.path = path;
  }
}
