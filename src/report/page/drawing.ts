/** A drawing, and why there is none: what who asks for pictures knows of them without the library that draws. */

export interface Drawing {
  readonly svg: string;
  /** What the drawing library complained about; empty in a healthy picture. */
  readonly warnings: readonly string[];
}

/** A spec that can not be drawn, with a reason that a reader of the notebook can use. */
export class DrawingError extends Error {
  constructor(reason: string, options?: ErrorOptions) {
    super(reason, options);
    this.name = 'DrawingError';
  }
}
