/** kg of a person in a car with what they carry: Directive 92/21/EEC (from memory). */
export const PERSON = 75;

/** Where that comes from. */
export const PERSON_SOURCE = 'Directive 92/21/EEC (from memory)';
