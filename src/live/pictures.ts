/// <reference lib="dom" />
/** The script of every page: pictures are saved, and say their values where a reader points; those that share an axis share the place. */
import { followPointer } from './pointer.ts';
import { offerSaving } from './saving.ts';

offerSaving();
followPointer();
