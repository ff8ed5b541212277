import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { plainNotation } from '../../src/document/plain-notation.ts';
import { linearScale, placeLabels, roundEnds, tickMarks } from '../../src/figures/axes.ts';
import { biasPlot } from '../../src/figures/bias-plot.ts';
import {
  accent,
  alarm,
  type Drawing,
  escapeXml,
  fitted,
  ink,
  middle,
  pale,
  quiet,
  textWidth,
} from '../../src/figures/drawing.ts';
import { histogram } from '../../src/figures/histogram.ts';
import { attributePlan, operatingCharacteristic } from '../../src/figures/operating-characteristic.ts';
import { probabilityPlot } from '../../src/figures/probability-plot.ts';
import { runChart } from '../../src/figures/run-chart.ts';
import { contributorBars, shareBars } from '../../src/figures/share-bars.ts';
import { mean, readings, sampleFigures, standardDeviation } from './sample-figures.ts';

const seed = 20260110;

const drawn = (figure: Drawing | undefined): Drawing => {
  if (!figure) throw new Error('there is no figure');
  return figure;
};

/** Elements with their attributes; throws where the text is not well-formed. */
const elements = (
  svg: string,
): readonly { readonly name: string; readonly attributes: Map<string, string> }[] => {
  const open: string[] = [];
  const found: { name: string; attributes: Map<string, string> }[] = [];
  let at = 0;
  for (const match of svg.matchAll(/<(\/?)([a-z]+)((?: [a-zA-Z0-9-]+="[^"<]*")*)(\/?)>/g)) {
    const between = svg.slice(at, match.index);
    if (/[<>]/.test(between) || /&(?!amp;|lt;|gt;|quot;)/.test(between + match[3]))
      throw new Error(`not well-formed: ${between}`);
    at = match.index + match[0].length;
    if (match[1] === '/') {
      if (open.pop() !== match[2]) throw new Error(`</${match[2]}> closes nothing`);
      continue;
    }
    if (match[4] !== '/') open.push(match[2] ?? '');
    found.push({
      name: match[2] ?? '',
      attributes: new Map(
        [...(match[3] ?? '').matchAll(/ ([a-zA-Z0-9-]+)="([^"]*)"/g)].map((each) => [each[1]!, each[2]!]),
      ),
    });
  }
  if (open.length > 0 || at !== svg.length) throw new Error('the drawing is cut off');
  return found;
};

const number = (element: { readonly attributes: Map<string, string> }, name: string): number =>
  Number(element.attributes.get(name));

describe.each(Object.keys(sampleFigures()))('%s', (name) => {
  const figure = drawn(sampleFigures()[name]);

  test('is well-formed, has no id, no script, no style sheet and loads nothing', () => {
    const all = elements(figure.svg);
    expect(all.length).toBeGreaterThan(10);
    for (const { name: tag, attributes } of all) {
      expect(['svg', 'title', 'rect', 'line', 'polyline', 'polygon', 'circle', 'text']).toContain(tag);
      for (const key of attributes.keys()) expect(key).not.toMatch(/^(id|href|style|class|on.*)$/);
    }
  });

  test('keeps every mark within its frame, with two decimals at most', () => {
    for (const element of elements(figure.svg))
      for (const [key, value] of element.attributes) {
        if (/^(x|x1|x2|cx|y|y1|y2|cy|width|height|points)$/.test(key))
          for (const coordinate of value.split(/[ ,]/)) {
            expect(coordinate).toMatch(/^-?\d+(\.\d{1,2})?$/);
            expect(coordinate).not.toBe('-0');
          }
        if (/^(x1|x2|cx)$/.test(key)) {
          expect(Number(value)).toBeGreaterThanOrEqual(0);
          expect(Number(value)).toBeLessThanOrEqual(figure.widthPx);
        }
        if (/^(y1|y2|cy)$/.test(key)) {
          expect(Number(value)).toBeGreaterThanOrEqual(0);
          expect(Number(value)).toBeLessThanOrEqual(figure.heightPx);
        }
      }
  });

  test('words stay within the frame', () => {
    for (const match of figure.svg.matchAll(
      /<text x="([\d.]+)" y="([\d.]+)"( text-anchor="(\w+)")?[^>]*?(transform)?[^>]*>([^<]*)</g,
    )) {
      if (match[0].includes('rotate')) continue;
      const width = textWidth(match[6] ?? '');
      const left =
        match[4] === 'middle'
          ? Number(match[1]) - width / 2
          : match[4] === 'end'
            ? Number(match[1]) - width
            : Number(match[1]);
      expect(left, match[6]).toBeGreaterThan(-4);
      expect(left + width, match[6]).toBeLessThan(figure.widthPx + 4);
    }
  });

  test('gives the same bytes again', () => {
    expect(drawn(sampleFigures()[name]).svg).toBe(figure.svg);
  });

  test('has an alternative text with numbers, which is its title too', () => {
    expect(figure.alternative.match(/\d+(\.\d+)?/g)?.length).toBeGreaterThan(2);
    expect(figure.svg).toContain(`<title>${escapeXml(figure.alternative)}</title>`);
  });
});

describe('what the figures say', () => {
  test('the classes of a histogram hold every reading once, by area and by count', () => {
    const figure = drawn(
      histogram({ characteristic: 'x', unit: '', values: readings, decimals: 1, limits: [], bounds: [] }),
    );
    const all = elements(figure.svg);
    const bars = all.filter((each) => each.name === 'rect' && each.attributes.get('fill') === pale);
    // Heights by the axis: the mark of 0 and that of the highest whole number.
    const ticks = [...figure.svg.matchAll(/text-anchor="end" fill="#56626c">(\d+)</g)].map((match) =>
      Number(match[1]),
    );
    const rules = all
      .filter((each) => each.attributes.get('stroke') === '#dfe5e9')
      .map((each) => number(each, 'y1'));
    const perReading = (rules[0]! - rules.at(-1)!) / (ticks.at(-1)! - ticks[0]!);
    const counts = bars.map((each) => number(each, 'height') / perReading);
    for (const count of counts) expect(Math.abs(count - Math.round(count))).toBeLessThan(0.01);
    expect(counts.reduce((sum, count) => sum + Math.round(count), 0)).toBe(readings.length);
    const edges = bars.map((each) => [number(each, 'x'), number(each, 'x') + number(each, 'width')] as const);
    for (const [index, [from]] of edges.entries())
      if (index > 0) expect(from).toBeGreaterThanOrEqual(edges[index - 1]![1] - 0.02);
  });

  test('a limit stands where the axis has its number', () => {
    const { svg } = drawn(sampleFigures()['histogram']);
    const tick = /<text x="([\d.]+)"[^>]*>30<\/text>/.exec(svg)?.[1];
    const limits = elements(svg).filter(
      (each) => each.name === 'line' && each.attributes.get('stroke') === alarm,
    );
    expect(limits.map((each) => each.attributes.get('x1'))).toContain(tick);
    expect(limits.length).toBe(2);
  });

  test('readings outside the limits are squares, and counted in the words', () => {
    const figure = drawn(sampleFigures()['run chart']);
    const squares = elements(figure.svg).filter(
      (each) => each.name === 'rect' && each.attributes.get('fill') === alarm,
    );
    expect(squares.length).toBe(readings.filter((value) => value < 30).length);
    expect(figure.alternative).toContain('1 outside the limits');
    expect(figure.alternative).toContain('smallest 29.80 N at number 11, largest 35.10 N at number 7');
    expect(elements(figure.svg).filter((each) => each.name === 'circle').length).toBe(
      readings.length - squares.length,
    );
  });

  test('points of a normal sample lie on the line of the probability plot', () => {
    // Blom's scores for n = 5 (i - 3/8) / 5.25: -1.180, -0.497, 0, 0.497, 1.180 (any table of expected normal scores).
    const scores = [-1.18, -0.497, 0, 0.497, 1.18];
    const { svg } = drawn(
      probabilityPlot({
        characteristic: 'x',
        unit: '',
        values: scores.map((score) => 10 + 2 * score),
        decimals: 2,
        mean: 10,
        standardDeviation: 2,
        bounds: [],
      }),
    );
    const all = elements(svg);
    const fit = all.find((each) => each.name === 'line' && each.attributes.get('stroke-width') === '1.5')!;
    const slope = (number(fit, 'y2') - number(fit, 'y1')) / (number(fit, 'x2') - number(fit, 'x1'));
    for (const dot of all.filter((each) => each.name === 'circle'))
      expect(
        Math.abs(number(fit, 'y1') + slope * (number(dot, 'cx') - number(fit, 'x1')) - number(dot, 'cy')),
      ).toBeLessThan(0.5);
  });

  test('an operating characteristic: 59 units and no failure pass 5 % failing with 0.95^59, 4.8 %', () => {
    expect(attributePlan(59, 0).acceptance(0.05)).toBeCloseTo(0.95 ** 59, 12);
    expect(drawn(sampleFigures()['operating characteristic']).alternative).toContain(
      '59 units, 0 failures allowed: accepted with 4.8 % at 5 % failing',
    );
    expect(attributePlan(1, 1).name).toBe('1 unit, 1 failure allowed');
  });

  test('a conditioning tree says who comes after whom, what is left and what is too few', () => {
    const { svg, alternative } = drawn(sampleFigures()['conditioning tree']);
    expect(alternative).toContain(
      'shipped <&> (transport), level 3, after aged: 10 units, 12 used; VR-08 12. shelf (real-time ageing), level 2, after sterilised: 50 units, 40 used',
    );
    for (const words of ['n = 200', '0 left', '20 left', '2 too few', '10 left'])
      expect(svg).toContain(`>${words}<`);
  });

  test('contributors are in order of their share', () => {
    const { alternative } = drawn(sampleFigures()['contributor bars']);
    expect(alternative).toBe(
      'Share of each contributor in the variance of the result: bore 61.3 %; spring rate 26.7 %; wall of DO-03 12.0 %',
    );
  });

  test('bars are as long as their shares', () => {
    const { svg } = drawn(
      shareBars({ title: 'T', names: ['a', 'b'], series: [{ name: 's', shares: [20, 60] }] }),
    );
    const [a, b] = elements(svg).filter(
      (each) => each.name === 'rect' && each.attributes.get('fill') === pale,
    );
    expect(number(b!, 'width') / number(a!, 'width')).toBeCloseTo(3, 2);
  });
});

describe('what cannot be drawn is left out, never drawn wrong', () => {
  test.each<[string, Drawing | undefined]>([
    ['no readings', sampleFigures([])['histogram']],
    ['no readings in a run', sampleFigures([])['run chart']],
    ['one reading on a probability plot', sampleFigures([1])['probability plot']],
    ['a reading that is not a number', sampleFigures([1, Number.NaN])['histogram']],
    ['a reading beyond all bounds', sampleFigures([1, Number.POSITIVE_INFINITY])['run chart']],
    ['readings too far apart for a number', sampleFigures([-1e308, 1e308])['histogram']],
    ['no plan', operatingCharacteristic({ plans: [], upTo: 0.1, marks: [] })],
    ['no range of shares', operatingCharacteristic({ plans: [attributePlan(5, 0)], upTo: 0, marks: [] })],
    ['no contributors', contributorBars([])],
    ['no references', biasPlot({ unit: '', decimals: 1, readings: [], references: [], accepted: 1 })],
  ])('%s', (_, figure) => {
    expect(figure).toBeUndefined();
  });

  test('any finite readings give a sound drawing or none', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.oneof(
            fc.double({ noNaN: true, noDefaultInfinity: true }),
            fc.integer({ min: -5, max: 5 }),
            fc.double({ min: 29, max: 36, noNaN: true }),
          ),
          { minLength: 1, maxLength: 40 },
        ),
        (values) => {
          for (const figure of Object.values({
            h: histogram({ characteristic: 'c', unit: 'N', values, decimals: 2, limits: [], bounds: [] }),
            p: probabilityPlot({
              characteristic: 'c',
              unit: 'N',
              values,
              decimals: 2,
              mean,
              standardDeviation,
              bounds: [],
            }),
            r: runChart({ characteristic: 'c', unit: 'N', values, decimals: 2, lines: [] }),
          })) {
            if (!figure) continue;
            expect(figure.svg).not.toMatch(/NaN|Infinity|undefined|="-?[\d.]+e[+-]?\d/);
            elements(figure.svg);
          }
        },
      ),
      { seed, numRuns: 300 },
    );
  });

  test('readings that are all the same have one class', () => {
    const { svg } = drawn(
      histogram({ characteristic: 'x', unit: '', values: [5, 5, 5], decimals: 0, limits: [], bounds: [] }),
    );
    expect(elements(svg).filter((each) => each.attributes.get('fill') === pale).length).toBe(1);
  });

  test('words of users are escaped and cut to their room', () => {
    const nasty = '<script>alert("1")</script>&\u0000'.repeat(10);
    const figure = drawn(
      runChart({
        characteristic: nasty,
        unit: '<N>',
        values: readings,
        decimals: 1,
        lower: { label: nasty, value: 30 },
        lines: [],
      }),
    );
    elements(figure.svg);
    expect(figure.svg).not.toContain('<script');
    expect(figure.svg).not.toContain('\u0000');
    expect(textWidth(fitted(nasty, 100))).toBeLessThanOrEqual(100);
    expect(fitted('short', 100)).toBe('short');
  });
});

