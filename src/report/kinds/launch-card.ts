/** A launch in the answer: its time, what holds it back, and the questions that are put to every launch. */
import { cutBands } from '../../plots/kit/bands.ts';
import { COLOUR, INK_ON, SIGN } from '../../plots/kit/palette.ts';
import { summaryNumber } from '../../plots/kit/series.ts';
import type { Result } from '../../runs/result.ts';
import type { System } from '../../units.ts';
import type { Card, Small } from '../card.ts';
import { goalOf, verdict, type Wasted } from './launch.ts';

const WORDS: { readonly [word in Wasted]: string } = {
  yes: 'Yes.',
  partly: 'In part.',
  hardly: 'Hardly.',
  no: 'No.',
  unknown: 'Not known.',
};

export function launchCard(result: Result, system: System): Card {
  const { headline, held, wasted, tyres, control, spins, levers, enough } = verdict(result, system);
  // A car that does not move off is held back by nothing else than what has just been said.
  if (result.bands.length === 0) return { headline, text: '', small: null, asked: [] };
  const questions = [
    { question: 'What holds it back?', word: '', answer: held },
    {
      question: 'Do the tyres waste the power?',
      word: WORDS[wasted],
      answer: tyres,
      aside: wasted === 'no' || (wasted === 'hardly' && ('crowded' as const)),
    },
    // Where all of the power gets to the road, nobody has to read that traction control saves nothing.
    { question: 'What is traction control worth?', word: '', answer: wasted === 'no' ? '' : control, aside: !spins },
    { question: 'What would help?', word: '', answer: levers, aside: 'crowded' as const },
    { question: 'What is enough?', word: '', answer: enough.join(' '), aside: true },
  ];
  return { headline, text: '', small: strip(result, system), asked: questions.filter(({ answer }) => answer !== '') };
}

/** px that the strip in a card has at least, and of a letter. */
const STRIP = 170;
const LETTER = 6.5;

/** The limiter band as far as the headline goes. */
function strip(result: Result, system: System): Small {
  const end = summaryNumber(result, goalOf(result, system)[0]) ?? result.bands.at(-1)?.to ?? 0;
  const pieces = cutBands(result.bands, end).map(({ from, to, limiter }) => {
    const share = (to - from) / end;
    const long = `${SIGN[limiter]} · ${limiter}`;
    const word = share * STRIP > long.length * LETTER + 8 ? long : share * STRIP > 11 ? SIGN[limiter] : '';
    return { what: limiter, sign: SIGN[limiter], share, word, colour: COLOUR[limiter], ink: INK_ON[limiter] };
  });
  return { kind: 'strip', pieces };
}
