import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { parseFormula } from '../../src/evidence/calculations/parse-formula.ts';
import { evaluateFormula } from '../../src/statistics/formula.ts';
import { calculated, value } from './calculated.ts';

const bore = '{ name: bore diameter, nominal: 4.00, plus: 0.05, minus: 0.05, unit: mm }';
const pitch = '{ name: rack pitch, nominal: 1.60, plus: 0.04, minus: 0.04, unit: mm }';
const parts: readonly [string, string][] = [
  ['DO-01', bore],
  ['DO-02', pitch],
];
const d = '{ name: d, output: DO-01, characteristic: bore diameter }';
const p = '{ name: p, output: DO-02, characteristic: rack pitch }';
const volume = (lower: number, upper: number, unit = 'mm3'): string =>
  `{ characteristic: volume, unit: ${unit}, lower: ${lower}, upper: ${upper} }`;
const of = (formula: string, variables: readonly string[], acceptance: string, more = '') =>
  calculated(
    `kind: formula, formula: "${formula}", variables: [${variables.join(', ')}]${more}`,
    acceptance,
    [...parts],
  );

/** The value of a text over named values; the reason where it is refused. */
const read = (text: string, values: Readonly<Record<string, number>> = {}): number | string => {
  const parsed = parseFormula(text, Object.keys(values));
  return parsed.ok ? evaluateFormula(parsed.formula, Object.values(values)) : parsed.reason;
};

describe('formulas from text', () => {
  test.each<[string, number]>([
    // Rules of arithmetic on paper: powers first and from the right, then signs, products, sums.
    ['1 + 2 * 3', 7],
    ['(1 + 2) * 3', 9],
    ['2 * 3 ^ 2', 18],
    ['2 ^ 3 ^ 2', 512],
    ['10 - 4 - 3', 3],
    ['100 / 10 / 2', 5],
    ['2 ^ -1', 0.5],
    ['-3 + 5', 2],
    ['-(2 ^ 2)', -4],
    ['(0 - 2) ^ 2', 4],
    ['2 - -3', 5],
    ['1.5e3 + .5', 1500.5],
    ['pi', Math.PI],
    ['ln(e)', 1],
    ['log10(1000)', 3],
    ['max(2, min(7, 5))', 5],
    ['sqrt(abs(-9))', 3],
    ['sin(pi / 6)', Math.sin(Math.PI / 6)],
  ])('%s = %d', (text, expected) => {
    expect(read(text)).toBeCloseTo(expected, 12);
  });

  test.each<[string, string]>([
    ['', 'the formula is empty'],
    ['   ', 'the formula is empty'],
    ['x', 'names "x", which is no variable'],
    ['-a ^ 2', 'a sign before a power reads two ways'],
    ['a b', 'more than one expression'],
    ['2 a', ''],
    ['a; a', 'more than one expression'],
    ['a = 3', 'cannot be read'],
    ['a == 3', 'cannot be read'],
    ['a % 2', 'cannot be read'],
    ['a ** 2', 'cannot be read'],
    ['a ? 1 : 2', 'no arithmetic'],
    ['"text"', 'is not a number'],
    ['true', 'names "true"'],
    ['this', 'no arithmetic'],
    ['a.constructor', 'asks for a property'],
    ['a["constructor"]', 'asks for a property'],
    ['a.constructor("return 1")()', 'is not allowed'],
    ['constructor', 'names "constructor"'],
    ['__proto__', 'names "__proto__"'],
    ['toString()', 'function "toString" is not allowed'],
    ['sin.call(1)', 'is not allowed'],
    ['eval(1)', 'function "eval" is not allowed'],
    ['hasOwnProperty(1)', 'is not allowed'],
    ['import(1)', 'is not allowed'],
    ['[1, 2]', 'no arithmetic'],
    ['log(2)', 'log reads two ways'],
    ['sin()', 'sin takes one value, not 0'],
    ['max(1)', 'max takes 2 values, not 1'],
    ['sin(1, 2)', 'sin takes one value, not 2'],
    ['1e999', 'too large'],
    ['a +', 'cannot be read'],
    ['(a', 'cannot be read'],
    ['`a`', ''],
    ['a => 1', 'cannot be read'],
    [`${'('.repeat(150)}a${')'.repeat(150)} + ${'-'.repeat(40)}a`, 'deeper than 30 levels'],
    [`a${' + a'.repeat(60)}`, 'deeper than 30 levels'],
    [`${'a+'.repeat(201)}a`, '403 characters'],
  ])('%s is refused with a reason', (text, words) => {
    const said = read(text, { a: 1 });
    expect(typeof said).toBe('string');
    expect(said).toContain(words);
  });

  test('a slip of the pen is named', () => {
    expect(read('bore_diamter * 2', { bore_diameter: 1 })).toContain('is "bore_diameter" meant?');
  });

  test('no text does anything but give a number or a reason', () => {
    const piece = fc.constantFrom(
      ...'a 1 2.5 + - * / ^ ( ) [ ] . , ; ? : " = constructor __proto__ this sin max pi => ` { } \\ 1e5 !'.split(
        ' ',
      ),
    );
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 14 }), (pieces) => {
        const said = read(pieces.join(' '), { a: 2 });
        expect(['number', 'string']).toContain(typeof said);
        if (typeof said === 'string') expect(said.length).toBeGreaterThan(5);
      }),
      { seed: 20260616, numRuns: 3000 },
    );
    fc.assert(
      fc.property(fc.string({ maxLength: 60 }), (text) => {
        expect(['number', 'string']).toContain(typeof read(text, { a: 2 }));
      }),
      { seed: 20260616, numRuns: 1500 },
    );
  });
});

