import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { calculated, value } from './calculated.ts';

describe('accelerated ageing', () => {
  const ageing = (more: string, acceptance = '') =>
    calculated(
      `kind: accelerated-ageing, q10: 2, ageing_temperature: 55, reference_temperature: 25, ${more}`,
      acceptance,
    );

  test('at 55 °C against 25 °C counts eightfold; 3 years need 137 days', () => {
    // Q10^((55 - 25) / 10) = 2^3 by ASTM F1980; 3 x 365 / 8 = 136.875.
    const result = ageing('days: 137, claim_days: 1095');
    expect(value(result, 'factor')).toBe(8);
    expect(value(result, 'days_needed')).toBe(137);
    expect(value(result, 'real_time')).toBe(1096);
    expect(result.verdict).toBe('pass');
  });

  test.each([
    ['136 days', 'days: 136, claim_days: 1095', 'fail'],
    ['120 days', 'days: 120, claim_days: 1095', 'fail'],
    ['just enough', 'days: 100, claim_days: 800', 'pass'],
    ['137 days between the dates', 'days: 137, claim_days: 1095, from: 2026-01-12, to: 2026-05-29', 'pass'],
    [
      'fewer days between the dates than stated',
      'days: 137, claim_days: 1095, from: 2026-01-12, to: 2026-05-20',
      'fail',
    ],
    ['over the end of summer time', 'days: 8, claim_days: 64, from: 2026-10-20, to: 2026-10-28', 'pass'],
  ])('%s', (_, more, verdict) => {
    expect(ageing(more).verdict).toBe(verdict);
  });

  test('is held against a limit in any unit of time', () => {
    expect(
      ageing('days: 137, claim_days: 1000', '{ characteristic: shelf life, unit: a, lower: 3 }').verdict,
    ).toBe('pass');
    expect(
      ageing('days: 137, claim_days: 1000', '{ characteristic: shelf life, unit: a, lower: 4 }').verdict,
    ).toBe('fail');
    expect(
      ageing('days: 137, claim_days: 1000', '{ characteristic: shelf life, unit: mo, lower: 36 }').verdict,
    ).toBe('pass');
  });

  test.each([
    [
      'dates that run backwards',
      'days: 137, claim_days: 1095, from: 2026-05-29, to: 2026-01-12',
      'calculation.to lies before calculation.from',
    ],
    ['no claim', 'days: 137', 'calculation.claim_days is missing'],
    ['negative days', 'days: -1, claim_days: 1095', 'must not be negative'],
    [
      'a date that does not exist',
      'days: 137, claim_days: 1095, from: 2026-02-30, to: 2026-07-17',
      'must both be days',
    ],
    ['one date only', 'days: 137, claim_days: 1095, from: 2026-01-12', 'must both be days'],
  ])('without sound inputs has no verdict: %s', (_, more, words) => {
    const result = ageing(more);
    expect(result.verdict).toBe('undecided');
    expect(result.findings[0]).toMatchObject({ code: 'method-inputs-missing' });
    expect(result.findings.map((finding) => finding.message).join('; ')).toContain(words);
  });

  test('less than 10 °C below a transition of the materials is undecided', () => {
    const enough = 'days: 137, claim_days: 1095';
    expect(ageing(`${enough}, transition_temperature: 80`).verdict).toBe('pass');
    const near = ageing(`${enough}, transition_temperature: 60`);
    expect(near.verdict).toBe('undecided');
    expect(near.reason).toContain('55 °C is less than 10 °C below the lowest transition at 60 °C');
    // Too short is too short, whatever else is in doubt.
    expect(ageing('days: 100, claim_days: 1095, transition_temperature: 60').verdict).toBe('fail');
  });

  test('lists when real-time units are due, to the same day of the month or its last', () => {
    const result = ageing(
      'days: 137, claim_days: 1095, real_time: { start: 2026-01-31, pulls: [1, 12, 36] }',
    );
    expect(result.characteristics[0]?.tables?.[0]?.rows).toEqual([
      ['1 month', '2026-02-28', '28'],
      ['12 months', '2027-01-31', '365'],
      ['36 months', '2029-01-31', '1096'],
    ]);
    expect(result.verdict).toBe('pass');
    const short = ageing('days: 137, claim_days: 1095, real_time: { start: 2026-01-31, pulls: [12, 24] }');
    expect(short.verdict).toBe('undecided');
    expect(short.reason).toContain('the last pull is due on 2028-01-31 after 730 d, claimed are 1095 d');
    expect(
      ageing('days: 137, claim_days: 1095, real_time: { start: 2026-02-30, pulls: [12] }').reason,
    ).toContain('real_time.start must be a day');
    expect(
      ageing('days: 137, claim_days: 1095, real_time: { start: 2026-02-28, pulls: [24, 12] }').reason,
    ).toContain('in ascending order');
  });

  test('says what it takes for the limit, where that is more than the claim', () => {
    const result = ageing(
      'days: 125, claim_days: 1000',
      '{ characteristic: shelf life, unit: d, lower: 1095 }',
    );
    expect(result.characteristics[0]?.remedy).toContain('Age for 137 d');
  });

  test('states the humidity as a caution', () => {
    const { assumptions } = ageing('days: 137, claim_days: 1095, relative_humidity: 50').characteristics[0]!;
    expect(assumptions).toContainEqual(expect.objectContaining({ name: 'humidity', outcome: 'not tested' }));
  });

  test('against a limit that is no time has no verdict', () => {
    expect(
      ageing('days: 137, claim_days: 1095', '{ characteristic: force, unit: N, lower: 30 }').reason,
    ).toContain('no unit of time');
    expect(
      ageing('days: 137, claim_days: 1095', '{ characteristic: life, unit: d, upper: 30 }').verdict,
    ).toBe('undecided');
  });

  test('does not show a second limit', () => {
    const result = ageing(
      'days: 137, claim_days: 1095',
      '{ characteristic: life, unit: d, lower: 1095 }, { characteristic: force, unit: N, lower: 30 }',
    );
    expect(result).toMatchObject({
      verdict: 'undecided',
      reason: expect.stringContaining('does not show force'),
    });
  });
});

