import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { gtinProblem, isRealShortDate } from '../../src/records/gs1.ts';
import { applicationIdentifiers, characterSet82 } from '../../src/records/gs1-application-identifiers.ts';
import { buildElementString, readElementString } from '../../src/records/gs1-element-string.ts';
import { modelNumberCheckPair, modelNumberProblem } from '../../src/records/gs1-model-number.ts';

const gs = '\u001d';

const pairs = (text: string) =>
  readElementString(text).elements.map(({ application, value }) => [application, value]);
const faults = (text: string) => readElementString(text).faults.map(({ says }) => says);

describe('published identifiers', () => {
  // FDA, "UDI formats by FDA-accredited issuing agency", version 1.3 of 27 January 2017, example for GS1.
  const fda = '(01)51022222233336(11)141231(17)150707(10)A213B1(21)1234';

  test('the example of the FDA is read, its check digit and dates are right, and it is built again', () => {
    const { form, elements, faults: found } = readElementString(fda);
    expect({ form, found }).toEqual({ form: 'readable', found: [] });
    expect(pairs(fda)).toEqual([
      ['01', '51022222233336'],
      ['11', '141231'],
      ['17', '150707'],
      ['10', 'A213B1'],
      ['21', '1234'],
    ]);
    expect(gtinProblem('51022222233336', [14])).toBeUndefined();
    expect(['141231', '150707'].map(isRealShortDate)).toEqual([true, true]);
    expect(buildElementString(elements, 'readable')).toBe(fda);
    expect(buildElementString(elements, 'scanned')).toBe(
      `01510222222333361114123117150707${'10A213B1'}${gs}211234`,
    );
    for (const { value, offset } of elements) expect(fda.slice(offset, offset + value.length)).toBe(value);
  });

  // The same document: sizes of the parts with and without application identifier (14, 6, 6, 20 and 20).
  test.each([
    ['01', 14],
    ['11', 6],
    ['17', 6],
    ['10', 20],
    ['21', 20],
  ])('(%s) has at most %i characters', (application, most) => {
    expect(applicationIdentifiers.get(application)?.most).toBe(most);
  });

  // GS1 Barcode Syntax Dictionary: which values end by their length (marked * there), and their form.
  test.each([
    ['00', true, 18],
    ['01', true, 14],
    ['02', true, 14],
    ['10', false, 20],
    ['11', true, 6],
    ['13', true, 6],
    ['15', true, 6],
    ['17', true, 6],
    ['20', true, 2],
    ['21', false, 20],
    ['22', false, 20],
    ['240', false, 30],
    ['30', false, 8],
    ['37', false, 8],
    ['7240', false, 20],
    ['8012', false, 20],
    ['8013', false, 25],
    ['90', false, 30],
    ['99', false, 90],
  ])('(%s) ends by its length: %s, at most %i', (application, endsByLength, most) => {
    expect(applicationIdentifiers.get(application)).toMatchObject({ endsByLength, most });
  });
});

describe('what a scanner hands over', () => {
  test('with a symbology identifier and a separator after the lot', () => {
    expect(pairs(`]d2010952012345678817290531${'10L004'}${gs}21S1`)).toEqual([
      ['01', '09520123456788'],
      ['17', '290531'],
      ['10', 'L004'],
      ['21', 'S1'],
    ]);
  });

  test('without the separator the serial number becomes a part of the lot', () => {
    expect(pairs('010952012345678810L00421S1')).toEqual([
      ['01', '09520123456788'],
      ['10', 'L00421S1'],
    ]);
  });

  test('what starts with nothing known is told, and not guessed at', () => {
    expect(faults('010952012345678866XY')).toEqual([
      'goes on with "66XY", which starts with no application identifier known to Plinth',
    ]);
  });

  test('reads back what is built, for any lot and serial number', () => {
    const text = fc
      .array(fc.constantFrom(...characterSet82), { minLength: 1, maxLength: 20 })
      .map((signs) => signs.join(''));
    fc.assert(
      fc.property(text, text, (lot, serial) => {
        const elements = [
          { application: '01', value: '09520123456788' },
          { application: '17', value: '290531' },
          { application: '10', value: lot },
          { application: '21', value: serial },
        ];
        const back = readElementString(buildElementString(elements, 'scanned'));
        expect(back.faults).toEqual([]);
        expect(back.elements.map(({ application, value }) => ({ application, value }))).toEqual(elements);
      }),
    );
  });
});