describe('a formula over characteristics', () => {
  test('of bore area and pitch agrees with the tolerance stack-up: 19.12 to 21.13 mm³', () => {
    const result = of('pi/4 * d^2 * p', [d, p], volume(17, 23));
    expect(result.verdict).toBe('pass');
    expect(result.reason).toBe('worst case 19.12 to 21.13 mm³, required 17 to 23 mm³');
    expect(value(result, 'nominal').toFixed(3)).toBe('20.106');
    expect(value(result, 'root_sum_square').toFixed(3)).toBe('0.711');
    // Bore 2 x 0.05 / 4 and pitch 0.04 / 1.6 weigh the same.
    expect(value(result, 'share_1')).toBeCloseTo(50, 9);
    // Slopes by hand: pi/2 d p = 10.053 and pi/4 d^2 = 12.566.
    expect(result.characteristics[0]?.tables?.[0]?.rows.map((row) => Number(row[4]).toFixed(3))).toEqual([
      '10.053',
      '12.566',
    ]);
    expect(of('pi/4 * d^2 * p', [d, p], volume(19.2, 23)).verdict).toBe('fail');
    expect(of('pi/4 * d^2 * p', [d, p], volume(17, 21.1)).verdict).toBe('fail');
  });

  test('follows units: micrometres, a density, an angle, a force over an area', () => {
    const wall = '{ name: w, value: 800, plus: 50, minus: 50, unit: µm }';
    const density = '{ name: rho, value: 1.2, unit: g/mL }';
    const mass = of(
      'pi/4 * d^2 * p * rho',
      [d, p, density],
      '{ characteristic: mass, unit: mg, lower: 20, upper: 26 }',
    );
    expect(value(mass, 'nominal').toFixed(2)).toBe('24.13');
    expect(mass.verdict).toBe('pass');
    const outer = of('d + 2*w', [d, wall], '{ characteristic: outer diameter, unit: mm, upper: 5.75 }');
    expect(value(outer, 'worst_case_upper')).toBeCloseTo(5.75, 12);
    expect(outer.verdict).toBe('pass');
    const angle = of('atan(p / d)', [d, p], '{ characteristic: angle, unit: deg, lower: 20, upper: 23 }');
    // atan(0.4) = 21.80 degrees.
    expect(value(angle, 'nominal').toFixed(2)).toBe('21.80');
    const force = '{ name: F, value: 25, plus: 0, minus: 0, unit: N }';
    const pressure = of(
      'F / (pi/4 * d^2)',
      [d, force],
      '{ characteristic: pressure, unit: MPa, upper: 2.1 }',
    );
    // 25 N on 12.566 mm² are 1.989 MPa.
    expect(value(pressure, 'nominal').toFixed(3)).toBe('1.989');
  });

  test('an end that misses the limit by little does not look like it', () => {
    // The lower end is 19.1166.
    expect(of('pi/4 * d^2 * p', [d, p], volume(19.12, 23)).reason).toBe(
      'worst case 19.117 to 21.127 mm³, required 19.12 to 23 mm³',
    );
    const small = of(
      'd * x',
      [d, '{ name: x, value: 0.001, plus: 0.00002, minus: 0.00002 }'],
      '{ characteristic: y, unit: mm, lower: 0.003, upper: 0.005 }',
    );
    // 3.95 x 0.00098 and 4.05 x 0.00102.
    expect(small.reason).toBe('worst case 0.00387 to 0.00413 mm, required 0.003 to 0.005 mm');
  });

  test('a result that turns within the tolerance is bounded safely', () => {
    const x = '{ name: x, value: 0.5, plus: 0.5, minus: 0.5 }';
    const top = (upper: number) =>
      of('x * (1 - x)', [x], `{ characteristic: y, unit: "1", upper: ${upper} }`);
    // The corners give 0; the largest value is 0.25 in the middle.
    expect(top(0.2).verdict).toBe('fail');
    expect(top(0.2499).verdict).toBe('fail');
    expect(top(0.251).verdict).toBe('pass');
    expect(value(top(0.3), 'worst_case_upper')).toBeGreaterThanOrEqual(0.25);
  });

  test('by simulation: a product of two normal values against its exact distribution to first order', () => {
    const result = of(
      'pi/4 * d^2 * p',
      [d, p],
      volume(19.4, 20.82),
      ', judge_by: simulation, share_within: 0.99, trials: 20000, seed: 3',
    );
    expect(result.verdict).toBe('pass');
    expect(Math.abs(value(result, 'simulated_standard_deviation') - 0.237)).toBeLessThan(0.004);
  });

  test.each<[string, string, readonly string[], string]>([
    [
      'a sum of millimetres and newtons',
      'd + f',
      [d, '{ name: f, value: 3, unit: N }'],
      'stand on the two sides of +',
    ],
    [
      'a result of another quantity',
      'd * p',
      [d, p],
      'the formula gives m², the limit is in mm3, which is m³',
    ],
    ['a sine of a length', 'sin(d) * p', [d, p], 'sin is taken of m'],
    ['a length as an exponent', '2^d * p', [d, p], 'an exponent is m'],
    [
      'a temperature with an offset',
      'd^3 * t',
      [d, '{ name: t, value: 20, unit: Cel }'],
      'must be given in K',
    ],
    [
      'endotoxin units for lengths',
      'd^3 * n',
      [d, '{ name: n, value: 20, unit: EU }'],
      'the formula gives m³·EU',
    ],
    ['a variable that does not occur', 'd^3', [d, p], 'the variable "p" does not occur'],
    ['a variable twice', 'd^3', [d, d], 'the variable "d" is there twice'],
    ['a variable called pi', 'pi^3', ['{ name: pi, value: 3 }'], 'is a constant or function'],
    ['an unknown output', 'd^3', ['{ name: d, output: DO-09, characteristic: x }'], 'no design output DO-09'],
    [
      'an unknown characteristic',
      'd^3',
      ['{ name: d, output: DO-01, characteristic: bore }'],
      'it has: bore diameter',
    ],
    ['no value', 'd^3', ['{ name: d }'], 'value of the variable "d" is missing'],
    ['a property', 'd.constructor', [d], 'asks for a property'],
    [
      'a pole within the tolerance',
      'd^4 / (d - x)',
      [d, '{ name: x, value: 4, unit: mm }'],
      'a divisor can be 0',
    ],
  ])('without sound inputs has no verdict: %s', (_, formula, variables, words) => {
    const result = of(formula, variables, volume(17, 23));
    expect(result.verdict).toBe('undecided');
    expect(result.reason).toContain(words);
    for (const finding of result.findings)
      expect(finding).toMatchObject({ code: 'method-inputs-missing', hint: expect.any(String) });
    expect(result.findings.length).toBeGreaterThan(0);
  });

  test('without limits or formula has no verdict', () => {
    expect(calculated('kind: formula, formula: "1"').reason).toContain('calculation.variables is missing');
    expect(calculated(`kind: formula, formula: "d", variables: [${d}]`, '', [...parts]).reason).toContain(
      'acceptance is missing',
    );
    expect(calculated(`kind: formula, variables: [${d}]`, volume(1, 2), [...parts]).reason).toContain(
      'calculation.formula is missing',
    );
  });

  test('figures beyond all bounds give a reason, never NaN and never a pass', () => {
    const figure = fc.constantFrom('0', '-1', '1e308', '-1e308', '1e-308', '7', '1e200');
    const text = fc.constantFrom(
      'a^9 * b',
      'a / b',
      'exp(a) * b',
      'sqrt(a - b)',
      'ln(a) + b',
      'a^b',
      'tan(a) * b',
    );
    fc.assert(
      fc.property(text, figure, figure, (formula, a, b) => {
        const result = of(
          formula,
          [`{ name: a, value: ${a}, plus: 1, minus: 1 }`, `{ name: b, value: ${b}, plus: 1, minus: 1 }`],
          '{ characteristic: y, unit: "1", lower: 0.3, upper: 0.31 }',
        );
        expect(result.verdict).not.toBe('pass');
        expect(result.reason).toBeTruthy();
        expect(result.reason).not.toMatch(/NaN|Infinity|not a number/);
      }),
      { seed: 20260617, numRuns: 80 },
    );
  });
});

