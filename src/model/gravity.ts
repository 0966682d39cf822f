/** m/s2, standard acceleration of free fall (3rd CGPM 1901; ISO 80000-3). */
export const STANDARD_GRAVITY = 9.80665;
