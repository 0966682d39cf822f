/** The old European cycle without gear-change holds: break points of s and km/h in turn, straight lines between them. */

/** The elementary urban cycle, driven four times. */
export const URBAN = `
0 0  11 0  15 15  23 15  28 0  49 0  55 15  61 32  85 32  96 0
117 0  123 15  134 35  143 50  155 50  163 35  178 35  188 0  195 0`;

/** The extra-urban part, from its own 0 s. */
export const EXTRA_URBAN = `
0 0  20 0  26 15  37 35  47 50  61 70  111 70  119 50  188 50  201 70
251 70  286 100  316 100  336 120  346 120  362 80  370 50  380 0  400 0`;