describe('faults of form', () => {
  test.each([
    ['(01)0952012345678(17)290531', ['has a device identifier (01) of 13 digits, 14 are expected']],
    [
      '(01)09520123456788(10)L0000000000000000000X1',
      ['has a lot (10) of 22 characters, 1 to 20 are allowed'],
    ],
    ['(01)09520123456788(10)', ['has a lot (10) of 0 characters, 1 to 20 are allowed']],
    ['(01)09520123456788(10)L 4', ['has a lot (10) with a blank, which is not in GS1 character set 82']],
    ['(01)09520123456788(10)Lé', ['has a lot (10) with "é", which is not in GS1 character set 82']],
    ['(01)0952012345678B', ['has a device identifier (01) with "B", only digits are allowed']],
    ['(17)290531', ['has a use-by date (17) without (01)']],
    ['(01)09520123456788(01)19520123456785', ['has a second device identifier (01)']],
    ['(01)09520123456788(66)1', ['has the application identifier (66), which Plinth does not know']],
    ['UDI (01)09520123456788', ['starts with "UDI" before the first application identifier']],
    ['(1)09520123456788', ['holds no application identifier']],
    ['', ['holds no application identifier']],
  ])('%s', (text, expected) => {
    expect(faults(text)).toEqual(expected);
  });

  test('a parenthesis is allowed in a lot, unless it looks like the next element', () => {
    expect(pairs('(01)09520123456788(10)A(B)1')).toEqual([
      ['01', '09520123456788'],
      ['10', 'A(B)1'],
    ]);
  });

  test('a very long text is not read', () => {
    expect(faults(`(10)${'('.repeat(100_000)}`)).toEqual(['has 100004 characters, at most 500 are read']);
  });
});

describe('check characters of a global model number', () => {
  // GS1 Barcode Syntax Dictionary, tests of its reference procedure "csumalpha" (GS1 AISBL, read in November 2026).
  test.each([
    '1987654Ad4X4bL5ttr2310c2K',
    '12345678901234567890123NT',
    '12345_ABCDEFGHIJKLMCP',
    '12345_NOPQRSTUVWXYZDN',
    '12345_abcdefghijklmN3',
    '12345_nopqrstuvwxyzP2',
    '12345_!"%&\'()*+,-./LC',
    '12345_0123456789:;<=>?62',
    '7907665Bm8v2AB',
    '97850l6KZm0yCD',
    '225803106GSpEF',
    '149512464PM+GH',
    '62577B8fRG7HJK',
    '515942070CYxLM',
    '390800494sP6NP',
    '386830132uO+QR',
    '53395376X1:nST',
    '957813138Sb6UV',
    '530790no0qOgWX',
    '62185314IvwmYZ',
    '23956qk1&dB!23',
    '794394895ic045',
    '57453Uq3qA<H67',
    '0881063PhHvY89',
    '00000!HV',
    '99999zzzzzzzzzzzzzzzzzzT2',
  ])('%s', (text) => {
    expect(modelNumberCheckPair(text.slice(0, -2))).toBe(text.slice(-2));
    expect(modelNumberProblem(text)).toBeUndefined();
  });

  // GS1 Netherlands, page "GMN for Basic UDI-DI", example.
  test('872003953HF-236PX6', () => {
    expect(modelNumberProblem('872003953HF-236PX6')).toBeUndefined();
  });

  test.each([
    ['1987654Ad4X4bL5ttr2310cXK', 'has the check characters XK, computed 2K'],
    ['1987654Ad4X4bL5ttr2310c2X', 'has the check characters 2X, computed 2K'],
    ['123456789 1234567890123NT', 'holds a character that is not in GS1 character set 82'],
    ['A987654Ad2K', 'does not start with the digits of a company prefix'],
    ['123', 'has 3 characters, expected 8 to 25: company prefix, model reference and two check characters'],
  ])('%s %s', (text, problem) => {
    expect(modelNumberProblem(text)).toBe(problem);
  });
});
