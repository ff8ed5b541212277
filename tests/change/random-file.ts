import { createHash } from 'node:crypto';
import { stringify } from 'yaml';

/** A record as the tests keep it: plain data, apart from anything of the code under test. */
export interface PlainRecord {
  readonly id: string;
  readonly type: string;
  status: string;
  fields: Record<string, unknown>;
  body: string;
  approvals: PlainApproval[];
  /** Readings of a verification record. */
  readings?: number[];
}

export interface PlainApproval {
  role: string;
  name: string;
  meaning: string;
  date: string;
  digest: string;
  relies_on?: Record<string, string>;
}

export type PlainFile = Map<string, PlainRecord>;

/** Numbers from 0 to 1 that repeat: a linear congruential generator with the constants of Numerical Recipes (from memory). */
export const randomFrom = (seed: number) => {
  let state = seed >>> 0;
  const next = (): number => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 4294967296;
  };
  const below = (count: number): number => Math.floor(next() * count);
  const pick = <T>(list: readonly T[]): T => list[below(list.length)] as T;
  const some = <T>(list: readonly T[], most: number): T[] => {
    const count = Math.min(list.length, 1 + below(most));
    const chosen = new Set<T>();
    while (chosen.size < count) chosen.add(pick(list));
    return list.filter((each) => chosen.has(each));
  };
  return { next, below, pick, some, chance: (part: number): boolean => next() < part };
};
export type Random = ReturnType<typeof randomFrom>;

const sortedKeys = (value: unknown): unknown => {
  if (Array.isArray(value)) return value.map(sortedKeys);
  if (typeof value !== 'object' || value === null) return value;
  const entries = Object.entries(value).map(([key, inner]) => [key, sortedKeys(inner)] as const);
  return Object.fromEntries(entries.sort(([a], [b]) => (a < b ? -1 : 1)));
};

/** The digest as DEVELOPERS.md defines it, written a second time. */
export const plainDigest = (record: PlainRecord): string => {
  const fields = { id: record.id, type: record.type, ...record.fields };
  const lines = record.body.split('\n').map((line) => line.replace(/[ \t]+$/, ''));
  while (lines[0] === '') lines.shift();
  while (lines.at(-1) === '') lines.pop();
  return createHash('sha256')
    .update(`${JSON.stringify(sortedKeys(fields))}\n${lines.join('\n')}`)
    .digest('hex');
};

/** Fields by which a record rests on others, by type; links to registers and events are not among them. */
const relyingFields: Readonly<Record<string, readonly string[]>> = {
  'design-input': ['derives_from'],
  'design-output': ['satisfies'],
  'verification-protocol': ['verifies', 'uses', 'tests'],
  'verification-record': ['reports', 'tested'],
  'risk-control': ['controls', 'implemented_by', 'shown_by'],
  'legal-requirement': ['evidence'],
};

/** Ids that a record rests on, with the field, in the order of its fields. */
export const plainLinks = (record: PlainRecord): readonly { readonly field: string; readonly to: string }[] =>
  (relyingFields[record.type] ?? []).flatMap((field) => {
    const value = record.fields[field];
    if (typeof value === 'string') return [{ field, to: value }];
    if (!Array.isArray(value)) return [];
    return value.map((each) => ({
      field,
      to: typeof each === 'string' ? each : (each as { output: string }).output,
    }));
  });

/** Signs a record as it is now, and what it rests on. */
export const sign = (file: PlainFile, record: PlainRecord, date: string): void => {
  const relies_on = Object.fromEntries(
    plainLinks(record).flatMap(({ to }) => {
      const other = file.get(to);
      return other ? [[to, plainDigest(other)]] : [];
    }),
  );
  record.approvals.push({
    role: 'quality lead',
    name: 'Brede Falkonet',
    meaning: 'approved',
    date,
    digest: plainDigest(record),
    ...(Object.keys(relies_on).length > 0 ? { relies_on } : {}),
  });
};

const csvOf = (record: PlainRecord): string =>
  `unit,lot,force [N]\n${(record.readings ?? []).map((value, index) => `${index + 1},L${(index % 3) + 1},${value.toFixed(2)}\n`).join('')}`;

export const dataPath = (record: PlainRecord): string => `data/${record.id}.csv`;

/** Puts the digest of the raw data into the record that names them. */
export const sealData = (record: PlainRecord): void => {
  const data = record.fields['data'] as Record<string, unknown>;
  record.fields['data'] = { ...data, sha256: createHash('sha256').update(csvOf(record)).digest('hex') };
};

const title = { 'user-need': 'Need', 'design-input': 'Input', risk: 'Risk' } as Record<string, string>;

