/** What scripts of one page tell each other: it is about to be put anew, and it has been. */
export const RENEW = 'axlewatt-renew';
export const RENEWED = 'axlewatt-renewed';
