/** What a GS1 application identifier says, and the form of its value. */
export interface ApplicationIdentifier {
  /** Two to four digits. */
  readonly application: string;
  /** In our own words, for messages and tables. */
  readonly meaning: string;
  readonly characters: 'digits' | 'character set 82';
  readonly least: number;
  readonly most: number;
  /** The value ends by its length. All others end with a separator, unless they are the last. */
  readonly endsByLength: boolean;
  readonly content?: 'key with check digit' | 'date';
  /** One of these must stand in the same identifier. */
  readonly needs?: readonly string[];
  /** None of these may stand in the same identifier. */
  readonly excludes?: readonly string[];
}

const item = ['01', '02', '8006', '8026'];

const key = (application: string, meaning: string, length: number, more = {}): ApplicationIdentifier => ({
  application,
  meaning,
  characters: 'digits',
  least: length,
  most: length,
  endsByLength: true,
  content: 'key with check digit',
  ...more,
});

const date = (application: string, meaning: string, more = {}): ApplicationIdentifier => ({
  application,
  meaning,
  characters: 'digits',
  least: 6,
  most: 6,
  endsByLength: true,
  content: 'date',
  needs: item,
  ...more,
});

const words = (application: string, meaning: string, most: number, more = {}): ApplicationIdentifier => ({
  application,
  meaning,
  characters: 'character set 82',
  least: 1,
  most,
  endsByLength: false,
  ...more,
});

const count = (application: string, meaning: string, needs: readonly string[]): ApplicationIdentifier => ({
  application,
  meaning,
  characters: 'digits',
  least: 1,
  most: 8,
  endsByLength: false,
  needs,
});

const rows: readonly ApplicationIdentifier[] = [
  key('00', 'number of the logistic unit', 18),
  key('01', 'device identifier', 14, { excludes: ['02', '255', '37'] }),
  key('02', 'device identifier of the contained units', 14, { needs: ['37'] }),
  words('10', 'lot', 20, { needs: item }),
  date('11', 'date of manufacture'),
  date('13', 'packing date'),
  date('15', 'best-before date'),
  date('16', 'sell-by date'),
  date('17', 'use-by date', { needs: ['01', '02', '255', '8006', '8026'] }),
  {
    application: '20',
    meaning: 'variant',
    characters: 'digits',
    least: 2,
    most: 2,
    endsByLength: true,
    needs: item,
  },
  words('21', 'serial number', 20, { needs: ['01', '8006'], excludes: ['235'] }),
  words('22', 'consumer variant', 20, { needs: ['01'] }),
  words('240', 'further number of the maker', 30, { needs: item }),
  words('241', 'part number of the customer', 30, { needs: item }),
  words('250', 'serial number of a part', 30, { needs: ['21'] }),
  words('251', 'serial number of the source', 30, { needs: ['01', '8006'] }),
  count('30', 'variable count', ['01', '02']),
  count('37', 'count of contained units', ['02', '8026']),
  ...['710', '711', '712', '713', '714', '715'].map((application) =>
    words(application, 'national reimbursement number', 20, { needs: ['01'] }),
  ),
  words('7240', 'protocol number', 20, { needs: ['01', '8006'] }),
  words('8012', 'software version', 20, { needs: ['01', '8006'] }),
  words('8013', 'Basic UDI-DI (global model number)', 25),
  words('90', "maker's own", 30),
  ...['91', '92', '93', '94', '95', '96', '97', '98', '99'].map((application) =>
    words(application, "maker's own", 90),
  ),
];

/**
 * Application identifiers that device labels use. Lengths, character sets, ends and pairings are those of the GS1
 * Barcode Syntax Dictionary (GS1 AISBL, github.com/gs1/gs1-syntax-dictionary, read in November 2026), which restates
 * the GS1 General Specifications; it has many more, for goods that are weighed, shipped or paid.
 */
export const applicationIdentifiers: ReadonlyMap<string, ApplicationIdentifier> = new Map(
  rows.map((row) => [row.application, row]),
);

/** The 82 characters that a lot, a serial number or a model number may hold, in the order of their values. */
export const characterSet82 =
  '!"%&\'()*+,-./0123456789:;<=>?ABCDEFGHIJKLMNOPQRSTUVWXYZ_abcdefghijklmnopqrstuvwxyz';
