/** Why a log gives no figure, as a sentence without a full stop, and what would help. */
export interface Shortcoming {
  readonly what: string;
  readonly cure: string;
}
