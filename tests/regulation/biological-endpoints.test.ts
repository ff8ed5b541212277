import { describe, expect, test } from 'vitest';
import { endpointRow, endpointRows, endpointSource } from '../../src/regulation/biological-endpoints.ts';

/**
 * Recommended endpoints as printed in a public review: Bioengineering 2023, 10, 442, table 2 (PMC10136001), read in
 * November 2026. C cytotoxicity, S sensitisation, I irritation, Sy acute systemic toxicity, P pyrogenicity,
 * H haemocompatibility, G genotoxicity, Im implantation, Sub subacute or subchronic toxicity, Ct chronic toxicity,
 * Car carcinogenicity.
 */
const printed = [
  ['surface', 'intact skin', 'limited', 'C S I'],
  ['surface', 'intact mucosa', 'limited', 'C S I'],
  ['surface', 'breached surface', 'limited', 'C S I Sy P'],
  ['externally communicating', 'blood path, indirect', 'limited', 'C S I Sy P H'],
  ['externally communicating', 'internal tissue or bone', 'limited', 'C S I Sy P'],
  ['externally communicating', 'circulating blood', 'limited', 'C S I Sy P G H'],
  ['implant', 'internal tissue or bone', 'limited', 'C S I Sy P'],
  ['implant', 'circulating blood', 'limited', 'C S I Sy P G Im H'],
  ['surface', 'intact skin', 'prolonged', 'C S I'],
  ['surface', 'intact mucosa', 'prolonged', 'C S I Sy P Sub Im'],
  ['surface', 'breached surface', 'prolonged', 'C S I Sy P Sub Im'],
  ['externally communicating', 'blood path, indirect', 'prolonged', 'C S I Sy P Sub H'],
  ['externally communicating', 'internal tissue or bone', 'prolonged', 'C S I Sy P Sub G Im'],
  ['externally communicating', 'circulating blood', 'prolonged', 'C S I Sy P Sub G Im H'],
  ['implant', 'internal tissue or bone', 'prolonged', 'C S I Sy P Sub G Im'],
  ['implant', 'circulating blood', 'prolonged', 'C S I Sy P Sub G Im H'],
  ['surface', 'intact skin', 'long-term', 'C S I'],
  ['surface', 'intact mucosa', 'long-term', 'C S I Sy P Sub G Im Ct'],
  ['surface', 'breached surface', 'long-term', 'C S I Sy P Sub G Im Ct Car'],
  ['externally communicating', 'blood path, indirect', 'long-term', 'C S I Sy P Sub G Im Ct Car'],
  ['externally communicating', 'internal tissue or bone', 'long-term', 'C S I Sy P Sub G Im Ct Car H'],
  ['externally communicating', 'circulating blood', 'long-term', 'C S I Sy P Sub G Im Ct Car'],
  ['implant', 'internal tissue or bone', 'long-term', 'C S I Sy P Sub G Im Ct Car'],
  ['implant', 'circulating blood', 'long-term', 'C S I Sy P Sub G Im Ct Car H'],
] as const;

const letters: Readonly<Record<string, string>> = {
  cytotoxicity: 'C',
  sensitisation: 'S',
  irritation: 'I',
  'acute systemic toxicity': 'Sy',
  'material-mediated pyrogenicity': 'P',
  haemocompatibility: 'H',
  genotoxicity: 'G',
  'implantation effects': 'Im',
  'subacute toxicity': 'Sub',
  'subchronic toxicity': 'Sub',
  'chronic toxicity': 'Ct',
  carcinogenicity: 'Car',
};

/**
 * Where the review differs from our memory of the standard: it follows a guidance of the FDA that adds pyrogenicity
 * on mucosa, and in three long-term rows the letter H has moved. These rows are marked as known from memory.
 */
const differs = new Map([
  ['surface, intact mucosa, prolonged', '-P'],
  ['surface, intact mucosa, long-term', '-P'],
  ['externally communicating, blood path, indirect, long-term', '+H'],
  ['externally communicating, internal tissue or bone, long-term', '-H'],
  ['externally communicating, circulating blood, long-term', '+H'],
]);

describe('endpoints of the edition of 2018', () => {
  test.each(printed)('%s, %s, %s', (device, tissue, duration, expected) => {
    const row = endpointRow({ edition: '2018', device, tissue, duration });
    const own = new Set((row?.endpoints ?? []).flatMap((endpoint) => letters[endpoint] ?? []));
    const wanted = new Set(expected.split(' '));
    const difference = [
      ...[...own].filter((letter) => !wanted.has(letter)).map((letter) => `+${letter}`),
      ...[...wanted].filter((letter) => !own.has(letter)).map((letter) => `-${letter}`),
    ].join(' ');
    expect(difference).toBe(differs.get(`${device}, ${tissue}, ${duration}`) ?? '');
    if (difference !== '') expect(row?.provenance).toBe('memory');
  });

  test('has a row for each kind of contact and no other', () => {
    expect(endpointRows.filter(({ edition }) => edition === '2018').length).toBe(printed.length);
  });

  test('a longer contact never asks for less', () => {
    for (const [device, tissue] of printed) {
      const [limited, prolonged, longTerm] = (['limited', 'prolonged', 'long-term'] as const).map(
        (duration) => endpointRow({ edition: '2018', device, tissue, duration })?.endpoints ?? [],
      );
      expect(prolonged).toEqual(expect.arrayContaining([...(limited ?? [])]));
      expect(longTerm).toEqual(expect.arrayContaining([...(prolonged ?? [])]));
    }
  });

  test('without a kind of device there is a row only where all kinds agree', () => {
    expect(
      endpointRow({
        edition: '2018',
        device: undefined,
        tissue: 'internal tissue or bone',
        duration: 'limited',
      }),
    ).toBeDefined();
    expect(
      endpointRow({ edition: '2018', device: undefined, tissue: 'circulating blood', duration: 'limited' }),
    ).toBeUndefined();
  });
});

describe('every row', () => {
  test('names known endpoints in the order of the standard, and how it is known', () => {
    for (const row of endpointRows) {
      expect(row.endpoints).toEqual(endpointSource.endpoints.filter((each) => row.endpoints.includes(each)));
      expect(Object.keys(endpointSource.provenance)).toContain(row.provenance);
    }
  });

  test('the edition of 2025 asks for pyrogenicity only where something suggests it (public summaries)', () => {
    const row = endpointRow({
      edition: '2025',
      device: 'externally communicating',
      tissue: 'internal tissue or bone',
      duration: 'limited',
    });
    expect(row?.endpoints).not.toContain('material-mediated pyrogenicity');
    expect(row?.where_suspected).toEqual(['material-mediated pyrogenicity']);
  });
});