describe('a formula with a kink in the middle of its tolerances', () => {
  const x = '{ name: x, value: 0, plus: 1, minus: 1 }';
  const within = (upper: number) => `{ characteristic: y, unit: "1", lower: 0, upper: ${upper} }`;

  test('is judged by the worst case', () => {
    expect(of('abs(x)', [x], within(1)).verdict).toBe('pass');
    expect(of('abs(x)', [x], within(0.9)).verdict).toBe('fail');
    expect(of('max(x, -x) + 1', [x], '{ characteristic: y, unit: "1", lower: 1, upper: 2 }').verdict).toBe(
      'pass',
    );
  });

  test('and by simulation: of a uniform x, half of the amounts lie above 0.5', () => {
    const more = ', judge_by: simulation, share_within: 0.45, distribution: uniform, seed: 7, trials: 20000';
    const result = of('abs(x)', [x], within(0.5), more);
    expect(result.verdict).toBe('pass');
    expect(value(result, 'share_outside')).toBeCloseTo(50, 0);
    // The mean of |x| for x uniform from -1 to 1 is 1/2, its standard deviation 1 / sqrt 12.
    expect(value(result, 'simulated_mean')).toBeCloseTo(0.5, 2);
    expect(value(result, 'simulated_standard_deviation')).toBeCloseTo(1 / Math.sqrt(12), 2);
  });

  test('but not by the root of squares, which needs a slope', () => {
    const result = of('abs(x)', [x], within(5), ', judge_by: root-sum-square');
    expect(result.verdict).toBe('undecided');
    expect(result.reason).toContain('kink');
    expect(result.characteristics[0]?.values.map(({ key }) => key)).not.toContain('root_sum_square');
  });
});