describe('axes', () => {
  test('marks are round and lie within the ends', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e6, max: 1e6, noNaN: true }),
        fc.double({ min: 1e-3, max: 1e6, noNaN: true }),
        (from, span) => {
          const ends = roundEnds([from, from + span]);
          if (!ends) return;
          const marks = tickMarks({ low: ends[0], high: ends[1] }, 7);
          expect(marks.length).toBeGreaterThanOrEqual(3);
          expect(marks.length).toBeLessThanOrEqual(15);
          expect(new Set(marks.map((mark) => mark.text)).size).toBe(marks.length);
          for (const { value, text } of marks) {
            expect(value).toBeGreaterThanOrEqual(ends[0] - span * 1e-9);
            expect(value).toBeLessThanOrEqual(ends[1] + span * 1e-9);
            expect(Math.abs(Number(plainNotation(text)) - value)).toBeLessThan(span * 0.02);
          }
        },
      ),
      { seed },
    );
  });

  test('labels never overlap in a row', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.double({ min: 0, max: 10, noNaN: true }), fc.string({ maxLength: 40 })), {
          maxLength: 8,
        }),
        (list) => {
          const placed = placeLabels(
            list.map(([value, label]) => ({ value, label, look: {} })),
            linearScale(0, 10, 58, 624),
            640,
          );
          expect(placed.length).toBe(list.length);
          for (const one of placed)
            for (const other of placed)
              if (one !== other && one.row === other.row)
                expect(one.from < other.to && other.from < one.to).toBe(false);
        },
      ),
      { seed },
    );
  });
});

describe('colours', () => {
  /** Relative luminance, WCAG 2.2. */
  const luminance = (colour: string): number => {
    const [red = 0, green = 0, blue = 0] = [1, 3, 5].map((at) => {
      const value = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
      return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
  };
  const contrast = (one: string, other: string): number => {
    const [dark = 0, light = 0] = [luminance(one), luminance(other)].sort((a, b) => a - b);
    return (light + 0.05) / (dark + 0.05);
  };

  test('words have a contrast of 4.5 on white, lines and points of 3 (WCAG 2.2, 1.4.3 and 1.4.11)', () => {
    for (const colour of [ink, quiet]) expect(contrast(colour, '#ffffff')).toBeGreaterThan(4.5);
    for (const colour of [accent, alarm, middle]) expect(contrast(colour, '#ffffff')).toBeGreaterThan(3);
  });

  test('fills that stand side by side differ in grey', () => {
    expect(contrast(pale, middle)).toBeGreaterThan(1.8);
    expect(contrast(middle, accent)).toBeGreaterThan(1.8);
  });
});
