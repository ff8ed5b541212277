import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { ageingFactor } from '../../src/statistics/ageing.ts';
import { type TemperatureReading, temperatureHistory } from '../../src/statistics/temperature-history.ts';
import { expectRelative, valueFrom } from './reference-values.ts';

const seed = 20260614;
const at25 = { q10: 2, referenceTemperature: 25 };

describe('temperature history', () => {
  test('137 d at 55 °C are worth 1096 d at 25 °C, as by the ageing factor of 8 (ASTM F1980)', () => {
    const readings = [0, 50, 137].map((time) => ({ time, temperature: 55 }));
    const found = valueFrom(temperatureHistory(readings, at25));
    expectRelative(found.equivalentDuration, 1096, 1e-13);
    expectRelative(found.equivalentTemperature, 55, 1e-13);
    expect(found).toMatchObject({ duration: 137, lowest: 55, highest: 55, longestGap: 87 });
  });

  test('a straight rise from 25 to 35 °C over a day: 1 / ln 2 days, by integration', () => {
    const found = valueFrom(
      temperatureHistory(
        [
          { time: 0, temperature: 25 },
          { time: 1, temperature: 35 },
        ],
        { ...at25, upper: 30 },
      ),
    );
    expectRelative(found.equivalentDuration, 1 / Math.LN2, 1e-14);
    expectRelative(found.durationAbove!, 0.5, 1e-14);
  });

  test('an excursion of 6 h to 45 °C in 30 d at 25 °C adds three times its length, with sides of a minute', () => {
    const minute = 1 / 1440;
    const readings = [
      { time: 0, temperature: 25 },
      { time: 10, temperature: 25 },
      { time: 10 + minute, temperature: 45 },
      { time: 10.25 + minute, temperature: 45 },
      { time: 10.25 + 2 * minute, temperature: 25 },
      { time: 30, temperature: 25 },
    ];
    const found = valueFrom(temperatureHistory(readings, { ...at25, upper: 30 }));
    // Factor 4 for 6 h, and twice a minute of a rise by two powers of two: (4 - 1) / ln 4.
    const expected = 30 - 0.25 - 2 * minute + 0.25 * 4 + (2 * minute * 3) / Math.log(4);
    expectRelative(found.equivalentDuration, expected, 1e-12);
    expectRelative(found.durationAbove!, 0.25 + 2 * minute * 0.75, 1e-9);
  });

  test('agrees with a sum over many short steps of a daily swing', () => {
    const swing = (time: number) => 22 + 6 * Math.sin(2 * Math.PI * time);
    const readings = Array.from({ length: 24 * 30 + 1 }, (_, hour) => ({
      time: hour / 24,
      temperature: swing(hour / 24),
    }));
    let sum = 0;
    const steps = 200_000;
    for (let step = 0; step < steps; step++)
      sum +=
        (30 / steps) *
        ageingFactor({
          q10: 2,
          ageingTemperature: swing(((step + 0.5) * 30) / steps),
          storageTemperature: 25,
        });
    // Hourly chords lie a little off the sine.
    expectRelative(valueFrom(temperatureHistory(readings, at25)).equivalentDuration, sum, 1e-3);
  });

  test('lies between its coldest and its warmest; adds up over its parts; shifts with the reference', () => {
    const temperature = fc.double({ min: -20, max: 80, noNaN: true });
    fc.assert(
      fc.property(fc.array(temperature, { minLength: 3, maxLength: 30 }), (temperatures) => {
        const readings: TemperatureReading[] = temperatures.map((each, time) => ({
          time,
          temperature: each,
        }));
        const whole = valueFrom(temperatureHistory(readings, at25));
        expect(whole.equivalentTemperature).toBeGreaterThanOrEqual(whole.lowest - 1e-9);
        expect(whole.equivalentTemperature).toBeLessThanOrEqual(whole.highest + 1e-9);
        const first = valueFrom(temperatureHistory(readings.slice(0, 2), at25));
        const rest = valueFrom(temperatureHistory(readings.slice(1), at25));
        expectRelative(first.equivalentDuration + rest.equivalentDuration, whole.equivalentDuration, 1e-12);
        const at35 = valueFrom(temperatureHistory(readings, { q10: 2, referenceTemperature: 35 }));
        expectRelative(2 * at35.equivalentDuration, whole.equivalentDuration, 1e-12);
      }),
      { seed },
    );
  });

  test('bad input has a reason', () => {
    const of = (...pairs: [number, number][]) =>
      temperatureHistory(
        pairs.map(([time, temperature]) => ({ time, temperature })),
        at25,
      );
    expect(of([0, 25])).toMatchObject({ problem: 'too-few-values' });
    expect(of([0, 25], [0, 26])).toMatchObject({
      problem: 'out-of-order',
      reason: 'reading 2 of 2 is not later than the one before it',
    });
    expect(of([0, 25], [1, Number.NaN])).toMatchObject({ problem: 'non-finite-value' });
    expect(of([0, 25], [1, 1e9])).toMatchObject({ problem: 'no-bound' });
    expect(() => temperatureHistory([], { q10: 1, referenceTemperature: 25 })).toThrow('q10 is 1');
    expect(() => temperatureHistory([], { q10: 2, referenceTemperature: Number.NaN })).toThrow(
      'referenceTemperature is NaN',
    );
  });
});