/** A technical file of every type that the trace runs through, all of it approved. */
export const randomFile = (random: Random): PlainFile => {
  const file: PlainFile = new Map();
  const add = (id: string, type: string, fields: Record<string, unknown>, body: string): PlainRecord => {
    const record: PlainRecord = {
      id,
      type,
      status: 'approved',
      fields: { title: `${title[type] ?? 'Record'} ${id}`, ...fields },
      body,
      approvals: [],
    };
    file.set(id, record);
    return record;
  };
  const ids = (prefix: string, most: number): string[] =>
    Array.from({ length: 1 + random.below(most) }, (_, index) => `${prefix}-0${index + 1}`);
  const needs = ids('UN', 3);
  for (const id of needs)
    add(id, 'user-need', { needed_by: ['dental surgeon'] }, `Need ${id}.\n\n## Rationale\n\nWhy.\n`);
  const risks = ids('RK', 3);
  for (const id of risks)
    add(
      id,
      'risk',
      {
        hazard: 'mechanical force',
        sequence: 'A part comes off.',
        hazardous_situation: 'A part lies in the mouth.',
        harm: 'choking',
        severity: 'S4',
        before: { p1: 0.001, p2: 0.02 },
        after: { p1: 0.00001, p2: 0.02 },
      },
      '',
    );
  const inputs = ids('DI', 5);
  for (const id of inputs)
    add(
      id,
      'design-input',
      {
        derives_from: [...random.some(needs, 2), ...(random.chance(0.4) ? random.some(risks, 1) : [])],
        limits: [{ characteristic: 'pull force', unit: 'N', lower: 30 }],
        method: ['test'],
      },
      `The tip holds (${id}).\n\n## Rationale\n\nIt must not come off.\n`,
    );
  const outputs = ids('DO', 3);
  for (const id of outputs)
    add(
      id,
      'design-output',
      {
        satisfies: random.some(inputs, 2),
        kind: random.pick(['part', 'part', 'label', 'instructions for use']),
        revision: 'A',
        characteristics: [{ name: 'wall', nominal: 1.2, plus: 0.1, minus: 0.1, unit: 'mm' }],
      },
      'As drawn.\n',
    );
  const methods = ids('TM', 2);
  for (const id of methods)
    add(
      id,
      'test-method',
      { characteristic: 'pull force', unit: 'N' },
      'Pull.\n\n## Procedure\n\nPull at 50 mm/min.\n',
    );
  const protocols = ids('VP', 5);
  for (const id of protocols)
    add(
      id,
      'verification-protocol',
      {
        verifies: random.some(inputs, 2),
        uses: random.some(methods, 1),
        ...(random.chance(0.5) ? { tests: random.some(outputs, 2) } : {}),
        method: 'test',
        condition: 'fresh',
        acceptance: [{ characteristic: 'pull force', unit: 'N', lower: 30 }],
        sampling: {
          kind: 'normal-tolerance-interval',
          confidence: 0.95,
          reliability: 0.95,
          size: 12,
          rationale: 'Variables plan.',
        },
      },
      'Pull the tip off.\n\n## Purpose\n\nTo show it.\n\n## Procedure\n\n1. Pull.\n',
    );
  for (const [index, protocol] of protocols.entries()) {
    if (random.chance(0.15)) continue;
    const id = `VR-0${index + 1}`;
    const record = add(
      id,
      'verification-record',
      {
        reports: protocol,
        executed: { from: '2026-02-02', to: '2026-02-03' },
        data: {
          file: dataPath({ id } as PlainRecord),
          sha256: '',
          unit_id: 'unit',
          lot: 'lot',
          columns: [{ characteristic: 'pull force', column: 'force', unit: 'N' }],
        },
        ...(random.chance(0.5)
          ? { tested: random.some(outputs, 2).map((output) => ({ output, revision: 'A' })) }
          : {}),
        result: 'pass',
      },
      '## Conclusion\n\nIt holds.\n',
    );
    const mean = random.chance(0.85) ? 50 : 31;
    record.fields['result'] = mean === 50 ? 'pass' : 'fail';
    record.readings = Array.from(
      { length: 12 },
      (_, at) => mean + [0.4, -1.1, 0.9, -0.3, 1.6, -0.8][at % 6]! + at * 0.05,
    );
    sealData(record);
  }
  for (const id of ids('RC', 3))
    add(
      id,
      'risk-control',
      {
        controls: random.some(risks, 2),
        option: 'inherently safe design',
        implemented_by: random.some(outputs, 2),
        shown_by: random.some(protocols, 2),
      },
      '',
    );
  const results = [...file.keys()].filter((id) => id.startsWith('VR'));
  for (const id of ids('GR', 2))
    add(
      id,
      'legal-requirement',
      {
        table: 'eu-mdr-annex-1',
        clause: '10.4.1',
        applicable: true,
        solution: 'See the evidence.',
        evidence: random.some([...results, ...protocols, ...outputs], 2),
      },
      '',
    );
  for (const record of file.values()) sign(file, record, signingDay(record));
  return file;
};

/** Results and what rests on them are signed after the work, all else before it. */
const signingDay = ({ type }: PlainRecord): string =>
  type === 'verification-record'
    ? '2026-02-10'
    : ['risk-control', 'legal-requirement'].includes(type)
      ? '2026-03-01'
      : '2026-01-10';

const plinthYaml = `device: { name: Applicator, maker: Harrow Lane Instruments }
as_of: 2026-06-01
risk:
  severities: [{ class: S4, name: serious injury }]
  probability: { denominator: per use, bands: [{ band: O1, below: 0.000001 }, { band: O2 }] }
  acceptable: { S4: O1 }
approval_roles:
  "*": [quality lead]
`;

/** The file as Markdown, YAML and CSV. `layout` varies what must not matter: the order of fields, comments, quotes. */
export const textsOf = (file: PlainFile, layout = 0): Map<string, string> => {
  const texts = new Map([['plinth.yaml', plinthYaml]]);
  for (const record of file.values()) {
    const fields = { id: record.id, type: record.type, status: record.status, ...record.fields };
    const ordered = layout % 2 === 0 ? fields : Object.fromEntries(Object.entries(fields).reverse());
    const yaml = stringify(
      { ...ordered, ...(record.approvals.length > 0 ? { approvals: record.approvals } : {}) },
      { defaultStringType: layout % 3 === 0 ? 'PLAIN' : 'QUOTE_DOUBLE', lineWidth: 0 },
    );
    const comment = layout % 5 === 1 ? '# looked at\n' : '';
    texts.set(
      `${layout % 7 === 1 ? 'moved/' : ''}${record.id}.md`,
      `---\n${comment}${yaml}---\n${record.body}`,
    );
    if (record.readings) texts.set(`${layout % 7 === 1 ? 'moved/' : ''}${dataPath(record)}`, csvOf(record));
  }
  return texts;
};
