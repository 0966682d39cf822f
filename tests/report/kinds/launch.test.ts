import { describe, expect, it } from 'vitest';
import { verdict } from '../../../src/report/kinds/launch.ts';
import type { Result, Summary } from '../../../src/runs/result.ts';
import { launch } from '../fixture.ts';

const base = launch({ mu: 0.7, power: 118_000 });

function changed(summary: Summary, reasons: Result['reasons'] = {}): Result {
  return { ...base, summary: { ...base.summary, ...summary }, reasons };
}

const bill = changed({
  time_to_100_km_h: 8.4,
  time_unlimited_grip: 6.1,
  grip_withheld: 0.34,
  grip_free_speed: 57 / 3.6,
});

const plain = (text: string): string => text.replaceAll('\u00a0', ' ');

describe('the verdict', () => {
  it('says what the tyres withhold, what it costs, and where it ends', () => {
    expect(plain(verdict(bill, 'metric').tyres)).toBe(
      'Up to 100 km/h these tyres can not put down 34 % of what the drive unit could give; with unlimited grip ' +
        '100 km/h would take 6.1 s instead of 8.4 s; above 57 km/h grip no longer matters.',
    );
  });

  it('names the same goal in both units where miles are read', () => {
    expect(plain(verdict(bill, 'imperial').tyres)).toContain('Up to 100 km/h (62 mph)');
    // 57 km/h is 35.4 mph (1 mile = 1609.344 m, NIST SP 811).
    expect(plain(verdict(bill, 'imperial').tyres)).toContain('above 35 mph');
  });

  it.each([
    [0.34, 'yes'],
    [0.1, 'partly'],
    [0.004, 'hardly'],
    [0, 'hardly'],
  ])('puts %s in one word: %s', (withheld, word) => {
    expect(verdict(changed({ grip_withheld: withheld }), 'metric').wasted).toBe(word);
  });

  it('does not blame tyres that hold nothing back', () => {
    const never: Result = { ...changed({ grip_withheld: 0 }), bands: [{ from: 0, to: 10, limiter: 'motor power' }] };
    expect(verdict(never, 'metric').wasted).toBe('no');
    expect(verdict(never, 'metric').tyres).toContain('grip is not what holds this car back');
  });

  it('does not deny the time at the limit of tyres that hold next to nothing back', () => {
    const touched: Result = {
      ...changed({ grip_withheld: 0.0002, time_to_100_km_h: 8 }),
      bands: [
        { from: 0, to: 1.3, limiter: 'grip' },
        { from: 1.3, to: 10, limiter: 'motor power' },
      ],
    };
    expect(plain(verdict(touched, 'metric').tyres)).toBe(
      'Up to 100 km/h grip limits for 1.3 s, but takes next to nothing: less than 0.05 % of what the drive unit could give.',
    );
  });

  it('gives the reason in place of a number that is missing', () => {
    const slow = changed(
      { time_to_100_km_h: null, grip_withheld: null },
      { time_to_100_km_h: 'the top speed is 84 km/h', grip_withheld: 'the run ends at 84 km/h.' },
    );
    const { headline, tyres } = verdict(slow, 'metric');
    expect(headline.figure).toBeNull();
    expect(headline.reason).toBe('the top speed is 84 km/h');
    expect(tyres).toContain('How much that is can not be said: the run ends at 84 km/h.');
  });

  it.each([
    [8, 'yes', 'In this run grip limits for 8.0 s of 10.0 s; above 57 km/h grip no longer matters.'],
    [2, 'partly', 'In this run grip limits for 2.0 s of 10.0 s; above 57 km/h grip no longer matters.'],
    [0, 'no', 'In this run grip never limits: the tyres put down all that the drive unit gives.'],
  ])('judges a run that ends before the goal by its own way: %s s at the limit', (limited, word, words) => {
    const short: Result = {
      ...changed({ time_to_100_km_h: null, time: null, grip_withheld: null, grip_free_speed: 57 / 3.6 }),
      bands: [
        { from: 0, to: limited, limiter: 'grip' },
        { from: limited, to: 10, limiter: 'motor power' },
      ],
    };
    const { wasted, tyres } = verdict(short, 'metric');
    expect(wasted).toBe(word);
    expect(plain(tyres).startsWith(words)).toBe(true);
  });

  it('says nothing more of the tyres of a car that does not move off', () => {
    const stuck = { ...changed({ time_to_100_km_h: null, grip_withheld: null, time: null }), bands: [] };
    expect(verdict(stuck, 'metric')).toMatchObject({ wasted: 'unknown', tyres: '' });
  });

  it('says of a car that does not reach the goal that it does not', () => {
    const slow = changed(
      { time_to_100_km_h: null, grip_withheld: 0.2 },
      { time_to_100_km_h: 'the top speed is 84 km/h' },
    );
    expect(plain(verdict(slow, 'metric').tyres)).toContain('the car does not reach 100 km/h: the top speed is 84 km/h');
    expect(verdict(slow, 'metric').tyres).not.toContain('instead of');
  });

  it('tells how long each limiter holds', () => {
    const two: Result = {
      ...bill,
      bands: [
        { from: 0, to: 4.1, limiter: 'grip' },
        { from: 4.1, to: 20, limiter: 'motor power' },
      ],
    };
    expect(plain(verdict(two, 'metric').held)).toBe(
      'Of the 8.4 s to 100 km/h, grip holds it back for 4.1 s, motor power for 4.3 s.',
    );
    const one: Result = { ...bill, bands: [{ from: 0, to: 20, limiter: 'motor power' }] };
    expect(plain(verdict(one, 'metric').held)).toBe('All the way to 100 km/h it is held back by motor power.');
    expect(verdict({ ...bill, bands: [] }, 'metric').held).toBe('Nothing is known of what holds it back.');
  });

  it('says what is enough only where there is an end to it', () => {
    const { enough } = verdict(changed({ friction_enough: 1.42, power_enough: 61_000 }), 'metric');
    expect(enough.map(plain)).toEqual([
      'From a friction of 1.42 on, grip would no longer matter.',
      'With these tyres, this torque and this pack, more than 61 kW of drive-unit power in all brings 100 km/h no sooner.',
    ]);
    // No tyre has a friction of 3.39: it is no advice.
    expect(verdict(changed({ friction_enough: 3.39 }), 'metric').enough).toContain(
      'No tyre puts down all of it: even a racing compound grips too little.',
    );
    const none = changed({ friction_enough: null, power_enough: null });
    expect(verdict(none, 'metric').enough).toEqual([]);
  });
});
