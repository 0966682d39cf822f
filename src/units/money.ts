/** Sums of money, which stand without their currency: whatever money is meant. */

/** Signs, codes (ISO 4217) and words; a hundredth of one counts as such. */
const CURRENCY = /\p{Sc}|\b(?:EUR|USD|GBP|CHF|SEK|NOK|DKK|PLN|CZK|euros?|dollars?)\b/u;
const HUNDREDTH = /\b(?:ct|cents?)\b|¢/u;
const PLAIN = /^[+\-−]?(?:\d+(?:\.\d*)?|\.\d+)$/u;

/** What to write in place of a sum of money with its currency, '' where that is not clear; null where there is none. */
export function withoutMoney(body: string): string | null {
  const cents = HUNDREDTH.exec(body);
  const sign = cents ?? CURRENCY.exec(body);
  if (sign === null) return null;
  const rest = body.replace(sign[0], '').trim();
  const [amount = '', per = ''] = rest.split(/\s*(?:\/|\bper\b)\s*/u);
  if (!PLAIN.test(amount)) return '';
  const number = cents === null ? amount : String(Number((Number(amount.replace('−', '-')) / 100).toPrecision(12)));
  return per === '' ? number : `${number} 1/${per}`;
}