describe('tolerance stack-up', () => {
  const bore = '{ name: bore diameter, nominal: 4.00, plus: 0.05, minus: 0.05, unit: mm }';
  const pitch = '{ name: rack pitch, nominal: 1.60, plus: 0.04, minus: 0.04, unit: mm }';
  const parts: readonly [string, string][] = [
    ['DO-01', bore],
    ['DO-02', pitch],
  ];
  const product = (more = ''): string =>
    `kind: tolerance-stack-up, form: product, constant: 0.7853981633974483${more}, terms: [{ output: DO-01, characteristic: bore diameter, power: 2 }, { output: DO-02, characteristic: rack pitch, power: 1 }]`;

  test('of bore area and pitch gives 19.12 to 21.13 mm³', () => {
    // pi/4 x 3.95² x 1.56 = 19.117, pi/4 x 4.05² x 1.64 = 21.127; 20.106 x sqrt(0.025² + 0.025²) = 0.711.
    const result = calculated(
      product(),
      '{ characteristic: volume, unit: mm3, lower: 17.0, upper: 23.0 }',
      parts,
    );
    expect(value(result, 'nominal').toFixed(3)).toBe('20.106');
    expect(value(result, 'worst_case_lower').toFixed(2)).toBe('19.12');
    expect(value(result, 'worst_case_upper').toFixed(2)).toBe('21.13');
    expect(value(result, 'root_sum_square').toFixed(3)).toBe('0.711');
    expect(result.verdict).toBe('pass');
    expect(result.reason).toBe('worst case 19.12 to 21.13 mm³, required 17.0 to 23.0 mm³');
  });

  test('fails where one end is beyond', () => {
    const verdict = (lower: number, upper: number) =>
      calculated(product(), `{ characteristic: volume, unit: mm3, lower: ${lower}, upper: ${upper} }`, parts)
        .verdict;
    expect(verdict(19.2, 23)).toBe('fail');
    expect(verdict(17, 21)).toBe('fail');
    expect(verdict(19.11, 21.13)).toBe('pass');
  });

  test('converts units, and refuses a result of another quantity', () => {
    const micrometres = bore.replace(
      'nominal: 4.00, plus: 0.05, minus: 0.05, unit: mm',
      'nominal: 4000, plus: 50, minus: 50, unit: µm',
    );
    const mixed = calculated(product(), '{ characteristic: volume, unit: mL, lower: 0.017, upper: 0.023 }', [
      ['DO-01', micrometres],
      ['DO-02', pitch],
    ]);
    expect(value(mixed, 'nominal')).toBeCloseTo(0.0201062, 7);
    expect(mixed.verdict).toBe('pass');
    const area = calculated(product(), '{ characteristic: volume, unit: mm2, lower: 17, upper: 23 }', parts);
    expect(area.verdict).toBe('undecided');
    expect(area.reason).toContain('the product is not in mm2');
    const weight = calculated(
      product(', constant_unit: mg/mm3'),
      '{ characteristic: mass, unit: mg, lower: 17, upper: 23 }',
      parts,
    );
    expect(weight.verdict).toBe('pass');
  });

  test('of a sum takes signs and units into account', () => {
    // Seal 4.10 +/- 0.03 in bore 4.00 +/- 0.05: interference 0.02 to 0.18, nominal 0.10.
    const seal = '{ name: seal diameter, nominal: 4100, plus: 30, minus: 30, unit: µm }';
    const sum =
      'kind: tolerance-stack-up, form: sum, terms: [{ output: DO-05, characteristic: seal diameter, sensitivity: 1 }, { output: DO-01, characteristic: bore diameter, sensitivity: -1 }]';
    const result = calculated(sum, '{ characteristic: interference, unit: mm, lower: 0.02, upper: 0.18 }', [
      ['DO-05', seal],
      ['DO-01', bore],
    ]);
    expect(value(result, 'nominal')).toBeCloseTo(0.1, 12);
    expect(value(result, 'worst_case_lower')).toBeCloseTo(0.02, 12);
    expect(value(result, 'worst_case_upper')).toBeCloseTo(0.18, 12);
    expect(result.verdict).toBe('pass');
    expect(
      calculated(sum, '{ characteristic: interference, unit: N, lower: 0 }', [
        ['DO-05', seal],
        ['DO-01', bore],
      ]).reason,
    ).toContain('cannot be converted to N');
  });

  test('shows each term, so that the sum can be repeated by hand', () => {
    const result = calculated(
      'kind: tolerance-stack-up, form: sum, terms: [{ output: DO-05, characteristic: seal diameter }, { output: DO-01, characteristic: bore diameter, sensitivity: -1 }, { output: DO-06, characteristic: film, sensitivity: 2 }]',
      '{ characteristic: interference, unit: mm, lower: 0, upper: 1 }',
      [
        ['DO-05', '{ name: seal diameter, nominal: 4.10, plus: 0.05, minus: 0.01, unit: mm }'],
        ['DO-01', '{ name: bore diameter, nominal: 4.00, plus: 0.04, minus: 0.04, unit: mm }'],
        ['DO-06', '{ name: film, nominal: 0.02, unit: mm }'],
      ],
    );
    // Middle 4.12 - 4.00 + 2 x 0.02 = 0.16; half width of the root of squares sqrt(0.03² + 0.04²) = 0.05.
    expect(value(result, 'centre')).toBeCloseTo(0.16, 12);
    expect(value(result, 'root_sum_square')).toBeCloseTo(0.05, 12);
    const [table] = result.characteristics[0]?.tables ?? [];
    expect(table?.rows).toEqual([
      ['DO-05 seal diameter', '4.1 mm', '0.05', '0.01', '4.12', '1', '0.03', '36.0 %'],
      ['DO-01 bore diameter', '4 mm', '0.04', '0.04', '4', '−1', '0.04', '64.0 %'],
      ['DO-06 film', '0.02 mm', 'exact', 'exact', '0.02', '2', '0', '0.0 %'],
    ]);
    expect(result.characteristics[0]?.assumptions).toContainEqual({
      name: 'inputs without a tolerance',
      outcome: 'not tested',
      detail: 'counted as exact: DO-06 film',
    });
  });

  describe('by simulation', () => {
    const limits = (lower: number, upper: number) =>
      `{ characteristic: volume, unit: mm3, lower: ${lower}, upper: ${upper} }`;
    const simulated = (more: string, lower: number, upper: number) =>
      calculated(product(`, ${more}`), limits(lower, upper), parts);

    test('is shown beside the worst case, which still decides', () => {
      const result = simulated('seed: 7, trials: 20000', 19.4, 20.8);
      expect(result.verdict).toBe('fail');
      expect(result.reason).toContain('worst case');
      // First order: standard deviation 0.711 / 3 = 0.237.
      expect(Math.abs(value(result, 'simulated_standard_deviation') - 0.237)).toBeLessThan(0.004);
      expect(Math.abs(value(result, 'simulated_mean') - 20.106)).toBeLessThan(0.01);
    });

    test('decides where it is asked to: 19.4 to 20.82 holds 99.73 % or so, 19.6 to 20.6 far less', () => {
      const judged = 'judge_by: simulation, share_within: 0.99, seed: 7, trials: 20000';
      const passed = simulated(judged, 19.4, 20.82);
      expect(passed.verdict).toBe('pass');
      expect(passed.reason).toMatch(/of 20000 simulated results lie outside 19.4 to 20.82 mm³, at most/);
      expect(simulated(judged, 19.6, 20.6).verdict).toBe('fail');
      // 1000 trials without one outside show 99.7 % at most.
      const few = simulated('judge_by: simulation, share_within: 0.999, seed: 7, trials: 1000', 10, 30);
      expect(few.verdict).toBe('undecided');
      // ln 0.05 / ln 0.999 = 2994.2.
      expect(few.characteristics[0]?.remedy).toContain('it takes 2995');
    });

    test('gives the same figures for the same seed', () => {
      const figures = (seed: number) =>
        value(simulated(`seed: ${seed}, trials: 5000`, 17, 23), 'simulated_mean');
      expect(figures(3)).toBe(figures(3));
      expect(figures(3)).not.toBe(figures(4));
    });

    test('of a sum converts units, and uniform parts spread as they must', () => {
      const seal = '{ name: seal diameter, nominal: 4100, plus: 30, minus: 30, unit: µm }';
      const result = calculated(
        'kind: tolerance-stack-up, form: sum, seed: 1, trials: 20000, distribution: uniform, terms: [{ output: DO-05, characteristic: seal diameter }, { output: DO-01, characteristic: bore diameter, sensitivity: -1, distribution: normal }]',
        '{ characteristic: interference, unit: mm, lower: 0.02, upper: 0.18 }',
        [
          ['DO-05', seal],
          ['DO-01', bore],
        ],
      );
      // 0.03 / root 3 and 0.05 / 3 in squares.
      const expected = Math.hypot(0.03 / Math.sqrt(3), 0.05 / 3);
      expect(Math.abs(value(result, 'simulated_standard_deviation') - expected)).toBeLessThan(0.0005);
    });

    test('root-sum-square decides where it is asked to', () => {
      const by = (lower: number, upper: number) => simulated('judge_by: root-sum-square', lower, upper);
      expect(by(19.39, 20.83).verdict).toBe('pass');
      expect(by(19.39, 20.83).reason).toBe('root-sum-square 19.40 to 20.82 mm³, required 19.39 to 20.83 mm³');
      expect(by(19.5, 20.83).verdict).toBe('fail');
    });

    test('without a required share has no verdict; too many trials do not meet the schema', () => {
      expect(simulated('judge_by: simulation', 17, 23)).toMatchObject({
        verdict: 'undecided',
        reason: 'calculation.share_within is missing',
      });
      expect(() => simulated('trials: 10000000', 17, 23)).toThrow('trials');
    });
  });

  test.each([
    ['an output that is not there', product(), [['DO-01', bore]] as const, 'there is no design output DO-02'],
    [
      'a characteristic that is not there',
      product().replace('rack pitch', 'pitch'),
      parts,
      'DO-02 has no characteristic "pitch"; it has: rack pitch',
    ],
    ['no form', 'kind: tolerance-stack-up, terms: []', parts, 'calculation.form is missing'],
    ['no terms', 'kind: tolerance-stack-up, form: sum', parts, 'calculation.terms is missing'],
    [
      'a factor that can reach 0',
      product(),
      [
        ['DO-01', bore.replace('minus: 0.05', 'minus: 4')],
        ['DO-02', pitch],
      ] as const,
      'can reach 0',
    ],
  ])('without sound inputs has no verdict: %s', (_, calculation, outputs, words) => {
    const result = calculated(
      calculation,
      '{ characteristic: volume, unit: mm3, lower: 17, upper: 23 }',
      outputs.map(([id, text]) => [id, text]),
    );
    expect(result.verdict).toBe('undecided');
    expect(result.reason).toContain(words);
    for (const finding of result.findings)
      expect(finding).toMatchObject({ code: 'method-inputs-missing', hint: expect.any(String) });
  });
});

