import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { riskMap } from '../../src/figures/risk-map.ts';

const severities = ['S1', 'S2', 'S3', 'S4'];
const bands = ['O1', 'O2', 'O3'];
const isAcceptable = (severity: string, band: string | undefined): boolean =>
  severity === 'S1' || band === 'O1';

const riskList = fc.uniqueArray(
  fc.record({
    id: fc.integer({ min: 1, max: 40 }).map((number) => `RK-${String(number).padStart(2, '0')}`),
    severity: fc.constantFrom(...severities),
    band: fc.option(fc.constantFrom(...bands), { nil: undefined }),
  }),
  { selector: (risk) => risk.id, maxLength: 20 },
);

describe('the risk map', () => {
  test('names every risk once in its cell, in words too, whatever the risks', () => {
    fc.assert(
      fc.property(riskList, (risks) => {
        const figure = riskMap({ severities, bands, isAcceptable, panels: [{ title: 'Now', risks }] });
        for (const risk of risks) {
          expect(figure?.alternative.match(new RegExp(`${risk.id}(?!\\d)`, 'g'))).toHaveLength(1);
          const cell = `severity ${risk.severity}, ${risk.band ?? 'no estimate'}${isAcceptable(risk.severity, risk.band) ? '' : ', outside the criteria'}: `;
          expect(figure?.alternative).toContain(cell);
        }
        const drawn = [...(figure?.svg ?? '').matchAll(/>(RK-\d\d)</g)].length;
        const counted = [...(figure?.svg ?? '').matchAll(/>\+ (\d+) more</g)].reduce(
          (sum, match) => sum + Number(match[1]),
          0,
        );
        expect(drawn + counted).toBe(risks.length);
      }),
      { seed: 20260110 },
    );
  });

  test('shades exactly the cells that the criteria do not accept', () => {
    const figure = riskMap({ severities, bands, isAcceptable, panels: [{ title: 'Now', risks: [] }] });
    // Three of four classes, two of three bands; one more is the legend.
    expect(figure?.svg.match(/fill="#f3dcda"/g)).toHaveLength(3 * 2 + 1);
    expect(figure?.alternative).toBe('Now: no risks');
  });

  test('is nothing without classes or bands', () => {
    expect(
      riskMap({ severities: [], bands, isAcceptable, panels: [{ title: 'Now', risks: [] }] }),
    ).toBeUndefined();
    expect(
      riskMap({ severities, bands: [], isAcceptable, panels: [{ title: 'Now', risks: [] }] }),
    ).toBeUndefined();
    expect(riskMap({ severities, bands, isAcceptable, panels: [] })).toBeUndefined();
  });
});
