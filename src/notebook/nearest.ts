export { nearest } from '../units/nearest.ts';