test.each([
  ['words for days', 'kind: accelerated-ageing, q10: 2, days: many', 'days'],
  ['a term in words', 'kind: tolerance-stack-up, form: sum, terms: [DO-01]', 'terms'],
  [
    'a power in words',
    'kind: tolerance-stack-up, terms: [{ output: DO-01, characteristic: d, power: two }]',
    'power',
  ],
  ['a constant in words', 'kind: tolerance-stack-up, form: product, constant: pi, terms: []', 'constant'],
  ['a field that is not known', 'kind: accelerated-ageing, q10: 2, claim_day: 1095', 'claim_day'],
])('%s do not meet the schema', (_, calculation, words) => {
  expect(() => calculated(calculation)).toThrow(words);
});

test('an unknown calculation is named, with those that exist', () => {
  const result = calculated('kind: magic');
  expect(result).toMatchObject({ verdict: 'undecided', findings: [{ code: 'method-unknown' }] });
  expect(result.findings[0]?.hint).toBe(
    'Use one of: accelerated-ageing, tolerance-stack-up, formula, temperature-excursion, sterilisation-dose, residues, endotoxin.',
  );
});

test('figures beyond all bounds are no reason to throw', () => {
  const figure = fc.constantFrom('0', '-1', '1e308', '-1e308', '1e-308', '7', '0.5', '1e17');
  fc.assert(
    fc.property(fc.tuple(figure, figure, figure, figure, figure), ([a, b, c, d, e]) => {
      const ageing = calculated(
        `kind: accelerated-ageing, q10: ${a}, ageing_temperature: ${b}, reference_temperature: ${c}, days: ${d}, claim_days: ${e}`,
      );
      expect(ageing.reason).toBeTruthy();
      const stack = calculated(
        `kind: tolerance-stack-up, form: product, constant: ${a}, terms: [{ output: DO-01, characteristic: d, power: ${b} }]`,
        '{ characteristic: volume, unit: mm, lower: 1, upper: 2 }',
        [['DO-01', '{ name: d, nominal: 1e300, plus: 1e200, minus: 1, unit: mm }']],
      );
      expect(stack.verdict).not.toBe('pass');
    }),
    { seed: 20260727, numRuns: 60 },
  );
});
